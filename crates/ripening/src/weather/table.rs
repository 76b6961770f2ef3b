//! Any table of days: a column of dates, one of lowest and one of highest temperatures, with commas, semicolons or tabs.

mod dates;
pub mod stations;

use super::{Days, Reading};
use dates::Dates;
use jiff::civil::Date;
use record::place::Place;
use stations::OfStation;
use std::collections::BTreeMap;

/// A scale of temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Tenths of a degree Celsius.
    Tenths,
}

/// How a table's scale was told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ToldBy {
    /// By whoever brought it.
    Bringer,
    /// By its headings.
    Headings,
    /// By how warm its summers are.
    Summers,
}

/// A table that was read.
#[derive(Clone, Debug)]
pub struct Table {
    /// The station's identifier, where a column has it.
    pub station: Option<String>,
    /// What it is called.
    pub name: Option<String>,
    /// Where it lies.
    pub place: Place,
    /// Its days.
    pub days: Days,
    /// The scale that its numbers were taken for.
    pub scale: Scale,
    /// How that was told.
    pub told_by: ToldBy,
}

/// Words for the columns, folded to small letters and figures.
const LOWEST: [&str; 22] = [
    "tmin",
    "mint",
    "tn",
    "min",
    "low",
    "lowest",
    "minimum",
    "mintemp",
    "lowtemp",
    "tempmin",
    "templow",
    "tempminimum",
    "mintemperature",
    "minimumtemp",
    "minimumtemperature",
    "lowtemperature",
    "lowesttemperature",
    "lowesttemp",
    "temperaturemin",
    "temperatureminimum",
    "temperaturelow",
    "dailyminimum",
];
const HIGHEST: [&str; 22] = [
    "tmax",
    "maxt",
    "tx",
    "max",
    "high",
    "highest",
    "maximum",
    "maxtemp",
    "hightemp",
    "tempmax",
    "temphigh",
    "tempmaximum",
    "maxtemperature",
    "maximumtemp",
    "maximumtemperature",
    "hightemperature",
    "highesttemperature",
    "highesttemp",
    "temperaturemax",
    "temperaturemaximum",
    "temperaturehigh",
    "dailymaximum",
];
/// Columns of the network's access files that hold three flags of a reading: of measurement, quality and source, parted by
/// commas. Source of their order: NOAA, readme.txt of the Global Historical Climatology Network - Daily; of the headings: from
/// memory, unverified.
const LOWEST_FLAGS: &str = "tminattributes";
const HIGHEST_FLAGS: &str = "tmaxattributes";
/// What stands for a missing number in exports.
const MISSING: [&str; 5] = ["", "na", "-9999", "m", "null"];

/// What the hottest twentieth of days begins at: below the first in no place with a summer, above it in Celsius nowhere,
/// above the next in Fahrenheit nowhere. Common practice, no source.
const SUMMERS: [f64; 3] = [15.0, 45.0, 130.0];
/// Days that hold a summer for sure.
const A_YEAR: usize = 365;

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
    /// Rows of several stations.
    #[error("row {row}: station {other}, after rows of station {station}")]
    Stations {
        /// The row.
        row: usize,
        /// The first station.
        station: String,
        /// The other.
        other: String,
    },
    /// Nobody said whether degrees are Celsius or Fahrenheit, and the numbers do not tell.
    #[error("nothing says whether its degrees are Celsius or Fahrenheit")]
    WhichScale,
    /// No day at all.
    #[error("no day with a temperature in it")]
    Empty,
}

/// The headings of a table of days, where its first line has a column of dates, one of lowest and one of highest
/// temperatures.
#[must_use]
pub fn headings_of_days(text: &str) -> Option<Vec<String>> {
    let heading = text.lines().find(|line| !line.trim().is_empty())?;
    let cells = cells(heading, sign_of(heading));
    let headings: Vec<String> = cells.iter().map(|cell| key(cell)).collect();
    let has = |words: &[&str]| column(&headings, words).is_some();
    (Dates::of(&headings).is_some() && has(&LOWEST) && has(&HIGHEST)).then_some(cells)
}

