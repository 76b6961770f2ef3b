//! Frosts of a few stations, so that a house without days of its own is told measured ones and not drawn.
//!
//! Start at [`of`].
//!
//! # Source
//! `frosts.csv`: the last and first frosts of each year, worked out by [`frost::years`] from days of the Global Historical
//! Climatology Network once what cannot be was taken out (works of the United States government, public domain; the test
//! `shipped_frosts_are_worked_out_of_days` does it again). Lebanon's freeze dates: as published, NOAA, U.S. Climate Normals
//! 1991-2020, annual and seasonal file.

use crate::frost::{Frost, TOLD_AT, YearOfFrosts};
use crate::weather::normals::{FreezeNormals, PublishedAt};
use jiff::civil::Date;
use record::place::Place;

/// What is shipped of a station's frosts.
#[derive(Clone, Debug, PartialEq)]
pub enum Frosts {
    /// Those of every year, at each of the temperatures of [`TOLD_AT`].
    Years([Vec<YearOfFrosts>; TOLD_AT.len()]),
    /// Published freeze dates.
    Published(FreezeNormals),
}

/// A year a row: the station, the year, and the last and the first frost at each of the temperatures of [`TOLD_AT`].
const YEARS: &str = include_str!("frosts.csv");
/// Stands for a frost that there was none of.
const NONE: &str = "-";
/// Stands for what is not known, because nights are missing.
const NOT_KNOWN: &str = "?";
/// Days of a half of a year that are missing where nobody counted them: more than are allowed.
const MISSING: usize = 11;

/// A row of published freeze dates: degrees Fahrenheit; the last freeze on that month and day or later in 10, 50 and 90 years of
/// 100; the first on that day or earlier; days between the two, or more.
type Row = (u8, [(i8, i8); 3], [(i8, i8); 3], [f64; 3]);

const LEBANON: &str = "USW00094765";
/// Years behind Lebanon's dates.
const LEBANON_YEARS: u16 = 22;
const LEBANON_FREEZES: [Row; 6] = [
    (36, [(6, 6), (5, 22), (5, 7)], [(9, 12), (9, 26), (10, 7)], [144.0, 125.0, 106.0]),
    (32, [(5, 24), (5, 9), (4, 27)], [(9, 23), (10, 6), (10, 19)], [167.0, 148.0, 128.0]),
    (28, [(5, 11), (4, 29), (4, 17)], [(10, 3), (10, 15), (11, 1)], [190.0, 170.0, 152.0]),
    (24, [(4, 30), (4, 17), (4, 4)], [(10, 13), (10, 28), (11, 11)], [212.0, 193.0, 174.0]),
    (20, [(4, 18), (4, 5), (3, 23)], [(10, 26), (11, 8), (11, 23)], [234.0, 216.0, 197.0]),
    (16, [(4, 8), (3, 29), (3, 14)], [(11, 7), (11, 21), (12, 6)], [257.0, 237.0, 216.0]),
];

/// What is shipped of the frosts of a station by its identifier.
#[must_use]
pub fn of(identifier: &str) -> Option<Frosts> {
    if identifier == LEBANON {
        return Some(Frosts::Published(lebanon()));
    }
    let mut at: [Vec<YearOfFrosts>; TOLD_AT.len()] = Default::default();
    for row in YEARS.lines().skip(1).filter(|row| row.split(',').next() == Some(identifier)) {
        let mut cells = row.split(',').skip(1);
        let year = cells.next()?.parse().ok()?;
        for years in &mut at {
            let (last, first) = (frost(year, cells.next()?)?, frost(year, cells.next()?)?);
            years.push(YearOfFrosts { year, last, first });
        }
    }
    (!at.iter().all(Vec::is_empty)).then_some(Frosts::Years(at))
}

/// `05-13` of a year; all stations lie north of the equator.
fn frost(year: i16, cell: &str) -> Option<Frost> {
    match cell {
        NONE => Some(Frost::None),
        NOT_KNOWN => Some(Frost::NotKnown { missing: MISSING }),
        day => {
            let (month, day) = day.split_once('-')?;
            Date::new(year, month.parse().ok()?, day.parse().ok()?).ok().map(Frost::On)
        }
    }
}

fn lebanon() -> FreezeNormals {
    let day =
        |(month, day): (i8, i8)| Date::new(2001, month, day).ok().map(|date| f64::from(date.day_of_year()));
    let at = LEBANON_FREEZES.iter().map(|(fahrenheit, last, first, season)| PublishedAt {
        fahrenheit: *fahrenheit,
        years: Some(LEBANON_YEARS),
        last: last.map(day),
        first: first.map(day),
        season: season.map(Some),
    });
    FreezeNormals {
        station: LEBANON.to_owned(),
        name: "Lebanon NH".to_owned(),
        place: Place::default(),
        at: at.collect(),
    }
}
