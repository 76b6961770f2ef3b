//! Weather that the house keeps: listed, read, withdrawn, restored, placed, and found near a garden.

use super::{Record, Scale, TakenOut, ToldBy, WeatherFault, checked};
use crate::fault::HouseFault;
use crate::folder::House;
use jiff::Timestamp;
use jiff::civil::Date;
use ledger::batch::Act;
use ledger::ledger::Ledger;
use ledger::names::label_key;
pub use ledger::weather::{Holds, Normals, Station};
use ledger::weather::{ScaleTaken, ScaleToldBy, WeatherInfo, WeatherNumber, WeatherState};
use record::temperature::Celsius;
use ripening::weather::{Days, Reading};
use std::collections::BTreeMap;

/// What a station's record holds, as it is told.
#[derive(Clone, Debug, PartialEq)]
pub struct StationKept {
    /// The station.
    pub station: Station,
    /// What it holds of it.
    pub holds: Held,
}

/// What a record holds, as it is told.
#[derive(Clone, Debug, PartialEq)]
pub enum Held {
    /// Days.
    Days(DaysHeld),
    /// Climate normals.
    Normals(Normals),
}

/// Days that a record holds.
#[derive(Clone, Debug, PartialEq)]
pub struct DaysHeld {
    /// What a table's numbers were taken for, and how that was told.
    pub scale: Option<(Scale, ToldBy)>,
    /// Its first and last day.
    pub days: (Date, Date),
    /// How many days from the first to the last.
    pub day_count: usize,
    /// How many of them lack the lowest or the highest temperature.
    pub missing: usize,
    /// Days that the checks take something out of when it is used.
    pub taken_out: TakenOut,
}

impl StationKept {
    /// What a record holds that was read and not yet checked.
    pub(super) fn of(station: Station, record: Record) -> Self {
        let (days, day_count) = ((record.days.first(), record.days.last()), record.days.len());
        let (scale, missing) = (record.scale, record.days.missing());
        let taken_out = checked(record).taken_out;
        Self { station, holds: Held::Days(DaysHeld { scale, days, day_count, missing, taken_out }) }
    }
}

/// What normals tell, in words.
#[must_use]
pub fn normals_named(normals: Normals) -> &'static str {
    match normals {
        Normals::Freezes => "freeze dates of climate normals",
        Normals::Months => "monthly climate normals",
        Normals::Days => "daily climate normals",
    }
}

/// A record that counted before a newer one of its station came.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Replaced {
    /// Its file.
    pub file: String,
    /// What it holds.
    pub holds: Holds,
}

/// A record as the list of them tells it.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// The station, with what was said of it since.
    pub station: Station,
    /// The file.
    pub file: String,
    /// Who brought it.
    pub who: String,
    /// When.
    pub at: Timestamp,
    /// What it holds.
    pub holds: Holds,
    /// Whether it counts.
    pub counts: Counts,
}

impl Listed {
    /// Whether it counts.
    #[must_use]
    pub fn counts_now(&self) -> bool {
        self.counts == Counts::Yes
    }

    /// Whether years can be had of it, measured or drawn, and it counts.
    pub(crate) fn tells_a_climate(&self) -> bool {
        self.counts_now() && self.holds != Holds::Normals(Normals::Freezes)
    }

    /// Whether it is days, and counts.
    #[must_use]
    pub fn tells_days(&self) -> bool {
        self.counts == Counts::Yes && matches!(self.holds, Holds::Days { .. })
    }
}

/// Whether a record counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counts {
    /// It is the newest of its station and kind.
    Yes,
    /// A newer one of its station and kind counts.
    Replaced,
    /// It was withdrawn.
    Withdrawn,
}

/// Every record, by station and the newest first.
///
/// # Errors
/// What the ledger refuses.
pub fn list(house: &House) -> Result<Vec<Listed>, HouseFault> {
    listed(&mut Ledger::open(&house.ledger_location())?)
}

pub(crate) fn listed(ledger: &mut Ledger) -> Result<Vec<Listed>, HouseFault> {
    let mut records = ledger.weather_records()?;
    let newest = newest(&records);
    records.sort_by_key(|record| (key(record), std::cmp::Reverse(record.number)));
    Ok(records.into_iter().map(|record| listing(record, &newest)).collect())
}

/// The newest standing record of every station, by the station's key and by what it holds.
type Newest = BTreeMap<(String, Option<Normals>), WeatherNumber>;

fn listing(record: WeatherInfo, newest: &Newest) -> Listed {
    let counts = match &record.state {
        WeatherState::Withdrawn(_) => Counts::Withdrawn,
        WeatherState::Standing if newest.get(&kind(&record)) == Some(&record.number) => Counts::Yes,
        WeatherState::Standing => Counts::Replaced,
    };
    Listed {
        station: record.station,
        file: record.file.name,
        who: record.brought.who,
        at: record.brought.at,
        holds: record.holds,
        counts,
    }
}

