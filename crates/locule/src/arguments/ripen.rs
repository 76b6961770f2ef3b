//! What can be typed to ask when a variety ripens.

use crate::arguments::frost::ScaleWord;
use crate::arguments::warmth::Warmth;
use clap::Args;
use std::path::PathBuf;

/// When a variety ripens, from the house's own picks: the first tenth, half and nine tenths
///
/// A pick tells only that its fruit ripened since the pick before. A curve is fitted to every plot so; how far another
/// plot or season would move it comes from all varieties of the house. With a station's days the same is counted in
/// degree-days, and every year of the record is asked how many days it would have taken. With --plot the curve is drawn.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule ripen \"Post Mill\" --plot post-mill.svg
  locule ripen \"Post Mill\" --weather station.dly --transplant 05-20
  locule ripen \"Post Mill\" --weather \"Upper Mill\" --method double-sine --cut-off vertical --ceiling 32")]
pub(crate) struct Ripen {
    /// The variety's name or alias
    pub(crate) variety: String,
    /// Count warmth by a station's file, or by a station that the house keeps; it must have the days of the variety's picks
    #[arg(long, value_name = "FILE or STATION")]
    pub(crate) weather: Option<PathBuf>,
    /// Degrees of the file, where its headings do not say
    #[arg(long, value_enum, requires = "weather")]
    pub(crate) scale: Option<ScaleWord>,
    /// Month and day on which plants go out in the record's years [default: the middle day of its plots]
    #[arg(long, value_name = "MM-DD", requires = "weather")]
    pub(crate) transplant: Option<String>,
    #[command(flatten)]
    pub(crate) warmth: Warmth,
    /// Draw the curve and the picks to this file, .svg or .png
    #[arg(long, value_name = "FILE")]
    pub(crate) plot: Option<PathBuf>,
}
