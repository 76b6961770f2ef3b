//! What can be typed to print.

use crate::arguments::forecast::RiskWord;
use crate::arguments::frost::ScaleWord;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Print catalogue, proof sheet, type chart, season sheet, stakes or walk sheets as PDF, or the list as web pages
///
/// Print the proof sheet first: it lists everything that the catalogue will mark, with the cheapest thing
/// to do about each. The type chart is drawn from the house's guides alone; on tabloid and a3 it is a
/// poster, on letter and a4 a booklet. Stakes go on label sheets, by size (docs/grow-outs.md).
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule print proof
  locule print catalogue --paper a4
  locule print chart --paper poster
  locule print pages --to web
  locule print season --weather Milwaukee --variety \"Post Mill\"
  locule print stakes \"2026 Home Garden\"
  locule print walk-sheets \"2026 Home Garden\" --date 2026-08-14 --person Wren --person Finch")]
pub(crate) struct Print {
    /// What to print
    #[arg(value_enum)]
    pub(crate) what: Printed,
    /// The paper
    #[arg(long, value_enum, default_value_t = PaperWord::Letter)]
    pub(crate) paper: PaperWord,
    /// The file or folder to write [default: in the house's folder printed]
    #[arg(long, value_name = "PATH")]
    pub(crate) to: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) field: FieldPaper,
    #[command(flatten)]
    pub(crate) season: SeasonPaper,
}

/// What stakes and walk sheets need beside.
#[derive(Debug, Default, Args)]
pub(crate) struct FieldPaper {
    /// The grow-out, for stakes and walk sheets
    #[arg(value_name = "GROWOUT")]
    pub(crate) grow_out: Option<String>,
    /// The label sheet for stakes, by its size [default: the first for the house's paper]
    #[arg(long, value_name = "SIZE")]
    pub(crate) sheet: Option<String>,
    /// A stake for every plant instead of every plot
    #[arg(long)]
    pub(crate) each_plant: bool,
    /// The day of the walk [default: today]
    #[arg(long, value_name = "DAY")]
    pub(crate) date: Option<String>,
    /// Who walks; named several times, they share the walk evenly
    #[arg(long, value_name = "NAME", conflicts_with = "per")]
    pub(crate) person: Vec<String>,
    /// Most plots in one part of the walk
    #[arg(long, value_name = "PLOTS", value_parser = clap::value_parser!(u32).range(1..))]
    pub(crate) per: Option<u32>,
}

/// What a season sheet needs beside.
#[derive(Debug, Default, Args)]
pub(crate) struct SeasonPaper {
    /// The garden of a season sheet, whose weather has been told
    #[arg(long, value_name = "NAME", conflicts_with = "weather")]
    pub(crate) garden: Option<String>,
    /// Any garden's weather for a season sheet: a station's file, or a station that is kept or known
    #[arg(long, value_name = "FILE|STATION")]
    pub(crate) weather: Option<PathBuf>,
    /// A variety whose harvest a season sheet tells, by name or alias; may be named several times [default: the few that
    /// rest on the most plots]
    #[arg(long, value_name = "VARIETY")]
    pub(crate) variety: Vec<String>,
    /// Degrees of the weather's file, where its headings do not say
    #[arg(long, value_enum)]
    pub(crate) scale: Option<ScaleWord>,
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

/// What can be printed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Printed {
    /// An entry a variety, with portrait, calls and measures
    Catalogue,
    /// What is contested, contradicted, open or missing, and what to do about it
    Proof,
    /// Every class and habit of the guides, drawn, with its limits and what it is taken for
    Chart,
    /// The whole list as web pages that need no network, for any web server or a stick
    Pages,
    /// A garden's year: frost, what to do when, and the harvest of a few varieties week by week
    Season,
    /// A label a plot, with a code, on sheets of weatherproof label stock
    Stakes,
    /// What is due in a grow-out on a day, with boxes for a pencil, in walking order
    WalkSheets,
}

/// Paper sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperWord {
    /// 8.5 x 11 in
    Letter,
    /// 210 x 297 mm
    A4,
    /// 17 x 11 in, for the chart
    Tabloid,
    /// 420 x 297 mm, for the chart
    A3,
    /// Tabloid or A3, by the house's units, for the chart
    Poster,
}
