//! What can be typed to ask for a garden's calendar.

use crate::arguments::forecast::RiskWord;
use crate::arguments::frost::ScaleWord;
use clap::Args;
use std::path::PathBuf;

/// When to sow, pot on, harden off and plant out in a garden, by its frosts, nights and soil
///
/// Plants go out on the latest of three days: when frost has become as rare as you accept, when the nights of a week are
/// above 10 °C (50 F) in half of the years, and when the soil has 16 °C (60 F), as estimated from the air. The rest is counted
/// back from there. With --to the days are written as an
/// iCalendar file.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule calendar --weather Milwaukee
  locule calendar --garden Home --year 2031 --to spring.ics")]
pub(crate) struct Calendar {
    /// A garden of the house
    #[arg(long, value_name = "NAME", required_unless_present = "weather", conflicts_with = "weather")]
    pub(crate) garden: Option<String>,
    /// Any garden's weather: a station's file, or a station that is kept or known
    #[arg(long, value_name = "FILE|STATION")]
    pub(crate) weather: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) planting: Planting,
    /// Write the days as an iCalendar file
    #[arg(long, value_name = "FILE")]
    pub(crate) to: Option<PathBuf>,
}

/// By what plants go out.
#[derive(Debug, Default, Args)]
pub(crate) struct Planting {
    /// Degrees of the weather's file, where its headings do not say
    #[arg(long, value_enum)]
    pub(crate) scale: Option<ScaleWord>,
    /// The identifier of the station that is meant, where the weather's file holds many
    #[arg(long, value_name = "IDENTIFIER")]
    pub(crate) station: Option<String>,
    /// In how many years of ten frost may still come after the plants are out [default: the garden's own, or 1]
    #[arg(long, value_enum)]
    pub(crate) frost_risk: Option<RiskWord>,
    /// Month and day on which plants go out, where you have set it
    #[arg(long, value_name = "MM-DD")]
    pub(crate) transplant: Option<String>,
    /// The year of planting [default: the next whose planting day is still to come]
    #[arg(long, value_parser = clap::value_parser!(i16).range(1900..=2199))]
    pub(crate) year: Option<i16>,
}
