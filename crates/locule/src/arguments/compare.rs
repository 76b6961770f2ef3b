//! What can be typed to compare varieties.

use clap::Args;
use std::path::PathBuf;

/// Compare the varieties of grow-outs, plot by plot, with a check beside them
///
/// Raw averages compare ground with ground. This takes blocks, gardens and seasons out of every plot's number
/// first, and says of each difference from the check how far chance alone could have made it. Traits: yield,
/// fruit count, fruit weight, culled, soluble solids.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule compare \"2026 Home Trial\" yield
  locule compare \"2026 Home Trial\" \"2026 Far Field Trial\" fruit-count --check \"School Bell\" --export counts.csv")]
pub(crate) struct Compare {
    /// Grow-outs, and last the trait
    #[arg(required = true, num_args = 2.., value_name = "GROWOUT... TRAIT")]
    pub(crate) what: Vec<String>,
    /// The variety that others are measured against [default: the check of the layout]
    #[arg(long, value_name = "VARIETY")]
    pub(crate) check: Option<String>,
    /// Write the table to a .csv, .xlsx or .json file
    #[arg(long, value_name = "FILE")]
    pub(crate) export: Option<PathBuf>,
}
