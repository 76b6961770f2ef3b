//! Colour: the trade's words, the peeled skin, the pattern, and measured CIELAB values.

use crate::subject::Subject;
use jiff::civil::Date;

/// Fruit colour in the words that buyers use.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TradeColour {
    /// Red.
    Red,
    /// Pink: red flesh under a clear skin; old catalogues say purple.
    Pink,
    /// Orange.
    Orange,
    /// Yellow.
    Yellow,
    /// White to cream.
    White,
    /// Green when ripe.
    Green,
    /// Brown: red and green flesh under a yellow skin.
    Brown,
    /// Black to dusky purple: red and green flesh under a clear skin.
    Black,
    /// Yellow and red in one fruit.
    Bicolour,
}

impl TradeColour {
    /// Every colour, in the order of the enum.
    pub const ALL: [Self; 9] = [
        Self::Red,
        Self::Pink,
        Self::Orange,
        Self::Yellow,
        Self::White,
        Self::Green,
        Self::Brown,
        Self::Black,
        Self::Bicolour,
    ];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Red => "red",
            Self::Pink => "pink",
            Self::Orange => "orange",
            Self::Yellow => "yellow",
            Self::White => "white",
            Self::Green => "green",
            Self::Brown => "brown",
            Self::Black => "black",
            Self::Bicolour => "bicolour",
        }
    }
}

/// The peeled skin, which makes red flesh look red or pink.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Skin {
    /// Colourless.
    Clear,
    /// Yellow.
    Yellow,
}

impl Skin {
    /// Both skins, in the order of the enum.
    pub const ALL: [Self; 2] = [Self::Clear, Self::Yellow];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Clear => "clear",
            Self::Yellow => "yellow",
        }
    }
}

/// How the colour is laid out over the fruit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Pattern {
    /// One colour all over.
    Plain,
    /// Stripes from stem to blossom end.
    Striped,
    /// Two colours that blend, usually from the blossom end.
    Marbled,
    /// Dark shoulders where the sun fell.
    DarkShouldered,
}

impl Pattern {
    /// Every pattern, in the order of the enum.
    pub const ALL: [Self; 4] = [Self::Plain, Self::Striped, Self::Marbled, Self::DarkShouldered];

    /// The trade's word for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Striped => "striped",
            Self::Marbled => "marbled",
            Self::DarkShouldered => "dark-shouldered",
        }
    }
}

/// Part of the fruit that a colour was read on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FruitPart {
    /// The whole ripe fruit, from outside.
    Exterior,
    /// The cut flesh.
    Flesh,
    /// The jelly round the seeds.
    Gel,
}

/// A colour in CIELAB under D65 and the 2-degree observer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lab {
    lightness: f64,
    a: f64,
    b: f64,
}

/// Largest |a*| or |b*| taken. No surface colour reaches it; a larger one is a typing error.
const MOST_CHROMATIC: f64 = 150.0;

impl Lab {
    /// Takes L* from 0 to 100, a* and b* from -150 to 150.
    #[must_use]
    pub fn new(lightness: f64, a: f64, b: f64) -> Option<Self> {
        let chromatic = -MOST_CHROMATIC..=MOST_CHROMATIC;
        ((0.0..=100.0).contains(&lightness) && chromatic.contains(&a) && chromatic.contains(&b))
            .then_some(Self { lightness, a, b })
    }

    /// Lightness L*, 0 black to 100 white.
    #[must_use]
    pub fn lightness(self) -> f64 {
        self.lightness
    }

    /// Green (negative) to red, a*.
    #[must_use]
    pub fn a(self) -> f64 {
        self.a
    }

    /// Blue (negative) to yellow, b*.
    #[must_use]
    pub fn b(self) -> f64 {
        self.b
    }
}

/// What was seen: a word, or a measured colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ColourSeen {
    /// A word from the walk sheet.
    Word(TradeColour),
    /// A measurement.
    Measured(Lab),
}

/// One reading of colour on one part of a fruit.
#[derive(Clone, Debug, PartialEq)]
pub struct ColourReading {
    /// Variety, season, plot and plant.
    pub subject: Subject,
    /// The day it was read.
    pub read_on: Option<Date>,
    /// Where on the fruit.
    pub part: FruitPart,
    /// What was seen.
    pub seen: ColourSeen,
    /// How the colour is laid out, where noted.
    pub pattern: Option<Pattern>,
    /// The peeled skin, where noted.
    pub skin: Option<Skin>,
}
