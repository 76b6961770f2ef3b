//! The answer: what to grow with its reasons, what is left out, and what more ground would bring.

use super::flowers::Isolation;
use super::weighed::{LotWeighed, Weighed};
use crate::gaps::Kind;
use crate::layout::file::{Wanted, written};
use crate::lots::law::JudgedBy;
use record::season::Season;
use record::share::Share;
use sowing::choice::{Candidate, Chosen, MoreGround, Way};
use sowing::demand::Level;
use sowing::need::Reason;
use sowing::selling::{Days, Horizon, Profile};
pub use sowing::stock::Lasts;

/// The next grow-out.
#[derive(Clone, Debug)]
pub struct Next {
    /// Its season.
    pub season: Season,
    /// The days that its seed is planned for.
    pub horizon: Horizon,
    /// The days that the sales cover.
    pub covered: Days,
    /// Selling years.
    pub levels: Vec<Level>,
    /// How sales fall on months.
    pub profile: Profile,
    /// The ground.
    pub stand: StandTold,
    /// What to grow, what is worth most first.
    pub grown: Vec<Row>,
    /// What something speaks for and there is no room for, what is worth most first.
    pub left_out: Vec<Row>,
    /// Varieties that nothing speaks for.
    pub wanting_nothing: usize,
    /// What all that is grown is worth, in packets.
    pub worth: f64,
    /// What no choice is worth more than.
    pub bound: f64,
    /// What a bed more would bring.
    pub more: More,
    /// Kinds that the list lacks where all round them is filled.
    pub gaps: Vec<Kind>,
    /// The least germination that seed was judged by.
    pub minimum: JudgedBy,
    /// What to lay out; `None` where only plots were counted.
    pub wanted: Option<Wanted>,
}

impl Next {
    /// The text of a layout file that grows it; `None` where only plots were counted.
    #[must_use]
    pub fn layout(&self) -> Option<String> {
        self.wanted.as_ref().map(written::write)
    }
}

/// The ground, as it is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StandTold {
    /// Plots.
    pub plots: u32,
    /// Beds; `None` where only plots were counted.
    pub beds: Option<u32>,
    /// Plants of a plot.
    pub plants_each: u32,
    /// Plots that checks take.
    pub of_checks: u32,
    /// Most plants that can be raised.
    pub most_plants: Option<u32>,
    /// Varieties that can be kept apart or bagged.
    pub apart: u32,
}

/// A variety, as it is told.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its name.
    pub variety: String,
    /// Plots it gets; of one that is left out, what it would have best.
    pub plots: u32,
    /// Plants in them.
    pub plants: u32,
    /// Plots that it would have best.
    pub best_plots: u32,
    /// Packets of seed that they are expected to give; nothing where none is saved.
    pub seed: f64,
    /// What the plots are worth, in packets.
    pub worth: f64,
    /// What speaks for it, the weightiest first.
    pub reasons: Vec<Reason>,
    /// Packets that it is expected to sell in a year.
    pub a_year: f64,
    /// Packets that it is expected to sell while its seed would be wanted: one in ten, the middle, nine in ten lie under.
    pub soon: (u32, u32, u32),
    /// Whether anything of it was sold so far.
    pub was_sold: bool,
    /// Packets that its seed in the house makes.
    pub packets: u32,
    /// Of these, how many are expected to stay above the minimum.
    pub lasting: u32,
    /// Its lots with seed.
    pub lots: Vec<LotTold>,
    /// What would settle its contested calls.
    pub settles: Vec<String>,
    /// How far its seed must stand from other tomatoes; `None` where the guide tells of no flower.
    pub isolation: Option<Isolation>,
    /// Why it is left out; nothing of one that is grown.
    pub left_for: Option<LeftFor>,
}

/// A lot with seed in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LotTold {
    /// Its number.
    pub number: String,
    /// Packets that it makes.
    pub packets: u32,
    /// Whether its seed will still be good.
    pub lasts: Lasts,
}

