//! A station's own days, read from a file as it is or from a record that the house keeps.
//!
//! Start at [`of`], which takes either. [`bring`] keeps files, [`kept`] lists, withdraws and places what is kept, [`near`]
//! finds what lies near a garden.

pub(crate) mod bring;
pub mod kept;
pub mod near;
mod sheet;

use crate::fault::HouseFault;
use jiff::civil::Date;
use ledger::ledger::Ledger;
use record::place::Place;
use ripening::weather::Days;
use ripening::weather::ghcn::{self, GhcnFault};
use ripening::weather::normals::{self, NormalsFault};
use ripening::weather::quality;
pub use ripening::weather::quality::TakenOut;
use ripening::weather::table::{self, TableFault};
pub use ripening::weather::table::{Scale, ToldBy};
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

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

/// Why a weather file says nothing.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum WeatherFault {
    /// Not text.
    #[error("{}: not a text file", .0.display())]
    NotText(PathBuf),
    /// A daily file of the network that cannot be read.
    #[error("{}: {fault}", file.display())]
    Network {
        /// The file.
        file: PathBuf,
        /// What is wrong.
        fault: GhcnFault,
    },
    /// Normals that cannot be read.
    #[error("{}: {fault}", file.display())]
    Normals {
        /// The file.
        file: PathBuf,
        /// What is wrong.
        fault: NormalsFault,
    },
    /// Normals where days are needed.
    #[error("{}: these are climate normals; a mean day is not the mean of days, and warmth counted from them comes out low", .0.display())]
    NoDays(PathBuf),
    /// Normals asked for what only days could tell.
    #[error("{}: these are climate normals, told as published: neither years nor a hemisphere can be chosen", .0.display())]
    AsPublished(PathBuf),
    /// A table that cannot be read.
    #[error("{}: {fault}", file.display())]
    Table {
        /// The file.
        file: PathBuf,
        /// What is wrong.
        fault: TableFault,
    },
    /// Days of a plot's picks that it does not have.
    #[error("{}: it has not every day from {from} to {to}, when plot {plot} stood", file.display())]
    NotCovered {
        /// The file.
        file: PathBuf,
        /// The plot's label.
        plot: String,
        /// The day its plants went out.
        from: Date,
        /// The day of its last pick.
        to: Date,
    },
    /// A temperature that the air never has, or a year without thermometers.
    #[error("{}: {celsius:.1} °C on {day} cannot have been read", file.display())]
    Impossible {
        /// The file.
        file: PathBuf,
        /// The day.
        day: Date,
        /// The temperature.
        celsius: f64,
    },
    /// More than a station's days can need.
    #[error("{}: larger than a station's days can need", .0.display())]
    TooLarge(PathBuf),
    /// Normals, of which nothing is kept.
    #[error("{}: these are freeze dates of climate normals, which are read where they are and not kept", .0.display())]
    NormalsNotKept(PathBuf),
    /// Neither a file nor a station.
    #[error("there is no file {0:?}, and no weather of a station of that name is kept")]
    NotKept(String),
    /// A scale for a record that was kept with its own.
    #[error("{0:?} is a station whose degrees were settled when its file was taken")]
    ScaleSettled(String),
    /// Several stations of one name.
    #[error("several stations are called {named:?}: {}", stations.join(", "))]
    Several {
        /// The name.
        named: String,
        /// Their identifiers.
        stations: Vec<String>,
    },
    /// A workbook without one sheet of days.
    #[error("{}: {reason}", file.display())]
    Workbook {
        /// The file.
        file: PathBuf,
        /// What is wrong.
        reason: String,
    },
    /// Another station's lines only.
    #[error("{}: no line of station {station}", file.display())]
    NoSuchStation {
        /// The file.
        file: PathBuf,
        /// The station that was asked for.
        station: String,
    },
    /// No year that is whole enough.
    #[error("{}: no year of it has its nights on all but ten days of each half", .0.display())]
    NoYear(PathBuf),
}

