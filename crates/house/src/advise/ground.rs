//! What a plan stands on: the garden's weather, the varieties that may be planted there, and what each would bear in
//! sampled years.

use super::fault::AdviseFault;
use super::request::{Garden, Purpose, Request, Solids, Wish};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::forecast::crops::{Crops, crops};
use crate::forecast::place::{self, Climates, Homes, PlaceFault, Weather};
use crate::list::filter::{Filter, Showing};
use crate::list::{self, List, Listed};
use crate::warmth::USUAL;
use crate::{calendar, names, ripen, weather};
use advice::planner::supply::{Choice, Column, Room, Supply};
use advice::planner::weeks::Weeks;
use advice::space;
use identity::habit::Habit;
use jiff::ToSpan;
use jiff::civil::Date;
use ledger::ledger::Ledger;
use rayon::prelude::{IntoParallelRefIterator, ParallelIterator};
use record::variety::Variety;
use ripening::forecast::Seasons;
use ripening::forecast::sampled::sampled;

/// Sampled years that a plan is made over. A plan that was promised for 80 years of 100 keeps it in 75 other years if it was made
/// over 40, and in 78 if over 100. Source: `advice/tests/half_the_years.rs`.
pub const SAMPLED: usize = 100;
/// Days between sets of plants.
const WAVE_DAYS: i32 = 14;
/// Weeks between sets of plants.
const WAVE_WEEKS: usize = 2;
/// The year that days are told in: a common one, for a plan holds for any.
const YEAR: i16 = 2001;

/// What a plan stands on.
pub(super) struct Ground {
    pub(super) weather: Climates,
    /// The weather of the house's own plots, where it is another.
    pub(super) homes: Vec<Climates>,
    /// The days on which sets of plants go out.
    pub(super) outs: Vec<Date>,
    pub(super) weather_years: usize,
    pub(super) stood_in: (usize, usize),
    pub(super) weeks: Weeks,
    pub(super) supply: Supply,
    /// The varieties that may be planted, by name.
    pub(super) candidates: Vec<Candidate>,
    /// Names that the request says, as the house spells them.
    pub(super) said: Said,
}

/// A variety that may be planted.
pub(super) struct Candidate {
    pub(super) listed: Listed,
    /// The classes of the wish that it goes to, as one word.
    pub(super) group: String,
    /// Plots and seasons that its crop rests on.
    pub(super) rests_on: (usize, usize),
    /// Part of what is believed of its weight that is borrowed from its kind.
    pub(super) borrowed: f64,
}

/// Names of the request, as the house spells them.
pub(super) struct Said {
    pub(super) wanted: Vec<String>,
    pub(super) barred: Vec<String>,
    pub(super) favourites: Vec<String>,
    pub(super) for_seed: Vec<String>,
}

/// The word that a wish's classes go by in the plan.
pub(super) fn group(classes: &[String]) -> String {
    classes.join(" or ")
}

pub(super) fn of(house: &House, request: &Request) -> Result<Ground, HouseFault> {
    let filter = Filter { words: request.only.clone(), showing: Showing::Whole, ..Filter::default() };
    let list = list::list(house, &filter)?;
    known_classes(request, &list)?;
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let mut said = Said {
        wanted: spelt(&mut ledger, &request.wanted)?,
        barred: spelt(&mut ledger, &request.barred)?,
        favourites: spelt(&mut ledger, &request.favourites)?,
        for_seed: spelt(&mut ledger, &request.for_seed)?,
    };
    for name in &said.for_seed {
        if !said.wanted.contains(name) {
            said.wanted.push(name.clone());
        }
    }
    let plots = ripen::everyones(&mut ledger)?;
    let beside = weather::Said::default();
    let (weather, risk) = place::of(&mut ledger, &request.garden.place, &beside)?;
    let homes = Homes::found(&mut ledger, None, &beside, Some(&weather))?;
    drop(ledger);
    let risk = request.garden.risk.or(risk).unwrap_or_default();
    let by_calendar = || calendar::planted(&weather, risk, request.garden.cover);
    let out = request.garden.out.map_or_else(by_calendar, Ok)?;
    let waves = waves(&weather, out, &request.garden)?;
    let crops = crops(&list.varieties, &plots, &homes, USUAL);
    let candidates = candidates(list.varieties, request, &crops, &said);
    every_wish_has_some(request, &candidates)?;
    let columns = columns(&candidates, &crops, &waves, &request.garden);
    let supply = Supply::of_columns(columns, SAMPLED).map_err(|_| AdviseFault::NothingToPlant)?;
    let first = waves.first().map(|(out, _)| *out).unwrap_or_default();
    Ok(Ground {
        homes: homes.beside(&weather.climates),
        weather: weather.climates,
        outs: waves.iter().map(|(out, _)| *out).collect(),
        weather_years: waves.first().map_or(0, |(_, seasons)| seasons.len()),
        stood_in: crops.stood_in,
        weeks: Weeks::new(first, supply.weeks()),
        supply,
        candidates,
        said,
    })
}

