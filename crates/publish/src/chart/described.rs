//! What a guide describes, as looks to draw and words to set: the same for a page and for paper.

use drawing::look::FruitLook;
use drawing::plant::PlantLook;
use drawing::span::Span;
use record::purpose::Purpose;

/// What the guides describe.
#[derive(Clone, Debug)]
pub struct Types {
    /// Fruit classes, from small to large.
    pub classes: Vec<ClassType>,
    /// Habits, from the smallest plant to the largest.
    pub habits: Vec<HabitType>,
    /// Shape marks that fruit of any class may carry.
    pub marks: Vec<MarkType>,
    /// One fruit in each of the trade's colours.
    pub colours: Vec<FruitLook>,
    /// One fruit in each pattern.
    pub patterns: Vec<FruitLook>,
    /// The guides with their versions.
    pub guides: Vec<String>,
}

/// A fruit class.
#[derive(Clone, Debug)]
pub struct ClassType {
    /// Its name.
    pub name: String,
    /// The fruit in the middle of its bands; nothing where the guide allows no fruit.
    pub look: Option<FruitLook>,
    /// What it is.
    pub what: String,
    /// What it is good for, in a sentence.
    pub good_for: String,
    /// How its flesh is.
    pub flesh: String,
    /// How it is mistaken for its neighbours.
    pub mistaken_for: String,
    /// What holds of all its fruit.
    pub limits: Vec<Limit>,
    /// The ways into it where there are several: one must hold.
    pub ways: Vec<String>,
    /// What it is good for, in single words.
    pub uses: Vec<Purpose>,
}

/// A habit.
#[derive(Clone, Debug)]
pub struct HabitType {
    /// Its name.
    pub name: String,
    /// A plant by the guide's numbers; nothing where they make none.
    pub look: Option<PlantLook>,
    /// What it is.
    pub what: String,
    /// What it is good for, in a sentence.
    pub good_for: String,
    /// How it is mistaken for its neighbours.
    pub mistaken_for: String,
    /// What to look at, and what is then seen.
    pub tells: Vec<Tell>,
    /// What it is good for, in single words.
    pub uses: Vec<Purpose>,
}

/// A shape mark.
#[derive(Clone, Debug)]
pub struct MarkType {
    /// Its name.
    pub name: String,
    /// A fruit that carries it.
    pub look: Option<FruitLook>,
    /// What it is.
    pub what: String,
    /// By which limits.
    pub limits: Vec<String>,
}

/// What holds of a measure.
#[derive(Clone, Debug)]
pub struct Limit {
    /// What is measured: `Weight`.
    pub about: String,
    /// The range in words, with both systems of units.
    pub words: String,
    /// The range as a bar between the guide's borders.
    pub span: Span,
}

/// One thing to look at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tell {
    /// What to look at.
    pub about: String,
    /// What is seen.
    pub words: String,
}
