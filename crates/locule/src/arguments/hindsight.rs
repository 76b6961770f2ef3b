//! What can be typed to hold forecasts of past seasons to what was picked.

use crate::arguments::frost::ScaleWord;
use crate::arguments::warmth::Warmth;
use clap::Args;
use std::path::PathBuf;

/// How forecasts of the house's own past seasons came out
///
/// Every season is forecast from the house's other seasons, with that season's own measured weather, and each plot's harvest
/// and first fruit are held to what was told: of 100 plots 80 should lie between the poor and the good season. What is left
/// is what nobody knows of plants and plots. Plots whose season's weather nobody measured are left out, and counted.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule hindsight
  locule hindsight --base 8 --ceiling 28")]
pub(crate) struct Hindsight {
    /// The weather where all the house's plots stood [default: that of their gardens where it has been told]
    #[arg(long, value_name = "FILE|STATION")]
    pub(crate) home: Option<PathBuf>,
    /// Degrees of the file, where its headings do not say
    #[arg(long, value_enum, requires = "home")]
    pub(crate) scale: Option<ScaleWord>,
    #[command(flatten)]
    pub(crate) warmth: Warmth,
}
