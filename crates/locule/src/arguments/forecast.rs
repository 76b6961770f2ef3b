//! What can be typed to ask for the harvest to expect.

use crate::arguments::frost::ScaleWord;
use crate::arguments::warmth::Warmth;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// The harvest to expect in a garden: kilograms a plant week by week, in poor, middling and good seasons
///
/// The house's plots say when each variety's crop comes and how much; the years of the garden's weather say what becomes of
/// it there: warmth, flowers that set or fail, and the frost that ends it. Weather is a station's file, or a station that is
/// known, whose years are drawn from its climate. With one variety its weeks are told, what is unsure, and days to plant
/// out on; with more, a line each.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule forecast --weather \"Milwaukee\" \"Post Mill\"
  locule forecast --weather station.dly --home farm.csv --transplant 05-20")]
pub(crate) struct Forecast {
    /// Names or aliases of varieties [default: all that have picks]
    pub(crate) varieties: Vec<String>,
    /// A garden of the house, whose weather has been told
    #[arg(long, value_name = "NAME", required_unless_present = "weather", conflicts_with = "weather")]
    pub(crate) garden: Option<String>,
    /// Any garden's weather: a station's file, or a station that is kept or known
    #[arg(long, value_name = "FILE|STATION")]
    pub(crate) weather: Option<PathBuf>,
    /// The weather where all the house's own plots stood [default: that of their gardens where it has been told, else the same]
    #[arg(long, value_name = "FILE|STATION")]
    pub(crate) home: Option<PathBuf>,
    /// Degrees of the files, where their headings do not say
    #[arg(long, value_enum)]
    pub(crate) scale: Option<ScaleWord>,
    /// The identifier of the station that is meant, where the weather's file holds many
    #[arg(long, value_name = "IDENTIFIER")]
    pub(crate) station: Option<String>,
    /// Month and day on which plants go out [default: by the garden's calendar, as `locule calendar` tells it]
    #[arg(long, value_name = "MM-DD")]
    pub(crate) transplant: Option<String>,
    /// In how many years of ten frost may still come after the plants are out [default: the garden's own, or 1]
    #[arg(long, value_enum, conflicts_with = "transplant")]
    pub(crate) frost_risk: Option<RiskWord>,
    #[command(flatten)]
    pub(crate) warmth: Warmth,
}

/// Years of ten.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum RiskWord {
    /// The safe day
    #[value(name = "1")]
    One,
    /// The average day
    #[value(name = "5")]
    Five,
    /// Nearly always too early
    #[value(name = "9")]
    Nine,
}
