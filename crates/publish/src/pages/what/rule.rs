//! What the page reckons with: the guides' rules, the house's spread and what is known of each variety of the list, as
//! plain numbers; and tomatoes with the answers that the science gives, by which a test holds the page to it.

/// Everything that the page reckons with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WhatRule {
    /// How a fruit class is called.
    pub class: ClassRule,
    /// How a habit is called.
    pub plant: PlantRule,
    /// How a colour is called.
    pub colour: ColourRule,
    /// How the nearest varieties are found.
    pub likeness: Likeness,
}

/// The guide's rule and the house's spread, as the page reckons with them. Measures are numbered in the guide's order:
/// weight, width, length, shape, neck, fullness, locules, lobes, dry matter, soluble solids.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ClassRule {
    /// Ways into classes, in the order that they are tried.
    pub ways: Vec<RuleWay>,
    /// Standard deviation of each measure's borders, on the logarithm.
    pub softness: Vec<f64>,
    /// Variances between seasons, plants and fruits of each trait.
    pub spread: Vec<TraitSpread>,
    /// Rows of standard normal numbers: eight for the traits, then one a measure for its borders.
    pub chances: Vec<Vec<f64>>,
    /// Fruits with the answers that the science gives, by which a test holds the page to it.
    pub trials: Vec<Trial>,
}

/// One way into a class.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleWay {
    /// Which class.
    pub into: usize,
    /// The bands that must all hold.
    pub bands: Vec<RuleBand>,
}

/// A range of one measure, on the logarithm; the lower end is included.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleBand {
    /// Which measure.
    pub measure: usize,
    /// The lower end; `None` where it is open.
    pub from: Option<f64>,
    /// The upper end.
    pub below: Option<f64>,
}

/// How far a trait differs within one variety, on the logarithm.
#[derive(Clone, Debug, PartialEq)]
pub struct TraitSpread {
    /// The trait, as `what.js` names it.
    pub of: &'static str,
    /// Variance between seasons.
    pub season: f64,
    /// Variance between plants.
    pub plant: f64,
    /// Variance between fruits.
    pub fruit: f64,
}

/// A handful of fruits and what the science calls it.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// What was measured of each fruit, as `what.js` names it, in grams, millimetres, counts and per cent; and the number
    /// of its plant.
    pub fruits: Vec<Vec<(&'static str, f64)>>,
    /// The share of each class.
    pub shares: Vec<f64>,
    /// What each look not yet taken is expected to make of the leading share, most telling first: its name in
    /// `class_looks.js`.
    pub looks: Vec<(&'static str, f64)>,
}

/// What one plant's answers say of its habit, as crate `identity`, file `habit::answers`, tells it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlantRule {
    /// Belief beforehand, by cell, then by point.
    pub prior: Vec<Vec<f64>>,
    /// Of each cell its habit, by place, and what its stem does.
    pub cells: Vec<Cell>,
    /// How often a plant is a stray.
    pub stray_rate: f64,
    /// Most trusses that a season lets a stem reach.
    pub season_reach: f64,
    /// Ended after so many trusses; the first is of a stem whose trusses nobody counted.
    pub ended: Vec<Stem>,
    /// Still growing after so many, from 1.
    pub growing: Vec<Stem>,
    /// What else is asked, and what each answer says.
    pub questions: Vec<Question>,
    /// What it says of each cell that no dwarf was noted.
    pub silence: Vec<f64>,
    /// Plants with the science's own answer.
    pub trials: Vec<PlantTrial>,
}

/// A stature and a stem.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// The habit's place.
    pub habit: usize,
    /// What its stem does.
    pub stem: CellStem,
}

/// What the stem of a cell does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CellStem {
    /// It ends in a truss.
    Ends,
    /// It does not end.
    Endless,
}

/// How likely what a stem did is, at each point of its end and of a stem without one.
#[derive(Clone, Debug, PartialEq)]
pub struct Stem {
    /// By point.
    pub ends: Vec<f64>,
    /// Without an end.
    pub endless: f64,
}

/// A question about the plant that is answered by choosing.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// Its name in the scripts.
    pub of: &'static str,
    /// What is asked.
    pub label: &'static str,
    /// The power to which the guide lets its likelihood be taken.
    pub trust: f64,
    /// The answers to choose from.
    pub answers: Vec<Answer>,
}

/// One answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Its name in the scripts.
    pub key: String,
    /// How it is told.
    pub words: String,
    /// What it says of each cell: one row, or three where it matters whether the plant still grows (not known, levelled
    /// off, still growing).
    pub logs: Vec<Vec<f64>>,
}

/// A plant with the science's own answer.
#[derive(Clone, Debug, PartialEq)]
pub struct PlantTrial {
    /// Question and answer of each that was answered; `ended` and `growing` are of the stem.
    pub answers: Vec<(&'static str, String)>,
    /// The share of each habit.
    pub shares: Vec<f64>,
}

/// What words say of a colour, as crate `identity`, file `colour::answers`, tells it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ColourRule {
    /// The colours.
    pub colours: Vec<&'static str>,
    /// The skins.
    pub skins: Vec<&'static str>,
    /// The patterns.
    pub patterns: Vec<&'static str>,
    /// Belief beforehand, by colour outside, then by flesh and skin.
    pub prior: Vec<Vec<f64>>,
    /// The same of the patterns.
    pub pattern_prior: Vec<f64>,
    /// How often what is read is of a stray.
    pub stray_rate: f64,
    /// Chance of each colour word, by true colour.
    pub colour_words: Vec<Vec<f64>>,
    /// Chance of each skin word, by true skin.
    pub skin_words: Vec<Vec<f64>>,
    /// Chance of each pattern word, by true pattern.
    pub pattern_words: Vec<Vec<f64>>,
    /// Fruits with the science's own answer.
    pub trials: Vec<ColourTrial>,
}

/// A fruit's words with the science's own answer.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourTrial {
    /// The place of each word that was written: of `outside`, `flesh`, `skin` and `pattern`.
    pub words: Vec<(&'static str, usize)>,
    /// The share of each colour outside.
    pub outside: Vec<f64>,
    /// The share of each pattern.
    pub pattern: Vec<f64>,
}

/// What is known of each variety of the list, by which the nearest are found (Gower's coefficient).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Likeness {
    /// Traits told by a number.
    pub numbers: Vec<NumberTrait>,
    /// Traits told by chances of names.
    pub names: Vec<NameTrait>,
    /// Pairs of varieties with the distance that the science gives them.
    pub trials: Vec<(usize, usize, f64)>,
}

/// A trait told by a number, as it is compared: a logarithm where the science takes one.
#[derive(Clone, Debug, PartialEq)]
pub struct NumberTrait {
    /// Its name in the scripts.
    pub of: &'static str,
    /// What it counts.
    pub weight: f64,
    /// Of each variety.
    pub values: Vec<Option<f64>>,
}

/// A trait told by chances of names.
#[derive(Clone, Debug, PartialEq)]
pub struct NameTrait {
    /// Its name in the scripts.
    pub of: &'static str,
    /// What it counts.
    pub weight: f64,
    /// How far each two names lie apart.
    pub apart: Vec<Vec<f64>>,
    /// Of each variety the chance of each name.
    pub chances: Vec<Option<Vec<f64>>>,
}
