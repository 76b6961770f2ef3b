//! Where a garden's weather comes from: a station's own days, or years drawn from a climate that is known.

use super::{Place as Whose, Risk};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::weather::kept::{self, Counts};
use crate::weather::{self, Record, Scale, TakenOut, WeatherFault};
use jiff::civil::Date;
use ledger::ledger::Ledger;
use ledger::names::label_key;
use record::place::{Elevation, Latitude, Longitude, Place};
use ripening::climate::shipped::{self, Station};
use ripening::frost::Hemisphere;
use ripening::nearest;
use ripening::weather::{Days, quality};
use std::collections::HashMap;
use std::path::Path;

/// Years that are drawn where none were measured.
const DRAWN_YEARS: i16 = 40;

/// A garden's weather as it is told of.
#[derive(Clone, Debug, PartialEq)]
pub struct Climates {
    /// Its name: the station's, or the file's.
    pub name: String,
    /// Whether it was measured.
    pub source: Source,
    /// How it lies to the garden, where both places are known.
    pub lies: Option<Lies>,
}

/// How a station lies to a garden.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lies {
    /// Kilometres between them.
    pub kilometres: f64,
    /// By how many degrees Celsius its days were made warmer for the garden's height, negative where colder; `None` where a
    /// height is not known, and then they are taken as they are.
    pub warmer_by: Option<f64>,
}

/// Where days come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// Measured, from one day to another.
    Measured {
        /// The first day.
        from: Date,
        /// The last.
        to: Date,
        /// Temperatures that were missing for a few days and are filled along a line.
        filled: usize,
    },
    /// Drawn from a climate.
    Drawn {
        /// How many years.
        years: i16,
    },
}

/// A garden's days.
#[derive(Clone, Debug)]
pub(crate) struct Weather {
    pub(crate) climates: Climates,
    /// Short gaps filled, for sums of warmth.
    pub(crate) days: Days,
    /// As they were read, for frosts.
    pub(crate) frost_days: Days,
    pub(crate) hemisphere: Hemisphere,
    /// What the checks took out of a record.
    pub(crate) taken_out: TakenOut,
    place: Place,
}

/// The weather that the house's own plots stood in.
pub(crate) struct Homes {
    /// Of gardens whose weather has been told, by the key of their name.
    told: HashMap<String, Weather>,
    /// Of all others; `None` where nobody's was asked by.
    other: Option<Weather>,
}

impl Homes {
    /// One weather for all of them where one is named; else each garden's own where it has been told, and the asked one's.
    pub(crate) fn found(
        ledger: &mut Ledger,
        named: Option<&Path>,
        scale: Option<Scale>,
        asked: Option<&Weather>,
    ) -> Result<Self, HouseFault> {
        if let Some(named) = named {
            return Ok(Self { told: HashMap::new(), other: Some(weather(ledger, named, scale)?) });
        }
        let mut told = HashMap::new();
        let gardens = ledger.gardens()?;
        for own in
            gardens.iter().filter(|garden| garden.weather.is_some() || garden.place != Place::default())
        {
            match garden(ledger, &own.name, scale) {
                Ok((weather, _)) => drop(told.insert(label_key(&own.name), weather)),
                // Nobody lies near enough to tell: the plots go with the others.
                Err(HouseFault::Place(PlaceFault::NoWeather(_))) => {}
                Err(fault) => return Err(fault),
            }
        }
        Ok(Self { told, other: asked.cloned() })
    }

    /// The weather of a garden's plots, where it was told or another's was asked by.
    pub(crate) fn of(&self, garden: &str) -> Option<&Weather> {
        self.told.get(&label_key(garden)).or(self.other.as_ref())
    }

    /// Those that are other than the asked one, each once, by name.
    pub(crate) fn beside(&self, asked: &Climates) -> Vec<Climates> {
        let all = self.told.values().chain(&self.other).map(|weather| weather.climates.clone());
        let mut others: Vec<Climates> = all.filter(|own| own.name != asked.name).collect();
        others.sort_by(|one, other| one.name.cmp(&other.name));
        others.dedup_by(|one, other| one.name == other.name);
        others
    }
}

