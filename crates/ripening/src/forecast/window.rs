//! When to plant out: what each day of spring would bring over the same years.

use super::told::totals;
use super::{Draws, Range, Seasons};
use crate::thermal::Clock;
use crate::weather::Days;
use jiff::ToSpan;
use jiff::civil::Date;

/// Weeks before and after a day that are looked at.
const AROUND: std::ops::RangeInclusive<i32> = -6..=6;
/// Part of the best day's harvest in poor seasons that is as good as the best. Common practice, no source.
const AS_GOOD: f64 = 0.95;
/// Days after planting within which a killing frost has killed plants that were set out too early.
const TOO_EARLY: usize = 42;

/// One day to plant out on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Planting {
    /// Month and day.
    pub out: (i8, i8),
    /// Kilograms a plant over the season, in a poor, a middling and a good one.
    pub total: Range,
    /// Part of the years in which frost kills the plants within six weeks.
    pub killed: f64,
    /// Whether poor seasons bring as much as on the best day, within 5 in 100.
    pub as_good: bool,
}

/// Tries a day of each week around one, over the same years and draws.
#[must_use]
pub fn around(days: &Days, clock: Clock, (month, day): (i8, i8), draws: &Draws) -> Vec<Planting> {
    let middle = Date::new(2001, month, day).or_else(|_| Date::new(2001, month, 28));
    let Ok(middle) = middle else { return Vec::new() };
    let dates = AROUND.filter_map(|weeks| middle.checked_add(weeks.weeks()).ok());
    let tried = dates.filter_map(|date| {
        let out = (date.month(), date.day());
        let seasons = Seasons::of(days, clock, out);
        let early =
            seasons.grown.iter().filter(|grown| grown.killed.is_some_and(|day| day < TOO_EARLY)).count();
        let total = super::told::range(&totals(&seasons, draws)?);
        let count = |number: usize| u32::try_from(number).map_or(f64::INFINITY, f64::from);
        Some(Planting { out, total, killed: count(early) / count(seasons.len()), as_good: false })
    });
    let mut tried: Vec<Planting> = tried.collect();
    // A poor season is the first that is told.
    let poor = |one: &Planting| one.total.first().copied().unwrap_or_default();
    let best = tried.iter().map(poor).fold(0.0, f64::max);
    for one in &mut tried {
        one.as_good = 0.0 < best && AS_GOOD * best <= poor(one);
    }
    tried
}
