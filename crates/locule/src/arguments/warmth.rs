//! What can be typed to say how a day's warmth is counted.

use clap::{Args, ValueEnum};

/// How a day's warmth is counted.
#[derive(Debug, Args)]
#[command(next_help_heading = "How warmth is counted")]
pub(crate) struct Warmth {
    /// How a day's warmth is counted [default: sine]
    #[arg(long, value_enum)]
    pub(crate) method: Option<MethodWord>,
    /// What happens above the ceiling, of sines and triangles [default: horizontal]
    #[arg(long, value_enum)]
    pub(crate) cut_off: Option<CutOffWord>,
    /// Degrees Celsius below which nothing is gained [default: 10]
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) base: Option<f64>,
    /// Degrees Celsius above which nothing more is gained [default: 30; of beta, 45, where growth ends]
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) ceiling: Option<f64>,
    /// Degrees Celsius at which growth is fastest, of beta [default: 28]
    #[arg(long, value_name = "DEGREES", allow_negative_numbers = true)]
    pub(crate) best: Option<f64>,
}

impl Warmth {
    /// Whether anything of it was said.
    pub(crate) fn is_said(&self) -> bool {
        let degrees = [self.base, self.ceiling, self.best];
        self.method.is_some() || self.cut_off.is_some() || degrees.iter().any(Option::is_some)
    }
}

/// A method of counting degree-days.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum MethodWord {
    /// Mean of lowest and highest, without a ceiling
    Average,
    /// The same, the highest cut at the ceiling
    Capped,
    /// Both brought between base and ceiling first
    Modified,
    /// A sine through the day
    Sine,
    /// A sine up from the day's lowest and down to the next night's
    DoubleSine,
    /// Straight lines through the day
    Triangle,
    /// Straight lines up from the day's lowest and down to the next night's
    DoubleTriangle,
    /// Beta response to the day's mean: fastest at --best, nothing at base and ceiling
    Beta,
}

/// What happens above the ceiling.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum CutOffWord {
    /// Growth goes on as fast as at the ceiling
    Horizontal,
    /// It slows down as fast as it rose
    Intermediate,
    /// It stops
    Vertical,
}
