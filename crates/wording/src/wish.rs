//! What can be asked for, and a whole wish: all wants of one kind are alternatives, and the kinds hold together.

use crate::amount::Amount;
use record::colour::Pattern;
use record::days::Days;
use record::length::Millimetres;
use record::mass::Grams;
use record::purpose::Purpose;
use record::season::Season;

/// One thing that a piece of text asks for.
#[derive(Clone, Debug, PartialEq)]
pub enum Want {
    /// A habit, in the guide's word.
    Habit(String),
    /// A fruit class, in the guide's word.
    Class(String),
    /// A colour outside, in the trade's word.
    Colour(String),
    /// How the colour is laid out.
    Pattern(Pattern),
    /// A shape mark, in the guide's word.
    Mark(String),
    /// What it is good for.
    Use(Purpose),
    /// Weight of a fruit.
    Weight(Amount<Grams>),
    /// How heavy, in a word.
    Size(Size),
    /// Length of a fruit.
    Length(Amount<Millimetres>),
    /// Greatest width of a fruit.
    Width(Amount<Millimetres>),
    /// Height of the plant.
    Height(Amount<Millimetres>),
    /// Days from transplanting to the first ripe fruit.
    Days(Amount<Days>),
    /// The same in a word.
    Earliness(Earliness),
    /// Seed chambers.
    Locules(Amount<u32>),
    /// How its evidence stands.
    State(State),
    /// A season that there is evidence of.
    Season(Season),
    /// A word, or words in quotation marks, that mean nothing here: a name, most likely.
    Words(String),
}

/// How soon the first fruit is ripe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Earliness {
    /// Up to 65 days.
    Early,
    /// 66 to 79 days.
    Mid,
    /// 80 days or more.
    Late,
}

/// How heavy a fruit is, in the words of the US consumer standard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Size {
    /// Under 3 oz.
    Small,
    /// 3 to 6 oz.
    Medium,
    /// Over 6 oz.
    Large,
    /// Over 10 oz.
    VeryLarge,
}

/// How the evidence of a variety stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum State {
    /// A call is contested.
    Contested,
    /// A claim is contradicted.
    Contradicted,
    /// Nothing was measured that tells what it is.
    Unmeasured,
}

/// Whether a thing is asked for or asked away.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sense {
    /// Asked for.
    Wanted,
    /// "Not", "no", "without", "except".
    Barred,
}

/// What is wanted of one kind, any of it, and what is barred, all of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice<T> {
    /// Alternatives; empty where anything will do.
    pub wanted: Vec<T>,
    /// What must not be.
    pub barred: Vec<T>,
}

impl<T> Default for Choice<T> {
    fn default() -> Self {
        Self { wanted: Vec::new(), barred: Vec::new() }
    }
}

impl<T: PartialEq> Choice<T> {
    /// Whether one value, or nothing where it is not known, is what is asked for.
    #[must_use]
    pub fn takes(&self, value: Option<&T>) -> bool {
        self.takes_any(value)
    }

    /// Whether something that is several values at once is what is asked for: one of them is wanted, none barred.
    #[must_use]
    pub fn takes_any<'a>(&self, values: impl IntoIterator<Item = &'a T> + Clone) -> bool
    where
        T: 'a,
    {
        let any = |of: &[T]| values.clone().into_iter().any(|value| of.contains(value));
        (self.wanted.is_empty() || any(&self.wanted)) && !any(&self.barred)
    }

    /// Whether nothing is asked.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.wanted.is_empty() && self.barred.is_empty()
    }
}

/// A whole wish. Wants of one kind are alternatives; the kinds must all hold.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wish {
    /// Habits.
    pub habits: Choice<String>,
    /// Fruit classes.
    pub classes: Choice<String>,
    /// Colours outside.
    pub colours: Choice<String>,
    /// Patterns.
    pub patterns: Choice<Pattern>,
    /// Shape marks.
    pub marks: Choice<String>,
    /// What it is good for in the kitchen.
    pub uses: Choice<Purpose>,
    /// How it is grown and picked: in containers, all at once, all season. A kind of its own, as "sauce, all at
    /// once" wants both.
    pub growing: Choice<Purpose>,
    /// Weight of a fruit, grams.
    pub weights: Vec<Amount<Grams>>,
    /// Length of a fruit, millimetres.
    pub lengths: Vec<Amount<Millimetres>>,
    /// Greatest width of a fruit, millimetres.
    pub widths: Vec<Amount<Millimetres>>,
    /// Height of the plant, millimetres.
    pub heights: Vec<Amount<Millimetres>>,
    /// Days from transplanting to the first ripe fruit.
    pub days: Vec<Amount<Days>>,
    /// Seed chambers.
    pub locules: Vec<Amount<u32>>,
    /// How the evidence stands.
    pub states: Choice<State>,
    /// Seasons that there is evidence of.
    pub seasons: Choice<Season>,
    /// Words that are left for full text: every one of them must be found (a name, most likely).
    pub words: Choice<String>,
}
