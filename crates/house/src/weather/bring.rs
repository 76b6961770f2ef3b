//! Bringing weather files in: telling them from notes, and keeping the days as they were read.

use super::kept::{self, Held, Replaced, StationKept};
use super::station::{self, BEGINNING, bytes};
use super::{
    MOST_BYTES, Record, Said, Scale, ToldBy, WeatherFault, as_it_stands, is_network_file, no_such_station,
    own_lines, sheet, text_of,
};
use crate::asked::Asked;
use crate::fault::HouseFault;
use crate::opened::{Given, fingerprint};
use crate::take::Request;
use intake::file::Content;
use intake::layout::SavedMapping;
use intake::recognise::is_of_notes;
use intake::table::Table;
use ledger::batch::{Act, Sha256};
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::weather::{DayRead, Normals, Station, WeatherFile};
use record::place::Place;
use record::temperature::Celsius;
use ripening::climate::normals::{self as means, MeansOf, is_of_means};
use ripening::weather::normals;
use ripening::weather::recognise::{Form, recognise};
use ripening::weather::table::stations::{is_station, tells_of_station};
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
    if headings.iter().any(|heading| is_station(heading)) {
        headings.into_iter().filter(|heading| !tells_of_station(heading)).collect()
    } else {
        headings
    }
}

/// Whether the file is kept, or only looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Intent {
    /// It is kept.
    Keep,
    /// Nothing is stored.
    Look,
}

/// A weather file whose station's lines are picked, and told apart from every other.
struct Lines {
    file: PathBuf,
    said: Said,
    text: String,
    sha256: Sha256,
}

/// Reads a weather file and keeps its days or its normals, as one transaction.
///
/// # Errors
/// [`HouseFault::File`] or [`HouseFault::Weather`] for a file that cannot be kept; what the ledger refuses.
pub(crate) fn take(
    ledger: &mut Ledger,
    given: &Given,
    request: &Request,
    intent: Intent,
) -> Result<WeatherTaken, HouseFault> {
    let own = own_lines_of(given, request)?;
    let before = |ledger: &mut Ledger, by| {
        let (file, outcome) = (given.name.clone(), WeatherOutcome::TakenBefore);
        Ok(WeatherTaken { file, held: kept::one(ledger, by)?, outcome })
    };
    if let Some(by) = ledger.weather_taken(own.sha256)? {
        return before(ledger, by);
    }
    let read = read_of(&own)?;
    let normals = read.normals();
    let replaced = kept::newest_of(ledger, &read.station.identifier, normals)?;
    let scale = read.scale.map(kept::scale_kept);
    let file = WeatherFile { name: given.name.clone(), sha256: own.sha256, scale };
    if intent == Intent::Keep {
        let act = Act { who: request.who.clone(), at: request.at, why: None };
        let kept = match &read.holds {
            Read::Days(record) => ledger.keep_weather(&act, &file, &read.station, &days_of(record)),
            Read::Normals(normals) => ledger.keep_normals(&act, &file, &read.station, (*normals, &own.text)),
        };
        match kept {
            // Another took it while this one waited for the pen.
            Err(LedgerFault::WeatherTakenAlready(by)) => return before(ledger, by),
            kept => drop(kept?),
        }
    }
    let held = match read.holds {
        Read::Days(record) => StationKept::of(read.station, *record),
        Read::Normals(normals) => StationKept { station: read.station, holds: Held::Normals(normals) },
    };
    Ok(WeatherTaken { file: file.name, held, outcome: WeatherOutcome::Kept(replaced) })
}

/// The lines of the station that is meant. Where one is picked its lines are what is taken, so that another of the same file can be
/// taken too.
fn own_lines_of(given: &Given, request: &Request) -> Result<Lines, HouseFault> {
    let file = PathBuf::from(&given.name);
    let unread = |fault| HouseFault::file(&file, fault);
    let said =
        Said { scale: request.asked.scale_of(&given.name), station: request.asked.station_of(&given.name) };
    if let Some(own) = station::values(&given.content, said.station.as_deref()).map_err(unread)? {
        if own.is_empty() {
            return Err(no_such_station(&file, &said).into());
        }
        let sha256 = fingerprint(&Content::Bytes(own.clone().into())).map_err(unread)?;
        let text = text_of(&file, own)?;
        return Ok(Lines { file, said, text, sha256 });
    }
    let text = text_of(&file, bytes(&given.content, MOST_BYTES + 1).map_err(unread)?)?;
    let own = own_lines(&file, &text, &said)?.into_owned();
    let sha256 = if own.lines().eq(text.lines()) {
        fingerprint(&given.content)
    } else {
        fingerprint(&Content::Bytes(own.clone().into_bytes().into()))
    };
    let sha256 = sha256.map_err(unread)?;
    Ok(Lines { file, said, text: own, sha256 })
}

/// What was read of a file.
struct ReadFile {
    station: Station,
    scale: Option<(Scale, ToldBy)>,
    holds: Read,
}

enum Read {
    Days(Box<Record>),
    Normals(Normals),
}

impl ReadFile {
    fn normals(&self) -> Option<Normals> {
        match self.holds {
            Read::Days(_) => None,
            Read::Normals(normals) => Some(normals),
        }
    }
}

/// Reads the days or the normals, and finds whose they are.
fn read_of(own: &Lines) -> Result<ReadFile, HouseFault> {
    let file = || own.file.clone();
    if is_of_means(&own.text) {
        let fault = |fault| WeatherFault::Means { file: file(), fault };
        let read = means::read(&own.text, own.said.scale).map_err(fault)?;
        let normals = match read.of {
            MeansOf::Months => Normals::Months,
            MeansOf::Days => Normals::Days,
        };
        let told_by = if own.said.scale.is_some() { ToldBy::Bringer } else { ToldBy::Summers };
        let station = station_of(own, (read.station, read.name, read.place));
        return Ok(ReadFile { station, scale: Some((read.scale, told_by)), holds: Read::Normals(normals) });
    }
    if normals::is_of_freezes(&own.text) {
        let fault = |fault| WeatherFault::Normals { file: file(), fault };
        let read = normals::read(&own.text).map_err(fault)?;
        let identifier = Some(read.station).filter(|identifier| !identifier.is_empty());
        let station = station_of(own, (identifier, Some(read.name), read.place));
        return Ok(ReadFile { station, scale: None, holds: Read::Normals(Normals::Freezes) });
    }
    let record = as_it_stands(&own.file, &own.text, &own.said)?;
    let told = (record.station.clone(), record.name.clone(), record.place);
    let station = station_of(own, told);
    Ok(ReadFile { station, scale: record.scale, holds: Read::Days(Box::new(record)) })
}

/// The station of a file: the one it names, else the one that was said, else the file's name without its ending.
fn station_of(own: &Lines, told: (Option<String>, Option<String>, Place)) -> Station {
    let stem = || own.file.file_stem().map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
    let (identifier, name, place) = told;
    let identifier = identifier.or_else(|| own.said.station.clone()).unwrap_or_else(stem);
    Station { identifier, name, place }
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
