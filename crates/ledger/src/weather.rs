//! Weather records: the days of a station as its file told them, and where stations lie.
//!
//! A record is never edited. A longer file of the same station is another record, and the newest that stands is the
//! one to go by; a record can be withdrawn and restored. What quality checks would take out is still in it.

pub(crate) mod changed;
mod writing;

use crate::batch::{Act, Sha256};
use crate::fault::LedgerFault;
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::store::row::Row;
use crate::store::session::Session;
use crate::store::value::Value;
use jiff::civil::Date;
use record::place::{Elevation, Latitude, Longitude, Place};
use record::temperature::Celsius;
use std::fmt;

/// The number of a weather record, counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WeatherNumber(pub u32);

impl fmt::Display for WeatherNumber {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(to)
    }
}

/// The scale that a table's numbers were taken for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScaleTaken {
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Tenths of a degree Celsius.
    Tenths,
}

/// How that was told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScaleToldBy {
    /// By whoever brought it.
    Bringer,
    /// By its headings.
    Headings,
    /// By how warm its summers are.
    Summers,
}

/// A station as a file or a person tells of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// Its identifier.
    pub identifier: String,
    /// What it is called.
    pub name: Option<String>,
    /// Where it lies.
    pub place: Place,
}

/// What was read on one day, at least one of the two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayRead {
    /// The day.
    pub day: Date,
    /// The lowest temperature.
    pub lowest: Option<Celsius>,
    /// The highest temperature.
    pub highest: Option<Celsius>,
}

/// The file that a record comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WeatherFile {
    /// Its name, without its folder.
    pub name: String,
    /// Its SHA-256, by which the same file is known again.
    pub sha256: Sha256,
    /// The scale of its numbers, where it is a table.
    pub scale: Option<(ScaleTaken, ScaleToldBy)>,
}

/// What climate normals tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Normals {
    /// Freeze dates by their chances.
    Freezes,
    /// Means of months.
    Months,
    /// Means of days of the year.
    Days,
}

/// What a record holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// Days.
    Days {
        /// The first.
        first: Date,
        /// The last.
        last: Date,
        /// Days with both temperatures.
        whole: u64,
    },
    /// Climate normals, word for word.
    Normals(Normals),
}

impl Holds {
    /// How many days lie from the first to the last, both counted; none of normals.
    #[must_use]
    pub fn day_count(&self) -> u64 {
        match self {
            Self::Days { first, last, .. } => {
                let between = first.until(*last).map_or(0, |span| span.get_days());
                u64::try_from(between).unwrap_or(0) + 1
            }
            Self::Normals(_) => 0,
        }
    }
}

/// A weather record, without its days or its text.
#[derive(Clone, Debug, PartialEq)]
pub struct WeatherInfo {
    /// Its number.
    pub number: WeatherNumber,
    /// Its station, with what somebody said of it since.
    pub station: Station,
    /// The file.
    pub file: WeatherFile,
    /// Who brought it and when.
    pub brought: Act,
    /// What it holds.
    pub holds: Holds,
    /// Whether it stands.
    pub state: WeatherState,
}

/// Whether a record stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WeatherState {
    /// It stands.
    Standing,
    /// Somebody withdrew it; it can be restored.
    Withdrawn(Act),
}

/// Everything but the days and the text; the newest detail of its station is `d`, the newest undoing `u`.
const RECORDS: &str = "SELECT w.number, w.station, coalesce(d.name, w.name), coalesce(d.latitude, w.latitude),
    coalesce(d.longitude, w.longitude), coalesce(d.elevation_m, w.elevation_m), w.file_name, w.sha256, w.scale,
    w.scale_told_by, w.who, w.at_us, s.first_day, s.last_day, s.whole_days, u.action, u.who, u.at_us, u.why, w.normals
    FROM weather_record w
    LEFT JOIN (SELECT record, min(day) AS first_day, max(day) AS last_day,
          count(CASE WHEN lowest_c IS NOT NULL AND highest_c IS NOT NULL THEN 1 END) AS whole_days
          FROM weather_day GROUP BY record) s ON s.record = w.number
    LEFT JOIN station_detail d ON d.number = (SELECT max(number) FROM station_detail WHERE station_key = w.station_key)
    LEFT JOIN weather_undoing u ON u.number = (SELECT max(number) FROM weather_undoing WHERE record = w.number)";

