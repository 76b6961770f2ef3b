//! The daily files of the Global Historical Climatology Network: one line a station, month and element ([`read`]), or one
//! value a line with commas ([`read_values`]).
//!
//! # Source
//! NOAA, readme.txt of the Global Historical Climatology Network - Daily: identifier in columns 1 to 11, year 12 to 15,
//! month 16 and 17, element 18 to 21, then for each of 31 days a value of five columns and three flags. Values are tenths
//! of a degree; -9999 is missing, and so is a value with a quality flag. readme-by_station.txt: identifier, day, element,
//! value, three flags and time of observation, with no heading to rely on.

use super::{Days, Month, Reading};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// Columns of a day: value and three flags.
const DAY: usize = 8;
/// Columns of the value.
const VALUE: usize = 5;
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
    let mut months: BTreeMap<(i16, i8), Month> = BTreeMap::new();
    let mut station: Option<&str> = None;
    for (number, line) in (1..).zip(text.lines()).filter(|(_, line)| !line.trim().is_empty()) {
        let fault = |what: String| GhcnFault::Line { line: number, what };
        let head =
            line.get(..FIRST_DAY).ok_or_else(|| fault(format!("{:?} is too short", line.trim_end())))?;
        let own = head.get(..11).unwrap_or_default();
        let first = *station.get_or_insert(own);
        if first != own {
            let (station, other) = (first.to_owned(), own.to_owned());
            return Err(GhcnFault::Stations { line: number, station, other });
        }
        let element = head.get(17..).unwrap_or_default();
        if element != "TMIN" && element != "TMAX" {
            continue;
        }
        let begins = month_of(head).map_err(fault)?;
        let month = months.entry((begins.year(), begins.month())).or_insert(Month::UNREAD);
        let column = if element == "TMIN" { &mut month.lowest } else { &mut month.highest };
        read_days(line.as_bytes().get(FIRST_DAY..).unwrap_or_default(), begins, column).map_err(fault)?;
    }
    let days = Days::of_months(&months).ok_or(GhcnFault::NoTemperature)?;
    Ok((station.unwrap_or_default().to_owned(), days))
}

/// The first day of the month that a line is of.
fn month_of(head: &str) -> Result<Date, String> {
    let year = whole::<i16>(head.get(11..15)).ok_or("no year in columns 12 to 15")?;
    let month = whole::<i8>(head.get(15..17)).ok_or("no month in columns 16 and 17")?;
    Date::new(year, month, 1).map_err(|_| format!("there is no month {month}"))
}

/// Reads the days of a line: five columns of value and three of flags each. Trailing blanks may have been trimmed away.
fn read_days(days: &[u8], begins: Date, column: &mut [f64; 31]) -> Result<(), String> {
    let length = begins.days_in_month();
    for (day, (cell, slot)) in (1_i8..).zip(days.chunks(DAY).zip(column)) {
        let value = match cell.get(..VALUE) {
            Some(value) => value,
            None if cell.trim_ascii().is_empty() => break,
            None => return Err(format!("day {day}: {:?} breaks off", String::from_utf8_lossy(cell))),
        };
        let tenths = integer(value)
            .ok_or_else(|| format!("day {day}: {:?} is no number", String::from_utf8_lossy(value)))?;
        if tenths == MISSING || cell.get(QUALITY).is_some_and(|flag| *flag != b' ') {
            continue;
        }
        if length < day {
            return Err(format!("there is no day {day} in {}-{:02}", begins.year(), begins.month()));
        }
        *slot = f64::from(tenths) / 10.0;
    }
    Ok(())
}

/// A whole number of a few digits between blanks; read digit by digit, for a file has a million of them.
fn integer(cell: &[u8]) -> Option<i32> {
    let cell = cell.trim_ascii();
    let (sign, digits) = match cell {
        [b'-', digits @ ..] => (-1, digits),
        [b'+', digits @ ..] => (1, digits),
        digits => (1, digits),
    };
    let figure =
        |so_far: i32, digit: &u8| digit.is_ascii_digit().then(|| 10 * so_far + i32::from(digit - b'0'));
    let read = digits.iter().try_fold(0, figure).filter(|_| !digits.is_empty());
    read.map(|read| sign * read)
}

/// Whether a text is of one value a line, as the network writes files by station and by year.
#[must_use]
pub fn is_of_values(text: &str) -> bool {
    let first = text.lines().map(str::trim).find(|line| !line.is_empty() && !is_heading(line));
    first.is_some_and(|line| {
        let mut cells = line.split(',').map(bare);
        let station = cells.next().is_some_and(is_station);
        let (day, element) = (cells.next().and_then(day_of), cells.next());
        station && day.is_some() && element.is_some_and(is_element)
    })
}

