//! Days from sowing to emergence, by the warmth of the soil.
//!
//! # Source
//! Harrington and Minges 1954, as reprinted in Knott's Handbook for Vegetable Growers: tomato, seeds half an inch deep.
//! Between the table's temperatures the rate (1 a day) is interpolated, not the days: halfway between 43 and 14 days lie
//! 21, not 28.

use record::temperature::Celsius;

/// Temperature in degrees Fahrenheit and days; no seedling emerged at 41 F and below or at 104 F.
const TABLE: [(f64, f64); 6] =
    [(50.0, 43.0), (59.0, 14.0), (68.0, 8.0), (77.0, 6.0), (86.0, 6.0), (95.0, 9.0)];
/// Where nothing emerges any more, below and above.
const NONE_AT: (f64, f64) = (41.0, 104.0);

/// Where the table comes from, in a line.
pub const SOURCE: &str = "Harrington and Minges 1954, as reprinted in Knott's Handbook for Vegetable Growers";

/// The temperatures of the table, the coldest first, from where nothing emerges yet to where nothing does any more.
pub fn table() -> impl Iterator<Item = Celsius> {
    let inner = TABLE.into_iter().map(|(fahrenheit, _)| fahrenheit);
    let all = std::iter::once(NONE_AT.0).chain(inner).chain([NONE_AT.1]);
    all.filter_map(Celsius::from_fahrenheit)
}

/// Days to emergence in soil of so many degrees Celsius; `None` where it is too cold or too hot.
#[must_use]
pub fn days(celsius: f64) -> Option<f64> {
    let fahrenheit = celsius * 1.8 + 32.0;
    let ends = [(NONE_AT.0, 0.0)].into_iter();
    let rates = TABLE.into_iter().map(|(at, days)| (at, 1.0 / days));
    let points: Vec<(f64, f64)> = ends.chain(rates).chain([(NONE_AT.1, 0.0)]).collect();
    let between = points.windows(2).find_map(|pair| match pair {
        [(from, low), (to, high)] if (*from..=*to).contains(&fahrenheit) => {
            Some(low + (high - low) * (fahrenheit - from) / (to - from))
        }
        _ => None,
    });
    between.filter(|rate| 0.0 < *rate).map(f64::recip)
}
