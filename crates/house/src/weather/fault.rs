//! Why a weather file or a kept record says nothing, and what to do about it.

use jiff::civil::Date;
use ripening::climate::normals::MeansFault;
use ripening::weather::ghcn::GhcnFault;
use ripening::weather::normals::NormalsFault;
use ripening::weather::table::TableFault;
use std::path::PathBuf;

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
    /// Mean normals that make no climate.
    #[error("{}: {fault}", file.display())]
    Means {
        /// The file.
        file: PathBuf,
        /// What is wrong.
        fault: MeansFault,
    },
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
    /// Freeze dates alone, where years are needed.
    #[error("of {0} only published freeze dates are kept, which tell no warmth")]
    NoClimate(String),
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

    /// Whether naming the station might mend it.
    #[must_use]
    pub fn asks_station(&self) -> bool {
        matches!(
            self,
            Self::Network { fault: GhcnFault::Stations { .. }, .. }
                | Self::Table { fault: TableFault::Stations { .. }, .. }
                | Self::Normals { fault: NormalsFault::Several(_), .. }
                | Self::Means { fault: MeansFault::Rows(_), .. }
                | Self::NoSuchStation { .. }
        )
    }

    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn help(&self) -> &'static str {
        match self {
            Self::NotText(_) => "bring a daily file (.dly) or a table with commas, semicolons or tabs",
            Self::NoDays(_) => "bring the station's own days",
            Self::Means { fault: MeansFault::NoColumn(_) | MeansFault::NoMonth { .. }, .. } => {
                "bring monthly or daily normals with means and deviations of the highest and lowest temperatures"
            }
            Self::Means { fault: MeansFault::WhichScale(_), .. } => "say --scale c or --scale f",
            Self::Means { .. } => "say which with --station IDENTIFIER, or bring one station a file",
            Self::AsPublished(_) => "leave --years and --south out, or bring the station's own days",
            Self::Workbook { .. } => "save the sheet of days alone, or as .csv",
            Self::NoSuchStation { .. } => "look the identifier up in the network's list of stations",
            Self::Network { fault: GhcnFault::Stations { .. }, .. }
            | Self::Table { fault: TableFault::Stations { .. }, .. }
            | Self::Normals { fault: NormalsFault::Several(_), .. } => {
                "say which with --station IDENTIFIER, or bring one station a file"
            }
            Self::Normals { .. } => "bring the annual and seasonal normals of one station",
            Self::Network { .. } => {
                "fetch the file again, one station a file; its lines are 269 columns wide"
            }
            Self::Table { fault: TableFault::WhichScale, .. } => "say --scale c, --scale f or --scale tenths",
            Self::Table { fault: TableFault::NoColumn(_), .. } => {
                "head the columns date, tmin_c and tmax_c (or tmin_f and tmax_f)"
            }
            Self::Table { .. } => "mend the row; leave a cell empty where nobody read the thermometer",
            Self::Impossible { .. } => {
                "leave a cell empty where nobody read the thermometer, or say another scale with --scale"
            }
            Self::TooLarge(_) => "bring the days of one station, lowest and highest temperatures only",
            Self::NoClimate(_) => "take its days, or its monthly or daily normals, too",
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
