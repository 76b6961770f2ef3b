//! The weather behind a variety's plots: each plot's days in the warmth of its own garden's season.
//!
//! Where that season was not measured a middling one of the same weather stands in, and is told as such.

use super::PlotPicks;
use crate::forecast::place::{Homes, Source, Weather};
use jiff::civil::Date;
use ripening::forecast::Seasons;
use ripening::grown::Grown;
use ripening::thermal::Clock;
use ripening::timeline::{Summer, Timeline};
use std::collections::HashMap;

/// Where the warmth of a plot's season is taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stood {
    /// Its own days, measured.
    Measured,
    /// A middling season of the same weather.
    StoodIn,
}

/// The warmth of a plot's season.
#[derive(Clone, Debug, PartialEq)]
pub struct PlotWarmth {
    /// Whose weather.
    pub weather: String,
    /// Whether it is its own season's.
    pub stood: Stood,
    /// Mean temperatures from transplanting to the last pick, where they were measured.
    pub summer: Option<Summer>,
    /// Degree-days to the first pick.
    pub first: Option<f64>,
    /// Degree-days to the last.
    pub last: Option<f64>,
}

/// Timelines of plots by the weather of their gardens.
pub(super) struct Behind<'a> {
    homes: &'a Homes,
    clock: Clock,
    usual: HashMap<(String, Date), Option<Timeline>>,
}

impl<'a> Behind<'a> {
    pub(super) fn new(homes: &'a Homes, clock: Clock) -> Self {
        Self { homes, clock, usual: HashMap::new() }
    }

    /// The times of a plot's days, and whether they are its own season's; `None` where nothing tells them.
    pub(super) fn timeline(&mut self, plot: &PlotPicks) -> Option<(Timeline, Stood)> {
        let (home, out) = (self.homes.of(&plot.garden)?, plot.picked.transplanted());
        // A drawn year is nobody's, though it may carry the number of one.
        if matches!(home.climates.source, Source::Measured { .. }) {
            let own = Timeline::of_days(self.clock, &home.days, out);
            if own.covers(&plot.picked) {
                return Some((own, Stood::Measured));
            }
        }
        let clock = self.clock;
        let usual = self.usual.entry((plot.garden.clone(), out));
        let usual = usual.or_insert_with(|| usual_season(home, clock, out)).clone()?;
        usual.covers(&plot.picked).then_some((usual, Stood::StoodIn))
    }

    /// What is told of a plot's season.
    pub(super) fn told(&self, plot: &PlotPicks, timeline: &Timeline, stood: Stood) -> Option<PlotWarmth> {
        let home = self.homes.of(&plot.garden)?;
        let (picked, taken) = (&plot.picked, plot.picked.taken());
        let (first, last) = taken.first().zip(taken.last())?;
        let summer = (stood == Stood::Measured)
            .then(|| Summer::of(&home.days, picked.transplanted(), last.on))
            .flatten();
        Some(PlotWarmth {
            weather: home.climates.name.clone(),
            stood,
            summer,
            first: timeline.time(picked, first.on),
            last: timeline.time(picked, last.on),
        })
    }
}

fn usual_season(home: &Weather, clock: Clock, out: Date) -> Option<Timeline> {
    let seasons = Seasons::of(&home.days, clock, (out.month(), out.day()));
    Grown::usual(&seasons.grown, out).map(|grown| Timeline::of_grown(&grown))
}
