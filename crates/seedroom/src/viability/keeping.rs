//! When a lot will fall under the minimum, from what seed usually does and what its own tests say.
//!
//! A lot of one test has no decline of its own, and one of two tests an uncertain one. So the answer begins with a wide
//! belief about `start` and `sigma`, weighs it by every test, and tells the days between which 80 of 100 such lots pass the
//! minimum. Start at [`keeping`].

use super::Course;
use super::belief::{Belief, spread};
use super::decline::DatedTest;
use record::days::Days;
use record::share::Share;
use statistics::logarithms::shares;

/// Ends of the range told: 80 in 100 lie between. Common practice, no source.
const RANGE: (f64, f64) = (0.10, 0.90);

/// When a lot passes a minimum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Keeping {
    /// Half of such lots have passed it by then.
    pub about: Days,
    /// 80 of 100 pass it between these days.
    pub between: (Days, Days),
    /// The chance that it lies under the minimum on the day asked about.
    pub under: Share,
    /// The share that sprouts on the day asked about: middle, and 80 in 100.
    pub sprouts: (Share, Share, Share),
}

/// Forecasts when a lot passes `minimum`, and how it stands after `on` days.
///
/// All days are counted from the first day of storage. `None` for a minimum of nothing or all, and for tests that saw more
/// than they sowed.
///
/// # Shape
/// `tests`: any number, none among them; in any order.
#[must_use]
pub fn keeping(tests: &[DatedTest], belief: &Belief, minimum: Share, on: Days) -> Option<Keeping> {
    if tests.iter().any(|test| test.sown < test.normal) {
        return None;
    }
    let courses = spread(tests, belief);
    let weights = shares(&courses.iter().map(|(_, log)| *log).collect::<Vec<_>>())?;
    let weighed = |of: &dyn Fn(Course) -> Option<f64>| -> Option<Vec<(f64, f64)>> {
        let values = courses.iter().zip(&weights);
        let mut values: Vec<(f64, f64)> =
            values.map(|((course, _), weight)| Some((of(*course)?, *weight))).collect::<Option<_>>()?;
        values.sort_by(|one, other| one.0.total_cmp(&other.0));
        Some(values)
    };
    let passes = weighed(&|course| course.days_to(minimum).map(Days::get))?;
    let sprouts = weighed(&|course| Some(course.share_after(on).get()))?;
    let under: f64 =
        sprouts.iter().filter(|(share, _)| *share < minimum.get()).map(|(_, weight)| weight).sum();
    let day = |chance| Days::new(at(&passes, chance)?);
    let share = |chance| Share::new(at(&sprouts, chance)?);
    Some(Keeping {
        about: day(0.5)?,
        between: (day(RANGE.0)?, day(RANGE.1)?),
        under: Share::new(under.clamp(0.0, 1.0))?,
        sprouts: (share(0.5)?, share(RANGE.0)?, share(RANGE.1)?),
    })
}

/// The value that a chance lies below, of sorted values with weights that make a whole.
fn at(sorted: &[(f64, f64)], chance: f64) -> Option<f64> {
    let mut below = 0.0;
    let found = sorted.iter().find(|(_, weight)| {
        below += weight;
        chance <= below
    });
    found.or(sorted.last()).map(|(value, _)| *value)
}
