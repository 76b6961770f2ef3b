//! What can be typed to ask when a variety ripens.

use crate::arguments::frost::ScaleWord;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// When a variety ripens, from the house's own picks: the first tenth, half and nine tenths
///
/// A pick tells only that its fruit ripened since the pick before. A curve is fitted to every plot so; how far another
/// plot or season would move it comes from all varieties of the house. With a station's days the same is counted in
/// degree-days, and every year of the record is asked how many days it would have taken.
#[derive(Debug, Args)]
#[command(after_long_help = "Examples (in the demo house):
  locule ripen \"Post Mill\"
  locule ripen \"Post Mill\" --weather station.dly --transplant 05-20
  locule ripen \"Post Mill\" --weather \"Upper Mill\"")]
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
    /// How a day's warmth is counted
    #[arg(long, value_enum, default_value = "sine", requires = "weather")]
    pub(crate) method: MethodWord,
    /// Degrees Celsius below which nothing is gained
    #[arg(
        long,
        value_name = "DEGREES",
        default_value_t = 10.0,
        requires = "weather",
        allow_negative_numbers = true
    )]
    pub(crate) base: f64,
    /// Degrees Celsius above which nothing more is gained
    #[arg(long, value_name = "DEGREES", default_value_t = 30.0, requires = "weather")]
    pub(crate) ceiling: f64,
}

/// A method of counting degree-days.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum MethodWord {
    /// Mean of lowest and highest, without a ceiling
    Average,
    /// The same, the highest cut at the ceiling
    Capped,
    /// Both brought between base and ceiling first
    Modified,
    /// A sine through the day
    Sine,
    /// Straight lines through the day
    Triangle,
}
