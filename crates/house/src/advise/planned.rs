//! A plan as people read it: plants by variety and day, the weeks of harvest, kitchen days, seed in stock; or what stands
//! in the way.

use super::for_seed::{self, ForSeed};
use super::ground::{Candidate, Ground};
use super::request::{Garden, Purpose};
use super::sketch::sketch;
use super::telling;
use super::wishes::Wished;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::lots::law::Asked;
use crate::lots::{self, LotSeen, LotState};
use crate::standins;
pub use advice::planner::alternatives::Alternative;
use advice::planner::conflict::Conflict;
pub use advice::planner::harvest::Range;
use advice::planner::harvest::{kitchen_days, season, weekly, years_met};
use advice::planner::plan::Plan;
pub use advice::planner::plan::Without;
use advice::planner::request as planner;
pub use advice::planner::supply::Room;
use advice::planner::watch::Ended;
use drawing::planted_beds::PlantedBeds;
use jiff::civil::Date;
use record::stock::Place;

/// A plan.
#[derive(Clone, Debug)]
pub struct Planned {
    /// What is planted, by set of plants and then by name.
    pub lines: Vec<Line>,
    /// Plants in all.
    pub total: u32,
    /// No plan that keeps the wishes has fewer plants than this.
    pub at_least: u32,
    /// How the search for it ended.
    pub ended: Ended,
    /// Square metres of bed that the plants take.
    pub bed_m2: f64,
    /// Containers taken.
    pub containers: u32,
    /// Sampled years of [`super::SAMPLED`] in which every wish is met.
    pub years_met: usize,
    /// Week by week what each class brings.
    pub harvests: Vec<HarvestOf>,
    /// For each wish in its order, its kitchen days; none for what is eaten.
    pub kitchen_days: Vec<Vec<KitchenDay>>,
    /// Varieties that could stand in the place of one of them for nearly as few plants.
    pub alternatives: Vec<Alternative>,
    /// Varieties that seed is saved of, and how far from the others they would stand.
    pub for_seed: Vec<ForSeed>,
    /// Where the plants stand.
    pub sketch: PlantedBeds,
}

/// A variety that is planted.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its name.
    pub variety: String,
    /// The day it goes out, of a common year.
    pub out: Date,
    /// Plants.
    pub plants: u32,
    /// Where.
    pub room: Room,
    /// Its classes in the plan.
    pub classes: String,
    /// Its habit, where it is called.
    pub habit: Option<String>,
    /// Its colour, where it is called.
    pub colour: Option<String>,
    /// Kilograms a plant over the season, in poor, middling and good years.
    pub kilograms: Range,
    /// Kilograms that its plants bring towards each wish in a middling year.
    pub bears: Vec<f64>,
    /// What the plan would come to without it.
    pub without: Without,
    /// Plots and seasons that its crop rests on.
    pub rests_on: (usize, usize),
    /// Part of what is believed of its weight that is borrowed from its kind.
    pub borrowed: f64,
    /// Seed of it.
    pub seed: Seed,
}

/// Seed of a variety.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Seed {
    /// The house keeps no lots, so nothing is known of seed.
    NotKept,
    /// Packets, and whether there is loose seed to pack.
    Held {
        /// Whole packets.
        packets: u64,
        /// Whether seed lies in a jar.
        loose: bool,
    },
    /// None that may be sold.
    SoldOut {
        /// The variety that is most like it and has seed, and why.
        instead: Option<(String, String)>,
    },
}

/// What a class brings.
#[derive(Clone, Debug)]
pub struct HarvestOf {
    /// The classes.
    pub classes: String,
    /// The first day of each week with its kilograms in poor, middling and good years, from the first that brings any.
    pub weeks: Vec<(Date, Range)>,
    /// Kilograms that are eaten in each of these weeks.
    pub eaten: Vec<f64>,
}

/// A kitchen day.
#[derive(Clone, Copy, Debug)]
pub struct KitchenDay {
    /// The first day of its week, in an early, a middling and a late year.
    pub week_of: [Date; 3],
    /// Kilograms put up, in poor, middling and good years.
    pub kilograms: Range,
    /// Sampled years that have it.
    pub years: usize,
}

/// A demand that stands in the way of the others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Standing {
    /// The demand, in words.
    pub demand: String,
    /// What would free the request, in words.
    pub way: String,
}

