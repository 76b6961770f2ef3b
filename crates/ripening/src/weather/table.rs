//! Any table of days: a column of dates, one of lowest and one of highest temperatures, with commas, semicolons or tabs.

use super::{Days, Reading};
use jiff::civil::Date;
use std::collections::BTreeMap;

/// A scale of temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
}

/// Words for the columns, folded to small letters and figures.
const DATE: [&str; 3] = ["date", "day", "datetime"];
const LOWEST: [&str; 8] = ["tmin", "min", "low", "lowest", "mintemp", "tempmin", "temperaturemin", "minimum"];
const HIGHEST: [&str; 8] =
    ["tmax", "max", "high", "highest", "maxtemp", "tempmax", "temperaturemax", "maximum"];
/// What stands for a missing number in exports.
const MISSING: [&str; 5] = ["", "na", "-9999", "m", "null"];

/// Highest temperature of a summer that Celsius does not reach on most days: more is Fahrenheit, or tenths.
const HOTTEST_CELSIUS: f64 = 45.0;

/// Why a table of days cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TableFault {
    /// A column is missing.
    #[error("no column of {0}")]
    NoColumn(&'static str),
    /// A cell that cannot be read.
    #[error("row {row}: {column}: {value:?} is no {what}")]
    Cell {
        /// The row, counted from 1 with the heading.
        row: usize,
        /// The column.
        column: &'static str,
        /// The cell.
        value: String,
        /// What it should be.
        what: &'static str,
    },
    /// A day that stands twice with different readings.
    #[error("row {row}: {date} stands in it twice, with different temperatures")]
    Twice {
        /// The row.
        row: usize,
        /// The day.
        date: Date,
    },
    /// Nobody said whether degrees are Celsius or Fahrenheit, and the numbers do not tell.
    #[error("nothing says whether its degrees are Celsius or Fahrenheit")]
    WhichScale,
    /// No day at all.
    #[error("no day with a temperature in it")]
    Empty,
}

/// Reads a table. The scale is `given`, else told by a heading such as `tmin_c` or `Low (F)`, else by summers that are too
/// hot for Celsius.
///
/// # Errors
/// [`TableFault`] with the row.
pub fn read(text: &str, given: Option<Scale>) -> Result<Days, TableFault> {
    let mut lines = (1..).zip(text.lines()).filter(|(_, line)| !line.trim().is_empty());
    let (_, heading) = lines.next().ok_or(TableFault::Empty)?;
    let sign = [',', ';', '\t'].into_iter().max_by_key(|sign| heading.matches(*sign).count()).unwrap_or(',');
    let headings: Vec<String> = cells(heading, sign).iter().map(|cell| key(cell)).collect();
    let column = |words: &[&str], what| column(&headings, words).ok_or(TableFault::NoColumn(what));
    let (date, _) = column(&DATE, "dates")?;
    let (lowest, by_lowest) = column(&LOWEST, "lowest temperatures")?;
    let (highest, by_highest) = column(&HIGHEST, "highest temperatures")?;
    let mut readings: BTreeMap<Date, Reading> = BTreeMap::new();
    for (row, line) in lines {
        let cells = cells(line, sign);
        let cell = |at: usize| cells.get(at).map(String::as_str).unwrap_or_default();
        let on = day(cell(date)).ok_or_else(|| fault(row, "date", cell(date), "date, such as 2031-05-20"))?;
        let degrees = |at: usize, column| {
            let text = cell(at);
            if MISSING.contains(&text.to_lowercase().as_str()) {
                return Ok(None);
            }
            let number: Option<f64> = text.parse().ok().filter(|number: &f64| number.is_finite());
            number.map(Some).ok_or_else(|| fault(row, column, text, "number"))
        };
        let reading = Reading {
            lowest: degrees(lowest, "lowest temperature")?,
            highest: degrees(highest, "highest temperature")?,
        };
        if readings.insert(on, reading).is_some_and(|before| before != reading) {
            return Err(TableFault::Twice { row, date: on });
        }
    }
    let scale = given.or(by_lowest).or(by_highest).or_else(|| by_summers(&readings));
    if scale.ok_or(TableFault::WhichScale)? == Scale::Fahrenheit {
        for reading in readings.values_mut() {
            let celsius = |degrees: f64| (degrees - 32.0) / 1.8;
            *reading = Reading { lowest: reading.lowest.map(celsius), highest: reading.highest.map(celsius) };
        }
    }
    Days::new(&readings).ok_or(TableFault::Empty)
}

fn fault(row: usize, column: &'static str, value: &str, what: &'static str) -> TableFault {
    TableFault::Cell { row, column, value: value.to_owned(), what }
}

fn cells(line: &str, sign: char) -> Vec<String> {
    line.split(sign).map(|cell| cell.trim().trim_matches('"').trim().to_owned()).collect()
}

/// A heading in small letters and figures.
fn key(heading: &str) -> String {
    heading.chars().filter(|sign| sign.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// The column that one of the words names, with its scale where the heading tells it.
fn column(headings: &[String], words: &[&str]) -> Option<(usize, Option<Scale>)> {
    let scaled = |heading: &str, word: &str| match heading.strip_prefix(word) {
        Some("") => Some(None),
        Some("c" | "degc" | "celsius") => Some(Some(Scale::Celsius)),
        Some("f" | "degf" | "fahrenheit") => Some(Some(Scale::Fahrenheit)),
        _ => None,
    };
    let of = |heading: &String| words.iter().find_map(|word| scaled(heading, word));
    headings.iter().enumerate().find_map(|(at, heading)| Some((at, of(heading)?)))
}

/// A date as ISO writes it, with or without hyphens, or with a time behind it.
fn day(text: &str) -> Option<Date> {
    let plain = text.get(..10).unwrap_or(text);
    plain.parse().ok().or_else(|| {
        let digits = text.len() == 8 && text.bytes().all(|sign| sign.is_ascii_digit());
        let part = |from: usize, to: usize| text.get(from..to).and_then(|part| part.parse::<i16>().ok());
        let (year, month, day) = (part(0, 4)?, part(4, 6)?, part(6, 8)?);
        digits.then(|| Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()).flatten()
    })
}

/// Fahrenheit where the middle of the warmest tenth of days is hotter than any summer in Celsius; else nothing is told,
/// as cool summers in Fahrenheit look like hot ones in Celsius.
fn by_summers(readings: &BTreeMap<Date, Reading>) -> Option<Scale> {
    let mut highest: Vec<f64> = readings.values().filter_map(|reading| reading.highest).collect();
    highest.sort_by(f64::total_cmp);
    let hot = highest.get(highest.len() * 19 / 20)?;
    (HOTTEST_CELSIUS < *hot && *hot < 130.0).then_some(Scale::Fahrenheit)
}
