//! What can be typed to ask when a variety ripens.

use crate::arguments::frost::ScaleWord;
use crate::arguments::warmth::Warmth;
use clap::Args;
use std::path::PathBuf;

/// When a variety ripens, from the house's own picks: the first tenth, half and nine tenths
///
/// A pick tells only that its fruit ripened since the pick before. A curve is fitted to every plot so; how far another
/// plot or season would move it comes from all varieties of the house. The years of the house's own gardens, where their
/// weather has been told, say the days to maturity there. With another garden's or a station's weather the curve is counted
/// in degree-days, each plot's by the weather it stood in, and its years say the days there. With --plot the curve is drawn.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule ripen \"Post Mill\" --plot post-mill.svg
  locule ripen \"Post Mill\" --weather \"Reidsville NC\" --transplant 05-01
  locule ripen \"Post Mill\" --garden \"Far Field\"
  locule ripen \"Post Mill\" --weather \"Upper Mill\" --method double-sine --cut-off vertical --ceiling 32")]
pub(crate) struct Ripen {
    /// The variety's name or alias
    pub(crate) variety: String,
    /// Days to maturity in a garden of the house, whose weather has been told
    #[arg(long, value_name = "NAME", conflicts_with = "weather")]
    pub(crate) garden: Option<String>,
    /// Days to maturity in any garden's weather: a station's file, or a station that is kept or known
    #[arg(long, value_name = "FILE|STATION")]
    pub(crate) weather: Option<PathBuf>,
    /// The weather where all the house's own plots stood [default: that of their gardens where it has been told, else the same]
    #[arg(long, value_name = "FILE|STATION")]
    pub(crate) home: Option<PathBuf>,
    /// Degrees of the files, where their headings do not say
    #[arg(long, value_enum)]
    pub(crate) scale: Option<ScaleWord>,
    /// The identifier of the station that is meant, where the weather's file holds many
    #[arg(long, requires = "weather", value_name = "IDENTIFIER")]
    pub(crate) station: Option<String>,
    /// Month and day on which plants go out in the years [default: the middle day of its plots]
    #[arg(long, value_name = "MM-DD")]
    pub(crate) transplant: Option<String>,
    #[command(flatten)]
    pub(crate) warmth: Warmth,
    /// Draw the curve and the picks to this file, .svg or .png
    #[arg(long, value_name = "FILE")]
    pub(crate) plot: Option<PathBuf>,
}
