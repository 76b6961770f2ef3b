//! Where a garden's weather comes from: a station's own days, or years drawn from a climate that is known.

use crate::fault::HouseFault;
use crate::weather::{self, Scale};
use jiff::civil::Date;
use ripening::climate::shipped::{self, Station};
use ripening::frost::Hemisphere;
use ripening::weather::{Days, quality};
use std::path::Path;

/// Years that are drawn where none were measured.
const DRAWN_YEARS: i16 = 40;

/// A garden's weather as it is told of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Climates {
    /// Its name: the station's, or the file's.
    pub name: String,
    /// Whether it was measured.
    pub source: Source,
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
pub(super) struct Weather {
    pub(super) climates: Climates,
    /// Short gaps filled, for sums of warmth.
    pub(super) days: Days,
    /// As they were read, for frosts.
    pub(super) frost_days: Days,
    pub(super) hemisphere: Hemisphere,
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
    /// No frost to plant after.
    #[error("{0}: the last frost of spring does not tell when to plant out")]
    NoFrost(String),
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
            Self::NoFrost(_) => "say the day: --transplant 04-15".to_owned(),
            Self::NoYear { .. } => "bring a longer record, or another station's".to_owned(),
        }
    }
}

/// Stations that are known without a file, by name.
#[must_use]
pub fn known() -> Vec<&'static str> {
    shipped::stations().iter().map(|station| station.name).collect()
}

/// Finds a garden's weather.
pub(super) fn weather(named: &Path, scale: Option<Scale>) -> Result<Weather, HouseFault> {
    if !named.exists()
        && let Some(station) = named.to_str().and_then(station)
    {
        return Ok(drawn(station));
    }
    if !named.exists() && named.extension().is_none() {
        let name = named.display().to_string();
        return Err(PlaceFault::NotKnown { name, known: known().join(", ") }.into());
    }
    let record = weather::read(named, scale)?;
    let frost_days = record.days.clone();
    let (days, filled) = quality::filled(record.days);
    let file = named.file_name().unwrap_or(named.as_os_str()).to_string_lossy().into_owned();
    let source = Source::Measured { from: days.first(), to: days.last(), filled };
    let climates = Climates { name: record.station.unwrap_or(file), source };
    let hemisphere = days.hemisphere();
    Ok(Weather { climates, days, frost_days, hemisphere })
}

fn drawn(station: &Station) -> Weather {
    let days = station.climate().years(DRAWN_YEARS, station.identifier);
    let climates = Climates { name: station.name.to_owned(), source: Source::Drawn { years: DRAWN_YEARS } };
    let hemisphere = days.hemisphere();
    Weather { climates, frost_days: days.clone(), days, hemisphere }
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