fn key(record: &WeatherInfo) -> String {
    label_key(&record.station.identifier)
}

/// A record's station and what kind of record it is.
fn kind(record: &WeatherInfo) -> (String, Option<Normals>) {
    let normals = match record.holds {
        Holds::Days { .. } => None,
        Holds::Normals(normals) => Some(normals),
    };
    (key(record), normals)
}

fn newest(records: &[WeatherInfo]) -> Newest {
    let standing = records.iter().filter(|record| record.state == WeatherState::Standing);
    standing.map(|record| (kind(record), record.number)).collect()
}

/// The record of a station that counts, as what a newer one of its kind would replace.
pub(super) fn newest_of(
    ledger: &mut Ledger,
    station: &str,
    normals: Option<Normals>,
) -> Result<Option<Replaced>, HouseFault> {
    let wanted = (label_key(station), normals);
    let records = ledger.weather_records()?;
    let stands = |record: &WeatherInfo| record.state == WeatherState::Standing && kind(record) == wanted;
    let newest = records.into_iter().rfind(stands);
    Ok(newest.map(|record| Replaced { file: record.file.name, holds: record.holds }))
}

/// One record, as it is told.
pub(super) fn one(ledger: &mut Ledger, number: WeatherNumber) -> Result<StationKept, HouseFault> {
    let info = ledger.weather_records()?.into_iter().find(|record| record.number == number);
    let info = info.ok_or_else(|| WeatherFault::NotKept(number.to_string()))?;
    let station = info.station.clone();
    match info.holds {
        Holds::Days { .. } => Ok(StationKept::of(station, record_of(ledger, info)?)),
        Holds::Normals(normals) => Ok(StationKept { station, holds: Held::Normals(normals) }),
    }
}

/// The climate normals of a station that count, word for word.
pub(crate) struct NormalsKept {
    pub(crate) station: Station,
    /// Means of days, else of months, with the scale that they were taken for.
    pub(crate) means: Option<(String, Option<Scale>)>,
    /// Freeze dates.
    pub(crate) freezes: Option<String>,
}

/// The climate normals of a station by its identifier or name; `None` where none are kept.
pub(crate) fn normals(ledger: &mut Ledger, named: &str) -> Result<Option<NormalsKept>, HouseFault> {
    let mut records = ledger.weather_records()?;
    let newest = newest(&records);
    records.retain(|record| {
        matches!(record.holds, Holds::Normals(_)) && newest.get(&kind(record)) == Some(&record.number)
    });
    let Some(one) = named_so(&records, named)? else { return Ok(None) };
    let (station, own) = (one.station.clone(), key(one));
    let mut text = |normals: Normals| {
        let of = |record: &&WeatherInfo| kind(record) == (own.clone(), Some(normals));
        let Some(record) = records.iter().find(of) else { return Ok::<_, HouseFault>(None) };
        let scale = record.file.scale.map(|scale| scale_told(scale).0);
        Ok(ledger.normals_text(record.number)?.map(|text| (text, scale)))
    };
    let means = match text(Normals::Days)? {
        Some(days) => Some(days),
        None => text(Normals::Months)?,
    };
    let freezes = text(Normals::Freezes)?.map(|(text, _)| text);
    Ok(Some(NormalsKept { station, means, freezes }))
}

/// The first record of the station of that identifier, else of the one station of that name.
fn named_so<'r>(records: &'r [WeatherInfo], named: &str) -> Result<Option<&'r WeatherInfo>, HouseFault> {
    let wanted = label_key(named);
    if let Some(own) = records.iter().find(|record| key(record) == wanted) {
        return Ok(Some(own));
    }
    let is_named =
        |record: &&WeatherInfo| record.station.name.as_deref().is_some_and(|name| label_key(name) == wanted);
    let own: Vec<&WeatherInfo> = records.iter().filter(is_named).collect();
    let mut stations: Vec<String> = own.iter().map(|record| record.station.identifier.clone()).collect();
    stations.dedup();
    if 1 < stations.len() {
        return Err(WeatherFault::Several { named: named.to_owned(), stations }.into());
    }
    Ok(own.into_iter().next())
}

/// Whether a station's days are kept.
///
/// # Errors
/// Several stations of one name; what the ledger refuses.
pub(crate) fn has_days(ledger: &mut Ledger, named: &str) -> Result<bool, HouseFault> {
    match find(ledger, named) {
        Ok(_) => Ok(true),
        Err(HouseFault::Weather(WeatherFault::NotKept(_))) => Ok(false),
        Err(fault) => Err(fault),
    }
}

/// The record that counts of a station, by its identifier or name, with what cannot be taken out.
pub(super) fn read(ledger: &mut Ledger, named: &str) -> Result<Record, HouseFault> {
    let info = find(ledger, named)?;
    record_of(ledger, info).map(checked)
}