/// Refuses a wish for a class that the guide does not have, and wishes whose classes overlap without being the same.
fn known_classes(request: &Request, list: &List) -> Result<(), AdviseFault> {
    for wish in &request.wishes {
        if let Some(class) = wish.classes.iter().find(|class| !list.classes.contains(class)) {
            let (class, known) = (class.clone(), list.classes.join(", "));
            return Err(AdviseFault::NoSuchClass { line: wish.said_at, class, known });
        }
        let shares = |other: &&Wish| {
            other.classes != wish.classes && other.classes.iter().any(|class| wish.classes.contains(class))
        };
        if let Some(other) = request.wishes.iter().find(shares) {
            return Err(AdviseFault::ClassesOverlap { line: wish.said_at, other: other.said_at });
        }
    }
    Ok(())
}

fn every_wish_has_some(request: &Request, candidates: &[Candidate]) -> Result<(), AdviseFault> {
    let has_none = |wish: &&Wish| {
        let classes = group(&wish.classes);
        !candidates.iter().any(|candidate| candidate.group == classes)
    };
    match request.wishes.iter().find(has_none) {
        Some(wish) => Err(AdviseFault::NoneOfClass { line: wish.said_at, classes: group(&wish.classes) }),
        None => Ok(()),
    }
}

fn spelt(ledger: &mut Ledger, said: &[String]) -> Result<Vec<String>, HouseFault> {
    let found = said.iter().map(|name| names::find(ledger, name));
    found.map(|found| found.map(|Variety { name, .. }| name)).collect()
}

/// The garden's seasons for each set of plants, those alone that are known in the same years as the first.
fn waves(weather: &Weather, out: (i8, i8), garden: &Garden) -> Result<Vec<(Date, Seasons)>, PlaceFault> {
    let first = Date::new(YEAR, out.0, out.1).or_else(|_| Date::new(YEAR, out.0, 28));
    let none = || PlaceFault::NoFrost(weather.climates.name.clone());
    let first = first.map_err(|_| none())?;
    let mut waves: Vec<(Date, Seasons)> = Vec::new();
    let later = (0..i32::try_from(garden.waves).unwrap_or(1))
        .map(|wave| first.checked_add((wave * WAVE_DAYS).days()));
    for out in later.map_while(Result::ok) {
        let day = (out.month(), out.day());
        let seasons = match garden.cover {
            Some(cover) => Seasons::of(&cover.over(&weather.days, day), USUAL, day),
            None => Seasons::of(&weather.days, USUAL, day),
        };
        if waves.is_empty() && seasons.is_empty() {
            let left_out = seasons.left_out.len();
            return Err(PlaceFault::NoYear { name: weather.climates.name.clone(), left_out });
        }
        if waves.first().is_some_and(|(_, first)| first.years != seasons.years) {
            break;
        }
        waves.push((out, seasons));
    }
    Ok(waves)
}

/// Varieties of the classes that are wished for, that have picks of their own or are wanted, and are not barred.
fn candidates(listed: Vec<Listed>, request: &Request, crops: &Crops, said: &Said) -> Vec<Candidate> {
    let mut found: Vec<Candidate> = Vec::new();
    let middles: Vec<Option<f64>> = request.wishes.iter().map(|wish| middle_solids(&listed, wish)).collect();
    for one in listed {
        let name = &one.variety.name;
        let is_known = crops.own.contains_key(&one.variety.id) || said.wanted.contains(name);
        let is_wanted = said.wanted.contains(name);
        if !is_known || said.barred.contains(name) || (!is_wanted && outgrows(&one, &request.garden)) {
            continue;
        }
        let verdict = one.fruit.as_ref().and_then(|fruit| fruit.call.verdict.clone());
        let wish = verdict.and_then(|class| request.wishes.iter().find(|wish| wish.classes.contains(&class)));
        let Some((wish, belief)) = wish.zip(crops.belief(one.variety.id)) else { continue };
        let mut alike =
            request.wishes.iter().zip(&middles).filter(|(other, _)| other.classes == wish.classes);
        if !is_wanted && !alike.all(|(wish, middle)| is_on_side(&one, wish, *middle)) {
            continue;
        }
        found.push(Candidate {
            group: group(&wish.classes),
            rests_on: crops.rests_on(&one),
            borrowed: belief.kilograms.borrowed,
            listed: one,
        });
    }
    found.sort_by(|one, other| one.listed.variety.name.cmp(&other.listed.variety.name));
    found
}

