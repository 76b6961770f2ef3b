//! What can be typed to print.

use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Print catalogue, proof sheet, type chart, stakes or walk sheets as PDF, or the list as web pages
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
