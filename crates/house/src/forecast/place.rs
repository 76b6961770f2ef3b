//! Where a garden's weather comes from: a station's own days, or years drawn from a climate that is known.

mod climates;
mod fault;
mod freezes;
mod homes;

use super::{Place as Whose, Risk};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::weather::kept::{self, Listed, NormalsKept, Station};
use crate::weather::{self, Record, Said, Scale, TakenOut, ToldBy, WeatherFault};
pub use climates::{ClimateOf, Climates, FrostsOf, Lies, Source};
pub use fault::PlaceFault;
pub(crate) use freezes::Freezes;
pub(crate) use homes::Homes;
use ledger::ledger::Ledger;
use ledger::names::label_key;
use record::place::{Elevation, Latitude, Longitude, Place};
use ripening::climate::Climate;
use ripening::climate::normals::{self, MeansOf, is_of_means};
use ripening::climate::shipped;
use ripening::frost::Hemisphere;
use ripening::nearest;
use ripening::weather::normals::{FreezeNormals, read as freezes_of};
use ripening::weather::{Days, quality};
use std::path::{Path, PathBuf};

/// Years that are drawn where none were measured.
const DRAWN_YEARS: i16 = 40;

/// A garden's days.
#[derive(Clone, Debug)]
pub(crate) struct Weather {
    pub(crate) climates: Climates,
    /// Short gaps filled, for sums of warmth.
    pub(crate) days: Days,
    /// As they were read, for frosts and nights.
    pub(crate) frost_days: Days,
    /// Frosts that go before those of the days.
    pub(crate) freezes: Freezes,
    pub(crate) hemisphere: Hemisphere,
    /// What the checks took out of a record.
    pub(crate) taken_out: TakenOut,
    /// The station's identifier, where a file or a kept record has one.
    pub(crate) station: Option<String>,
    /// What a table's numbers were taken for, and how that was told.
    pub(crate) scale: Option<(Scale, ToldBy)>,
    place: Place,
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
    let kept = kept::list(house)?.into_iter().filter(Listed::counts_now);
    let kept = kept.map(|record| record.station.name.unwrap_or(record.station.identifier));
    let mut kept: Vec<String> = kept.collect();
    kept.dedup();
    Ok(kept.into_iter().chain(known().into_iter().map(str::to_owned)).collect())
}

/// Finds the weather of a garden or station, and the frost that a garden's keeper risks.
pub(crate) fn of(
    ledger: &mut Ledger,
    whose: &Whose,
    said: &Said,
) -> Result<(Weather, Option<Risk>), HouseFault> {
    match whose {
        Whose::Garden(name) => garden(ledger, name, said),
        Whose::Station(named) => Ok((weather(ledger, named, said)?, None)),
    }
}

/// Finds the weather of a garden by its name, and the frost that its keeper risks.
fn garden(ledger: &mut Ledger, named: &str, said: &Said) -> Result<(Weather, Option<Risk>), HouseFault> {
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
    let weather = weather(ledger, Path::new(&station), said)?;
    Ok((weather.seen_from(at), risk))
}

/// The station that lies nearest to a place, of those kept and those known.
fn nearest_station(ledger: &mut Ledger, at: Place) -> Result<Option<String>, HouseFault> {
    let kept = kept::listed(ledger)?.into_iter().filter(Listed::tells_a_climate);
    let kept = kept.map(|record| (record.station.identifier, record.station.place));
    let known = shipped::stations().iter().map(|station| (station.identifier.to_owned(), place_of(station)));
    Ok(nearest::nearest(kept.chain(known), at).into_iter().next().map(|near| near.station))
}