impl WeatherFault {
    /// Whether naming the degrees might mend it.
    #[must_use]
    pub fn asks_scale(&self) -> bool {
        matches!(self, Self::Impossible { .. } | Self::Table { fault: TableFault::WhichScale, .. })
    }

    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn help(&self) -> &'static str {
        match self {
            Self::NotText(_) => "bring a daily file (.dly) or a table with commas, semicolons or tabs",
            Self::Normals { .. } => "bring the annual and seasonal normals of one station",
            Self::NoDays(_) => "bring the station's own days",
            Self::AsPublished(_) => "leave --years and --south out, or bring the station's own days",
            Self::Workbook { .. } => "save the sheet of days alone, or as .csv",
            Self::NoSuchStation { .. } => "look the identifier up in the network's list of stations",
            Self::Network { fault: GhcnFault::Stations { .. }, .. } => {
                "say which with locule take FILE --station IDENTIFIER, or bring one station a file"
            }
            Self::Network { .. } => {
                "fetch the file again, one station a file; its lines are 269 columns wide"
            }
            Self::Table { fault: TableFault::WhichScale, .. } => "say --scale c, --scale f or --scale tenths",
            Self::Table { fault: TableFault::Stations { .. }, .. } => "bring one station a file",
            Self::Table { fault: TableFault::NoColumn(_), .. } => {
                "head the columns date, tmin_c and tmax_c (or tmin_f and tmax_f)"
            }
            Self::Table { .. } => "mend the row; leave a cell empty where nobody read the thermometer",
            Self::Impossible { .. } => {
                "leave a cell empty where nobody read the thermometer, or say another scale with --scale"
            }
            Self::TooLarge(_) => "bring the days of one station, lowest and highest temperatures only",
            Self::NormalsNotKept(_) => "see what they say with locule frost FILE",
            Self::NotKept(_) => "see the stations with locule weather, or take a file with locule take FILE",
            Self::ScaleSettled(_) => {
                "leave --scale out, or withdraw the record and take its file again with --scale"
            }
            Self::Several { .. } => "name one by its identifier",
            Self::NotCovered { .. } => {
                "bring a record that has these days, or leave --weather out and be told in days"
            }
            Self::NoYear(_) => "bring a longer record, or another station's",
        }
    }
}

/// A station's days by what the user calls them: a file, or where there is none of that name, the newest standing
/// record of a station by its identifier or name.
///
/// # Errors
/// [`HouseFault::File`] for a file that cannot be opened; [`HouseFault::Weather`] for one that cannot be read, and where
/// there is neither file nor record; what the ledger refuses.
pub fn of(ledger: &mut Ledger, named: &Path, scale: Option<Scale>) -> Result<Record, HouseFault> {
    if named.is_file() {
        return read(named, scale);
    }
    let station = named.to_string_lossy();
    let record = kept::read(ledger, &station)?;
    if scale.is_some() { Err(WeatherFault::ScaleSettled(station.into_owned()).into()) } else { Ok(record) }
}

/// Reads a station's file.
///
/// # Errors
/// [`HouseFault::File`] for a file that cannot be opened; [`HouseFault::Weather`] with line or row for one that cannot be
/// read.
pub fn read(path: &Path, scale: Option<Scale>) -> Result<Record, HouseFault> {
    Ok(parsed(path, &text(path)?, scale)?)
}

/// Most bytes that a file may have: three centuries of one value a line, of a dozen elements. Common practice, no source.
const MOST_BYTES: u64 = 64 << 20;

/// A file's text, without a mark of its encoding.
pub(crate) fn text(path: &Path) -> Result<String, HouseFault> {
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

/// Reads the text of a station's file.
pub(crate) fn parsed(path: &Path, text: &str, scale: Option<Scale>) -> Result<Record, WeatherFault> {
    as_it_stands(path, text, scale).map(checked)
}

/// Reads the text of a station's file, and takes nothing out.
fn as_it_stands(path: &Path, text: &str, scale: Option<Scale>) -> Result<Record, WeatherFault> {
    let file = || path.to_owned();
    let network = |read: Result<(String, Days), GhcnFault>| {
        let (station, days) = read.map_err(|fault| WeatherFault::Network { file: file(), fault })?;
        let (name, place) = (None, Place::default());
        Ok(Record { station: Some(station), name, place, scale: None, days, taken_out: TakenOut::default() })
    };
    let record = if normals::is_of_freezes(text) || normals::is_of_means(text) {
        return Err(WeatherFault::NoDays(file()));
    } else if is_network_file(path) || ghcn::is_of_months(text) {
        network(ghcn::read(text))?
    } else if ghcn::is_of_values(text) {
        network(ghcn::read_values(text))?
    } else {
        let read = table::read(text, scale);
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
