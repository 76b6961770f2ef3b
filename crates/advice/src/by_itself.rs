//! How many plants of one variety, or of two together, keep one wish by themselves: what those ask who grow few kinds.
//!
//! All is counted in tens of grams, so that a page's script, which does the same sums, comes to the same whole numbers.
//! Start at [`of_one`] and [`of_two`].

use record::mass::Grams;
use std::ops::RangeInclusive;

/// Most plants of one variety that are thought of: a garden's, not a field's. Common practice, no source.
pub const MOST_PLANTS: u64 = 200;

/// Grams of one unit of the counts here.
const TEN: f64 = 10.0;

/// Fruit that is borne, in tens of grams, to the nearest.
#[must_use]
pub fn borne(fruit: Grams) -> u32 {
    counted(fruit.get() / TEN)
}

/// Fruit that is asked for, in tens of grams, none of it rounded away.
#[must_use]
pub fn asked(fruit: Grams) -> u32 {
    counted((fruit.get() / TEN).ceil())
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a mass is not less than nothing"
)]
fn counted(tens: f64) -> u32 {
    tens.round().min(f64::from(u32::MAX)) as u32
}

/// What one plant bears in each week of each sampled year.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bearing {
    weeks: usize,
    tens: Vec<u32>,
}

impl Bearing {
    /// Takes tens of grams, the weeks of a year lying together; nothing where they are not whole years.
    #[must_use]
    pub fn new(weeks: usize, tens: Vec<u32>) -> Option<Self> {
        (0 < weeks && !tens.is_empty() && tens.len().is_multiple_of(weeks)).then_some(Self { weeks, tens })
    }

    /// Weeks of a year.
    #[must_use]
    pub fn weeks(&self) -> usize {
        self.weeks
    }

    /// Sampled years, each with its weeks.
    pub fn years(&self) -> impl Iterator<Item = &[u32]> {
        self.tens.chunks_exact(self.weeks)
    }
}

/// What is wished for, in tens of grams.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Want {
    /// So much in each of these weeks.
    EachWeek {
        /// Tens of grams a week.
        tens: u32,
        /// The weeks.
        weeks: RangeInclusive<usize>,
    },
    /// So much on a few kitchen days, no two in one week.
    OnDays {
        /// Tens of grams in all.
        tens: u32,
        /// Tens of grams that one day takes.
        a_day: u32,
        /// Days at most.
        days: usize,
        /// The weeks that they may lie in.
        weeks: RangeInclusive<usize>,
    },
}

/// The fewest plants of one variety that keep the wish in so many of its years; `None` where [`MOST_PLANTS`] do not.
#[must_use]
pub fn of_one(bearing: &Bearing, want: &Want, years: usize) -> Option<u64> {
    let nothing = vec![0; bearing.weeks];
    let each = bearing.years().map(|own| more_of(&nothing, 0, own, want));
    kept_in(each.collect(), years)
}

/// The fewest plants in all of two varieties, at least one of each, that keep the wish in so many of their years; of two
/// that are as few the one with more of the first. `None` where [`MOST_PLANTS`] of them do not.
///
/// # Shape
/// Both have the same weeks, and the same years in the same order.
#[must_use]
pub fn of_two(first: &Bearing, second: &Bearing, want: &Want, years: usize) -> Option<[u64; 2]> {
    let mut best: Option<[u64; 2]> = None;
    for plants in 1..MOST_PLANTS {
        if best.is_some_and(|[own, other]| own + other <= plants) {
            break;
        }
        let both = first.years().zip(second.years());
        let each = both.map(|(first, second)| more_of(first, plants, second, want));
        let Some(more) = kept_in(each.collect(), years).map(|more| more.max(1)) else { continue };
        let is_better = best.is_none_or(|[own, other]| plants + more <= own + other);
        if is_better && plants + more <= MOST_PLANTS {
            best = Some([plants, more]);
        }
    }
    best
}