fn place_of(station: &shipped::Station) -> Place {
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
pub(super) fn weather(ledger: &mut Ledger, named: &Path, said: &Said) -> Result<Weather, HouseFault> {
    if named.is_file() {
        return of_text(named, &weather::text(named, said)?, said);
    }
    match weather::of(ledger, named, said) {
        Ok(record) => Ok(measured(named, record)),
        Err(HouseFault::Weather(WeatherFault::NotKept(name))) => {
            if let Some(kept) = kept::normals(ledger, &name)? {
                return of_normals(&kept);
            }
            of_known(named).ok_or_else(|| PlaceFault::NotKnown { name, known: known().join(", ") }.into())
        }
        Err(fault) => Err(fault),
    }
}

/// The weather of a file's text: a station's days, or years drawn from its monthly or daily normals.
///
/// # Errors
/// [`HouseFault::Weather`] with line or row for one that cannot be read.
pub(crate) fn of_text(file: &Path, text: &str, said: &Said) -> Result<Weather, HouseFault> {
    let own = weather::own_lines(file, text, said)?;
    if !is_of_means(&own) {
        return Ok(measured(file, weather::parsed(file, &own, said)?));
    }
    of_means(&file_name(file), &own, said.scale)
}

/// Years drawn from monthly or daily normals.
fn of_means(named: &str, text: &str, scale: Option<Scale>) -> Result<Weather, HouseFault> {
    let fault = |fault| WeatherFault::Means { file: PathBuf::from(named), fault };
    let read = normals::read(text, scale).map_err(fault)?;
    let name = read.name.or(read.station.clone()).unwrap_or_else(|| named.to_owned());
    let of = match read.of {
        MeansOf::Months => ClimateOf::MonthlyNormals,
        MeansOf::Days => ClimateOf::DailyNormals,
    };
    let key = read.station.clone().unwrap_or_else(|| name.clone());
    let weather = drawn(name, &read.climate, of, &key, read.place);
    Ok(Weather { station: read.station, ..weather })
}

/// The weather of a station whose normals are kept: years drawn from its means, or from the climate that is known of it, and the
/// freeze dates as published.
fn of_normals(kept: &NormalsKept) -> Result<Weather, HouseFault> {
    let Station { identifier, name, place } = &kept.station;
    let drawn = match &kept.means {
        Some((text, scale)) => of_means(identifier, text, *scale)?,
        None => of_known(Path::new(identifier)).ok_or_else(|| WeatherFault::NoClimate(identifier.clone()))?,
    };
    let freezes = published(kept)?.map(Freezes::Published);
    let mut weather = freezes.map_or_else(|| drawn.clone(), |freezes| drawn.clone().with_freezes(freezes));
    weather.climates.name = name.clone().unwrap_or(weather.climates.name);
    weather.place = place.or(weather.place);
    weather.station = Some(identifier.clone());
    Ok(weather)
}

/// The freeze dates of a station whose normals are kept.
fn published(kept: &NormalsKept) -> Result<Option<FreezeNormals>, WeatherFault> {
    let fault = |fault| WeatherFault::Normals { file: PathBuf::from(&kept.station.identifier), fault };
    kept.freezes.as_deref().map(|text| freezes_of(text).map_err(fault)).transpose()
}

/// The published freeze dates of a station of which nothing else is kept or known.
pub(crate) fn freezes_alone(ledger: &mut Ledger, named: &Path) -> Result<Option<FreezeNormals>, HouseFault> {
    let named = named.to_string_lossy();
    if kept::has_days(ledger, &named)? {
        return Ok(None);
    }
    match kept::normals(ledger, &named)? {
        Some(kept) if kept.means.is_none() && of_known(Path::new(&kept.station.identifier)).is_none() => {
            Ok(published(&kept)?)
        }
        _ => Ok(None),
    }
}

/// The weather of a station that is known without a file.
pub(crate) fn of_known(named: &Path) -> Option<Weather> {
    let station = station(&named.to_string_lossy())?;
    let of = ClimateOf::Years(station.years.0, station.years.1);
    let weather =
        drawn(station.name.to_owned(), &station.climate(), of, station.identifier, place_of(station));
    Some(weather.with_freezes(station.frosts().map_or(Freezes::OfDays, Freezes::of_shipped)))
}

fn file_name(file: &Path) -> String {
    file.file_name().unwrap_or(file.as_os_str()).to_string_lossy().into_owned()
}

fn measured(named: &Path, record: Record) -> Weather {
    let frost_days = record.days.clone();
    let (days, filled) = quality::filled(record.days);
    let name = record.name.or_else(|| record.station.clone()).unwrap_or_else(|| file_name(named));
    let source = Source::Measured { from: days.first(), to: days.last(), filled };
    let hemisphere = days.hemisphere();
    Weather {
        climates: Climates { name, source, frosts: FrostsOf::Days, lies: None },
        days,
        frost_days,
        freezes: Freezes::OfDays,
        hemisphere,
        taken_out: record.taken_out,
        station: record.station,
        scale: record.scale,
        place: record.place,
    }
}

/// Years drawn from a climate, always the same for one key.
fn drawn(name: String, climate: &Climate, from: ClimateOf, key: &str, place: Place) -> Weather {
    let days = climate.years(DRAWN_YEARS, key);
    let source = Source::Drawn { years: DRAWN_YEARS, from };
    Weather {
        climates: Climates { name, source, frosts: FrostsOf::Days, lies: None },
        hemisphere: days.hemisphere(),
        frost_days: days.clone(),
        days,
        freezes: Freezes::OfDays,
        taken_out: TakenOut::default(),
        station: None,
        scale: None,
        place,
    }
}

/// A known station by identifier, name, or the name's beginning.
fn station(named: &str) -> Option<&'static shipped::Station> {
    let wanted = named.trim().to_lowercase();
    let is_it = |station: &&shipped::Station| {
        let name = station.name.to_lowercase();
        wanted == station.identifier.to_lowercase()
            || wanted == name
            || (3 < wanted.len() && name.starts_with(&wanted))
    };
    shipped::stations().iter().find(is_it)
}
