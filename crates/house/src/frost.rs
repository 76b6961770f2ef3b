//! Frost: what a station's own days say of the last frost of spring and the first of autumn.
//!
//! A file is read as it is, and nothing of it is kept; what is no file is a station that the house keeps or knows, or a
//! garden's. Start at [`told`]; [`drawn`] makes a drawing of all years, and [`write`] a file of it.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::forecast::Place;
use crate::forecast::place::{self, Climates, Freezes, Source, Weather};
use crate::picture::{self, Picture};
use crate::weather::{self, Said, Scale, TakenOut, ToldBy, WeatherFault};
use drawing::frost_years::{ChanceLine, FrostYear, FrostYears, Frosts as Drawn, frost_years};
use drawing::scale::Pixels;
use jiff::civil::Date;
use ledger::ledger::Ledger;
use record::language::{self, Units};
use record::temperature::Celsius;
use ripening::frost::{self, Chances, TOLD_AT};
pub use ripening::frost::{Chance, FEWEST_FOR_ONE_IN_TEN, Frost, Hemisphere, TOLD, YearOfFrosts, day_of};
use ripening::weather::Days;
use ripening::weather::normals;
pub use ripening::weather::normals::{FreezeNormals, PublishedAt};
use std::path::{Path, PathBuf};

/// How days of a chance are worked out, and how far a sample of years would move them.
pub const ESTIMATOR: &str =
    "quantiles of type 7 (Hyndman and Fan 1996); 90 in 100 of 1,000 samples of the same years";
/// Temperatures nearer than this, in degrees Celsius, are told as one.
const SAME: f64 = 0.05;
/// Width of a drawing that is written as a file, in pixels.
const WRITTEN: u16 = 760;

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// Whose weather: a station's file, a station that the house keeps or knows, or a garden's.
    pub place: Place,
    /// What is said of a file beside it.
    pub said: Said,
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
    Published(Published),
}

