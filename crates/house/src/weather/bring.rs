//! Bringing weather files in: telling them from notes, and keeping the days as they were read.

use super::kept::{self, Replaced, StationKept};
use super::{MOST_BYTES, Record, WeatherFault, as_it_stands, is_network_file, sheet, text_of};
use crate::asked::Asked;
use crate::fault::HouseFault;
use crate::opened::{Given, fingerprint};
use crate::take::Request;
use intake::file::Content;
use intake::layout::SavedMapping;
use intake::recognise::is_of_notes;
use intake::table::Table;
use ledger::batch::Act;
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::weather::{DayRead, Station, WeatherFile};
use record::temperature::Celsius;
use ripening::weather::ghcn;
use ripening::weather::normals;
use ripening::weather::recognise::{Form, recognise};
use ripening::weather::table;
use std::fs::File;
use std::io::{self, BufRead, BufReader, Read};
use std::path::{Path, PathBuf};

/// What became of a weather file, or would.
#[derive(Clone, Debug)]
pub struct WeatherTaken {
    /// The file's name.
    pub file: String,
    /// What it holds.
    pub held: StationKept,
    /// What became of it.
    pub outcome: WeatherOutcome,
}

/// What became of it, or would.
#[derive(Clone, Debug)]
pub enum WeatherOutcome {
    /// It was kept, or would be; and the record of that station that counted before.
    Kept(Option<Replaced>),
    /// This very file was taken before; nothing was added.
    TakenBefore,
}

/// Bytes from the beginning by which a file is told.
const BEGINNING: u64 = 1 << 16;

/// Whether a file is a weather file and none of the house's own notes.
pub(crate) fn is_weather(given: &Given, saved: &[SavedMapping], asked: &Asked) -> bool {
    // Whoever says what a table holds, or what a column is, has notes in hand.
    if asked.says_notes(&given.name) {
        return false;
    }
    if is_network_file(Path::new(&given.name)) {
        return true;
    }
    let Ok(beginning) = bytes(&given.content, BEGINNING) else { return false };
    let text = String::from_utf8_lossy(&beginning);
    match recognise(text.trim_start_matches(super::MARK)) {
        Some(Form::Days(headings)) => !is_of_notes(&of_days(headings), saved),
        form => form.is_some(),
    }
}

/// The days of a workbook whose only sheet is a weather table and none of the house's own notes, as text.
pub(crate) fn of_workbook(
    given: &Given,
    tables: &[Table],
    saved: &[SavedMapping],
    asked: &Asked,
) -> Option<Given> {
    let [table] = tables else { return None };
    table.sheet()?;
    let rows = |most| {
        let content = Content::Bytes(sheet::text(table, most)?.into_bytes().into());
        Some(Given { name: given.name.clone(), content })
    };
    is_weather(&rows(1)?, saved, asked).then(|| rows(usize::MAX)).flatten()
}

/// The headings without those of a station: beside a column of stations, `name` is the station's.
fn of_days(headings: Vec<String>) -> Vec<String> {
    if headings.iter().any(|heading| table::is_station(heading)) {
        headings.into_iter().filter(|heading| !table::tells_of_station(heading)).collect()
    } else {
        headings
    }
}

/// The lines of a file that are the asked station's.
enum Lines {
    /// The file is not of many stations, or none was asked for by its identifier.
    All,
    /// These.
    Of(Given),
    /// It holds other stations only.
    None,
}

/// Picks one station's lines out of a file of one value a line, as the network writes files by year with every station of the
/// world. Its lines are then what was taken, so that another station of the same file can be taken too.
fn of_station(given: &Given, station: Option<&str>) -> io::Result<Lines> {
    let Some(station) = station.filter(|station| ghcn::is_station(station)) else { return Ok(Lines::All) };
    let beginning = bytes(&given.content, BEGINNING)?;
    if !ghcn::is_of_values(&String::from_utf8_lossy(&beginning)) {
        return Ok(Lines::All);
    }
    let mut own = Vec::new();
    let mut source: Box<dyn BufRead + '_> = match &given.content {
        Content::Path(path) => Box::new(BufReader::new(File::open(path)?)),
        Content::Bytes(held) => Box::new(held.as_ref()),
    };
    let mut line = Vec::new();
    while own.len() as u64 <= MOST_BYTES && 0 < source.read_until(b'\n', &mut line)? {
        if ghcn::is_of(&line, station) {
            own.extend_from_slice(&line);
        }
        line.clear();
    }
    let lines = Given { name: given.name.clone(), content: Content::Bytes(own.into()) };
    Ok(if matches!(&lines.content, Content::Bytes(own) if own.is_empty()) {
        Lines::None
    } else {
        Lines::Of(lines)
    })
}

