//! Bringing weather records in, withdrawing and restoring them, and saying where stations lie.

use crate::batch::Act;
use crate::batch::Sha256;
use crate::fault::LedgerFault;
use crate::kept::keys::new_uuid;
use crate::kept::print::Print;
use crate::kept::values::record_head;
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::names::label_key;
use crate::store::session::{Copied, Session, Table};
use crate::store::value::{Value, without_nul};
use crate::undo::{Undoings, write_down};
use crate::weather::{DayRead, Normals, Station, WeatherFile, WeatherNumber, standing_of_file};
use record::place::{Elevation, Latitude, Longitude};
use record::temperature::Celsius;

/// Undoings of records.
const UNDOINGS: Undoings = Undoings { table: "weather_undoing", what: "record" };

static DAYS: Table = Table {
    name: "weather_day",
    columns: &["record", "day", "lowest_c", "highest_c"],
    copied: Copied::First,
};

impl Ledger {
    /// Keeps the days of a station, as one transaction.
    ///
    /// # Errors
    /// [`LedgerFault::WeatherTakenAlready`] where a standing record comes from this very file;
    /// [`LedgerFault::Nameless`] where the station has no identifier or the record no day; what the disk or server
    /// refuses.
    pub fn keep_weather(
        &mut self,
        act: &Act,
        file: &WeatherFile,
        station: &Station,
        days: &[DayRead],
    ) -> Result<WeatherNumber, LedgerFault> {
        if label_key(&station.identifier).is_empty() || days.is_empty() {
            return Err(LedgerFault::Nameless);
        }
        self.store.writing(|session| {
            // Only whoever holds the pen can be sure: another may have taken it while this one waited.
            match standing_of_file(session, file.sha256)? {
                Some(by) => Err(LedgerFault::WeatherTakenAlready(by)),
                None => add_record(session, act, file, station, days),
            }
        })
    }

    /// Keeps the climate normals of a station word for word, as one transaction.
    ///
    /// # Errors
    /// [`LedgerFault::WeatherTakenAlready`] where a standing record comes from this very file;
    /// [`LedgerFault::Nameless`] where the station has no identifier or the file no text; what the disk or server refuses.
    pub fn keep_normals(
        &mut self,
        act: &Act,
        file: &WeatherFile,
        station: &Station,
        normals: (Normals, &str),
    ) -> Result<WeatherNumber, LedgerFault> {
        let (of, body) = (normals.0, without_nul(normals.1));
        if label_key(&station.identifier).is_empty() || body.is_empty() {
            return Err(LedgerFault::Nameless);
        }
        self.store.writing(|session| match standing_of_file(session, file.sha256)? {
            Some(by) => Err(LedgerFault::WeatherTakenAlready(by)),
            None => add_normals(session, act, file, station, (of, &body)),
        })
    }

    /// Withdraws the newest standing record of a station, so that the one before it counts, and tells which it was.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchStation`] where none stands, or what the disk or server refuses.
    pub fn withdraw_weather(&mut self, station: &str, act: &Act) -> Result<WeatherNumber, LedgerFault> {
        self.store.writing(|session| {
            let sql = "SELECT max(number) FROM weather_record
                WHERE station_key = $1 AND number IN (SELECT number FROM standing_weather)";
            let newest =
                session.first(sql, &[label_key(station).as_str().into()], |row| row.small_or_none(0))?;
            let record = newest.flatten().map(WeatherNumber);
            let record = record.ok_or_else(|| LedgerFault::NoSuchStation(station.to_owned()))?;
            write_down(session, &UNDOINGS, record.0, "withdrawn", act).map(|()| record)
        })
    }

    /// Restores the record of a station that was withdrawn last, and tells which it was.
    ///
    /// # Errors
    /// [`LedgerFault::NothingWithdrawn`] where none is withdrawn; [`LedgerFault::WeatherTakenAlready`] where its file was
    /// taken again; what the disk or server refuses.
    pub fn restore_weather(&mut self, station: &str, act: &Act) -> Result<WeatherNumber, LedgerFault> {
        self.store.writing(|session| {
            let sql = "SELECT w.number, w.sha256 FROM weather_record w
                JOIN weather_undoing u ON u.number =
                    (SELECT max(number) FROM weather_undoing WHERE record = w.number)
                WHERE w.station_key = $1 AND u.action = 'withdrawn' ORDER BY u.number DESC";
            let key = label_key(station);
            let last =
                session.first(sql, &[key.as_str().into()], |row| Ok((row.small(0)?, row.bytes(1)?)))?;
            let (record, sha256) = last.ok_or_else(|| LedgerFault::NothingWithdrawn(station.to_owned()))?;
            if let Some(by) = standing_of_file(session, Sha256(sha256))? {
                return Err(LedgerFault::WeatherTakenAlready(by));
            }
            let record = WeatherNumber(record);
            write_down(session, &UNDOINGS, record.0, "restored", act).map(|()| record)
        })
    }

