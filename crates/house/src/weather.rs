//! A station's own days, read from a file as it is or from a record that the house keeps.
//!
//! Start at [`of`], which takes either. [`bring`] keeps files, [`kept`] lists, withdraws and places what is kept, [`near`]
//! finds what lies near a garden.

pub(crate) mod bring;
mod fault;
pub mod kept;
pub mod near;
mod sheet;
mod station;

use crate::fault::HouseFault;
pub use fault::WeatherFault;
use intake::file::Content;
use ledger::ledger::Ledger;
use record::place::Place;
use ripening::climate::normals::is_of_means;
use ripening::weather::Days;
use ripening::weather::ghcn::{self, GhcnFault};
use ripening::weather::normals;
use ripening::weather::quality;
pub use ripening::weather::quality::TakenOut;
use ripening::weather::station::{Lines, lines_of};
use ripening::weather::table;
pub use ripening::weather::table::{Scale, ToldBy};
use std::borrow::Cow;
use std::fs::File;
use std::io::Read;
use std::path::Path;

/// What is said of a weather file beside it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    /// Its degrees, where it does not say.
    pub scale: Option<Scale>,
    /// The identifier of the station that is meant, of a file with many.
    pub station: Option<String>,
}

/// What a station's file holds, once it is checked.
#[derive(Clone, Debug)]
pub struct Record {
    /// The station's identifier, where the file has one.
    pub station: Option<String>,
    /// What the station is called, where that is told.
    pub name: Option<String>,
    /// Where it lies, as far as that is told.
    pub place: Place,
    /// What a table's numbers were taken for, and how that was told; `None` for the network's own files.
    pub scale: Option<(Scale, ToldBy)>,
    /// Its days.
    pub days: Days,
    /// Days that the checks took something out of.
    pub taken_out: TakenOut,
}

/// A station's days by what the user calls them: a file, or where there is none of that name, the newest standing
/// record of a station by its identifier or name.
///
/// # Errors
/// [`HouseFault::File`] for a file that cannot be opened; [`HouseFault::Weather`] for one that cannot be read, and where
/// there is neither file nor record; what the ledger refuses.
pub fn of(ledger: &mut Ledger, named: &Path, said: &Said) -> Result<Record, HouseFault> {
    if named.is_file() {
        return read(named, said);
    }
    let station = named.to_string_lossy();
    let record = kept::read(ledger, &station)?;
    if said.scale.is_some() {
        Err(WeatherFault::ScaleSettled(station.into_owned()).into())
    } else {
        Ok(record)
    }
}

/// Reads a station's file.
///
/// # Errors
/// [`HouseFault::File`] for a file that cannot be opened; [`HouseFault::Weather`] with line or row for one that cannot be
/// read.
pub fn read(path: &Path, said: &Said) -> Result<Record, HouseFault> {
    Ok(parsed(path, &text(path, said)?, said)?)
}

/// Most bytes that a file may have: three centuries of one value a line, of a dozen elements. Common practice, no source.
const MOST_BYTES: u64 = 64 << 20;

/// A file's text, without a mark of its encoding; of a file with every station's values, which may be of any size, the lines of the
/// station that is meant.
pub(crate) fn text(path: &Path, said: &Said) -> Result<String, HouseFault> {
    let own = station::values(&Content::Path(path.to_owned()), said.station.as_deref());
    if let Some(own) = own.map_err(|fault| HouseFault::file(path, fault))? {
        return if own.is_empty() {
            Err(no_such_station(path, said).into())
        } else {
            Ok(text_of(path, own)?)
        };
    }
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(|fault| HouseFault::file(path, fault))?;
    file.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(|fault| HouseFault::file(path, fault))?;
    if sheet::is_packed(&bytes) {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let file = || path.to_owned();
        return Ok(
            sheet::only(&name, bytes).map_err(|reason| WeatherFault::Workbook { file: file(), reason })?
        );
    }
    Ok(text_of(path, bytes)?)
}

/// The text of what is a file's bytes.
fn text_of(path: &Path, bytes: Vec<u8>) -> Result<String, WeatherFault> {
    if MOST_BYTES < bytes.len() as u64 {
        return Err(WeatherFault::TooLarge(path.to_owned()));
    }
    let mut text = String::from_utf8(bytes).map_err(|_| WeatherFault::NotText(path.to_owned()))?;
    if text.starts_with(MARK) {
        text.remove(0);
    }
    Ok(text)
}

/// The mark of its encoding that some programs put before a text.
const MARK: char = '\u{feff}';

/// The lines of the station that is meant, of a text with those of many.
///
/// # Errors
/// [`WeatherFault::NoSuchStation`] where it holds other stations only.
pub(crate) fn own_lines<'t>(path: &Path, text: &'t str, said: &Said) -> Result<Cow<'t, str>, WeatherFault> {
    let Some(station) = &said.station else { return Ok(Cow::Borrowed(text)) };
    match lines_of(text, station) {
        Lines::Of(own) => Ok(Cow::Owned(own)),
        Lines::None if ghcn::is_station(station) => Err(no_such_station(path, said)),
        // A name for a file that has none, or another one, of its own.
        Lines::None | Lines::All => Ok(Cow::Borrowed(text)),
    }
}

fn no_such_station(path: &Path, said: &Said) -> WeatherFault {
    WeatherFault::NoSuchStation { file: path.to_owned(), station: said.station.clone().unwrap_or_default() }
}

/// Reads the text of a station's file.
pub(crate) fn parsed(path: &Path, text: &str, said: &Said) -> Result<Record, WeatherFault> {
    as_it_stands(path, text, said).map(checked)
}

/// Reads the text of a station's file, and takes nothing out.
fn as_it_stands(path: &Path, text: &str, said: &Said) -> Result<Record, WeatherFault> {
    let file = || path.to_owned();
    let text = own_lines(path, text, said)?;
    let network = |read: Result<(String, Days), GhcnFault>| {
        let (station, days) = read.map_err(|fault| WeatherFault::Network { file: file(), fault })?;
        let (name, place) = (None, Place::default());
        Ok(Record { station: Some(station), name, place, scale: None, days, taken_out: TakenOut::default() })
    };
    let record = if normals::is_of_freezes(&text) || is_of_means(&text) {
        return Err(WeatherFault::NoDays(file()));
    } else if is_network_file(path) || ghcn::is_of_months(&text) {
        network(ghcn::read(&text))?
    } else if ghcn::is_of_values(&text) {
        network(ghcn::read_values(&text))?
    } else {
        let read = table::read(&text, said.scale);
        let read = read.map_err(|fault| WeatherFault::Table { file: file(), fault })?;
        let scale = Some((read.scale, read.told_by));
        let (station, name, place) = (read.station, read.name, read.place);
        Record { station, name, place, scale, days: read.days, taken_out: TakenOut::default() }
    };
    match quality::impossible(&record.days) {
        Some((day, celsius)) => Err(WeatherFault::Impossible { file: file(), day, celsius }),
        None => Ok(record),
    }
}

/// Takes out what cannot be.
fn checked(record: Record) -> Record {
    let (days, dropped) = quality::checked(record.days);
    Record { days, taken_out: TakenOut::of(&dropped), ..record }
}

fn is_network_file(file: &Path) -> bool {
    file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("dly"))
}