fn bytes(content: &Content, most: u64) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    match content {
        Content::Path(path) => File::open(path)?.take(most).read_to_end(&mut bytes)?,
        Content::Bytes(held) => held.as_ref().take(most).read_to_end(&mut bytes)?,
    };
    Ok(bytes)
}

/// Whether the file is kept, or only looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Intent {
    /// It is kept.
    Keep,
    /// Nothing is stored.
    Look,
}

/// Reads a weather file and keeps its days, as one transaction.
///
/// # Errors
/// [`HouseFault::File`] or [`HouseFault::Weather`] for a file that cannot be kept; what the ledger refuses.
pub(crate) fn take(
    ledger: &mut Ledger,
    given: &Given,
    request: &Request,
    intent: Intent,
) -> Result<WeatherTaken, HouseFault> {
    let path = PathBuf::from(&given.name);
    let unread = |fault| HouseFault::file(&path, fault);
    let own = of_station(given, request.asked.station.as_deref()).map_err(unread)?;
    let given = match (&own, &request.asked.station) {
        (Lines::All, _) => given,
        (Lines::Of(own), _) => own,
        (Lines::None, station) => {
            let station = station.clone().unwrap_or_default();
            return Err(WeatherFault::NoSuchStation { file: path, station }.into());
        }
    };
    let sha256 = fingerprint(&given.content).map_err(unread)?;
    if let Some(before) = ledger.weather_taken(sha256)? {
        let (file, outcome) = (given.name.clone(), WeatherOutcome::TakenBefore);
        return Ok(WeatherTaken { file, held: kept::one(ledger, before)?, outcome });
    }
    let text = text_of(&path, bytes(&given.content, MOST_BYTES + 1).map_err(unread)?)?;
    let record =
        as_it_stands(&path, &text, request.asked.scale_of(&given.name)).map_err(|fault| match fault {
            WeatherFault::NoDays(file) if normals::is_of_freezes(&text) => WeatherFault::NormalsNotKept(file),
            fault => fault,
        })?;
    let station = station_of(&path, &record, &request.asked);
    let file = WeatherFile { name: given.name.clone(), sha256, scale: record.scale.map(kept::scale_kept) };
    let replaced = kept::newest_of(ledger, &station.identifier)?;
    if intent == Intent::Keep {
        let act = Act { who: request.who.clone(), at: request.at, why: None };
        match ledger.keep_weather(&act, &file, &station, &days_of(&record)) {
            // Another took it while this one waited for the pen.
            Err(LedgerFault::WeatherTakenAlready(by)) => {
                let (file, outcome) = (file.name, WeatherOutcome::TakenBefore);
                return Ok(WeatherTaken { file, held: kept::one(ledger, by)?, outcome });
            }
            kept => drop(kept?),
        }
    }
    let held = StationKept::of(station, record);
    Ok(WeatherTaken { file: file.name, held, outcome: WeatherOutcome::Kept(replaced) })
}

/// The station of a file: the one it names, else the one that was said, else the file's name without its ending.
fn station_of(path: &Path, record: &Record, asked: &Asked) -> Station {
    let stem = || path.file_stem().map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
    let identifier = record.station.clone().or_else(|| asked.station.clone()).unwrap_or_else(stem);
    Station { identifier, name: record.name.clone(), place: record.place }
}

fn days_of(record: &Record) -> Vec<DayRead> {
    let read = |degrees: Option<f64>| degrees.and_then(Celsius::new);
    let days = record.days.known().map(|(day, reading)| DayRead {
        day,
        lowest: read(reading.lowest),
        highest: read(reading.highest),
    });
    days.collect()
}