    /// Says what a station is called and where it lies; goes before what its files say.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchStation`] where no record is of it, or what the disk or server refuses.
    pub fn place_station(&mut self, station: &Station, act: &Act) -> Result<(), LedgerFault> {
        let key = label_key(&station.identifier);
        self.store.writing(|session| {
            let sql = "SELECT count(*) FROM weather_record WHERE station_key = $1";
            if session.first(sql, &[key.as_str().into()], |row| row.whole(0))?.unwrap_or(0) == 0 {
                return Err(LedgerFault::NoSuchStation(station.identifier.clone()));
            }
            let told = told(station, &key);
            let print = Print::new().add(&told).done();
            let number = session.next_number("station_detail")?;
            let values: Vec<Value<'_>> = [number.into(), print.into()]
                .into_iter()
                .chain(told)
                .chain([act.who.as_str().into(), act.at.into()])
                .collect();
            session.execute(
                "INSERT INTO station_detail (number, print, station, station_key, name, latitude, longitude,
                    elevation_m, who, at_us) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
                &values,
            )?;
            Ok(())
        })
    }
}

fn add_normals(
    session: &mut Session<'_>,
    act: &Act,
    file: &WeatherFile,
    station: &Station,
    (of, body): (Normals, &str),
) -> Result<WeatherNumber, LedgerFault> {
    let number = session.next_number("weather_record")?;
    let (uuid, key) = (new_uuid(act.at), label_key(&station.identifier));
    let own = own(file, told(station, &key));
    let print = Print::new().add(&own).add(&[of.word().into(), body.into()]).done();
    let head = record_head(number, &uuid, act, print).into_iter();
    let values: Vec<Value<'_>> = head.chain(own).chain([of.word().into(), body.into()]).collect();
    session.execute(
        "INSERT INTO weather_record (number, uuid, who, at_us, print, station, station_key, name, latitude, longitude,
            elevation_m, file_name, sha256, scale, scale_told_by, normals, body)
         VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17)",
        &values,
    )?;
    Ok(WeatherNumber(u32::try_from(number).unwrap_or(u32::MAX)))
}

fn add_record(
    session: &mut Session<'_>,
    act: &Act,
    file: &WeatherFile,
    station: &Station,
    days: &[DayRead],
) -> Result<WeatherNumber, LedgerFault> {
    let number = session.next_number("weather_record")?;
    let (uuid, key) = (new_uuid(act.at), label_key(&station.identifier));
    let own = own(file, told(station, &key));
    let print = days.iter().fold(Print::new().add(&own), |print, day| print.add(&values_of(day))).done();
    let values: Vec<Value<'_>> = record_head(number, &uuid, act, print).into_iter().chain(own).collect();
    session.execute(
        "INSERT INTO weather_record (number, uuid, who, at_us, print, station, station_key, name, latitude, longitude,
            elevation_m, file_name, sha256, scale, scale_told_by)
         VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)",
        &values,
    )?;
    for day in days {
        let [date, lowest, highest] = values_of(day);
        session.add(&DAYS, &[number.into(), date, lowest, highest])?;
    }
    Ok(WeatherNumber(u32::try_from(number).unwrap_or(u32::MAX)))
}

/// The columns that tell of a station.
fn told<'a>(station: &'a Station, key: &'a str) -> [Value<'a>; 6] {
    let place = &station.place;
    [
        station.identifier.as_str().into(),
        key.into(),
        station.name.as_deref().into(),
        place.latitude.map(Latitude::get).into(),
        place.longitude.map(Longitude::get).into(),
        place.elevation.map(Elevation::get).into(),
    ]
}

/// The columns of a record that its print is made of, before its days.
fn own<'a>(file: &'a WeatherFile, told: [Value<'a>; 6]) -> [Value<'a>; 10] {
    let [identifier, key, name, latitude, longitude, elevation] = told;
    [
        identifier,
        key,
        name,
        latitude,
        longitude,
        elevation,
        file.name.as_str().into(),
        Value::Bytes(&file.sha256.0),
        file.scale.map(|(scale, _)| scale.word()).into(),
        file.scale.map(|(_, told_by)| told_by.word()).into(),
    ]
}

fn values_of<'a>(day: &DayRead) -> [Value<'a>; 3] {
    [day.day.into(), day.lowest.map(Celsius::get).into(), day.highest.map(Celsius::get).into()]
}
