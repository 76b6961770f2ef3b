//! Any table of days: a column of dates, one of lowest and one of highest temperatures, with commas, semicolons or tabs.

use super::{Days, Reading};
use jiff::civil::Date;
use record::place::{Elevation, Latitude, Longitude, Place};
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
const DATE: [&str; 3] = ["date", "day", "datetime"];
const LOWEST: [&str; 8] = ["tmin", "min", "low", "lowest", "mintemp", "tempmin", "temperaturemin", "minimum"];
const HIGHEST: [&str; 8] =
    ["tmax", "max", "high", "highest", "maxtemp", "tempmax", "temperaturemax", "maximum"];
/// Words for columns that tell of the station; elevations are in metres, as the network's exports have them.
const STATION: [&str; 2] = ["station", "stationid"];
const NAME: [&str; 2] = ["name", "stationname"];
const LATITUDE: [&str; 2] = ["latitude", "lat"];
const LONGITUDE: [&str; 3] = ["longitude", "long", "lon"];
const ELEVATION: [&str; 3] = ["elevation", "elevationm", "elev"];
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
    (has(&DATE) && has(&LOWEST) && has(&HIGHEST)).then_some(cells)
}

/// Whether a heading stands over stations' identifiers.
#[must_use]
pub fn is_station(heading: &str) -> bool {
    STATION.contains(&key(heading).as_str())
}

/// Whether a heading tells of the station rather than of its days.
#[must_use]
pub fn tells_of_station(heading: &str) -> bool {
    let words = STATION.iter().chain(&NAME).chain(&LATITUDE).chain(&LONGITUDE).chain(&ELEVATION);
    words.into_iter().any(|word| *word == key(heading))
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
    let (date, _) = column(&DATE, "dates")?;
    let (lowest, by_lowest) = column(&LOWEST, "lowest temperatures")?;
    let (highest, by_highest) = column(&HIGHEST, "highest temperatures")?;
    let [lowest_flags, highest_flags] =
        [LOWEST_FLAGS, HIGHEST_FLAGS].map(|word| headings.iter().position(|heading| heading == word));
    let mut readings: BTreeMap<Date, Reading> = BTreeMap::new();
    let mut of = OfStation::new(&headings);
    for (row, line) in lines {
        let cells = cells(line, sign);
        let cell = |at: usize| cells.get(at).map(String::as_str).unwrap_or_default();
        of.learn(row, &cells)?;
        let on = day(cell(date)).ok_or_else(|| fault(row, "date", cell(date), "date, such as 2031-05-20"))?;
        let degrees = |at: usize, flags: Option<usize>, column| {
            let text = cell(at);
            if flags.is_some_and(|flags| is_doubtful(cell(flags))) {
                return Ok(None);
            }
            if MISSING.contains(&text.to_lowercase().as_str()) {
                return Ok(None);
            }
            let number: Option<f64> = text.parse().ok().filter(|number: &f64| number.is_finite());
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

/// What the rows tell of the station.
struct OfStation {
    columns: [Option<usize>; 5],
    station: Option<String>,
    name: Option<String>,
    place: Place,
}

impl OfStation {
    fn new(headings: &[String]) -> Self {
        let at = |words: &[&str]| {
            words.iter().find_map(|word| headings.iter().position(|heading| heading == word))
        };
        let columns = [at(&STATION), at(&NAME), at(&LATITUDE), at(&LONGITUDE), at(&ELEVATION)];
        Self { columns, station: None, name: None, place: Place::default() }
    }

    /// Learns what a row tells and no row before did.
    fn learn(&mut self, row: usize, cells: &[String]) -> Result<(), TableFault> {
        let [station, name, latitude, longitude, elevation] =
            self.columns.map(|at| cells.get(at?).map(String::as_str).filter(|cell| !cell.is_empty()));
        match (&self.station, station) {
            (Some(first), Some(other)) if first != other => {
                return Err(TableFault::Stations { row, station: first.clone(), other: other.to_owned() });
            }
            (None, Some(first)) => self.station = Some(first.to_owned()),
            _ => {}
        }
        if self.name.is_none() {
            self.name = name.map(str::to_owned);
        }
        let number = |cell: Option<&str>| cell.and_then(|cell| cell.parse::<f64>().ok());
        self.place = self.place.or(Place {
            latitude: number(latitude).and_then(Latitude::new),
            longitude: number(longitude).and_then(Longitude::new),
            elevation: number(elevation).and_then(Elevation::new),
        });
        Ok(())
    }
}

/// The sign that parts cells.
fn sign_of(heading: &str) -> char {
    [',', ';', '\t'].into_iter().max_by_key(|sign| heading.matches(*sign).count()).unwrap_or(',')
}

impl Scale {
    fn to_celsius(self, degrees: f64) -> f64 {
        match self {
            Self::Celsius => degrees,
            Self::Fahrenheit => (degrees - 32.0) / 1.8,
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
pub(super) fn cells(line: &str, sign: char) -> Vec<String> {
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
    // The words come first: where a table has a date and a day of the month, the date counts.
    words.iter().find_map(|word| {
        let of = |heading: &String| scaled(heading, word);
        headings.iter().enumerate().find_map(|(at, heading)| Some((at, of(heading)?)))
    })
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