/// Plants that are enough in so many years, from those that each year takes.
fn kept_in(mut each: Vec<Option<u64>>, years: usize) -> Option<u64> {
    each.sort_by_key(|plants| plants.unwrap_or(u64::MAX));
    each.get(years.checked_sub(1)?).copied().flatten()
}

/// The fewest plants of `second` that keep the wish in one year beside so many of `first`.
fn more_of(first: &[u32], plants: u64, second: &[u32], want: &Want) -> Option<u64> {
    match want {
        Want::EachWeek { tens, weeks } => {
            let (first, second) = (first.get(weeks.clone())?, second.get(weeks.clone())?);
            first.iter().zip(second).try_fold(0, |most, (first, second)| {
                let lacking = u64::from(*tens).saturating_sub(plants * u64::from(*first));
                let more = if lacking == 0 { 0 } else { lacking.div_ceil(u64::from(*second).max(1)) };
                let is_had = lacking == 0 || (0 < *second && more <= MOST_PLANTS);
                is_had.then_some(most.max(more))
            })
        }
        Want::OnDays { tens, a_day, days, weeks } => {
            let (first, second) = (first.get(weeks.clone())?, second.get(weeks.clone())?);
            let put_up = |more: u64| {
                let weeks = first.iter().zip(second);
                let borne =
                    weeks.map(|(first, second)| plants * u64::from(*first) + more * u64::from(*second));
                let mut a_week: Vec<u64> = borne.map(|tens| tens.min(u64::from(*a_day))).collect();
                a_week.sort_unstable_by(|one, other| other.cmp(one));
                a_week.into_iter().take(*days).sum::<u64>()
            };
            let (mut few, mut enough) = (0, MOST_PLANTS);
            if put_up(enough) < u64::from(*tens) {
                return None;
            }
            while few < enough {
                let middle = u64::midpoint(few, enough);
                if put_up(middle) < u64::from(*tens) { few = middle + 1 } else { enough = middle }
            }
            Some(few)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bearing(years: &[&[u32]]) -> Bearing {
        Bearing::new(years[0].len(), years.concat()).unwrap()
    }

    #[test]
    fn the_leanest_week_tells_how_many_plants_a_table_takes() {
        let own = bearing(&[&[0, 50, 100, 40], &[10, 20, 100, 0]]);
        let want = |weeks| Want::EachWeek { tens: 200, weeks };
        // The first year: 200 / 50 = 4 plants; the second: 200 / 20 = 10.
        assert_eq!(of_one(&own, &want(1..=2), 1), Some(4));
        assert_eq!(of_one(&own, &want(1..=2), 2), Some(10));
        // The last week of the second year has nothing.
        assert_eq!(of_one(&own, &want(1..=3), 1), Some(5));
        assert_eq!(of_one(&own, &want(1..=3), 2), None);
    }

    #[test]
    fn a_kitchen_takes_its_best_weeks_and_no_more_than_a_day_can_do() {
        let own = bearing(&[&[10, 60, 30]]);
        let want = |days, a_day| Want::OnDays { tens: 600, a_day, days, weeks: 0..=2 };
        assert_eq!(of_one(&own, &want(1, 600), 1), Some(10));
        // 7 x 60 + 7 x 30 = 630, 6 plants bring 540.
        assert_eq!(of_one(&own, &want(2, 600), 1), Some(7));
        // A day takes 300: the second best week must bring as much, 300 / 30.
        assert_eq!(of_one(&own, &want(2, 300), 1), Some(10));
        assert_eq!(of_one(&own, &want(1, 300), 1), None);
    }

    #[test]
    fn an_early_and_a_late_one_do_together_what_neither_does_alone() {
        let (early, late) = (bearing(&[&[50, 10, 0]]), bearing(&[&[0, 10, 50]]));
        let want = Want::EachWeek { tens: 100, weeks: 0..=2 };
        assert_eq!((of_one(&early, &want, 1), of_one(&late, &want, 1)), (None, None));
        // Ten plants for the middle week, two at least of each; more of the first where it does not matter.
        assert_eq!(of_two(&early, &late, &want, 1), Some([8, 2]));
    }
}