impl Ledger {
    /// Every record, oldest first, the withdrawn ones too.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn weather_records(&mut self) -> Result<Vec<WeatherInfo>, LedgerFault> {
        self.store.rows(&format!("{RECORDS} ORDER BY w.number"), &[], info)
    }

    /// The standing record that comes from this very file, if there is one.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn weather_taken(&mut self, file: Sha256) -> Result<Option<WeatherNumber>, LedgerFault> {
        standing_of_file(&mut self.store.session(), file)
    }

    /// The text of a record of climate normals.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn normals_text(&mut self, record: WeatherNumber) -> Result<Option<String>, LedgerFault> {
        let sql = "SELECT body FROM weather_record WHERE number = $1 AND body IS NOT NULL";
        self.store.session().first(sql, &[record.0.into()], |row| row.words(0))
    }

    /// The days of a record, in their order.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn weather_days(&mut self, record: WeatherNumber) -> Result<Vec<DayRead>, LedgerFault> {
        let sql = "SELECT day, lowest_c, highest_c FROM weather_day WHERE record = $1 ORDER BY day";
        self.store.rows(sql, &[record.0.into()], |row| {
            let (lowest, highest) = (row.unit_or_none(1, Celsius::new)?, row.unit_or_none(2, Celsius::new)?);
            Ok(DayRead { day: row.day(0)?, lowest, highest })
        })
    }
}

fn holds(row: &Row<'_>) -> Result<Holds, LedgerFault> {
    match row.text_or_none(19)? {
        Some(word) => Normals::read(word).map(Holds::Normals),
        None => Ok(Holds::Days { first: row.day(12)?, last: row.day(13)?, whole: row.count(14)? }),
    }
}

fn standing_of_file(session: &mut Session<'_>, file: Sha256) -> Result<Option<WeatherNumber>, LedgerFault> {
    let sql = "SELECT number FROM weather_record WHERE sha256 = $1
        AND number IN (SELECT number FROM standing_weather) ORDER BY number DESC";
    session.first(sql, &[Value::Bytes(&file.0)], |row| row.small(0).map(WeatherNumber))
}

fn info(row: &Row<'_>) -> Result<WeatherInfo, LedgerFault> {
    let scale = row.text_or_none(8)?.map(ScaleTaken::read).transpose()?;
    let told_by = row.text_or_none(9)?.map(ScaleToldBy::read).transpose()?;
    let state = match row.text_or_none(15)? {
        Some("withdrawn") => WeatherState::Withdrawn(Act {
            who: row.words(16)?,
            at: row.moment(17)?,
            why: row.words_or_none(18)?,
        }),
        _ => WeatherState::Standing,
    };
    Ok(WeatherInfo {
        number: WeatherNumber(row.small(0)?),
        station: Station { identifier: row.words(1)?, name: row.words_or_none(2)?, place: place(row, 3)? },
        file: WeatherFile { name: row.words(6)?, sha256: Sha256(row.bytes(7)?), scale: scale.zip(told_by) },
        brought: Act { who: row.words(10)?, at: row.moment(11)?, why: None },
        holds: holds(row)?,
        state,
    })
}

/// A place that stands in three columns.
pub(crate) fn place(row: &Row<'_>, from: usize) -> Result<Place, LedgerFault> {
    Ok(Place {
        latitude: row.unit_or_none(from, Latitude::new)?,
        longitude: row.unit_or_none(from + 1, Longitude::new)?,
        elevation: row.unit_or_none(from + 2, Elevation::new)?,
    })
}
