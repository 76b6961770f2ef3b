//! What can be asked for, and a whole wish: all wants of one kind are alternatives, and the kinds hold together.

use crate::amount::Amount;
use record::colour::Pattern;
use record::days::Days;
use record::length::Millimetres;
use record::mass::{Grams, Ounces};
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

impl Earliness {
    /// All of them, in the order that they ripen.
    pub const ALL: [Self; 3] = [Self::Early, Self::Mid, Self::Late];

    /// The word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Early => "early",
            Self::Mid => "midseason",
            Self::Late => "late",
        }
    }

    /// The days that it stands for. Source: seed-trade pages as collected call 52 to 65 days early and put the
    /// latest kinds at 80 days and more; what lies between is midseason. Common practice, no better source.
    #[must_use]
    pub fn days(self) -> Amount<Days> {
        let days = |days: f64| Days::new(days).unwrap_or(Days::NONE);
        match self {
            Self::Early => Amount::AtMost(days(65.0)),
            Self::Mid => Amount::Between(days(66.0), days(79.0)),
            Self::Late => Amount::AtLeast(days(80.0)),
        }
    }

    /// The days of all that is not so; nothing for midseason, which lies between two.
    #[must_use]
    pub fn other_days(self) -> Option<Amount<Days>> {
        match self {
            Self::Early => Days::new(66.0).map(Amount::AtLeast),
            Self::Mid => None,
            Self::Late => Days::new(79.0).map(Amount::AtMost),
        }
    }
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

impl Size {
    /// All of them, from the lightest.
    pub const ALL: [Self; 4] = [Self::Small, Self::Medium, Self::Large, Self::VeryLarge];

    /// The word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Small => "small",
            Self::Medium => "medium",
            Self::Large => "large",
            Self::VeryLarge => "very large",
        }
    }

    /// The weights that it stands for; large takes in very large. Source: 7 CFR 51.1903: small under 3 oz, medium
    /// 3 to 6 oz, large over 6 to 10 oz, very large over 10 oz.
    #[must_use]
    pub fn weights(self) -> Amount<Grams> {
        let ounces = |ounces: f64| Ounces::new(ounces).and_then(Ounces::to_grams).unwrap_or(Grams::NONE);
        match self {
            Self::Small => Amount::AtMost(ounces(3.0)),
            Self::Medium => Amount::Between(ounces(3.0), ounces(6.0)),
            Self::Large => Amount::AtLeast(ounces(6.0)),
            Self::VeryLarge => Amount::AtLeast(ounces(10.0)),
        }
    }
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

impl State {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Contested, Self::Contradicted, Self::Unmeasured];

    /// The word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Contested => "contested",
            Self::Contradicted => "contradicted",
            Self::Unmeasured => "unmeasured",
        }
    }
}

/// Kinds of wants. Wants of one kind are alternatives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// Habits.
    Habit,
    /// Fruit classes.
    Class,
    /// Colours.
    Colour,
    /// Patterns.
    Pattern,
    /// Shape marks.
    Mark,
    /// What it is good for in the kitchen.
    Use,
    /// How it is grown and picked.
    Growing,
    /// Weights and sizes.
    Weight,
    /// Lengths.
    Length,
    /// Widths.
    Width,
    /// Plant heights.
    Height,
    /// Days and earliness.
    Days,
    /// Seed chambers.
    Locules,
    /// How the evidence stands.
    State,
    /// Seasons.
    Season,
    /// Words left for full text.
    Words,
}

impl Want {
    /// Its kind.
    #[must_use]
    pub fn kind(&self) -> Kind {
        match self {
            Self::Habit(_) => Kind::Habit,
            Self::Class(_) => Kind::Class,
            Self::Colour(_) => Kind::Colour,
            Self::Pattern(_) => Kind::Pattern,
            Self::Mark(_) => Kind::Mark,
            Self::Use(Purpose::Containers | Purpose::AllAtOnce | Purpose::AllSeason) => Kind::Growing,
            Self::Use(_) => Kind::Use,
            Self::Weight(_) | Self::Size(_) => Kind::Weight,
            Self::Length(_) => Kind::Length,
            Self::Width(_) => Kind::Width,
            Self::Height(_) => Kind::Height,
            Self::Days(_) | Self::Earliness(_) => Kind::Days,
            Self::Locules(_) => Kind::Locules,
            Self::State(_) => Kind::State,
            Self::Season(_) => Kind::Season,
            Self::Words(_) => Kind::Words,
        }
    }
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
