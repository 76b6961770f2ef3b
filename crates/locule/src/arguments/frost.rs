//! What can be typed to ask for frosts.

use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// When frost comes: the last of spring and the first of autumn, from a station's own days
///
/// Reads a daily file of the Global Historical Climatology Network (.dly) or any table with a column of dates, one of
/// lowest and one of highest temperatures, or the annual and seasonal climate normals of one station, whose freeze dates are
/// told as published. Nights warmer than their day and nights far colder than those beside them are
/// taken out; years with more than ten nights missing in either half are left out. Nothing of a file is kept; a station
/// whose days were taken in, or one that is known, is named in place of a file, and --garden takes a garden's own. With --plot
/// the frosts of all years are drawn, at a freeze or at the temperature of --at.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule frost station.dly --years 1991-2020
  locule frost garden.csv --scale f --south
  locule frost \"Upper Mill\" --plot hard-frosts.svg --at 28F
  locule frost 2031.csv --station USC00317202
  locule frost --station Milwaukee
  locule frost --garden Home")]
pub(crate) struct Frost {
    /// The station's file, or the identifier or name of a station that the house keeps or knows
    #[arg(required_unless_present_any = ["garden", "station"], conflicts_with = "garden")]
    pub(crate) file: Option<PathBuf>,
    /// The identifier of the station that is meant, of a file with many; or, without a file, a station that is kept or known
    #[arg(long, value_name = "STATION", conflicts_with = "garden")]
    pub(crate) station: Option<String>,
    /// A garden of the house, whose weather has been told
    #[arg(long, value_name = "NAME")]
    pub(crate) garden: Option<String>,
    /// Degrees of the file, where its headings do not say
    #[arg(long, value_enum)]
    pub(crate) scale: Option<ScaleWord>,
    /// Years to go by, such as 1991-2020 [default: all]
    #[arg(long, value_name = "FROM-TO")]
    pub(crate) years: Option<String>,
    /// The garden lies south of the equator [default: told by whether January is warmer than July]
    #[arg(long)]
    pub(crate) south: bool,
    /// Draw the frosts of all years to this file, .svg or .png
    #[arg(long, value_name = "FILE")]
    pub(crate) plot: Option<PathBuf>,
    /// The temperature whose frosts are drawn: 36F, 32F, 0C, -2C or 28F [default: 32F]
    #[arg(long, value_name = "TEMPERATURE", requires = "plot", allow_hyphen_values = true)]
    pub(crate) at: Option<String>,
}

/// A scale of temperature.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum ScaleWord {
    /// Celsius
    C,
    /// Fahrenheit
    F,
    /// Tenths of a degree Celsius
    Tenths,
}