/// Whether a text is of one line a station, month and element, as the network writes files by station.
#[must_use]
pub fn is_of_months(text: &str) -> bool {
    let first = text.lines().find(|line| !line.trim().is_empty());
    let head = first.and_then(|line| line.get(..FIRST_DAY + DAY));
    let part = |from: usize, to: usize| head.and_then(|head| head.get(from..to)).unwrap_or_default();
    let year_and_month = part(11, 17);
    let digits = year_and_month.len() == 6 && year_and_month.bytes().all(|sign| sign.is_ascii_digit());
    let value = whole::<i32>(Some(part(FIRST_DAY, FIRST_DAY + 5)));
    digits && is_station(part(0, 11)) && is_element(part(17, FIRST_DAY)) && value.is_some()
}

/// Whether a line of one value is of a station.
#[must_use]
pub fn is_of(line: &[u8], station: &str) -> bool {
    let first = line.split(|sign| *sign == b',').next().unwrap_or_default();
    let first = first.trim_ascii();
    let bare = first.strip_prefix(b"\"").and_then(|cell| cell.strip_suffix(b"\"")).unwrap_or(first);
    bare == station.as_bytes()
}

/// Whether a word can be a station's identifier: eleven figures and capitals, `_` and `-` among them.
#[must_use]
pub fn is_station(cell: &str) -> bool {
    let fits = |sign: u8| sign.is_ascii_digit() || sign.is_ascii_uppercase() || matches!(sign, b'_' | b'-');
    cell.len() == 11 && cell.bytes().all(fits)
}

/// Four capitals, or figures behind the first.
fn is_element(cell: &str) -> bool {
    let starts = cell.bytes().next().is_some_and(|sign| sign.is_ascii_uppercase());
    starts && cell.len() == 4 && cell.bytes().all(|sign| sign.is_ascii_uppercase() || sign.is_ascii_digit())
}

/// Reads one value a line; lines of other elements are passed over, and so are values that failed a check of the network's
/// own. A file by year holds many stations and is refused with the first two.
///
/// # Errors
/// [`GhcnFault`] with the line.
pub fn read_values(text: &str) -> Result<(String, Days), GhcnFault> {
    let mut readings: BTreeMap<Date, Reading> = BTreeMap::new();
    let mut station: Option<&str> = None;
    let lines = (1..).zip(text.lines()).filter(|(_, line)| !line.trim().is_empty() && !is_heading(line));
    for (number, line) in lines {
        let fault = |what: String| GhcnFault::Line { line: number, what };
        let cells: Vec<&str> = line.split(',').map(bare).collect();
        let [own, day, element, value, flags @ ..] = cells.as_slice() else {
            return Err(fault(format!("{:?} has too few columns", line.trim())));
        };
        let first = *station.get_or_insert(own);
        if first != *own {
            let (station, other) = (first.to_owned(), (*own).to_owned());
            return Err(GhcnFault::Stations { line: number, station, other });
        }
        if *element != "TMIN" && *element != "TMAX" {
            continue;
        }
        let date = day_of(day).ok_or_else(|| fault(format!("{day:?} is no day such as 20310520")))?;
        let degrees = whole::<i32>(Some(value)).ok_or_else(|| fault(format!("{value:?} is no number")))?;
        // The flags are of measurement, quality and source.
        let is_doubtful = flags.get(1).is_some_and(|quality| !quality.is_empty());
        if degrees == MISSING || is_doubtful {
            continue;
        }
        let reading = readings.entry(date).or_default();
        let degrees = Some(f64::from(degrees) / 10.0);
        if *element == "TMIN" {
            reading.lowest = degrees;
        } else {
            reading.highest = degrees;
        }
    }
    let days = Days::new(&readings).ok_or(GhcnFault::NoTemperature)?;
    Ok((station.unwrap_or_default().to_owned(), days))
}

fn bare(cell: &str) -> &str {
    cell.trim().trim_matches('"').trim()
}

fn is_heading(line: &str) -> bool {
    let first = line.split(',').next().map(bare).unwrap_or_default();
    first.eq_ignore_ascii_case("id") || first.eq_ignore_ascii_case("station")
}

/// A day of eight figures.
fn day_of(text: &str) -> Option<Date> {
    let digits = text.len() == 8 && text.bytes().all(|sign| sign.is_ascii_digit());
    let date = || Date::new(whole(text.get(..4))?, whole(text.get(4..6))?, whole(text.get(6..))?).ok();
    digits.then(date).flatten()
}

fn whole<T: std::str::FromStr>(text: Option<&str>) -> Option<T> {
    text?.trim().parse().ok()
}
