//! Frost: what a station's own days say of the last frost of spring and the first of autumn.
//!
//! A file is read as it is, and nothing of it is kept; what is no file is a station that the house keeps or knows, or a
//! garden's. Start at [`told`]; [`drawn`] makes a drawing of all years, and [`write`] a file of it.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::forecast::Place;
use crate::forecast::place::{self, Climates};
use crate::picture::{self, Picture};
use crate::weather::{self, Record, Scale, TakenOut, ToldBy, WeatherFault};
use drawing::frost_years::{ChanceLine, FrostYear, FrostYears, Frosts as Drawn, frost_years};
use drawing::scale::Pixels;
use jiff::civil::Date;
use ledger::ledger::Ledger;
use record::language::Units;
use record::temperature::Celsius;
use ripening::frost::{self, Chances};
pub use ripening::frost::{Chance, FEWEST_FOR_ONE_IN_TEN, Frost, Hemisphere, TOLD, YearOfFrosts, day_of};
use ripening::weather::Days;
use ripening::weather::normals;
pub use ripening::weather::normals::{FreezeNormals, PublishedAt};
use std::path::{Path, PathBuf};

/// Temperatures that frosts are told of, in degrees Celsius: 36 F, which nips; 32 F, a freeze; -2 C, which tomatoes do not
/// outlive; 28 F, a hard freeze. Source: NOAA supplemental climate normals 1981-2010 for those in Fahrenheit.
const TOLD_AT: [f64; 4] = [20.0 / 9.0, 0.0, -2.0, -20.0 / 9.0];

/// How days of a chance are worked out, and how far a sample of years would move them.
pub const ESTIMATOR: &str =
    "quantiles of type 7 (Hyndman and Fan 1996); 90 in 100 of 1,000 samples of the same years";
/// A freeze, in degrees Celsius: the temperature whose years are drawn.
const FREEZE: f64 = 0.0;
/// Width of a drawing that is written as a file, in pixels.
const WRITTEN: u16 = 760;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// Whose weather: a station's file, a station that the house keeps or knows, or a garden's.
    pub place: Place,
    /// Its scale, where the file does not say.
    pub scale: Option<Scale>,
    /// The years to go by, both included; all where none are named.
    pub years: Option<(i16, i16)>,
    /// On which side of the equator it lies; told by its warm months where nobody says.
    pub hemisphere: Option<Hemisphere>,
}

/// When frost comes.
#[derive(Clone, Debug, PartialEq)]
pub enum Told {
    /// Worked out of a station's own days.
    Worked(Frosts),
    /// As the climate normals publish it.
    Published(FreezeNormals),
}

/// What the file says.
#[derive(Clone, Debug, PartialEq)]
pub struct Frosts {
    /// The station's identifier, where the file has one.
    pub station: Option<String>,
    /// The weather of a garden or of a station that is known without a file; `None` where a file or a kept record was read.
    pub weather: Option<Climates>,
    /// What a table's numbers were taken for, and how that was told; `None` for the network's own files.
    pub scale: Option<(Scale, ToldBy)>,
    /// Its first and last day.
    pub days: (Date, Date),
    /// Days that the checks took something out of.
    pub taken_out: TakenOut,
    /// Frosts of each temperature, the warmest first.
    pub at: Vec<FrostsAt>,
}

/// Frosts of one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct FrostsAt {
    /// The temperature.
    pub celsius: Celsius,
    /// How likely they are on which days.
    pub chances: Chances,
    /// The frosts of every year, those that are left out too.
    pub years: Vec<YearOfFrosts>,
}

/// Reads the file, or the record that the house keeps, and says when frost comes. A file needs no house.
///
/// # Errors
/// [`HouseFault::File`] for a file that cannot be opened; [`HouseFault::Weather`] with line or row for one that cannot be
/// read or has no whole year; a garden's fault, such as that nobody has told whose weather it has.
pub fn told(house: Option<&House>, asked: &Asked) -> Result<Told, HouseFault> {
    let file = match &asked.place {
        Place::Garden(_) => None,
        Place::Station(file) => Some(file).filter(|file| house.is_none() || file.is_file()),
    };
    match (file, house) {
        (Some(file), _) => of_file(asked, file),
        (None, Some(house)) => of_house(house, asked),
        (None, None) => Err(HouseFault::NoHouse(PathBuf::from("."))),
    }
}

fn of_file(asked: &Asked, file: &Path) -> Result<Told, HouseFault> {
    let text = weather::text(file)?;
    if normals::is_of_freezes(&text) {
        if asked.years.is_some() || asked.hemisphere == Some(Hemisphere::South) {
            return Err(WeatherFault::AsPublished(file.to_owned()).into());
        }
        let fault = |fault| WeatherFault::Normals { file: file.to_owned(), fault };
        return Ok(Told::Published(normals::read(&text).map_err(fault)?));
    }
    let Record { station, scale, days, taken_out, .. } = weather::parsed(file, &text, asked.scale)?;
    let at = at(&days, asked, file)?;
    let days = (days.first(), days.last());
    Ok(Told::Worked(Frosts { station, weather: None, scale, days, taken_out, at }))
}

