//! What the years of a station's record make of a variety: how many days after transplanting each would have come so far.

use crate::curve::SHARES;
use crate::timeline::Needed;
use crate::weather::Days;
use jiff::ToSpan;
use jiff::civil::Date;

/// Days after transplanting up to which a year is asked: beyond them no season reaches. Common practice, no source.
const LONGEST: i32 = 220;

/// Days from transplanting to each of the [`SHARES`], year by year.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Years {
    /// For each share the years, and their days; `None` in years that were too cold.
    pub days: [Vec<(i16, Option<i32>)>; SHARES.len()],
    /// Years whose season has a day that is not known, or breaks off.
    pub left_out: Vec<i16>,
}

impl Years {
    /// Asks every year of a record, plants out on the same month and day of each.
    ///
    /// # Shape
    /// `needed` is the warmth from transplanting to each share ripe; a share that is not known is not asked. A
    /// year that breaks off counts for none: it would be counted only where it was early.
    #[must_use]
    pub fn of(needed: [Option<Needed>; SHARES.len()], days: &Days, (month, day): (i8, i8)) -> Self {
        let mut years = Self::default();
        let Some(clock) = needed.iter().flatten().next().map(Needed::clock) else { return years };
        for year in days.years() {
            // Plants that go out on 29 February go out on the 28th in other years.
            let Ok(from) = Date::new(year, month, day).or_else(|_| Date::new(year, month, 28)) else {
                continue;
            };
            let Ok(until) = from.checked_add(LONGEST.days()) else { continue };
            let last = clock.sums(days, from).take_while(|(day, _)| *day <= until).last();
            if last.is_none_or(|(day, _)| day < until) {
                years.left_out.push(year);
                continue;
            }
            for (told, needed) in years.days.iter_mut().zip(needed) {
                let Some(needed) = needed else { continue };
                let reached = needed.reached(days, from, until);
                told.push((year, reached.and_then(|day| from.until(day).ok()).map(|span| span.get_days())));
            }
        }
        years
    }

    /// The days that a part of the years stay within, of one share; a year too cold for it is later than any.
    /// Quantile of type 1: a year that was.
    #[must_use]
    pub fn within(&self, share: usize, part: f64) -> Option<i32> {
        let mut days: Vec<i32> =
            self.days.get(share)?.iter().map(|(_, days)| days.unwrap_or(i32::MAX)).collect();
        days.sort_unstable();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            clippy::cast_precision_loss,
            reason = "a place among a few hundred years"
        )]
        let place = ((part * days.len() as f64).ceil() as usize).saturating_sub(1);
        days.get(place).copied().filter(|days| *days < i32::MAX)
    }
}
