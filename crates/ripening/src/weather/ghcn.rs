//! The daily files of the Global Historical Climatology Network, one line a station, month and element.
//!
//! # Source
//! NOAA, readme.txt of the Global Historical Climatology Network - Daily: identifier in columns 1 to 11, year 12 to 15,
//! month 16 and 17, element 18 to 21, then for each of 31 days a value of five columns and three flags. Values are tenths
//! of a degree; -9999 is missing, and so is a value with a quality flag.

use super::{Days, Reading};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// Columns of a day: value and three flags.
const DAY: usize = 8;
/// Where the first day begins.
const FIRST_DAY: usize = 21;
/// Where the quality flag stands within a day.
const QUALITY: usize = 6;
/// Missing.
const MISSING: i32 = -9999;

/// Why a file is none of these.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum GhcnFault {
    /// A line that cannot be read.
    #[error("line {line}: {what}")]
    Line {
        /// The line, counted from 1.
        line: usize,
        /// What is wrong.
        what: String,
    },
    /// Lines of several stations.
    #[error("line {line}: station {other}, after lines of station {station}")]
    Stations {
        /// The line.
        line: usize,
        /// The first station.
        station: String,
        /// The other.
        other: String,
    },
    /// No temperature at all.
    #[error("no lowest or highest temperature in it (elements TMIN and TMAX)")]
    NoTemperature,
}

/// Reads a file; lines of other elements are passed over, and so are values that failed a check of the network's own.
///
/// # Errors
/// [`GhcnFault`] with the line.
pub fn read(text: &str) -> Result<(String, Days), GhcnFault> {
    let mut readings: BTreeMap<Date, Reading> = BTreeMap::new();
    let mut station: Option<String> = None;
    for (number, line) in (1..).zip(text.lines()).filter(|(_, line)| !line.trim().is_empty()) {
        let fault = |what: String| GhcnFault::Line { line: number, what };
        let head =
            line.get(..FIRST_DAY).ok_or_else(|| fault(format!("{:?} is too short", line.trim_end())))?;
        let own = head.get(..11).unwrap_or_default();
        match &station {
            Some(first) if first != own => {
                return Err(GhcnFault::Stations {
                    line: number,
                    station: first.clone(),
                    other: own.to_owned(),
                });
            }
            Some(_) => {}
            None => station = Some(own.to_owned()),
        }
        let element = head.get(17..).unwrap_or_default();
        if element != "TMIN" && element != "TMAX" {
            continue;
        }
        let year =
            whole::<i16>(head.get(11..15)).ok_or_else(|| fault("no year in columns 12 to 15".to_owned()))?;
        let month =
            whole::<i8>(head.get(15..17)).ok_or_else(|| fault("no month in columns 16 and 17".to_owned()))?;
        for day in 1..=31_i8 {
            let start = FIRST_DAY + DAY * usize::from(day.unsigned_abs() - 1);
            // Trailing blanks may have been trimmed away.
            let Some(value) = line.get(start..line.len().min(start + 5)) else { break };
            let degrees = whole::<i32>(Some(value))
                .ok_or_else(|| fault(format!("day {day}: {value:?} is no number")))?;
            let flag = line.as_bytes().get(start + QUALITY).copied().unwrap_or(b' ');
            if degrees == MISSING || flag != b' ' {
                continue;
            }
            let date = Date::new(year, month, day)
                .map_err(|_| fault(format!("there is no day {day} in {year}-{month:02}")))?;
            let reading = readings.entry(date).or_default();
            let degrees = Some(f64::from(degrees) / 10.0);
            if element == "TMIN" {
                reading.lowest = degrees;
            } else {
                reading.highest = degrees;
            }
        }
    }
    let days = Days::new(&readings).ok_or(GhcnFault::NoTemperature)?;
    Ok((station.unwrap_or_default(), days))
}

fn whole<T: std::str::FromStr>(text: Option<&str>) -> Option<T> {
    text?.trim().parse().ok()
}
