//! What can be typed to ask when seedlings emerge.

use clap::Args;

/// Days from sowing to emergence, by the warmth of the soil
///
/// Between the temperatures of the published table the rate is interpolated (so much of the way a day), not the days:
/// halfway between 43 and 14 days lie 21, not 28.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples:
  locule emergence 15C 68F
  locule emergence")]
pub(crate) struct Emergence {
    /// Temperatures of the soil with their scale, such as 15C or 68F [default: those of the table]
    #[arg(value_name = "TEMPERATURE")]
    pub(crate) soil: Vec<String>,
}
