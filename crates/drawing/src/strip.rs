//! The strip: a variety's fruits as dots against the guide's bands for one trait.

use crate::scale::Pixels;
use crate::svg::Svg;
use record::language::Units;

/// What was measured, which sets the axis: its unit, and whether it runs by ratio or by difference.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measured {
    /// Weight in grams, on an axis of equal ratios.
    Weight,
    /// A length in millimetres, such as the fruit's length or width.
    Length,
    /// A ratio without unit, such as length over width.
    Ratio,
    /// A count, such as locules.
    Count,
    /// A percentage by mass, such as soluble solids.
    Percent,
}

/// One reading, in the unit of its [`Measured`]: any finite number.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Reading(f64);

impl Reading {
    /// Takes any finite number.
    #[must_use]
    pub fn new(reading: f64) -> Option<Self> {
        reading.is_finite().then_some(Self(reading))
    }

    /// The number, in the unit of its [`Measured`].
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// One fruit, drawn as a dot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    /// Its reading.
    pub reading: Reading,
    /// Whether the call rests on it; a fruit set aside is drawn hollow.
    pub counted: bool,
}

/// A soft border of a band: the class fades in or out between these two readings (equal: sharp).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Border {
    /// Where the fading begins (the smaller reading).
    pub from: Reading,
    /// Where it ends (the larger reading).
    pub to: Reading,
}

/// What the guide says of one class for this trait.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// The class's name.
    pub name: String,
    /// Its lower border; `None` is open.
    pub low: Option<Border>,
    /// Its upper border; `None` is open.
    pub high: Option<Border>,
    /// Whether this is the class called: its band runs down behind the dots.
    pub called: bool,
}

/// The interval of the variety's mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeanInterval {
    /// Its lower end.
    pub low: Reading,
    /// The mean itself.
    pub mean: Reading,
    /// Its upper end.
    pub high: Reading,
}

/// What a strip shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// The trait in words, such as `Weight of one fruit`.
    pub title: String,
    /// What was measured.
    pub measured: Measured,
    /// The fruits.
    pub dots: Vec<Dot>,
    /// The guide's bands, in the guide's order.
    pub bands: Vec<Band>,
    /// The interval of the variety's mean, where there is one.
    pub mean: Option<MeanInterval>,
    /// Which units the axis gives first; the other stands below it.
    pub units: Units,
}

/// Draws the strip, `width` pixels wide (made for 320 to 900).
#[must_use]
pub fn strip(strip: &Strip, width: Pixels) -> Svg {
    let _ = strip;
    crate::svg::Canvas::new("x","").finish("x", crate::svg::Role::Picture, "", width.get(), width.get())
}
