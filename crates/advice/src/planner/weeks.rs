//! Weeks of a plan, counted from the day on which the first plants go out.
//!
//! A plan is made before its year is known, so days are months and days, and a season may run across new year.
//! Start at [`Weeks::new`].

use jiff::ToSpan;
use jiff::civil::Date;
use std::ops::RangeInclusive;

/// The weeks of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weeks {
    out: Date,
    count: usize,
}

/// Days of a week.
const DAYS: i32 = 7;

impl Weeks {
    /// So many weeks from the day on which the first plants go out, of a common year.
    #[must_use]
    pub fn new(out: Date, count: usize) -> Self {
        Self { out, count }
    }

    /// How many.
    #[must_use]
    pub fn count(self) -> usize {
        self.count
    }

    /// The day on which a week begins.
    #[must_use]
    pub fn begins(self, week: usize) -> Option<Date> {
        self.out.checked_add(i32::try_from(week).ok()?.checked_mul(DAYS)?.days()).ok()
    }

    /// The week of a month and day, the first such day after plants go out; nothing beyond the last week.
    #[must_use]
    pub fn of(self, (month, day): (i8, i8)) -> Option<usize> {
        let in_year = |year| Date::new(year, month, day).or_else(|_| Date::new(year, month, 28)).ok();
        let this = in_year(self.out.year()).filter(|day| self.out <= *day);
        let on = this.or_else(|| in_year(self.out.year().checked_add(1)?))?;
        let week = usize::try_from(self.out.until(on).ok()?.get_days() / DAYS).ok()?;
        (week < self.count).then_some(week)
    }

    /// Whole weeks that lie between two days, both included.
    #[must_use]
    pub fn between(self, from: (i8, i8), to: (i8, i8)) -> Option<RangeInclusive<usize>> {
        let (from, to) = (self.of(from)?, self.of(to)?);
        (from <= to).then_some(from..=to)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn days_fall_in_weeks_from_planting_on() {
        let weeks = Weeks::new(date(2001, 5, 20), 30);
        assert_eq!(weeks.of((5, 20)), Some(0));
        assert_eq!(weeks.of((5, 26)), Some(0));
        assert_eq!(weeks.of((5, 27)), Some(1));
        assert_eq!(weeks.begins(1), Some(date(2001, 5, 27)));
        // The day before planting is next year's, and the plan has ended by then.
        assert_eq!(weeks.of((5, 19)), None);
        assert_eq!(weeks.between((8, 1), (9, 30)), Some(10..=19));
        assert_eq!(weeks.between((9, 30), (8, 1)), None);
    }

    #[test]
    fn a_southern_season_runs_across_new_year() {
        let weeks = Weeks::new(date(2001, 11, 1), 30);
        assert_eq!(weeks.of((1, 15)), Some(10));
        assert_eq!(weeks.begins(10), Some(date(2002, 1, 10)));
        assert_eq!(weeks.between((12, 20), (2, 29)), Some(7..=17));
    }
}
