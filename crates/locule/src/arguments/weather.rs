//! What can be typed of weather that is kept and of gardens.

use clap::{Args, Subcommand};

/// See the weather stations whose days the house keeps
///
/// Bring a station's file in with `locule take`. The newest record of a station is the one that `locule frost` and
/// `locule ripen --weather` go by; one that is withdrawn stays, and the one before it counts again.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule weather
  locule weather place XX000000001 --latitude 44.5 --longitude -93.25 --elevation 251 --name \"Upper Mill\"
  locule weather near --garden Home
  locule weather withdraw \"Upper Mill\" --why \"the thermometer hung in the sun\"")]
pub(crate) struct Weather {
    /// What to do [default: list the records]
    #[command(subcommand)]
    pub(crate) action: Option<WeatherAction>,
}

/// What to do with weather that is kept.
#[derive(Debug, Subcommand)]
pub(crate) enum WeatherAction {
    /// Take the record of a station that counts out of use; the one before it counts again
    Withdraw(Turn),
    /// Bring back the record of a station that was withdrawn last
    Restore(Turn),
    /// Say where a station lies and what it is called
    Place {
        /// The station's identifier or name
        station: String,
        /// What it is called
        #[arg(long)]
        name: Option<String>,
        #[command(flatten)]
        at: At,
        /// Who says so
        #[arg(long)]
        by: Option<String>,
    },
    /// Which stations lie nearest, and how much warmer or colder a garden is by its height alone
    Near {
        /// A garden of the house
        #[arg(long, conflicts_with_all = ["latitude", "longitude", "elevation"])]
        garden: Option<String>,
        #[command(flatten)]
        at: At,
    },
}

/// A station whose record is withdrawn or restored.
#[derive(Debug, Args)]
pub(crate) struct Turn {
    /// The station's identifier or name
    pub(crate) station: String,
    /// Why
    #[arg(long)]
    pub(crate) why: Option<String>,
    /// Who does it
    #[arg(long)]
    pub(crate) by: Option<String>,
}

/// Where something lies.
#[derive(Clone, Copy, Debug, Args)]
pub(crate) struct At {
    /// Degrees north; negative south of the equator
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) latitude: Option<f64>,
    /// Degrees east; negative west of Greenwich
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) longitude: Option<f64>,
    /// Metres above the sea
    #[arg(long, value_name = "METRES", allow_negative_numbers = true)]
    pub(crate) elevation: Option<f64>,
}

/// See the gardens, or say where one lies and whose weather is its own
///
/// A garden is named by its grow-outs, or by telling of it here. What is not said now stays as it was.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule garden
  locule garden Home --latitude 44.4 --longitude -93.2 --elevation 290 --weather \"Upper Mill\" --frost-risk 10")]
pub(crate) struct Garden {
    /// The garden [default: list them all]
    pub(crate) name: Option<String>,
    #[command(flatten)]
    pub(crate) at: At,
    /// The station whose weather is taken for its own
    #[arg(long, value_name = "STATION", requires = "name")]
    pub(crate) weather: Option<String>,
    /// In how many years of 100 a frost after planting is risked
    #[arg(long, value_name = "IN-100", requires = "name", value_parser = clap::value_parser!(u32).range(1..=99))]
    pub(crate) frost_risk: Option<u32>,
    /// Who says so
    #[arg(long)]
    pub(crate) by: Option<String>,
}
