//! Frost: what a station's own days say of the last frost of spring and the first of autumn.
//!
//! The file is read as it is, and nothing of it is kept. Start at [`told`].

use crate::fault::HouseFault;
use jiff::civil::Date;
use record::temperature::Celsius;
use ripening::frost::{self, Chances};
pub use ripening::frost::{Chance, FEWEST_FOR_ONE_IN_TEN, Hemisphere};
use ripening::weather::Days;
use ripening::weather::ghcn::{self, GhcnFault};
use ripening::weather::quality::{self, Fault};
use ripening::weather::table::{self, TableFault};
pub use ripening::weather::table::{Scale, ToldBy};
use std::fs;
use std::path::{Path, PathBuf};

/// Temperatures that frosts are told of, in degrees Celsius: 36 F, which nips; 32 F, a freeze; -2 C, which tomatoes do not
/// outlive; 28 F, a hard freeze. Source: NOAA supplemental climate normals 1981-2010 for those in Fahrenheit.
const TOLD_AT: [f64; 4] = [20.0 / 9.0, 0.0, -2.0, -20.0 / 9.0];

/// What is asked.
#[derive(Clone, Debug)]
pub struct Asked {
    /// The station's file.
    pub file: PathBuf,
    /// Its scale, where the file does not say.
    pub scale: Option<Scale>,
    /// The years to go by, both included; all where none are named.
    pub years: Option<(i16, i16)>,
    /// On which side of the equator it lies.
    pub hemisphere: Hemisphere,
}

/// What the file says.
#[derive(Clone, Debug, PartialEq)]
pub struct Frosts {
    /// The station's identifier, where the file has one.
    pub station: Option<String>,
    /// What a table's numbers were taken for, and how that was told; `None` for the network's own files.
    pub scale: Option<(Scale, ToldBy)>,
    /// Its first and last day.
    pub days: (Date, Date),
    /// Days whose night was warmer than the day, and nights far colder than those beside them: taken out.
    pub taken_out: (usize, usize),
    /// Frosts of each temperature, the warmest first.
    pub at: Vec<FrostsAt>,
}

/// Frosts of one temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct FrostsAt {
    /// The temperature.
    pub celsius: Celsius,
    /// How likely they are on which days.
    pub chances: Chances,
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
    /// A table that cannot be read.
    #[error("{}: {fault}", file.display())]
    Table {
        /// The file.
        file: PathBuf,
        /// What is wrong.
        fault: TableFault,
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
            Self::Network { .. } => {
                "fetch the file again, one station a file; its lines are 269 columns wide"
            }
            Self::Table { fault: TableFault::WhichScale, .. } => "say --scale c, --scale f or --scale tenths",
            Self::Table { fault: TableFault::NoColumn(_), .. } => {
                "head the columns date, tmin_c and tmax_c (or tmin_f and tmax_f)"
            }
            Self::Table { .. } => "mend the row; leave a cell empty where nobody read the thermometer",
            Self::NoYear(_) => "bring a longer record, or another station's",
        }
    }
}

/// Reads the file and says when frost comes.
///
/// # Errors
/// [`HouseFault::File`] for a file that cannot be opened; [`HouseFault::Weather`] with line or row for one that cannot be
/// read or has no whole year.
pub fn told(asked: &Asked) -> Result<Frosts, HouseFault> {
    let bytes = fs::read(&asked.file).map_err(|fault| HouseFault::file(&asked.file, fault))?;
    let text = String::from_utf8(bytes).map_err(|_| WeatherFault::NotText(asked.file.clone()))?;
    let file = || asked.file.clone();
    let text = text.trim_start_matches('\u{feff}');
    let network = |read: Result<(String, Days), GhcnFault>| {
        let (station, days) = read.map_err(|fault| WeatherFault::Network { file: file(), fault })?;
        Ok::<_, WeatherFault>((Some(station), days, None))
    };
    let (station, days, scale) = if is_network_file(&asked.file) {
        network(ghcn::read(text))?
    } else if ghcn::is_of_values(text) {
        network(ghcn::read_values(text))?
    } else {
        let read = table::read(text, asked.scale);
        let read = read.map_err(|fault| WeatherFault::Table { file: file(), fault })?;
        (None, read.days, Some((read.scale, read.told_by)))
    };
    let (days, dropped) = quality::checked(days);
    let count = |fault| dropped.iter().filter(|one| one.fault == fault).count();
    let within = |year: i16| asked.years.is_none_or(|(from, to)| (from..=to).contains(&year));
    let at = TOLD_AT.iter().filter_map(|degrees| {
        let years: Vec<_> = frost::years(&days, *degrees, asked.hemisphere);
        let years: Vec<_> = years.into_iter().filter(|year| within(year.year)).collect();
        Some(FrostsAt { celsius: Celsius::new(*degrees)?, chances: frost::chances(&years)? })
    });
    let at: Vec<FrostsAt> = at.collect();
    if at.is_empty() {
        return Err(WeatherFault::NoYear(file()).into());
    }
    let taken_out = (count(Fault::LowestAboveHighest), count(Fault::Spike));
    Ok(Frosts { station, scale, days: (days.first(), days.last()), taken_out, at })
}

fn is_network_file(file: &Path) -> bool {
    file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("dly"))
}

/// The day of a common year that a counted day falls on, to be told: `23 April` is 113.
#[must_use]
pub fn day(counted: f64) -> Option<Date> {
    #[expect(clippy::cast_possible_truncation, reason = "a day of two years")]
    let days = (counted.round() as i64).checked_sub(1)?;
    // Any common year will do.
    Date::new(2001, 1, 1).ok()?.checked_add(jiff::Span::new().try_days(days).ok()?).ok()
}
