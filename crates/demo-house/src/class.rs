//! Fruit classes by common practice: the bands that the roll's varieties are drawn from.
//!
//! These are this crate's own copy of the trade's rule of thumb, so that the truth does not rest on
//! the guide that is scored against it. Start at [`common_practice`].

use crate::truth::Shape;

/// What a fruit is sold as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FruitClass {
    /// About 6 mm across.
    Currant,
    /// Round, under 1 oz, from half an inch across.
    Cherry,
    /// Under 1 oz, with a neck.
    Pear,
    /// Longer than wide, under 1 oz, without a neck: the eight classes leave it open, and this house
    /// sells it as grape.
    SmallElongated,
    /// Longer than wide, 1 to 2 oz.
    Grape,
    /// 50 to 75 mm long, 1 to 3 oz.
    Plum,
    /// 75 to 125 mm long, 3 to 5 oz.
    Paste,
    /// Round, between cherry and slicer: the eight classes leave it open.
    Saladette,
    /// 5 to 8 oz.
    Slicer,
    /// 8 oz to 2 lb.
    Beefsteak,
}

impl FruitClass {
    /// All, from small to large.
    pub const ALL: [Self; 10] = [
        Self::Currant,
        Self::Cherry,
        Self::Pear,
        Self::SmallElongated,
        Self::Grape,
        Self::Plum,
        Self::Paste,
        Self::Saladette,
        Self::Slicer,
        Self::Beefsteak,
    ];

    /// The word in the roll and in the truth table.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Currant => "currant",
            Self::Cherry => "cherry",
            Self::Pear => "pear",
            Self::SmallElongated => "small elongated",
            Self::Grape => "grape",
            Self::Plum => "plum",
            Self::Paste => "paste",
            Self::Saladette => "saladette",
            Self::Slicer => "slicer",
            Self::Beefsteak => "beefsteak",
        }
    }

    /// The class that the house truly sells it as.
    #[must_use]
    pub fn sold_as(self) -> Self {
        if self == Self::SmallElongated { Self::Grape } else { self }
    }

    /// The class that a word names.
    #[must_use]
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|class| class.word() == word)
    }
}

/// Grams in an ounce, as the bands are told in ounces.
const OUNCE: f64 = record::mass::GRAMS_PER_OUNCE;
/// Width under which a fruit is a currant: cherries begin at half an inch. Common practice, no source.
const CURRANT_WIDTH: f64 = 12.7;
/// Length over width from which a fruit is elongated. Common practice, no source.
const ELONGATED: f64 = 1.25;
/// Neck (width a quarter down over greatest width) under which a small fruit is a pear; a ball has 0.87.
/// Common practice, no source.
const PEAR_NECK: f64 = 0.75;
/// Length that parts a grape from a plum, and a plum from a paste (mm). Common practice, no source.
const PLUM_LENGTH: f64 = 50.0;
const PASTE_LENGTH: f64 = 75.0;

/// The class of a typical fruit of this shape, by the trade's rule of thumb.
#[must_use]
pub fn common_practice(shape: &Shape) -> FruitClass {
    let ounces = shape.weight.get() / OUNCE;
    let long = ELONGATED <= shape.length_over_width();
    match ounces {
        _ if shape.width.get() < CURRANT_WIDTH => FruitClass::Currant,
        small if small < 1.0 && shape.neck < PEAR_NECK => FruitClass::Pear,
        small if small < 1.0 && long => FruitClass::SmallElongated,
        small if small < 1.0 => FruitClass::Cherry,
        middle if middle < 5.0 && long => middling_and_long(middle, shape.length.get()),
        middle if middle < 5.0 => FruitClass::Saladette,
        large if large < 8.0 => FruitClass::Slicer,
        _ => FruitClass::Beefsteak,
    }
}

fn middling_and_long(ounces: f64, length: f64) -> FruitClass {
    match length {
        short if ounces < 2.0 && short < PLUM_LENGTH => FruitClass::Grape,
        middle if ounces < 3.0 && middle < PASTE_LENGTH => FruitClass::Plum,
        _ => FruitClass::Paste,
    }
}
