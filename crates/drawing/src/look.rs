//! The traits that make a portrait, each left out where nobody has measured it.

use record::colour::{ColourSeen, Pattern};
use record::length::Millimetres;
use record::mass::Grams;
use record::share::Share;

/// What is known of how a variety's fruit looks: mean traits, `None` where not measured.
///
/// A trait that is `None` is drawn as a hint only (dashed outline, faint chambers, paper for
/// colour), and the drawing's words say that it was not measured.
///
/// # Examples
/// `FruitLook { locules: Some(3), ..FruitLook::named("Halfpenny") }`
#[derive(Clone, Debug, PartialEq)]
pub struct FruitLook {
    /// The variety's name, for the drawing's words.
    pub name: String,
    /// Weight of one fruit; gives the size where length and width are not measured.
    pub weight: Option<Grams>,
    /// Stem end to blossom end.
    pub length: Option<Millimetres>,
    /// Greatest width across.
    pub width: Option<Millimetres>,
    /// Width a quarter of the way down from the stem, over the greatest width.
    pub neck: Option<Share>,
    /// How the fruit meets the stem.
    pub shoulder: Option<Shoulder>,
    /// How the fruit ends at the blossom end.
    pub tip: Option<Tip>,
    /// Lobes seen from the stem end; 0 is smooth.
    pub lobes: Option<u32>,
    /// Seed chambers in the cut face.
    pub locules: Option<u32>,
    /// Thickness of the outer wall over the radius of the cut face.
    pub wall: Option<Share>,
    /// Part of the cut face that is gel and seeds.
    pub gel: Option<Share>,
    /// Seeds seen in the cut face.
    pub seeds: Option<u32>,
    /// Colour outside.
    pub exterior: Option<ColourSeen>,
    /// Colour of the flesh.
    pub flesh: Option<ColourSeen>,
    /// How the colour is laid out.
    pub pattern: Option<Pattern>,
}

impl FruitLook {
    /// A variety of which nothing is measured yet.
    #[must_use]
    pub fn named(name: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            weight: None,
            length: None,
            width: None,
            neck: None,
            shoulder: None,
            tip: None,
            lobes: None,
            locules: None,
            wall: None,
            gel: None,
            seeds: None,
            exterior: None,
            flesh: None,
            pattern: None,
        }
    }
}

/// How the fruit meets the stem.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shoulder {
    /// Sunk round the stem.
    Indented,
    /// Level round the stem.
    Flat,
    /// Falling away from the stem, as on an egg.
    Rounded,
    /// Drawn out towards the stem, as on a pear.
    Tapered,
}

/// How the fruit ends at the blossom end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tip {
    /// Flat or sunk.
    Flat,
    /// Round.
    Rounded,
    /// Drawn to a point, as on a heart.
    Pointed,
    /// Round with a small teat.
    Nippled,
}