/// Why a place has no forecast.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlaceFault {
    /// Neither a file nor a station.
    #[error("{name:?} is neither a file nor a station that is known")]
    NotKnown {
        /// What was written.
        name: String,
        /// Stations that are known.
        known: String,
    },
    /// No such garden.
    #[error("there is no garden {name:?}")]
    NoGarden {
        /// What was written.
        name: String,
        /// Gardens of the house.
        known: String,
    },
    /// A garden whose weather nobody has told.
    #[error("nobody has told whose weather garden {0:?} has")]
    NoWeather(String),
    /// Plots whose seasons nobody measured, so that no forecast can be held to them.
    #[error("nobody measured the weather of any season in which the house's plots stood")]
    NoSeasonMeasured,
    /// No frost to plant after.
    #[error("{0}: the last frost of spring does not tell when to plant out")]
    NoFrost(String),
    /// Weather in which the house's plots could not have brought what was picked.
    #[error("in the weather of {0} no plot of the house could have ripened what was picked from it")]
    PlotsNotThere(String),
    /// No year to put plants through.
    #[error("{name}: of {left_out} years none is known from planting to frost")]
    NoYear {
        /// The place.
        name: String,
        /// Years that broke off.
        left_out: usize,
    },
}

impl PlaceFault {
    /// What to do about it.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::NotKnown { known, .. } => format!("bring a station's file, or write one of: {known}"),
            Self::NoGarden { known, .. } if known.is_empty() => {
                "bring in grow-outs with their gardens".to_owned()
            }
            Self::NoGarden { known, .. } => format!("write one of: {known}"),
            Self::NoWeather(_) => "say where it lies or whose weather it has: locule garden NAME --latitude .. --longitude .., or --weather STATION".to_owned(),
            Self::NoSeasonMeasured => "take a station's days of those years with locule take FILE, and tell locule garden NAME --weather STATION".to_owned(),
            Self::NoFrost(_) => "say the day: --transplant 04-15".to_owned(),
            Self::PlotsNotThere(_) => "say with --home in whose weather the house's plots stood".to_owned(),
            Self::NoYear { .. } => "bring a longer record, or another station's".to_owned(),
        }
    }
}

/// Stations that are known without a file, by name.
#[must_use]
pub fn known() -> Vec<&'static str> {
    shipped::stations().iter().map(|station| station.name).collect()
}

/// Stations that can be asked for without a file, by name: those that the house keeps, then those that are known.
///
/// # Errors
/// What the ledger refuses.
pub fn stations(house: &House) -> Result<Vec<String>, HouseFault> {
    let kept = kept::list(house)?.into_iter().filter(|record| record.counts == Counts::Yes);
    let kept = kept.map(|record| record.station.name.unwrap_or(record.station.identifier));
    Ok(kept.chain(known().into_iter().map(str::to_owned)).collect())
}

/// Finds the weather of a garden or station, and the frost that a garden's keeper risks.
pub(crate) fn of(
    ledger: &mut Ledger,
    whose: &Whose,
    scale: Option<Scale>,
) -> Result<(Weather, Option<Risk>), HouseFault> {
    match whose {
        Whose::Garden(name) => garden(ledger, name, scale),
        Whose::Station(named) => Ok((weather(ledger, named, scale)?, None)),
    }
}

/// Finds the weather of a garden by its name, and the frost that its keeper risks.
fn garden(
    ledger: &mut Ledger,
    named: &str,
    scale: Option<Scale>,
) -> Result<(Weather, Option<Risk>), HouseFault> {
    let key = label_key(named);
    let gardens = ledger.gardens()?;
    let names = || gardens.iter().map(|garden| garden.name.clone()).collect::<Vec<_>>().join(", ");
    let garden = gardens.iter().find(|garden| label_key(&garden.name) == key);
    let garden = garden.ok_or_else(|| PlaceFault::NoGarden { name: named.to_owned(), known: names() })?;
    let risk = garden.frost_risk_in_100.map(Risk::nearest);
    let at = garden.place;
    let station = match &garden.weather {
        Some(station) => station.clone(),
        None => nearest_station(ledger, at)?.ok_or_else(|| PlaceFault::NoWeather(garden.name.clone()))?,
    };
    let weather = weather(ledger, Path::new(&station), scale)?;
    Ok((weather.seen_from(at), risk))
}

