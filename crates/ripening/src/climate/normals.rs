//! Climates out of published normals: the monthly or daily normals of a station, as NOAA publishes them, to draw years from.
//!
//! Daily normals say how far single days stray (`DLY-TMAX-STDDEV`). Monthly ones say how far whole months do
//! (`MLY-TMAX-STDDEV`); how far days must stray for that is worked back by the chain that years are drawn with, to about a third
//! in a single month (`days_of_monthly_normals_stray_about_as_those_of_daily_ones`). Neither says how far seasons stray: the middle of the stations where it is known is taken. Start at [`read`].
//!
//! # Source
//! NOAA, U.S. Climate Normals 1991-2020, monthly and daily files. That the deviation of a month is that of its mean between
//! years is inferred from its size.

use super::shipped::SEASON_NOT_KNOWN;
use super::{Climate, Daily, LEAST_DEVIATION, MONTHS, Month, chain};
use crate::weather::table::stations::OfStation;
use crate::weather::table::{Scale, TableFault, cells, key, sign_of};
use record::place::Place;

/// A station's published means, as a climate.
#[derive(Clone, Debug, PartialEq)]
pub struct MeanNormals {
    /// Its identifier, where the file has it.
    pub station: Option<String>,
    /// Its name.
    pub name: Option<String>,
    /// Where it lies.
    pub place: Place,
    /// What they are means of.
    pub of: MeansOf,
    /// The scale that they were taken for.
    pub scale: Scale,
    /// The climate.
    pub climate: Climate,
}

/// What normals are means of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeansOf {
    /// Months.
    Months,
    /// Days of the year.
    Days,
}

/// Why normals make no climate.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MeansFault {
    /// A column is missing.
    #[error("no column {0}")]
    NoColumn(String),
    /// A month without a row, or without a number.
    #[error("month {month}: no {column} in it")]
    NoMonth {
        /// The month.
        month: usize,
        /// The column.
        column: String,
    },
    /// Numbers of no scale.
    #[error("month {0}: no mean temperatures of a climate, neither in Fahrenheit nor in Celsius")]
    WhichScale(usize),
    /// Rows of several stations.
    #[error(transparent)]
    Rows(#[from] TableFault),
}

/// The four columns: mean and deviation of the highest, then of the lowest temperatures.
const COLUMNS: [&str; 4] = ["TMAX-NORMAL", "TMAX-STDDEV", "TMIN-NORMAL", "TMIN-STDDEV"];
/// What stands before them.
const OF_MONTHS: &str = "MLY-";
const OF_DAYS: &str = "DLY-";
/// Above it no number of normals lies, and codes for what is missing lie below its opposite. Source: NOAA, U.S. Climate Normals,
/// readme: -9999 and such stand for what is not there.
const MOST: f64 = 150.0;
/// No month's mean is warmer than that in Celsius, and every summer is in Fahrenheit. Common practice, no source.
const CELSIUS_SUMMER: f64 = 48.0;
/// Mean temperatures that a month may have, in degrees Celsius. Common practice, no source.
const POSSIBLE: std::ops::RangeInclusive<f64> = -75.0..=55.0;
/// Days of a month, over which its mean is taken.
const MONTH_DAYS: u16 = 30;

/// Whether a text holds mean temperatures of months or days, by its first line.
#[must_use]
pub fn is_of_means(text: &str) -> bool {
    text.lines().next().is_some_and(|heading| {
        [OF_MONTHS, OF_DAYS].iter().any(|stem| heading.contains(&format!("{stem}{}", COLUMNS[0])))
    })
}

/// Numbers of each month: means and deviations of the highest, then of the lowest temperatures.
type Published = [[Vec<f64>; 4]; MONTHS];

