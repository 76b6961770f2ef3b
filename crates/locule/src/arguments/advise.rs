//! What can be typed to ask for advice.

use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Which varieties, how many plants and when, for one garden and one kitchen
///
/// The request is a file: the garden (weather, beds, containers), what is put up on how many kitchen days, what is eaten
/// fresh from when to when, and in how many years of ten all of that must be had (docs/advice.md has a whole one). The
/// answer is the fewest plants that do it over sampled years of weather and of what is not known of the varieties; where
/// nothing does, what stands in the way and the least that frees it.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule advise ../request-2027.toml
  locule advise ../request-2027.toml --pdf plan.pdf --calendar plan.ics
  locule advise ../request-2027.toml --seconds 2
  locule advise ../request-2027.toml --without \"Post Mill\"")]
pub(crate) struct Advise {
    /// The file that says what is asked
    pub(crate) request: PathBuf,
    /// Plan without this variety, and see what that costs; may be given again
    #[arg(long, value_name = "VARIETY")]
    pub(crate) without: Vec<String>,
    /// Plan with at least one plant of this variety; may be given again
    #[arg(long, value_name = "VARIETY")]
    pub(crate) with: Vec<String>,
    /// Take the best plan that is found in so many seconds; Ctrl-C takes the best so far at any time
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u64).range(1..=86_400))]
    pub(crate) seconds: Option<u64>,
    /// The answer on paper: the PDF to write
    #[arg(long, value_name = "FILE")]
    pub(crate) pdf: Option<PathBuf>,
    /// The paper of the PDF
    #[arg(long, value_enum, default_value_t = PlanPaper::Letter)]
    pub(crate) paper: PlanPaper,
    /// Its days for other calendars: the iCalendar file to write
    #[arg(long, value_name = "FILE")]
    pub(crate) calendar: Option<PathBuf>,
}

/// A paper.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum PlanPaper {
    /// 8.5 by 11 in
    Letter,
    /// 210 by 297 mm
    A4,
}
