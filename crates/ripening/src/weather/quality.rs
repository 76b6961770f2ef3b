//! What cannot be, taken out: a night warmer than its day, a night far colder than those on either side.
//!
//! Stations that are read in the morning book yesterday's highest temperature to today, and a finger slips now and then.
//! Such numbers are dropped, never mended or swapped: one false freeze late in May moves a safe planting date of thirty
//! years by five days. Start at [`checked`].

use super::Days;
use jiff::civil::Date;

/// How much colder than the nights on either side a night must be to be a slip, in degrees. Common practice, no source.
const SPIKE: f64 = 12.0;

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
        let pair = days.lowest.get(at).zip(days.highest.get(at));
        if pair.is_some_and(|(lowest, highest)| highest < lowest) {
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