/// The station that lies nearest to a place, of those kept and those known.
fn nearest_station(ledger: &mut Ledger, at: Place) -> Result<Option<String>, HouseFault> {
    let kept = kept::listed(ledger)?.into_iter().filter(|record| record.counts == Counts::Yes);
    let kept = kept.map(|record| (record.station.identifier, record.station.place));
    let known = shipped::stations().iter().map(|station| (station.identifier.to_owned(), place_of(station)));
    Ok(nearest::nearest(kept.chain(known), at).into_iter().next().map(|near| near.station))
}

fn place_of(station: &Station) -> Place {
    Place {
        latitude: Latitude::new(station.latitude),
        longitude: Longitude::new(station.longitude),
        elevation: Elevation::new(station.elevation_m),
    }
}

impl Weather {
    /// The same as it is at a garden's height.
    fn seen_from(mut self, garden: Place) -> Self {
        if let Some(near) = nearest::nearest([((), self.place)], garden).into_iter().next() {
            if let Some(by) = near.warmer_by {
                self.days = self.days.warmer(by);
                self.frost_days = self.frost_days.warmer(by);
            }
            self.climates.lies = Some(Lies { kilometres: near.kilometres, warmer_by: near.warmer_by });
        }
        self
    }
}

/// Finds the weather of a file, a kept station, or one that is shipped.
pub(super) fn weather(
    ledger: &mut Ledger,
    named: &Path,
    scale: Option<Scale>,
) -> Result<Weather, HouseFault> {
    match weather::of(ledger, named, scale) {
        Ok(record) => Ok(measured(named, record)),
        Err(HouseFault::Weather(WeatherFault::NotKept(name))) => match station(&name) {
            Some(station) => Ok(drawn(station)),
            None => Err(PlaceFault::NotKnown { name, known: known().join(", ") }.into()),
        },
        Err(fault) => Err(fault),
    }
}

fn measured(named: &Path, record: Record) -> Weather {
    let frost_days = record.days.clone();
    let (days, filled) = quality::filled(record.days);
    let file = || named.file_name().unwrap_or(named.as_os_str()).to_string_lossy().into_owned();
    let name = record.name.or(record.station).unwrap_or_else(file);
    let source = Source::Measured { from: days.first(), to: days.last(), filled };
    let hemisphere = days.hemisphere();
    let climates = Climates { name, source, lies: None };
    Weather { climates, days, frost_days, hemisphere, taken_out: record.taken_out, place: record.place }
}

fn drawn(station: &Station) -> Weather {
    let days = station.climate().years(DRAWN_YEARS, station.identifier);
    let climates =
        Climates { name: station.name.to_owned(), source: Source::Drawn { years: DRAWN_YEARS }, lies: None };
    let hemisphere = days.hemisphere();
    let (frost_days, taken_out) = (days.clone(), TakenOut::default());
    Weather { climates, days, frost_days, hemisphere, taken_out, place: place_of(station) }
}

/// Whether a station is known without a file.
pub(crate) fn is_known(named: &Path) -> bool {
    station(&named.to_string_lossy()).is_some()
}

/// A known station by identifier, name, or the name's beginning.
fn station(named: &str) -> Option<&'static Station> {
    let wanted = named.trim().to_lowercase();
    let is_it = |station: &&Station| {
        let name = station.name.to_lowercase();
        wanted == station.identifier.to_lowercase()
            || wanted == name
            || (3 < wanted.len() && name.starts_with(&wanted))
    };
    shipped::stations().iter().find(is_it)
}
