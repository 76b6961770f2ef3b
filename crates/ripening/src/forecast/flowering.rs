//! Weeks in which flowers set poorly, and to what they lose.

use super::Seasons;
use crate::grown::WEEKS;
use crate::set::Hindrance;

/// Share of flowers below which a week counts as poor. Common practice, no source.
const POOR: f64 = 0.5;

/// One week after transplanting, over all years.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flowering {
    /// Part of the years, of those whose plants still stand, in which cold keeps half the week's flowers from setting.
    pub cold: f64,
    /// The same of heat.
    pub heat: f64,
}

/// Looks at every week of every year.
#[must_use]
pub fn flowering(seasons: &Seasons) -> Vec<Flowering> {
    (0..WEEKS).map(|week| one(seasons, week)).collect()
}

fn one(seasons: &Seasons, week: usize) -> Flowering {
    let standing: Vec<Option<Hindrance>> = seasons
        .grown
        .iter()
        .filter_map(|grown| grown.flowers.get(7 * week..7 * week + 7))
        .map(|days| {
            let set = days.iter().map(|(share, _)| share).sum::<f64>() / 7.0;
            let cold = days.iter().filter(|(_, why)| *why == Some(Hindrance::Cold)).count();
            let heat = days.iter().filter(|(_, why)| *why == Some(Hindrance::Heat)).count();
            (set < POOR).then_some(if heat < cold { Hindrance::Cold } else { Hindrance::Heat })
        })
        .collect();
    let part = |why: Hindrance| {
        let count = |number: usize| u32::try_from(number).map_or(f64::INFINITY, f64::from);
        count(standing.iter().filter(|own| **own == Some(why)).count()) / count(standing.len().max(1))
    };
    Flowering { cold: part(Hindrance::Cold), heat: part(Hindrance::Heat) }
}
