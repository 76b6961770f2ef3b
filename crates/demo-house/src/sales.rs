//! Sales as they truly were: what each variety sold, month by month, in orders by post and at the stall.
//!
//! A variety has a rate of its own, a year its level and a month its part; counts vary about that as shoppers do. Start at
//! [`sold`].

use crate::chance::{between_logs, happens, stream};
use crate::truth::TrueVariety;
use jiff::civil::{Date, date};
use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use rand_distr::{Distribution, Gamma, Poisson};

/// Varieties that are on sale: those in the seed room's jars, and about a third of the others.
const IN_JARS: [&str; 18] = [
    "Post Mill",
    "Rope Walk",
    "Rolling Dray",
    "Bargeman",
    "Chimney Pot",
    "Harrow Lane",
    "Linen Press",
    "Bridge Toll",
    "Candle Hill",
    "Quarry Dusk",
    "Tin Whistle",
    "Spindle House",
    "Boat Nail",
    "Cribbage Peg",
    "Copper Latch",
    "Kittiwake",
    "Skittle Alley",
    "Drip Stone",
];
const OTHERS_ON_SALE: f64 = 0.3;

/// Packets that a variety sells in a year, from least to most. An invention.
const A_YEAR: (f64, f64) = (4.0, 90.0);

/// Selling years by the calendar year in which they begin, with how good each was; the last has only begun. An invention.
const LEVELS: [(i16, f64); 4] = [(2023, 0.8), (2024, 1.0), (2025, 1.15), (2026, 1.2)];

/// The part of a year that sells in each month. Common practice, no source: seed is bought from Christmas to spring.
const MONTHS: [(i8, f64); 12] = [
    (7, 0.01),
    (8, 0.01),
    (9, 0.02),
    (10, 0.03),
    (11, 0.06),
    (12, 0.11),
    (1, 0.24),
    (2, 0.22),
    (3, 0.16),
    (4, 0.09),
    (5, 0.04),
    (6, 0.01),
];

/// Size of a year's negative binomial counts. An invention.
const SIZE: f64 = 9.0;

/// The last day of the files.
pub const UNTIL: Date = date(2026, 11, 15);

/// Some packets of one variety in one order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The day.
    pub on: Date,
    /// Hours and minutes.
    pub at: (u8, u8),
    /// The variety's name.
    pub variety: String,
    /// Packets.
    pub packets: u32,
    /// Whether it was sold at the stall, else by post.
    pub at_stall: bool,
}

/// Everything sold, by day.
#[must_use]
pub fn sold(seed: u64, truth: &[TrueVariety]) -> Vec<Line> {
    let mut lines: Vec<Line> = truth.iter().flat_map(|variety| lines_of(seed, &variety.entry.name)).collect();
    lines.sort_by(|one, other| (one.on, one.at, &one.variety).cmp(&(other.on, other.at, &other.variety)));
    lines
}

fn lines_of(seed: u64, name: &str) -> Vec<Line> {
    let mut draws = stream(seed, &["sales", name]);
    let on_sale = happens(&mut draws, OTHERS_ON_SALE) || IN_JARS.contains(&name);
    let rate = between_logs(&mut draws, A_YEAR);
    // A variety may have come onto the list later than the others.
    let first = if happens(&mut draws, 0.2) { 2025 } else { 2023 };
    let mut lines = Vec::new();
    for (year, level) in LEVELS.into_iter().filter(|(year, _)| on_sale && first <= *year) {
        for (month, part) in MONTHS {
            let count = counted(&mut draws, rate * level * part, SIZE * part);
            lines.extend(orders(&mut draws, name, (year, month), count));
        }
    }
    lines.retain(|line| line.on <= UNTIL);
    lines
}

/// A negative binomial count of a mean and a size.
fn counted(draws: &mut ChaCha8Rng, mean: f64, size: f64) -> u32 {
    let rate = Gamma::new(size, mean / size).map_or(mean, |gamma| gamma.sample(draws));
    Poisson::new(rate.max(1e-9)).map_or(0.0, |poisson| poisson.sample(draws)) as u32
}

/// So many packets, a few an order.
fn orders(draws: &mut ChaCha8Rng, name: &str, (year, month): (i16, i8), mut count: u32) -> Vec<Line> {
    let year = if month < 7 { year + 1 } else { year };
    let mut lines = Vec::new();
    while 0 < count {
        let packets = draws.random_range(1..=3).min(count);
        count -= packets;
        let on = date(year, month, draws.random_range(1..=28));
        let at = (draws.random_range(7..=22), draws.random_range(0..=59));
        let at_stall = (3..=5).contains(&month) && happens(draws, 0.5);
        lines.push(Line { on, at, variety: name.to_owned(), packets, at_stall });
    }
    lines
}