/// Reads the means of one station. The scale is `given`, else told by how warm the warmest month is.
///
/// # Errors
/// [`MeansFault`] with the column, the month or the row.
pub fn read(text: &str, given: Option<Scale>) -> Result<MeanNormals, MeansFault> {
    let heading = text.lines().next().unwrap_or_default();
    let sign = sign_of(heading);
    let headings = cells(heading, sign);
    let is_of_days = headings.iter().any(|heading| *heading == column_of(OF_DAYS, 0));
    let (of, stem) = if is_of_days { (MeansOf::Days, OF_DAYS) } else { (MeansOf::Months, OF_MONTHS) };
    let columns = [0, 1, 2, 3].map(|at| column_of(stem, at));
    let mut places = [0; 4];
    for (place, column) in places.iter_mut().zip(&columns) {
        let found = headings.iter().position(|heading| heading == column);
        *place = found.ok_or_else(|| MeansFault::NoColumn(column.clone()))?;
    }
    let keys: Vec<String> = headings.iter().map(|heading| key(heading)).collect();
    let mut station = OfStation::new(&keys);
    let mut published = Published::default();
    for (row, line) in (1..).zip(text.lines()).skip(1).filter(|(_, line)| !line.trim().is_empty()) {
        let cells = cells(line, sign);
        station.learn(row, &cells)?;
        let Some(month) = month_of(&keys, &cells).and_then(|month| published.get_mut(month - 1)) else {
            continue;
        };
        for (numbers, place) in month.iter_mut().zip(places) {
            let number = cells.get(place).and_then(|cell| cell.parse().ok());
            numbers.extend(number.filter(|number: &f64| number.abs() < MOST));
        }
    }
    let months = months(&published, &columns)?;
    let warmest = months.iter().map(|month| month.highest.mean).fold(f64::NEG_INFINITY, f64::max);
    let by_summer = if warmest <= CELSIUS_SUMMER { Scale::Celsius } else { Scale::Fahrenheit };
    let scale = given.unwrap_or(by_summer);
    let months = months.map(|month| in_celsius(&month, scale, of));
    let is_possible =
        |month: &Month| [month.highest, month.lowest].iter().all(|one| POSSIBLE.contains(&one.mean));
    if let Some(at) = months.iter().position(|month| !is_possible(month)) {
        return Err(MeansFault::WhichScale(at + 1));
    }
    let OfStation { station, name, place, .. } = station;
    Ok(MeanNormals { station, name, place, of, scale, climate: Climate { months, season: SEASON_NOT_KNOWN } })
}

/// The month of a row, from 1: of its own column, else of a date such as `05` or `05-20`.
fn month_of(keys: &[String], cells: &[String]) -> Option<usize> {
    let of = |word: &str| keys.iter().position(|key| key == word).and_then(|at| cells.get(at));
    let month = of("month").or_else(|| of("date"))?;
    month.split('-').next()?.trim().parse().ok().filter(|month| (1..=MONTHS).contains(month))
}

/// Each month's mean and deviation, as published.
fn months(published: &Published, columns: &[String; 4]) -> Result<[Month; MONTHS], MeansFault> {
    let mut months = [Month::default(); MONTHS];
    for (at, (slot, [highs, high_deviations, lows, low_deviations])) in
        months.iter_mut().zip(published).enumerate()
    {
        let told = |number: Option<f64>, column: usize| {
            let column = || columns.get(column).cloned().unwrap_or_default();
            number.ok_or_else(|| MeansFault::NoMonth { month: at + 1, column: column() })
        };
        *slot = Month {
            highest: Daily {
                mean: told(mean(highs), 0)?,
                deviation: told(root_mean_square(high_deviations), 1)?,
            },
            lowest: Daily {
                mean: told(mean(lows), 2)?,
                deviation: told(root_mean_square(low_deviations), 3)?,
            },
        };
    }
    Ok(months)
}

fn column_of(stem: &str, at: usize) -> String {
    format!("{stem}{}", COLUMNS.get(at).copied().unwrap_or_default())
}

fn mean(numbers: &[f64]) -> Option<f64> {
    let count = u32::try_from(numbers.len()).ok().filter(|count| 0 < *count)?;
    Some(numbers.iter().sum::<f64>() / f64::from(count))
}

/// Days that stray by these stray by so much together.
fn root_mean_square(numbers: &[f64]) -> Option<f64> {
    let squares: Vec<f64> = numbers.iter().map(|number| number.powi(2)).collect();
    mean(&squares).map(f64::sqrt)
}

/// A month as it is published, in degrees Celsius, its deviations those of days.
fn in_celsius(month: &Month, scale: Scale, of: MeansOf) -> Month {
    let daily = |published: &Daily, parts: [f64; 2]| {
        let deviation = scale.difference_to_celsius(published.deviation);
        let of_days = match of {
            MeansOf::Days => deviation,
            MeansOf::Months => {
                let season = SEASON_NOT_KNOWN.powi(2);
                let of_days =
                    (deviation.powi(2) - season).max(0.0) / chain::variance_of_mean(parts, MONTH_DAYS);
                (of_days + season).sqrt()
            }
        };
        Daily { mean: scale.to_celsius(published.mean), deviation: of_days.max(LEAST_DEVIATION) }
    };
    Month { highest: daily(&month.highest, [1.0, 0.0]), lowest: daily(&month.lowest, [0.0, 1.0]) }
}
