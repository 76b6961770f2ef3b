//! Frosts that are told of a few temperatures, with no days behind them: published freeze dates, or a table of years.
//!
//! A garden higher or lower than the station sees each of its frosts at another temperature. Where days are at hand they are made
//! warmer or colder; of dates the ones in between are taken. Start at [`Dates`] and [`between`].

use super::{Chance, Chances, TOLD};
use crate::weather::normals::PublishedAt;

/// The days of one temperature, by their chances.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dates {
    /// The last frost falls on this day or later, in 10, 50 and 90 years of 100.
    pub last: [Chance; 3],
    /// The first frost falls on this day or earlier.
    pub first: [Chance; 3],
    /// Days between the two, or more.
    pub season: [Chance; 3],
}

impl Dates {
    /// Those that were worked out of years.
    #[must_use]
    pub fn of(chances: &Chances) -> Self {
        Self { last: chances.last, first: chances.first, season: chances.season }
    }

    /// Those that are published; nobody knows how far a sample would move them.
    #[must_use]
    pub fn of_published(published: &PublishedAt) -> Self {
        let chances = |days: [Option<f64>; 3]| {
            let mut told = TOLD.map(|in_100| Chance { in_100, day: None, sampled: None });
            for (chance, day) in told.iter_mut().zip(days) {
                chance.day = day;
            }
            told
        };
        Self {
            last: chances(published.last),
            first: chances(published.first),
            season: chances(published.season),
        }
    }
}

/// The dates of a temperature out of those of a few, in degrees Celsius, as a garden sees them that is warmer than the station by so
/// much: those of the station's own temperature where they are told, else those on the straight line between the temperatures
/// beside it; `None` beyond the outermost.
///
/// # Shape
/// `told` in any order.
#[must_use]
pub fn between(told: &[(f64, Dates)], celsius: f64, warmer_by: f64) -> Option<Dates> {
    let celsius = celsius - warmer_by;
    if let Some((_, own)) = told.iter().find(|(at, _)| (at - celsius).abs() < SAME) {
        return Some(*own);
    }
    let near = |one: &&(f64, Dates), other: &&(f64, Dates)| one.0.total_cmp(&other.0);
    let (low, below) = told.iter().filter(|(at, _)| *at < celsius).max_by(near)?;
    let (high, above) = told.iter().filter(|(at, _)| celsius < *at).min_by(near)?;
    let part = (celsius - low) / (high - low);
    let both = |below: [Chance; 3], above: [Chance; 3]| {
        let mut mixed = below;
        for (one, other) in mixed.iter_mut().zip(above) {
            *one = mixed_of(*one, other, part);
        }
        mixed
    };
    Some(Dates {
        last: both(below.last, above.last),
        first: both(below.first, above.first),
        season: both(below.season, above.season),
    })
}

/// Temperatures nearer to each other than this, in degrees Celsius, are the same: no thermometer tells them apart.
const SAME: f64 = 0.01;

fn mixed_of(below: Chance, above: Chance, part: f64) -> Chance {
    let mixed = |below: f64, above: f64| below + part * (above - below);
    let day = below.day.zip(above.day).map(|(below, above)| mixed(below, above));
    let sampled = below.sampled.zip(above.sampled);
    let sampled = sampled.map(|(below, above)| (mixed(below.0, above.0), mixed(below.1, above.1)));
    Chance { in_100: below.in_100, day, sampled }
}
