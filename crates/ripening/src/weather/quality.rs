//! What cannot be, taken out: a night warmer than its day, a night far colder or a day far warmer than those on either side, a
//! thermometer that stands still.
//!
//! Stations that are read in the morning book yesterday's highest temperature to today, and a finger slips now and then.
//! Such numbers are dropped, never mended or swapped: one false freeze late in May moves a safe planting date of thirty
//! years by five days. Start at [`checked`].

use super::Days;
use jiff::civil::Date;
use std::ops::Range;

/// How much colder than the nights on either side a night must be to be a slip, in degrees. Common practice, no source.
const SPIKE: f64 = 12.0;

/// How much warmer than the days on either side a day must be to be a slip, in degrees. The network's own check of spikes
/// asks as much. Source: Durre and others 2010, Journal of Applied Meteorology and Climatology 49:1615-1633 (the number read
/// at second hand). A true day of six stations' 92,000 stands out by 17.3 at most.
const HOT_SPIKE: f64 = 25.0;
/// Days in a row with the same two temperatures from which the thermometer stood still. Our choice: the network's own check asks
/// for 15 to 20 days of one temperature (NOAA, GHCN-Daily, Methods - Quality Control, streak check); of both at once the
/// longest true run in six stations' 92,000 days is 3.
const STOOD_STILL: usize = 5;

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
    ColdNight,
    /// The day is far warmer than those before and after; its highest temperature is dropped.
    HotDay,
    /// One of a run of days with the same two temperatures; both are dropped.
    StoodStill,
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
    for at in stood_still(&days) {
        dropped.extend(days.date(at).map(|on| Dropped { on, fault: Fault::StoodStill }));
        days.drop_both(at);
    }
    // Spikes are judged by what is left, all at once, so that dropping one does not make another.
    let cold = spikes(&days.lowest, |night, before, after| night < before.min(after) - SPIKE);
    let hot = spikes(&days.highest, |day, before, after| before.max(after) + HOT_SPIKE < day);
    for at in cold {
        dropped.extend(days.date(at).map(|on| Dropped { on, fault: Fault::ColdNight }));
        days.drop_lowest(at);
    }
    for at in hot {
        dropped.extend(days.date(at).map(|on| Dropped { on, fault: Fault::HotDay }));
        days.drop_highest(at);
    }
    dropped.sort_by_key(|one| one.on);
    (days, dropped)
}

/// Places of a column that stand out from the days on either side.
fn spikes(column: &[f64], stands_out: fn(f64, f64, f64) -> bool) -> Vec<usize> {
    let triples = (1..).zip(column.windows(3));
    let out = triples.filter(|(_, triple)| match triple {
        // A neighbour that nobody read says nothing.
        [before, at, after] => !before.is_nan() && !after.is_nan() && stands_out(*at, *before, *after),
        _ => false,
    });
    out.map(|(place, _)| place).collect()
}

/// Places within runs of [`STOOD_STILL`] days or more with the same two temperatures.
fn stood_still(days: &Days) -> Vec<usize> {
    let pairs: Vec<(f64, f64)> = days.lowest.iter().copied().zip(days.highest.iter().copied()).collect();
    // What is no number is the same as nothing, so days that nobody read make no run.
    let runs = pairs.chunk_by(|one, other| one == other);
    let starts = runs.scan(0, |start, run| {
        let first = *start;
        *start += run.len();
        Some(first..*start)
    });
    starts.filter(|run| STOOD_STILL <= run.len()).flatten().collect()
}

/// How many days something was taken out of, by why.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct TakenOut {
    /// Days whose night was warmer.
    pub nights_above_days: usize,
    /// Nights far colder than those beside them.
    pub cold_nights: usize,
    /// Days far warmer than those beside them.
    pub hot_days: usize,
    /// Days on which the thermometer stood still.
    pub still_days: usize,
}

impl TakenOut {
    /// Counts what was dropped.
    #[must_use]
    pub fn of(dropped: &[Dropped]) -> Self {
        let count = |fault| dropped.iter().filter(|one| one.fault == fault).count();
        Self {
            nights_above_days: count(Fault::LowestAboveHighest),
            cold_nights: count(Fault::ColdNight),
            hot_days: count(Fault::HotDay),
            still_days: count(Fault::StoodStill),
        }
    }
}

/// Longest run of missing days that is filled. Common practice, no source.
pub const LONGEST_FILLED: usize = 3;

/// Days before and after a run among which at least half must be known for it to be filled: a thermometer that is read every
/// third day tells no season. Common practice, no source.
const AROUND: usize = 30;

/// Fills runs of up to [`LONGEST_FILLED`] missing days along a straight line between the days beside them, where most days
/// around are known, and counts the numbers filled in. For sums of warmth, which a few days hardly move; never for frosts, which they decide.
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

/// Whether at least half of the days around a run are known.
fn is_mostly_known(was_known: &[bool], run: Range<usize>) -> bool {
    let end = (run.end + AROUND).min(was_known.len());
    let around = was_known.get(run.start.saturating_sub(AROUND)..end).unwrap_or_default();
    around.len() <= 2 * around.iter().filter(|known| **known).count()
}

fn fill(column: &mut [f64]) -> usize {
    let was_known: Vec<bool> = column.iter().map(|value| !value.is_nan()).collect();
    let mut filled = 0;
    let mut known: Option<usize> = None;
    for place in 0..column.len() {
        let Some(now) = column.get(place).copied().filter(|value| !value.is_nan()) else { continue };
        let before = known.replace(place);
        let Some((before, value)) = before.and_then(|at| Some((at, *column.get(at)?))) else { continue };
        let gap = place - before - 1;
        if gap == 0 || LONGEST_FILLED < gap || !is_mostly_known(&was_known, before..place) {
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