/// A station that the house keeps or knows, or a garden's.
fn of_house(house: &House, asked: &Asked) -> Result<Told, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    if let Place::Station(named) = &asked.place {
        match weather::of(&mut ledger, named, asked.scale) {
            Ok(Record { station, scale, days, taken_out, .. }) => {
                let at = at(&days, asked, named)?;
                let days = (days.first(), days.last());
                return Ok(Told::Worked(Frosts { station, weather: None, scale, days, taken_out, at }));
            }
            Err(HouseFault::Weather(WeatherFault::NotKept(_))) if place::is_known(named) => {}
            Err(fault) => return Err(fault),
        }
    }
    let (weather, _) = place::of(&mut ledger, &asked.place, asked.scale)?;
    let at = at(&weather.frost_days, asked, Path::new(&weather.climates.name))?;
    Ok(Told::Worked(Frosts {
        station: Some(weather.climates.name.clone()),
        scale: None,
        days: (weather.frost_days.first(), weather.frost_days.last()),
        taken_out: weather.taken_out,
        weather: Some(weather.climates),
        at,
    }))
}

/// Works the frosts of every temperature out of a station's own days.
fn at(days: &Days, asked: &Asked, named: &Path) -> Result<Vec<FrostsAt>, HouseFault> {
    let within = |year: i16| asked.years.is_none_or(|(from, to)| (from..=to).contains(&year));
    let hemisphere = asked.hemisphere.unwrap_or_else(|| days.hemisphere());
    let at = TOLD_AT.iter().filter_map(|degrees| {
        let years: Vec<_> = frost::years(days, *degrees, hemisphere);
        let years: Vec<_> = years.into_iter().filter(|year| within(year.year)).collect();
        Some(FrostsAt { celsius: Celsius::new(*degrees)?, chances: frost::chances(&years)?, years })
    });
    let at: Vec<FrostsAt> = at.collect();
    if at.is_empty() { Err(WeatherFault::NoYear(named.to_owned()).into()) } else { Ok(at) }
}

/// The freezes of all years, to be drawn; `None` where no year is known.
#[must_use]
pub fn drawn(found: &Frosts, units: Units) -> Option<FrostYears> {
    let freeze = found.at.iter().find(|at| at.celsius.get() == FREEZE)?;
    let days = |chances: &[Chance]| {
        let line = |chance: &Chance| Some(ChanceLine { in_10: in_10(chance.in_100), day: chance.day? });
        chances.iter().filter_map(line).collect::<Vec<_>>()
    };
    let year = |of: &YearOfFrosts| {
        let day = |frost| match frost {
            Frost::On(date) => day_of(of.year, date),
            Frost::None | Frost::NotKnown { .. } => None,
        };
        let known = Drawn::Known { last: day(of.last), first: day(of.first) };
        FrostYear { year: of.year, frosts: if of.is_known() { known } else { Drawn::NotKnown } }
    };
    Some(FrostYears {
        words: words(found, freeze, units),
        years: freeze.years.iter().map(year).collect(),
        chances: [days(&freeze.chances.last), days(&freeze.chances.first)].concat(),
    })
}

/// Years of ten.
fn in_10(in_100: f64) -> u8 {
    match in_100 {
        ..30.0 => 1,
        ..70.0 => 5,
        _ => 9,
    }
}

/// The drawing in words: the chances of both frosts.
fn words(found: &Frosts, freeze: &FrostsAt, units: Units) -> String {
    let told = |chances: &[Chance]| {
        let one = |chance: &Chance| {
            let day = chance.day.and_then(day).map(|day| day.strftime("%-d %B").to_string());
            day.map(|day| format!("{day} ({} in 10)", in_10(chance.in_100)))
        };
        let all: Vec<String> = chances.iter().filter_map(one).collect();
        if all.is_empty() { "seldom or never".to_owned() } else { all.join(", ") }
    };
    let station = found.station.as_ref().map(|station| format!(" of {station}")).unwrap_or_default();
    format!(
        "Frost of {}, year by year{station}, {} years. Last of spring on or after {}. First of autumn on or before {}.",
        units.either("32 °F", "0 °C"),
        freeze.chances.years.len(),
        told(&freeze.chances.last),
        told(&freeze.chances.first),
    )
}

/// Writes the drawing of all years as a picture, by the file's ending.
///
/// # Errors
/// [`HouseFault::NotKnown`] for an ending that is no picture's; what the disk refuses.
pub fn write(found: &Frosts, units: Units, file: &Path) -> Result<Option<Picture>, HouseFault> {
    let drawn = drawn(found, units).map(|years| frost_years(&years, Pixels::from(WRITTEN)));
    drawn.map(|svg| picture::write(file, || Ok(svg))).transpose()
}

/// Years as they are written: `1991-2020`.
///
/// # Errors
/// [`HouseFault::NotKnown`] for what is no range of years.
pub fn years_named(text: &str) -> Result<(i16, i16), HouseFault> {
    let parts = text.split_once('-').map(|(from, to)| (from.trim().parse().ok(), to.trim().parse().ok()));
    match parts {
        Some((Some(from), Some(to))) if from <= to => Ok((from, to)),
        _ => Err(HouseFault::NotKnown {
            what: "range of years",
            word: text.to_owned(),
            known: "a first and a last year, such as 1991-2020".to_owned(),
        }),
    }
}

/// The day of a common year that a counted day falls on, to be told: `23 April` is 113.
#[must_use]
pub fn day(counted: f64) -> Option<Date> {
    #[expect(clippy::cast_possible_truncation, reason = "a day of two years")]
    let days = (counted.round() as i64).checked_sub(1)?;
    // Any common year will do.
    Date::new(2001, 1, 1).ok()?.checked_add(jiff::Span::new().try_days(days).ok()?).ok()
}
