//! The open descriptor standards as a table: characteristics, their states, and how far each was read.
//!
//! The wording and notes of most states were written down from memory and are marked so until somebody
//! has the standard beside them. What a state is coded from is in the table too, so that a house that has
//! the standard can mend it without touching the program. Start at [`read`].

mod raw;

use crate::guide::reading::{GuideFault, Text};
use crate::habit::{Habit, Stem};
use record::colour::{Skin, TradeColour};

/// How far a piece of a standard was checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Status {
    /// Seen in the standard or in a stored copy of it.
    Read,
    /// Written down from memory and not yet checked: never print it without saying so.
    MemoryUnverified,
}

impl Status {
    /// What a page says beside the state; nothing where it was read.
    #[must_use]
    pub fn mark(self) -> Option<&'static str> {
        match self {
            Self::Read => None,
            Self::MemoryUnverified => Some("from memory, unverified"),
        }
    }
}

/// The standards that varieties are coded in.
#[derive(Clone, Debug, PartialEq)]
pub struct Standards {
    /// In the table's order.
    pub standards: Vec<Standard>,
}

/// One standard.
#[derive(Clone, Debug, PartialEq)]
pub struct Standard {
    /// Its short name, such as `UPOV TG/44`.
    pub name: String,
    /// Its title.
    pub title: String,
    /// How much of it was read.
    pub known: String,
    /// The sample sizes that it asks for.
    pub samples: Vec<SampleAsked>,
    /// Its characteristics.
    pub characteristics: Vec<Characteristic>,
}

/// What a sample size counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Counted {
    /// Growing seasons.
    Seasons,
    /// Plants that stood in the plots.
    Standing,
    /// Plots of one season.
    Plots,
    /// Plants that were looked at one by one.
    Plants,
    /// Ripe fruits.
    Fruits,
}

/// A sample size that a standard asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SampleAsked {
    /// What it counts.
    pub counted: Counted,
    /// How many at least.
    pub at_least: u64,
    /// The same in the standard's words.
    pub words: String,
    /// How far it was checked.
    pub status: Status,
}

/// One characteristic.
#[derive(Clone, Debug, PartialEq)]
pub struct Characteristic {
    /// Its name in the standard.
    pub name: String,
    /// How it is coded.
    pub coding: CodedFrom,
    /// What has to be known about the coding.
    pub remark: Option<String>,
    /// How far name and states were checked.
    pub status: Status,
    /// Which of the standard's sample sizes apply.
    pub asks: Vec<Counted>,
}

/// What a characteristic is coded from.
#[derive(Clone, Debug, PartialEq)]
pub enum CodedFrom {
    /// The stem.
    Stem(Vec<State<Vec<Stem>>>),
    /// The habit in the trade's words.
    Habit(Vec<State<Vec<Habit>>>),
    /// The colour outside.
    Outside(Vec<State<Vec<TradeColour>>>),
    /// The colour of the flesh.
    Flesh(Vec<State<Vec<TradeColour>>>),
    /// The peeled skin.
    Skin(Vec<State<Vec<Skin>>>),
    /// A measured figure and the limit below which each state lies; the last state has none.
    Limits(Figure, Vec<State<Option<f64>>>),
    /// The figure itself.
    Figure(Figure),
    /// Not coded, and why; a figure may be told in its place.
    Nothing {
        /// Why not.
        why: String,
        /// What to tell in its place.
        beside: Option<Figure>,
    },
}

/// A measured figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Figure {
    /// Trusses on the main stem when it ends.
    Trusses,
    /// Length over width.
    Ratio,
    /// Weight of a fruit.
    Weight,
    /// Length of a fruit.
    Length,
    /// Greatest width of a fruit.
    Width,
    /// Locules.
    Locules,
}

/// One state of a characteristic.
#[derive(Clone, Debug, PartialEq)]
pub struct State<Is> {
    /// Its number.
    pub note: u32,
    /// Its wording.
    pub wording: String,
    /// What means it.
    pub is: Is,
    /// How far number and wording were checked.
    pub status: Status,
}

/// The table that a new house is given.
pub const SHIPPED: &str = include_str!("../../../../guides/descriptors.toml");

/// Reads the standards from their text.
///
/// # Errors
/// [`GuideFault`] with file, line, key, value and remedy.
pub fn read(file: &str, text: &str) -> Result<Standards, GuideFault> {
    raw::checked(Text { file, text })
}