pub(super) fn of(
    house: &House,
    ground: &Ground,
    garden: &Garden,
    (wished, asked): (&[Wished], &planner::Request),
    plan: Plan,
    today: Date,
) -> Result<Planned, HouseFault> {
    let lots = lots::all(house, Asked::of(house, today))?.lots;
    let supply = &ground.supply;
    let mut lines = Vec::new();
    for reason in &plan.reasons {
        let own = supply.choices().get(reason.choice).zip(plan.plants.get(reason.choice));
        let Some((choice, plants)) = own else { continue };
        let candidate =
            ground.candidates.iter().find(|candidate| candidate.listed.variety.name == choice.variety);
        let Some(candidate) = candidate else { continue };
        let wave = usize::try_from(choice.wave).unwrap_or(0);
        lines.push(Line {
            variety: choice.variety.clone(),
            out: ground.outs.get(wave).copied().unwrap_or_default(),
            plants: *plants,
            room: choice.room,
            classes: choice.class.clone(),
            habit: candidate.listed.habit.as_ref().and_then(|habit| habit.call.verdict.clone()),
            colour: candidate.listed.colour.as_ref().and_then(|colour| colour.exterior.verdict.clone()),
            kilograms: season(supply, reason.choice),
            bears: reason.bears.clone(),
            without: reason.without,
            rests_on: candidate.rests_on,
            borrowed: candidate.borrowed,
            seed: seed(house, candidate, &lots)?,
        });
    }
    lines.sort_by(|one, other| (one.out, &one.variety).cmp(&(other.out, &other.variety)));
    let day = |week| ground.weeks.begins(week).unwrap_or_default();
    let of_wish = |wish| {
        let days = kitchen_days(supply, asked, &plan.plants, wish).into_iter();
        days.map(|found| KitchenDay {
            week_of: found.week.map(day),
            kilograms: found.kilograms,
            years: found.years,
        })
        .collect()
    };
    Ok(Planned {
        total: plan.total,
        at_least: plan.at_least,
        ended: plan.ended,
        bed_m2: plan.bed,
        containers: plan.containers,
        years_met: years_met(supply, asked, &plan.plants),
        harvests: harvests(ground, wished, &plan.plants),
        kitchen_days: (0..wished.len()).map(of_wish).collect(),
        sketch: sketch(&lines, garden),
        for_seed: for_seed::of(house, ground, garden, &lines)?,
        alternatives: plan.alternatives,
        lines,
    })
}

/// Kilograms of a week that nobody picks for. Common practice, no source.
const NOTHING: f64 = 0.05;

/// What each class brings week by week, each class once.
fn harvests(ground: &Ground, wished: &[Wished], plants: &[u32]) -> Vec<HarvestOf> {
    let mut found: Vec<HarvestOf> = Vec::new();
    for wish in wished {
        if found.iter().any(|own| own.classes == wish.classes) {
            continue;
        }
        let weeks = weekly(&ground.supply, plants, &wish.classes);
        let brings = |[_, _, good]: &Range| NOTHING < *good;
        let first = weeks.iter().position(brings).unwrap_or(0);
        let last = weeks.iter().rposition(brings).unwrap_or(0);
        let eaten = |week: usize| {
            let own = wished.iter().filter(|one| one.classes == wish.classes && one.weeks.contains(&week));
            let fresh = own.filter(|one| matches!(one.wish.purpose, Purpose::Fresh(_)));
            fresh.map(|one| one.fruit.to_kilograms()).sum()
        };
        let told = (0..).zip(&weeks).skip(first).take((last + 1).saturating_sub(first));
        found.push(HarvestOf {
            classes: wish.classes.clone(),
            weeks: told.filter_map(|(week, range)| Some((ground.weeks.begins(week)?, *range))).collect(),
            eaten: (first..=last).map(eaten).collect(),
        });
    }
    found
}

/// Seed of a variety in the seed room, or what may stand in for it.
fn seed(house: &House, candidate: &Candidate, lots: &[LotSeen]) -> Result<Seed, HouseFault> {
    if lots.is_empty() {
        return Ok(Seed::NotKept);
    }
    let name = &candidate.listed.variety.name;
    if let Some(held) = held(lots, name) {
        return Ok(held);
    }
    let near = standins::of(house, name)?.nearest;
    let instead = near.into_iter().find(|one| held(lots, &one.listed.variety.name).is_some());
    Ok(Seed::SoldOut { instead: instead.map(|one| (one.listed.variety.name, one.reason)) })
}

/// Seed that may be sold: of lots whose test is not too old and does not ask to be done again.
fn held(lots: &[LotSeen], variety: &str) -> Option<Seed> {
    let sold = |state| matches!(state, LotState::Fit { .. } | LotState::Below { .. });
    let own = lots.iter().filter(|seen| seen.variety == variety && sold(seen.account.state));
    let places: Vec<_> = own.flat_map(|seen| &seen.account.held).collect();
    let packets = places.iter().filter_map(|(place, mass)| match place {
        Place::Packets(fill) => fill.packets(*mass),
        _ => None,
    });
    let packets: u64 = packets.sum();
    let loose = places.iter().any(|(place, _)| *place == Place::Jar);
    (0 < packets || loose).then_some(Seed::Held { packets, loose })
}

/// What stands in the way, in words.
pub(super) fn standing(conflict: &Conflict, wished: &[Wished], wanted: &[String]) -> Vec<Standing> {
    let told = |freed: &advice::planner::conflict::Freed| Standing {
        demand: telling::demand(freed.demand, wished, wanted),
        way: telling::way(freed.way),
    };
    conflict.demands.iter().map(told).collect()
}
