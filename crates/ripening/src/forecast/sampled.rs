//! Sampled years, for those who plan for a share of them: each is a year of the garden's weather with one crop drawn of
//! every variety.
//!
//! How a season moves plots is drawn once for all varieties of a sampled year, for seasons move them together; what each
//! variety is is drawn for itself. Start at [`sampled`].

use super::{Draws, Seasons, weekly};
use crate::crop::Belief;
use crate::grown::WEEKS;

/// Kilograms a plant in each week of so many sampled years; `None` where no year of the weather is known, or
/// it is counted by another clock.
///
/// The weather's years are taken evenly, from the first to the last, some of them again where more are asked for. `key` is
/// the variety's own: the same key and number of years give the same draws.
///
/// # Shape
/// [`WEEKS`] numbers a sampled year, one year after another.
#[must_use]
pub fn sampled(seasons: &Seasons, belief: &Belief, years: usize, key: &str) -> Option<Vec<f64>> {
    if seasons.is_empty() || years == 0 {
        return None;
    }
    let draws = Draws::of_years(belief, years, key);
    let columns = weekly(seasons, &draws)?;
    let each = seasons.len() * years;
    let one = |year: usize, week: usize| {
        let own = year * seasons.len() / years;
        columns.get(week * each + own * years + year).copied().map_or(0.0, f64::from)
    };
    Some((0..years).flat_map(|year| (0..WEEKS).map(move |week| one(year, week))).collect())
}