/// Reads a table. The scale is `given`, else told by a heading such as `tmin_c` or `Low (F)`, else by the summers of a
/// record of a year or more.
///
/// # Errors
/// [`TableFault`] with the row.
pub fn read(text: &str, given: Option<Scale>) -> Result<Table, TableFault> {
    let mut lines = (1..).zip(text.lines()).filter(|(_, line)| !line.trim().is_empty());
    let (_, heading) = lines.next().ok_or(TableFault::Empty)?;
    let sign = sign_of(heading);
    let headings: Vec<String> = cells(heading, sign).iter().map(|cell| key(cell)).collect();
    let column = |words: &[&str], what| column(&headings, words).ok_or(TableFault::NoColumn(what));
    let dates = Dates::of(&headings).ok_or(TableFault::NoColumn("dates"))?;
    let (lowest, by_lowest) = column(&LOWEST, "lowest temperatures")?;
    let (highest, by_highest) = column(&HIGHEST, "highest temperatures")?;
    let [lowest_flags, highest_flags] =
        [LOWEST_FLAGS, HIGHEST_FLAGS].map(|word| headings.iter().position(|heading| heading == word));
    let mut readings: BTreeMap<Date, Reading> = BTreeMap::new();
    let mut of = OfStation::new(&headings);
    let rows: Vec<(usize, Vec<String>)> = lines.map(|(row, line)| (row, cells(line, sign))).collect();
    let dates = dates.told_by(rows.iter().map(|(_, cells)| cells.as_slice()));
    for (row, cells) in &rows {
        let (row, cell) = (*row, |at: usize| cells.get(at).map(String::as_str).unwrap_or_default());
        of.learn(row, cells)?;
        let on = dates.day(cells).map_err(|words| fault(row, "date", &words, dates.wanted(&words)))?;
        let degrees = |at: usize, flags: Option<usize>, column| {
            let text = cell(at);
            if flags.is_some_and(|flags| is_doubtful(cell(flags))) {
                return Ok(None);
            }
            if MISSING.contains(&text.to_lowercase().as_str()) {
                return Ok(None);
            }
            // A comma that parts no cells is a decimal one.
            let number: Option<f64> =
                text.replace(',', ".").parse().ok().filter(|number: &f64| number.is_finite());
            number.map(Some).ok_or_else(|| fault(row, column, text, "number"))
        };
        let reading = Reading {
            lowest: degrees(lowest, lowest_flags, "lowest temperature")?,
            highest: degrees(highest, highest_flags, "highest temperature")?,
        };
        if readings.insert(on, reading).is_some_and(|before| before != reading) {
            return Err(TableFault::Twice { row, date: on });
        }
    }
    let by_headings = || by_lowest.or(by_highest).map(|scale| (scale, ToldBy::Headings));
    let by_numbers = || by_summers(&readings).map(|scale| (scale, ToldBy::Summers));
    let told = given.map(|scale| (scale, ToldBy::Bringer)).or_else(by_headings).or_else(by_numbers);
    let (scale, told_by) = told.ok_or(TableFault::WhichScale)?;
    for reading in readings.values_mut() {
        let celsius = |degrees: f64| scale.to_celsius(degrees);
        *reading = Reading { lowest: reading.lowest.map(celsius), highest: reading.highest.map(celsius) };
    }
    if readings.values().all(|reading| *reading == Reading::default()) {
        return Err(TableFault::Empty);
    }
    let days = Days::new(&readings).ok_or(TableFault::Empty)?;
    let OfStation { station, name, place, .. } = of;
    Ok(Table { station, name, place, days, scale, told_by })
}

/// The sign that parts cells.
pub(crate) fn sign_of(heading: &str) -> char {
    [',', ';', '\t'].into_iter().max_by_key(|sign| heading.matches(*sign).count()).unwrap_or(',')
}

impl Scale {
    pub(crate) fn to_celsius(self, degrees: f64) -> f64 {
        match self {
            Self::Fahrenheit => self.difference_to_celsius(degrees - 32.0),
            Self::Celsius | Self::Tenths => self.difference_to_celsius(degrees),
        }
    }

    /// A difference of temperatures, which knows no zero.
    pub(crate) fn difference_to_celsius(self, degrees: f64) -> f64 {
        match self {
            Self::Celsius => degrees,
            Self::Fahrenheit => degrees / 1.8,
            Self::Tenths => degrees / 10.0,
        }
    }
}

/// Whether a reading's flags say that it failed a check of the network's own.
fn is_doubtful(flags: &str) -> bool {
    flags.split(',').nth(1).is_some_and(|quality| !quality.trim().is_empty())
}

fn fault(row: usize, column: &'static str, value: &str, what: &'static str) -> TableFault {
    TableFault::Cell { row, column, value: value.to_owned(), what }
}

/// The cells of a line, without quotes: a name such as `"Mill, upper"` is one cell.
pub(crate) fn cells(line: &str, sign: char) -> Vec<String> {
    let plain = |cells: &mut dyn Iterator<Item = &str>| cells.map(|cell| cell.trim().to_owned()).collect();
    if !line.contains('"') {
        return plain(&mut line.split(sign));
    }
    // The signs that part cells are all of one byte.
    let delimiter = u8::try_from(sign).unwrap_or(b',');
    let mut reader =
        csv::ReaderBuilder::new().has_headers(false).delimiter(delimiter).from_reader(line.as_bytes());
    let quoted = reader.records().next().and_then(Result::ok);
    quoted.map_or_else(|| plain(&mut line.split(sign)), |record| plain(&mut record.iter()))
}

/// A heading in small letters and figures.
pub(crate) fn key(heading: &str) -> String {
    // Some programs write the degree as the sign of a masculine ordinal, which is a letter.
    let is_told = |sign: &char| sign.is_alphanumeric() && *sign != '\u{ba}';
    heading.chars().filter(is_told).flat_map(char::to_lowercase).collect()
}

/// The column that one of the words names, with its scale where the heading tells it.
fn column(headings: &[String], words: &[&str]) -> Option<(usize, Option<Scale>)> {
    let scaled = |heading: &str, word: &str| match heading.strip_prefix(word) {
        Some("") => Some(None),
        Some("c" | "degc" | "celsius") => Some(Some(Scale::Celsius)),
        Some("f" | "degf" | "fahrenheit") => Some(Some(Scale::Fahrenheit)),
        _ => None,
    };
    // The words come first: where a table has a date and a day of the month, the date counts.
    words.iter().find_map(|word| {
        let of = |heading: &String| scaled(heading, word);
        headings.iter().enumerate().find_map(|(at, heading)| Some((at, of(heading)?)))
    })
}

/// The scale by how warm the hottest twentieth of days is, in a record that holds a summer.
fn by_summers(readings: &BTreeMap<Date, Reading>) -> Option<Scale> {
    let mut highest: Vec<f64> = readings.values().filter_map(|reading| reading.highest).collect();
    highest.sort_by(f64::total_cmp);
    let hot = highest.get(highest.len() * 19 / 20).filter(|_| A_YEAR <= highest.len())?;
    let [least, celsius, fahrenheit] = SUMMERS;
    match *hot {
        cold if cold < least => None,
        warm if warm <= celsius => Some(Scale::Celsius),
        warm if warm <= fahrenheit => Some(Scale::Fahrenheit),
        _ => Some(Scale::Tenths),
    }
}
