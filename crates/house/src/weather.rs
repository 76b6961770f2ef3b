//! A station's own days, read from a file as it is; nothing of it is kept.

use crate::fault::HouseFault;
use jiff::civil::Date;
use ripening::weather::Days;
use ripening::weather::ghcn::{self, GhcnFault};
use ripening::weather::normals::{self, NormalsFault};
use ripening::weather::quality::{self, Fault};
use ripening::weather::table::{self, TableFault};
pub use ripening::weather::table::{Scale, ToldBy};
use std::fs;
use std::path::{Path, PathBuf};

/// What a station's file holds, once it is checked.
#[derive(Clone, Debug)]
pub struct Record {
    /// The station's identifier, where the file has one.
    pub station: Option<String>,
    /// What a table's numbers were taken for, and how that was told; `None` for the network's own files.
    pub scale: Option<(Scale, ToldBy)>,
    /// Its days.
    pub days: Days,
    /// Days whose night was warmer than the day, and nights far colder than those beside them: taken out.
    pub taken_out: (usize, usize),
}

/// Why a weather file says nothing.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
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
    /// No year that is whole enough.
    #[error("{}: no year of it has its nights on all but ten days of each half", .0.display())]
    NoYear(PathBuf),
}

impl WeatherFault {
    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn help(&self) -> &'static str {
        match self {
            Self::NotText(_) => "bring a daily file (.dly) or a table with commas, semicolons or tabs",
            Self::Normals { .. } => "bring the annual and seasonal normals of one station",
            Self::NoDays(_) => "bring the station's own days",
            Self::AsPublished(_) => "leave --years and --south out, or bring the station's own days",
            Self::Network { .. } => {
                "fetch the file again, one station a file; its lines are 269 columns wide"
            }
            Self::Table { fault: TableFault::WhichScale, .. } => "say --scale c, --scale f or --scale tenths",
            Self::Table { fault: TableFault::NoColumn(_), .. } => {
                "head the columns date, tmin_c and tmax_c (or tmin_f and tmax_f)"
            }
            Self::Table { .. } => "mend the row; leave a cell empty where nobody read the thermometer",
            Self::NotCovered { .. } => {
                "bring a record that has these days, or leave --weather out and be told in days"
            }
            Self::NoYear(_) => "bring a longer record, or another station's",
        }
    }
}

/// Reads a station's file.
///
/// # Errors
/// [`HouseFault::File`] for a file that cannot be opened; [`HouseFault::Weather`] with line or row for one that cannot be
/// read.
pub fn read(path: &Path, scale: Option<Scale>) -> Result<Record, HouseFault> {
    parsed(path, &text(path)?, scale)
}

/// A file's text, without a mark of its encoding.
pub(crate) fn text(path: &Path) -> Result<String, HouseFault> {
    let bytes = fs::read(path).map_err(|fault| HouseFault::file(path, fault))?;
    let text = String::from_utf8(bytes).map_err(|_| WeatherFault::NotText(path.to_owned()))?;
    Ok(text.trim_start_matches('\u{feff}').to_owned())
}

/// Reads the text of a station's file.
pub(crate) fn parsed(path: &Path, text: &str, scale: Option<Scale>) -> Result<Record, HouseFault> {
    let file = || path.to_owned();
    if normals::is_of_freezes(text) {
        return Err(WeatherFault::NoDays(file()).into());
    }
    let network = |read: Result<(String, Days), GhcnFault>| {
        let (station, days) = read.map_err(|fault| WeatherFault::Network { file: file(), fault })?;
        Ok::<_, WeatherFault>((Some(station), days, None))
    };
    let (station, days, scale) = if is_network_file(path) {
        network(ghcn::read(text))?
    } else if ghcn::is_of_values(text) {
        network(ghcn::read_values(text))?
    } else {
        let read = table::read(text, scale);
        let read = read.map_err(|fault| WeatherFault::Table { file: file(), fault })?;
        (None, read.days, Some((read.scale, read.told_by)))
    };
    let (days, dropped) = quality::checked(days);
    let count = |fault| dropped.iter().filter(|one| one.fault == fault).count();
    let taken_out = (count(Fault::LowestAboveHighest), count(Fault::Spike));
    Ok(Record { station, scale, days, taken_out })
}

fn is_network_file(file: &Path) -> bool {
    file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("dly"))
}
