//! The roll: the 130 invented varieties, written by hand in `roll.csv`.
//!
//! It says what each variety is and what is odd about it; [`crate::truth`] fills in the numbers. Start at
//! [`read`].

use crate::class::FruitClass;
use record::colour::{Pattern, TradeColour};
use thiserror::Error;

/// The roll's text.
const ROLL: &str = include_str!("../roll.csv");

/// How the main stem ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Habit {
    /// Ends in a truss after a few.
    Determinate,
    /// Ends in a truss, late.
    SemiDeterminate,
    /// Grows until frost.
    Indeterminate,
}

impl Habit {
    /// The word in the roll and in the truth table.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Determinate => "determinate",
            Self::SemiDeterminate => "semi-determinate",
            Self::Indeterminate => "indeterminate",
        }
    }
}

/// How the plant is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Build {
    /// As most are.
    Standard,
    /// Short sturdy stem, dark crinkled leaves.
    Dwarf,
    /// A hand high or two.
    MicroDwarf,
}

/// A mark that fruit of any size may carry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mark {
    /// Heart-shaped.
    Heart,
    /// Hollow, for stuffing.
    Hollow,
    /// Deeply ribbed.
    Ribbed,
}

/// What the keepers never did for a variety.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Missing {
    /// Never put on a scale.
    Unweighed,
    /// Never cut: no locules, solids or dry matter.
    Uncut,
    /// On the list, but never planted.
    NeverGrown,
}

/// One line of the roll.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its name.
    pub name: String,
    /// Other names it goes by.
    pub aliases: Vec<String>,
    /// Its true class.
    pub class: FruitClass,
    /// Its true habit.
    pub habit: Habit,
    /// Its true build.
    pub build: Build,
    /// Its true colour.
    pub colour: TradeColour,
    /// How the colour is laid out.
    pub pattern: Pattern,
    /// Heart, hollow or ribbed.
    pub mark: Option<Mark>,
    /// Typical weight in grams, where the roll fixes it.
    pub weight_g: Option<f64>,
    /// Length over width, where the roll fixes it.
    pub length_over_width: Option<f64>,
    /// Neck over width, where the roll fixes it.
    pub neck: Option<f64>,
    /// The edge it sits on, in words such as `plum or paste`.
    pub edge: Option<String>,
    /// A false claim on its packet: what about, and the words.
    pub false_claim: Option<(String, String)>,
    /// What was never done for it.
    pub missing: Option<Missing>,
}

/// Why the roll could not be read: a slip of ours.
#[derive(Debug, Error)]
pub enum RollFault {
    /// Not a table.
    #[error("roll.csv is not a table")]
    Table(#[from] csv::Error),
    /// A column lacks.
    #[error("roll.csv, {name:?}: column {column:?} is missing")]
    Column {
        /// The variety.
        name: String,
        /// The column.
        column: &'static str,
    },
    /// A word is not known.
    #[error("roll.csv, {name:?}: {word:?} is no {column}")]
    Word {
        /// The variety.
        name: String,
        /// The column.
        column: &'static str,
        /// The word.
        word: String,
    },
}

/// Reads the roll.
///
/// # Errors
/// [`RollFault`] names the line and column of the first slip.
pub fn read() -> Result<Vec<Entry>, RollFault> {
    let mut table = csv::Reader::from_reader(ROLL.as_bytes());
    let headings = table.headers()?.clone();
    table.records().map(|record| Line { headings: &headings, record: &record? }.entry()).collect()
}

struct Line<'a> {
    headings: &'a csv::StringRecord,
    record: &'a csv::StringRecord,
}

impl Line<'_> {
    fn entry(&self) -> Result<Entry, RollFault> {
        Ok(Entry {
            name: self.cell("name")?.to_owned(),
            aliases: self
                .cell("aliases")?
                .split(';')
                .filter(|alias| !alias.is_empty())
                .map(str::to_owned)
                .collect(),
            class: self.read("class", FruitClass::of_word)?,
            habit: self.read("habit", habit)?,
            build: self.read("build", build)?,
            colour: self.read("colour", colour)?,
            pattern: self.read("pattern", pattern)?,
            mark: self.optional("mark", mark)?,
            weight_g: self.optional("weight_g", number)?,
            length_over_width: self.optional("length_over_width", number)?,
            neck: self.optional("neck", number)?,
            edge: self.optional("edge", |words| Some(words.to_owned()))?,
            false_claim: self.optional("packet_says", false_claim)?,
            missing: self.optional("missing", missing)?,
        })
    }

    fn cell(&self, column: &'static str) -> Result<&str, RollFault> {
        let place = self.headings.iter().position(|heading| heading == column);
        place.and_then(|place| self.record.get(place)).ok_or_else(|| RollFault::Column {
            name: self.record.get(0).unwrap_or_default().to_owned(),
            column,
        })
    }

    fn read<T>(&self, column: &'static str, reader: impl Fn(&str) -> Option<T>) -> Result<T, RollFault> {
        let word = self.cell(column)?;
        reader(word).ok_or_else(|| RollFault::Word {
            name: self.record.get(0).unwrap_or_default().to_owned(),
            column,
            word: word.to_owned(),
        })
    }

    fn optional<T>(
        &self,
        column: &'static str,
        reader: impl Fn(&str) -> Option<T>,
    ) -> Result<Option<T>, RollFault> {
        if self.cell(column)?.is_empty() { Ok(None) } else { self.read(column, reader).map(Some) }
    }
}

fn habit(word: &str) -> Option<Habit> {
    [Habit::Determinate, Habit::SemiDeterminate, Habit::Indeterminate]
        .into_iter()
        .find(|habit| habit.word() == word)
}

fn build(word: &str) -> Option<Build> {
    match word {
        "" => Some(Build::Standard),
        "dwarf" => Some(Build::Dwarf),
        "micro-dwarf" => Some(Build::MicroDwarf),
        _ => None,
    }
}

fn colour(word: &str) -> Option<TradeColour> {
    TradeColour::ALL.into_iter().find(|colour| colour.name() == word)
}

fn pattern(word: &str) -> Option<Pattern> {
    match word {
        "" => Some(Pattern::Plain),
        "striped" => Some(Pattern::Striped),
        "marbled" => Some(Pattern::Marbled),
        _ => None,
    }
}

fn mark(word: &str) -> Option<Mark> {
    match word {
        "heart" => Some(Mark::Heart),
        "hollow" => Some(Mark::Hollow),
        "ribbed" => Some(Mark::Ribbed),
        _ => None,
    }
}

fn missing(words: &str) -> Option<Missing> {
    match words {
        "unweighed" => Some(Missing::Unweighed),
        "uncut" => Some(Missing::Uncut),
        "never grown" => Some(Missing::NeverGrown),
        _ => None,
    }
}

fn number(word: &str) -> Option<f64> {
    word.parse().ok().filter(|number: &f64| number.is_finite())
}

fn false_claim(words: &str) -> Option<(String, String)> {
    words.split_once(": ").map(|(about, claim)| (about.to_owned(), claim.to_owned()))
}