/// What each candidate would bear from each set of plants, in a bed, and in a container where its habit lets it.
fn columns(
    candidates: &[Candidate],
    crops: &Crops,
    waves: &[(Date, Seasons)],
    garden: &Garden,
) -> Vec<Column> {
    let rooms: Vec<Room> = [
        (!garden.beds.is_empty()).then(|| Room::Bed(garden.spacing.of_a_plant())),
        (0 < garden.containers).then_some(Room::Container),
    ]
    .into_iter()
    .flatten()
    .collect();
    let of_candidate = |candidate: &Candidate| -> Vec<Column> {
        let Some(belief) = crops.belief(candidate.listed.variety.id) else { return Vec::new() };
        let mut own = Vec::new();
        for (wave, (_, seasons)) in (0..).zip(waves) {
            let name = &candidate.listed.variety.name;
            let Some(kilograms) = sampled(seasons, &belief, SAMPLED, name) else { continue };
            let fit =
                rooms.iter().filter(|room| **room != Room::Container || goes_in_a_pot(candidate, garden));
            own.extend(fit.map(|room| Column {
                choice: Choice { variety: name.clone(), wave, class: candidate.group.clone(), room: *room },
                from_week: usize::try_from(wave).unwrap_or(0) * WAVE_WEEKS,
                kilograms: kilograms.clone(),
            }));
        }
        own
    };
    candidates.par_iter().map(of_candidate).collect::<Vec<_>>().into_iter().flatten().collect()
}

/// Whether the garden's containers are large enough for a plant of its habit; where that is not called, for the largest.
fn goes_in_a_pot(candidate: &Candidate, garden: &Garden) -> bool {
    let verdict = candidate.listed.habit.as_ref().and_then(|habit| habit.call.verdict.as_deref());
    let habit = Habit::ALL.into_iter().find(|habit| verdict == Some(habit.to_string().as_str()));
    let least = space::least_container(habit.unwrap_or(Habit::Indeterminate));
    least.is_some_and(|least| least <= garden.container_volume)
}

/// Soluble solids that the house measured of a variety, per cent.
pub(super) fn solids(listed: &Listed) -> Option<f64> {
    listed.fruit.as_ref()?.facts.soluble_solids_pct.as_ref().map(|solids| solids.usual)
}

/// The middle variety's soluble solids of the classes of a wish.
fn middle_solids(listed: &[Listed], wish: &Wish) -> Option<f64> {
    let class = |one: &Listed| one.fruit.as_ref().and_then(|fruit| fruit.call.verdict.clone());
    let own = listed.iter().filter(|one| class(one).is_some_and(|class| wish.classes.contains(&class)));
    let mut measured: Vec<f64> = own.filter_map(solids).collect();
    measured.sort_by(f64::total_cmp);
    measured.get(measured.len() / 2).copied()
}

/// Whether a variety's soluble solids were measured on the side that a wish asks for, where it asks for any.
fn is_on_side(one: &Listed, wish: &Wish, middle: Option<f64>) -> bool {
    let Purpose::PutUp { solids: Some(side), .. } = wish.purpose else { return true };
    solids(one).zip(middle).is_some_and(|(own, middle)| match side {
        Solids::High => middle <= own,
        Solids::Low => own <= middle,
    })
}

/// Whether a variety's plants were measured taller than what they are held up by.
fn outgrows(listed: &Listed, garden: &Garden) -> bool {
    let height = listed.fruit.as_ref().and_then(|fruit| fruit.facts.plant_height_mm.as_ref());
    garden.stake_height.zip(height).is_some_and(|(stake, height)| stake.get() < height.usual)
}
