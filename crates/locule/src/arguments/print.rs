//! What can be typed to print.

use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Print the catalogue, the proof sheet or the type chart as a PDF, or the list as web pages
///
/// Print the proof sheet first: it lists everything that the catalogue will mark, with the cheapest thing
/// to do about each. The type chart is drawn from the house's guides alone; on tabloid and a3 it is a
/// poster, on letter and a4 a booklet.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule print proof
  locule print catalogue --paper a4
  locule print chart --paper poster
  locule print pages --to web")]
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
