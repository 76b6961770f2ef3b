//! Row cover: fabric laid over plants in their first weeks, and what it does to their nights.
//!
//! Only nights are moved. What a cover does by day is left out: in trials with tomatoes it hastened some crops and cost others
//! their first flowers by heat. It is taken to be off by autumn, when plants have outgrown it. Start at [`RowCover::over`].
//!
//! # Source
//! Five weeks from transplanting suited tomatoes best: A. Abbes, The effect of floating row covers on tomato and romaine lettuce,
//! thesis, Oregon State University, 1986 (abstract). Three to five weeks, a heavy cover keeping several degrees of frost off and a
//! light one fewer: New England Vegetable Management Guide, Slitted and floating row covers. No steady gain in early fruit over
//! ten trials: H. G. Taber, Row covers for tomatoes, Iowa State University, 2008.

use crate::weather::Days;
use jiff::ToSpan;
use jiff::civil::Date;

/// A row cover, by its weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RowCover {
    /// About half an ounce on a square yard, 17 g on a square metre.
    Light,
    /// An ounce and a half or more, 50 g on a square metre.
    Heavy,
}

/// Weeks that it lies over the plants. Source: see the head of this file.
pub const WEEKS: u8 = 5;
/// Degrees Celsius in a degree Fahrenheit.
const FAHRENHEIT: f64 = 5.0 / 9.0;

impl RowCover {
    /// All, the lightest first.
    pub const ALL: [Self; 2] = [Self::Light, Self::Heavy];

    /// Its word in the trade.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Heavy => "heavy",
        }
    }

    /// By how many degrees Celsius a night under it is warmer: 2 °F under a light one, 4 °F under a heavy one.
    ///
    /// # Source
    /// Growers' pages, unverified: 2 to 3 °F under a light fabric, and frost kept off to 28 °F under a heavier one. The guide named at
    /// the head of this file says "several degrees" and no figure.
    #[must_use]
    pub fn warms_by(self) -> f64 {
        match self {
            Self::Light => 2.0 * FAHRENHEIT,
            Self::Heavy => 4.0 * FAHRENHEIT,
        }
    }

    /// The days as plants have them that go out under it on a month and day of every year.
    #[must_use]
    pub fn over(self, days: &Days, out: (i8, i8)) -> Days {
        days.warmer_nights(self.warms_by(), |date| is_covered(date, out))
    }

    /// The days as a bed has them that always lies under it: for the spring, when nobody knows yet on which day plants go out.
    #[must_use]
    pub fn over_all(self, days: &Days) -> Days {
        days.warmer_nights(self.warms_by(), |_| true)
    }

    /// The day on which it comes off plants that went out on a day.
    #[must_use]
    pub fn comes_off(out: Date) -> Option<Date> {
        out.checked_add(i64::from(WEEKS).weeks()).ok()
    }
}

/// Whether plants that went out on a month and day are still covered on a date; those that went out late in the year are into the next.
fn is_covered(date: Date, (month, day): (i8, i8)) -> bool {
    [date.year(), date.year() - 1].into_iter().any(|year| {
        let out = Date::new(year, month, day).or_else(|_| Date::new(year, month, 28)).ok();
        out.is_some_and(|out| out <= date && RowCover::comes_off(out).is_some_and(|off| date < off))
    })
}
