//! The colour guide: how often each colour is sold, how words go wrong, and the reference colours.
//!
//! Values in, none computed: [`crate::colour::ColourModel`] makes the tables that calls are reckoned from.
//! Start at [`read`].

mod raw;

use crate::guide::reading::{GuideFault, Text};
use crate::guide::value::Value;
use record::colour::{Lab, Pattern, Skin, TradeColour};

/// How words go wrong.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// Chance that a colour word is wrong, besides the likely slips.
    pub mistake_rate: Value,
    /// Chance that a pattern is noted wrongly.
    pub pattern_mistake_rate: Value,
    /// Chance that a yellow skin is noted as clear.
    pub yellow_skin_called_clear: Value,
    /// Chance that a clear skin is noted as yellow.
    pub clear_skin_called_yellow: Value,
    /// How far words of one plot and season are independent of each other.
    pub independence: Value,
    /// Chance that a whole plot is of another variety.
    pub stray_plot_rate: Value,
}

/// A colour that is often written as another.
#[derive(Clone, Debug, PartialEq)]
pub struct Slip {
    /// The true colour.
    pub of: TradeColour,
    /// The word written.
    pub written_as: TradeColour,
    /// How often.
    pub rate: Value,
}

/// What a skin over a flesh looks like from outside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SkinAndFlesh {
    /// The flesh.
    pub flesh: TradeColour,
    /// The skin.
    pub skin: Skin,
    /// The colour outside.
    pub outside: TradeColour,
    /// Who says so.
    pub source: String,
}

/// A measured colour that stands for a word.
#[derive(Clone, Debug, PartialEq)]
pub struct Reference {
    /// The word.
    pub colour: TradeColour,
    /// The measured colour.
    pub lab: Lab,
    /// How far fruit of that word lies about it, in CIEDE2000 units.
    pub sd: f64,
    /// Where it comes from.
    pub source: String,
}

/// How measured colours scatter.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// Error of one reading, in CIEDE2000 units.
    pub reading_sd: Value,
    /// Chance that a reading is of something else.
    pub stray_reading_rate: Value,
}

/// The house's colour guide.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourGuide {
    /// Its title.
    pub title: String,
    /// Its version, as its owner writes it.
    pub version: String,
    /// How often each colour is sold.
    pub colour: Vec<(TradeColour, Value)>,
    /// How often each pattern is sold.
    pub pattern: Vec<(Pattern, Value)>,
    /// How words go wrong.
    pub words: Words,
    /// Likely slips.
    pub slips: Vec<Slip>,
    /// Chance that a variety does not follow the table of skin and flesh.
    pub exception_rate: Value,
    /// The table of skin and flesh; every colour outside has at least one row.
    pub skin_and_flesh: Vec<SkinAndFlesh>,
    /// How measured colours scatter.
    pub measured: Measured,
    /// Reference colours; every colour has at least one.
    pub references: Vec<Reference>,
}

/// The guide that a new house is given. It may be edited; see docs/habit-and-colour.md.
pub const SHIPPED: &str = include_str!("../../../../guides/colour.toml");

/// Reads a colour guide from its text.
///
/// # Errors
/// [`GuideFault`] with file, line, key, value and remedy.
pub fn read(file: &str, text: &str) -> Result<ColourGuide, GuideFault> {
    raw::checked(Text { file, text })
}