/// Published freeze dates.
#[derive(Clone, Debug, PartialEq)]
pub struct Published {
    /// The dates, as the garden's height has them.
    pub freezes: FreezeNormals,
    /// The weather that they belong to; `None` where a file of them was read.
    pub weather: Option<Climates>,
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

/// Reads the file, or the record that the house keeps, and says when frost comes. A file needs no house, and nor does a station
/// that is known without one.
///
/// # Errors
/// [`HouseFault::File`] for a file that cannot be opened; [`HouseFault::Weather`] with line or row for one that cannot be
/// read or has no whole year; a garden's fault, such as that nobody has told whose weather it has.
pub fn told(house: Option<&House>, asked: &Asked) -> Result<Told, HouseFault> {
    let weather = match (&asked.place, house) {
        (Place::Station(file), None) if !file.exists() => match place::of_known(file) {
            Some(weather) => weather,
            None => return of_file(asked, file),
        },
        (Place::Station(file), _) if file.is_file() || house.is_none() => return of_file(asked, file),
        (_, Some(house)) => {
            let mut ledger = Ledger::open(&house.ledger_location())?;
            if let Place::Station(named) = &asked.place
                && let Some(freezes) = place::freezes_alone(&mut ledger, named)?
            {
                as_published(asked, named)?;
                return Ok(Told::Published(Published { freezes, weather: None }));
            }
            place::of(&mut ledger, &asked.place, &asked.said)?.0
        }
        (_, None) => return Err(HouseFault::NoHouse(PathBuf::from("."))),
    };
    of_weather(weather, asked)
}

fn of_file(asked: &Asked, file: &Path) -> Result<Told, HouseFault> {
    let text = weather::text(file, &asked.said)?;
    let own = weather::own_lines(file, &text, &asked.said)?;
    if normals::is_of_freezes(&own) {
        as_published(asked, file)?;
        let fault = |fault| WeatherFault::Normals { file: file.to_owned(), fault };
        let freezes = normals::read(&own).map_err(fault)?;
        return Ok(Told::Published(Published { freezes, weather: None }));
    }
    of_weather(place::of_text(file, &own, &asked.said)?, asked)
}

/// Refuses what published dates cannot be asked.
fn as_published(asked: &Asked, named: &Path) -> Result<(), WeatherFault> {
    if asked.years.is_some() || asked.hemisphere == Some(Hemisphere::South) {
        return Err(WeatherFault::AsPublished(named.to_owned()));
    }
    Ok(())
}

/// The frosts of a place: those that are told of it, else those of its days.
fn of_weather(weather: Weather, asked: &Asked) -> Result<Told, HouseFault> {
    let named = PathBuf::from(&weather.climates.name);
    let at = match &weather.freezes {
        Freezes::Published(published) => {
            as_published(asked, &named)?;
            let freezes = seen_from_garden(published, &weather);
            return Ok(Told::Published(Published { freezes, weather: Some(weather.climates) }));
        }
        Freezes::OfDays => of_days(&weather.frost_days, asked),
        Freezes::Years(years) => of_years(years, &weather, asked),
    };
    if at.is_empty() {
        return Err(WeatherFault::NoYear(named).into());
    }
    let is_own =
        matches!(weather.climates.source, Source::Measured { .. }) && weather.climates.lies.is_none();
    let days = first_and_last(&weather, &at);
    let (station, climates) = if is_own {
        (weather.station, None)
    } else {
        (Some(weather.climates.name.clone()), Some(weather.climates))
    };
    let (scale, taken_out) = (weather.scale, weather.taken_out);
    Ok(Told::Worked(Frosts { station, weather: climates, scale, days, taken_out, at }))
}

/// The first and last day that frosts were looked for in.
fn first_and_last(weather: &Weather, at: &[FrostsAt]) -> (Date, Date) {
    let own = (weather.frost_days.first(), weather.frost_days.last());
    let years = || at.iter().flat_map(|at| &at.chances.years);
    let ends = years().min().zip(years().max()).filter(|_| matches!(weather.freezes, Freezes::Years(_)));
    let day = |(first, last): (&i16, &i16)| Date::new(*first, 1, 1).ok().zip(Date::new(*last, 12, 31).ok());
    ends.and_then(day).unwrap_or(own)
}

/// Works the frosts of every temperature out of a station's own days.
fn of_days(days: &Days, asked: &Asked) -> Vec<FrostsAt> {
    let hemisphere = asked.hemisphere.unwrap_or_else(|| days.hemisphere());
    let at = TOLD_AT.iter().filter_map(|degrees| {
        let years = within(&frost::years(days, *degrees, hemisphere), asked);
        Some(FrostsAt { celsius: Celsius::new(*degrees)?, chances: frost::chances(&years)?, years })
    });
    at.collect()
}

/// Frosts of every temperature out of a table of years; a garden at another height has dates, and no years of its own.
fn of_years(years: &[Vec<YearOfFrosts>; TOLD_AT.len()], weather: &Weather, asked: &Asked) -> Vec<FrostsAt> {
    let at = TOLD_AT.iter().zip(years).filter_map(|(degrees, years)| {
        let (celsius, years) = (Celsius::new(*degrees)?, within(years, asked));
        let chances = frost::chances(&years)?;
        if weather.warmer_by() == 0.0 {
            return Some(FrostsAt { celsius, chances, years });
        }
        let frost::dates::Dates { last, first, season } = weather.dates_at(*degrees)?;
        Some(FrostsAt { celsius, chances: Chances { last, first, season, ..chances }, years: Vec::new() })
    });
    at.collect()
}

fn within(years: &[YearOfFrosts], asked: &Asked) -> Vec<YearOfFrosts> {
    let is_within =
        |year: &&YearOfFrosts| asked.years.is_none_or(|(from, to)| (from..=to).contains(&year.year));
    years.iter().filter(is_within).cloned().collect()
}

/// Published dates as a garden at another height has them.
fn seen_from_garden(published: &FreezeNormals, weather: &Weather) -> FreezeNormals {
    let seen = published.at.iter().filter_map(|at| {
        let dates = weather.dates_at(at.celsius())?;
        let days = |chances: [Chance; 3]| chances.map(|chance| chance.day);
        let (last, first, season) = (days(dates.last), days(dates.first), days(dates.season));
        Some(PublishedAt { last, first, season, ..at.clone() })
    });
    FreezeNormals { at: seen.collect(), ..published.clone() }
}

/// The temperature among those that are told, of what was written: `28F`, `-2C`.
///
/// # Errors
/// [`HouseFault::NotKnown`] for what is none of them.
pub fn temperature_named(text: &str) -> Result<Celsius, HouseFault> {
    let written = Celsius::written(text);
    let told = TOLD_AT.iter().filter_map(|degrees| Celsius::new(*degrees));
    let same = |one: &Celsius| written.is_some_and(|written| (written.get() - one.get()).abs() < SAME);
    let known = || "36F, 32F (0C), -2C or 28F".to_owned();
    told.into_iter().find(same).ok_or_else(|| HouseFault::NotKnown {
        what: "temperature that frosts are told of",
        word: text.to_owned(),
        known: known(),
    })
}

/// The frosts of a temperature; those of a freeze where none is said.
#[must_use]
pub fn at(found: &Frosts, celsius: Option<Celsius>) -> Option<&FrostsAt> {
    let wanted = celsius.map_or(frost::FREEZE, Celsius::get);
    found.at.iter().find(|at| (at.celsius.get() - wanted).abs() < SAME)
}

/// The frosts of a temperature in all years, to be drawn, those of a freeze where none is said; `None` where nobody knows years.
#[must_use]
pub fn drawn(found: &Frosts, celsius: Option<Celsius>, units: Units) -> Option<FrostYears> {
    let freeze = at(found, celsius).filter(|at| !at.years.is_empty())?;
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
        "Frost of {} or less, year by year{station}, {} years. Last of spring on or after {}. First of autumn on or before {}.",
        language::temperature_to_tenths(freeze.celsius, units),
        freeze.chances.years.len(),
        told(&freeze.chances.last),
        told(&freeze.chances.first),
    )
}

/// Writes the drawing of all years at a temperature as a picture, by the file's ending.
///
/// # Errors
/// [`HouseFault::NotKnown`] for an ending that is no picture's; what the disk refuses.
pub fn write(
    found: &Frosts,
    celsius: Option<Celsius>,
    units: Units,
    file: &Path,
) -> Result<Option<Picture>, HouseFault> {
    let drawn = drawn(found, celsius, units).map(|years| frost_years(&years, Pixels::from(WRITTEN)));
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
