//! Freeze dates of the climate normals: annual and seasonal normals as NOAA publishes them, one row a station.
//!
//! Columns such as `ANN-TMIN-PRBLST-T32FP10`: the day on or after which the last freeze of 32 F falls in 10 years of 100.
//! They are told as published and never worked out again. Degree-days are not read from normals at all; mean temperatures are read
//! by [`crate::climate::normals`].
//!
//! # Source
//! NOAA, U.S. Climate Normals 1991-2020, annual and seasonal files; meaning of the chances: supplemental climate normals
//! 1981-2010, readme.

use super::table::stations::OfStation;
use super::table::{cells, key};
use crate::frost::TOLD;
use jiff::civil::Date;
use record::place::Place;

/// Temperatures in degrees Fahrenheit that freezes are published of, the warmest first.
const PUBLISHED_AT: [u8; 6] = [36, 32, 28, 24, 20, 16];
/// What the columns of freeze dates are called, to the temperature.
const LAST: &str = "ANN-TMIN-PRBLST-T";
const FIRST: &str = "ANN-TMIN-PRBFST-T";
const SEASON: &str = "ANN-TMIN-PRBGSL-T";

/// A station's published freeze dates.
#[derive(Clone, Debug, PartialEq)]
pub struct FreezeNormals {
    /// Its identifier.
    pub station: String,
    /// Its name.
    pub name: String,
    /// Where it lies.
    pub place: Place,
    /// Freezes of each temperature, the warmest first.
    pub at: Vec<PublishedAt>,
}

/// Published freeze dates of one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct PublishedAt {
    /// The temperature, in degrees Fahrenheit.
    pub fahrenheit: u8,
    /// Years behind them, where told.
    pub years: Option<u16>,
    /// Day of a common year on which, or later, the last freeze falls in 10, 50 and 90 years of 100; `None` where none is
    /// published.
    pub last: [Option<f64>; 3],
    /// The first freeze, on that day or earlier.
    pub first: [Option<f64>; 3],
    /// Days between the two, or more.
    pub season: [Option<f64>; 3],
}

impl PublishedAt {
    /// The temperature, in degrees Celsius.
    #[must_use]
    pub fn celsius(&self) -> f64 {
        (f64::from(self.fahrenheit) - 32.0) / 1.8
    }
}

/// Why normals cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NormalsFault {
    /// No station.
    #[error("it has no station below its headings")]
    Empty,
    /// Several stations.
    #[error("it holds {0} stations")]
    Several(usize),
    /// A station without any freeze date.
    #[error("it has no freeze dates of {0}")]
    NoDates(String),
}

/// Whether a text holds freeze dates of normals, by its first line.
#[must_use]
pub fn is_of_freezes(text: &str) -> bool {
    text.lines().next().is_some_and(|heading| heading.contains(LAST))
}

/// Reads the freeze dates of one station.
///
/// # Errors
/// [`NormalsFault`] where there is no station, more than one, or none of the dates.
pub fn read(text: &str) -> Result<FreezeNormals, NormalsFault> {
    let mut lines = text.lines().filter(|line| !line.trim().is_empty());
    let headings = cells(lines.next().ok_or(NormalsFault::Empty)?, ',');
    let row = cells(lines.next().ok_or(NormalsFault::Empty)?, ',');
    let more = lines.count();
    if 0 < more {
        return Err(NormalsFault::Several(more + 1));
    }
    let cell = |heading: &str| {
        let at = headings.iter().position(|one| one == heading)?;
        row.get(at).map(|cell| cell.trim()).filter(|cell| !cell.is_empty())
    };
    let name = cell("NAME").or(cell("STATION")).unwrap_or_default().to_owned();
    let at = PUBLISHED_AT.iter().map(|fahrenheit| {
        let column = |stem: &str, in_100: f64| format!("{stem}{fahrenheit:02}FP{in_100:.0}");
        let told = |stem: &str, read: fn(&str) -> Option<f64>| {
            TOLD.map(|in_100| cell(&column(stem, in_100)).and_then(read))
        };
        PublishedAt {
            fahrenheit: *fahrenheit,
            years: cell(&format!("years_{}", column(LAST, 50.0))).and_then(|years| years.parse().ok()),
            last: told(LAST, day),
            first: told(FIRST, day),
            season: told(SEASON, days),
        }
    });
    let has_dates = |one: &PublishedAt| one.last.iter().chain(&one.first).any(Option::is_some);
    let at: Vec<PublishedAt> = at.filter(has_dates).collect();
    if at.is_empty() {
        return Err(NormalsFault::NoDates(name));
    }
    let keys: Vec<String> = headings.iter().map(|heading| key(heading)).collect();
    let mut of = OfStation::new(&keys);
    // One row cannot be of another station than itself.
    let place = of.learn(1, &row).map_or_else(|_| Place::default(), |()| of.place);
    Ok(FreezeNormals { station: cell("STATION").unwrap_or_default().to_owned(), name, place, at })
}

/// `05/24` as the day of a common year; codes for what is not defined, such as -8888, are none.
fn day(cell: &str) -> Option<f64> {
    let (month, day) = cell.split_once('/')?;
    let date = Date::new(2001, month.trim().parse().ok()?, day.trim().parse().ok()?).ok()?;
    Some(f64::from(date.day_of_year()))
}

/// A number of days; codes for what is not defined are negative.
fn days(cell: &str) -> Option<f64> {
    cell.parse().ok().filter(|days| (0.0..=366.0).contains(days))
}