/// Why a variety is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftFor {
    /// Others are worth more on this ground.
    Ground,
    /// All that cross readily and can be kept apart are taken.
    Apart,
}

/// What more ground would bring.
#[derive(Clone, Debug, PartialEq)]
pub struct More {
    /// Plots more: a bed's.
    pub plots: u32,
    /// What they would be worth, in packets.
    pub packets: f64,
    /// Varieties that would come in or have more plots, with how many more.
    pub brings: Vec<(String, u32)>,
}

/// What rows are told from.
pub(super) struct Seen<'s> {
    pub(super) weighed: &'s [Weighed],
    pub(super) candidates: &'s [Candidate],
    pub(super) chosen: &'s Chosen,
    pub(super) apart: u32,
}

impl Seen<'_> {
    fn way(&self, chosen: &Chosen, place: usize) -> Option<Way> {
        let way = (*chosen.ways.get(place)?)?;
        self.candidates.get(place)?.ways.get(way).copied()
    }

    fn best(&self, place: usize) -> Option<Way> {
        let ways = &self.candidates.get(place)?.ways;
        ways.iter().copied().max_by(|one, other| one.worth.total_cmp(&other.worth))
    }
}

/// What is grown and what is left out.
pub(super) fn rows(seen: &Seen<'_>) -> (Vec<Row>, Vec<Row>) {
    let ways = || (0..seen.weighed.len()).filter_map(|place| seen.way(seen.chosen, place));
    let apart_is_full = seen.apart <= ways().map(|way| way.apart).sum();
    let (mut grown, mut left_out) = (Vec::new(), Vec::new());
    for (place, own) in seen.weighed.iter().enumerate() {
        let Some(best) = seen.best(place) else { continue };
        match seen.way(seen.chosen, place) {
            Some(way) => grown.push(row(own, way, best, None)),
            None => {
                let for_apart = 0 < best.apart && apart_is_full;
                let left_for = if for_apart { LeftFor::Apart } else { LeftFor::Ground };
                left_out.push(row(own, best, best, Some(left_for)));
            }
        }
    }
    for rows in [&mut grown, &mut left_out] {
        rows.sort_by(|one, other| other.worth.total_cmp(&one.worth).then(one.variety.cmp(&other.variety)));
    }
    (grown, left_out)
}

fn row(own: &Weighed, way: Way, best: Way, left_for: Option<LeftFor>) -> Row {
    let subject = &own.subject;
    let at = |tenths| Share::of(tenths, 10).map_or(0, |share| subject.soon.at(share));
    let mut reasons = own.reasons.clone();
    reasons.sort_by(|one, other| other.packets().total_cmp(&one.packets()));
    Row {
        variety: own.name.clone(),
        plots: way.plots,
        plants: way.plants,
        best_plots: best.plots,
        seed: way.seed,
        worth: way.worth,
        reasons,
        a_year: own.a_year,
        soon: (at(1), at(5), at(9)),
        was_sold: own.was_sold,
        packets: subject.packets,
        lasting: subject.lasting,
        lots: own.lots.iter().map(lot).collect(),
        settles: own.settles.clone(),
        isolation: own.isolation.clone(),
        left_for,
    }
}

fn lot(lot: &LotWeighed) -> LotTold {
    LotTold { number: lot.number.clone(), packets: lot.packets, lasts: lot.lasts }
}

impl More {
    pub(super) fn of(seen: &Seen<'_>, more: &MoreGround, plots: u32) -> Self {
        let gains = |(place, own): (usize, &Weighed)| {
            let now = seen.way(seen.chosen, place).map_or(0, |way| way.plots);
            let then = seen.way(&more.chosen, place).map_or(0, |way| way.plots);
            (now < then).then(|| (own.name.clone(), then - now))
        };
        Self {
            plots,
            packets: more.worth_over(seen.chosen),
            brings: seen.weighed.iter().enumerate().filter_map(gains).collect(),
        }
    }
}
