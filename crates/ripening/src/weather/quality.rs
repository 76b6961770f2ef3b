//! What cannot be, taken out: a night warmer than its day, a night far colder than those on either side.
//!
//! Stations that are read in the morning book yesterday's highest temperature to today, and a finger slips now and then.
//! Such numbers are dropped, never mended or swapped: one false freeze late in May moves a safe planting date of thirty
//! years by five days. Start at [`checked`].

use super::Days;
use jiff::civil::Date;

/// How much colder than the nights on either side a night must be to be a slip, in degrees. Common practice, no source.
const SPIKE: f64 = 12.0;

/// Lowest and highest temperature of the air that was ever read, in whole degrees outwards: -89.2 C and 56.7 C.
/// Source: WMO, World Weather and Climate Extremes Archive.
const EVER_READ: [f64; 2] = [-90.0, 57.0];
/// Before it nobody had a thermometer. From memory, unverified.
const FIRST_YEAR: i16 = 1600;

/// The first day with a temperature that the air never has, or of a year without thermometers, and a temperature of it:
/// the file was read on another scale than its own, or holds a code for what is missing.
#[must_use]
pub fn impossible(days: &Days) -> Option<(Date, f64)> {
    let [least, most] = EVER_READ;
    let never = |degrees: &f64| *degrees < least || most < *degrees;
    let (date, reading) = days.known().find(|(date, reading)| {
        let degrees = reading.lowest.iter().chain(&reading.highest);
        date.year() < FIRST_YEAR || degrees.copied().any(|degrees| never(&degrees))
    })?;
    Some((date, reading.lowest.filter(never).or(reading.highest)?))
}

/// Why a number was taken out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fault {
    /// The lowest temperature is above the highest; both are dropped.
    LowestAboveHighest,
    /// The night is far colder than those before and after; its lowest temperature is dropped.
    Spike,
}

/// A day of which something was taken out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dropped {
    /// The day.
    pub on: Date,
    /// Why.
    pub fault: Fault,
}

/// Takes out what cannot be, and says what that was, in the order of the days.
#[must_use]
pub fn checked(mut days: Days) -> (Days, Vec<Dropped>) {
    let mut dropped = Vec::new();
    for at in 0..days.len() {
        if is_crossed(&days, at) {
            dropped.extend(days.date(at).map(|on| Dropped { on, fault: Fault::LowestAboveHighest }));
            days.drop_both(at);
        }
    }
    // Spikes are judged by what is left, all at once, so that dropping one does not make another.
    let nights = days.lowest.clone();
    for (before, at) in (1..nights.len().saturating_sub(1)).enumerate() {
        let night = |place: usize| nights.get(place).copied().unwrap_or(f64::NAN);
        // A neighbour that nobody read says nothing, and a comparison with what is no number is never so.
        let milder = night(before).min(night(at + 1));
        let both = !night(before).is_nan() && !night(at + 1).is_nan();
        if both && night(at) < milder - SPIKE {
            dropped.extend(days.date(at).map(|on| Dropped { on, fault: Fault::Spike }));
            days.drop_lowest(at);
        }
    }
    dropped.sort_by_key(|one| one.on);
    (days, dropped)
}

/// Longest run of missing days that is filled. Common practice, no source.
pub const LONGEST_FILLED: usize = 3;

/// Fills runs of up to [`LONGEST_FILLED`] missing days along a straight line between the days beside them, and counts the
/// numbers filled in. For sums of warmth, which a few days hardly move; never for frosts, which they decide.
#[must_use]
pub fn filled(mut days: Days) -> (Days, usize) {
    let count = fill(&mut days.lowest) + fill(&mut days.highest);
    // A line between two mild nights may pass above the day between them.
    let crossed: Vec<usize> = (0..days.len()).filter(|at| is_crossed(&days, *at)).collect();
    crossed.iter().for_each(|place| days.drop_both(*place));
    (days, count.saturating_sub(crossed.len()))
}

/// Whether the night is warmer than the day.
fn is_crossed(days: &Days, at: usize) -> bool {
    let pair = days.lowest.get(at).zip(days.highest.get(at));
    pair.is_some_and(|(lowest, highest)| highest < lowest)
}

fn fill(column: &mut [f64]) -> usize {
    let mut filled = 0;
    let mut known: Option<usize> = None;
    for place in 0..column.len() {
        let Some(now) = column.get(place).copied().filter(|value| !value.is_nan()) else { continue };
        let before = known.replace(place);
        let Some((before, value)) = before.and_then(|at| Some((at, *column.get(at)?))) else { continue };
        let gap = place - before - 1;
        if gap == 0 || LONGEST_FILLED < gap {
            continue;
        }
        let step = (now - value) / f64::from(u16::try_from(gap + 1).unwrap_or(u16::MAX));
        let mut there = value;
        for slot in column.iter_mut().take(place).skip(before + 1) {
            there += step;
            *slot = there;
        }
        filled += gap;
    }
    filled
}