/// The newest standing record of days of the station of that identifier, else of the one station of that name.
fn find(ledger: &mut Ledger, named: &str) -> Result<WeatherInfo, HouseFault> {
    let mut records = ledger.weather_records()?;
    let newest = newest(&records);
    records.retain(|record| {
        matches!(record.holds, Holds::Days { .. }) && newest.get(&kind(record)) == Some(&record.number)
    });
    let found = named_so(&records, named)?.cloned();
    found.ok_or_else(|| WeatherFault::NotKept(named.to_owned()).into())
}

fn record_of(ledger: &mut Ledger, info: WeatherInfo) -> Result<Record, HouseFault> {
    let read = ledger.weather_days(info.number)?.into_iter().map(|day| {
        let (lowest, highest) = (day.lowest.map(Celsius::get), day.highest.map(Celsius::get));
        (day.day, Reading { lowest, highest })
    });
    let readings: BTreeMap<Date, Reading> = read.collect();
    let none = || WeatherFault::NotKept(info.station.identifier.clone());
    let days = Days::new(&readings).ok_or_else(none)?;
    let Station { identifier, name, place } = info.station;
    let scale = info.file.scale.map(scale_told);
    Ok(Record { station: Some(identifier), name, place, scale, days, taken_out: TakenOut::default() })
}

/// Withdraws the record of a station that was brought last, and tells the station.
///
/// # Errors
/// [`WeatherFault::NotKept`] where none stands; what the ledger refuses.
pub fn withdraw(house: &House, named: &str, act: &Act) -> Result<Station, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let records = ledger.weather_records()?;
    let standing: Vec<WeatherInfo> =
        records.into_iter().filter(|record| record.state == WeatherState::Standing).collect();
    let found = named_so(&standing, named)?.map(|record| record.station.clone());
    let station = found.ok_or_else(|| WeatherFault::NotKept(named.to_owned()))?;
    ledger.withdraw_weather(&station.identifier, act)?;
    Ok(station)
}

/// Restores the record of a station that was withdrawn last.
///
/// # Errors
/// [`WeatherFault::NotKept`] where there is no such station; what the ledger refuses, such as that nothing is withdrawn.
pub fn restore(house: &House, named: &str, act: &Act) -> Result<Station, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let station = any_record(&mut ledger, named)?.station;
    ledger.restore_weather(&station.identifier, act)?;
    Ok(station)
}

/// The newest record of a station, whether it stands or not.
fn any_record(ledger: &mut Ledger, named: &str) -> Result<WeatherInfo, HouseFault> {
    let wanted = label_key(named);
    let of = |record: &WeatherInfo| {
        let name = record.station.name.as_deref().map(label_key);
        key(record) == wanted || name.as_ref() == Some(&wanted)
    };
    let newest = ledger.weather_records()?.into_iter().rfind(of);
    newest.ok_or_else(|| WeatherFault::NotKept(named.to_owned()).into())
}

/// Says what a station is called and where it lies; what is not said now stays as it was.
///
/// # Errors
/// [`WeatherFault::NotKept`] where there is no such station; what the ledger refuses.
pub fn place(house: &House, told: &Station, act: &Act) -> Result<Station, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let known = any_record(&mut ledger, &told.identifier)?.station;
    let station = Station {
        identifier: known.identifier,
        name: told.name.clone().or(known.name),
        place: told.place.or(known.place),
    };
    ledger.place_station(&station, act)?;
    Ok(station)
}

/// What a scale is called in the ledger, and who told.
pub(super) fn scale_kept((scale, told_by): (Scale, ToldBy)) -> (ScaleTaken, ScaleToldBy) {
    let scale = match scale {
        Scale::Celsius => ScaleTaken::Celsius,
        Scale::Fahrenheit => ScaleTaken::Fahrenheit,
        Scale::Tenths => ScaleTaken::Tenths,
    };
    let told_by = match told_by {
        ToldBy::Bringer => ScaleToldBy::Bringer,
        ToldBy::Headings => ScaleToldBy::Headings,
        ToldBy::Summers => ScaleToldBy::Summers,
    };
    (scale, told_by)
}

fn scale_told((scale, told_by): (ScaleTaken, ScaleToldBy)) -> (Scale, ToldBy) {
    let scale = match scale {
        ScaleTaken::Celsius => Scale::Celsius,
        ScaleTaken::Fahrenheit => Scale::Fahrenheit,
        ScaleTaken::Tenths => Scale::Tenths,
    };
    let told_by = match told_by {
        ScaleToldBy::Bringer => ToldBy::Bringer,
        ScaleToldBy::Headings => ToldBy::Headings,
        ScaleToldBy::Summers => ToldBy::Summers,
    };
    (scale, told_by)
}
