//! Preserving: process times as printed, acid for every jar, and the cautions that belong beside them.
//!
//! A wrong time here can kill, so this is a look-up and never a sum: a number comes out only where the house's guide marks
//! its cell as read in the published guide or at the national centre; any other cell answers "see the published guide", and
//! outside the printed cells the answer is a refusal with its reason. Nothing is interpolated or scaled.
//!
//! Start at [`process::answers`]; [`acid`] and [`guide`] stand beside it, the cautions are in the guide.

pub mod acid;
pub mod altitude;
pub mod guide;
pub mod process;

/// A product that the published guide has a process for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Product {
    /// Tomato juice, hot.
    Juice,
    /// Tomato and vegetable juice blend, hot.
    JuiceBlend,
    /// Standard tomato sauce, thin or thick, hot.
    Sauce,
    /// Crushed, without added liquid, hot.
    Crushed,
    /// Whole or halved, in water, hot or raw.
    InWater,
    /// Whole or halved, in tomato juice, hot or raw.
    InJuice,
    /// Whole or halved, raw, without added liquid.
    Raw,
    /// Ketchup, hot.
    Ketchup,
    /// Salsa of tomatoes and tomato paste, hot.
    SalsaWithPaste,
    /// Salsa of paste types, hot.
    SalsaOfPasteTypes,
    /// Spaghetti sauce without meat, hot.
    SpaghettiSauce,
}

impl Product {
    /// Every product.
    pub const ALL: [Self; 11] = [
        Self::Juice,
        Self::JuiceBlend,
        Self::Sauce,
        Self::Crushed,
        Self::InWater,
        Self::InJuice,
        Self::Raw,
        Self::Ketchup,
        Self::SalsaWithPaste,
        Self::SalsaOfPasteTypes,
        Self::SpaghettiSauce,
    ];

    /// Its name, as the guide writes it and people read it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Juice => "juice",
            Self::JuiceBlend => "juice blend",
            Self::Sauce => "sauce",
            Self::Crushed => "crushed",
            Self::InWater => "whole in water",
            Self::InJuice => "whole in tomato juice",
            Self::Raw => "whole without added liquid",
            Self::Ketchup => "ketchup",
            Self::SalsaWithPaste => "salsa with paste",
            Self::SalsaOfPasteTypes => "salsa of paste types",
            Self::SpaghettiSauce => "spaghetti sauce without meat",
        }
    }

    /// The product of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|product| product.name() == name)
    }
}

/// How a pressure canner tells its pressure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gauge {
    /// A dial.
    Dial,
    /// A weight that rocks.
    Weighted,
}

impl Gauge {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Dial, Self::Weighted];

    /// Its name, as the guide writes it and people read it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Dial => "dial",
            Self::Weighted => "weighted",
        }
    }
}

/// How jars are processed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// In a boiling-water canner.
    BoilingWater,
    /// In an atmospheric steam canner.
    Steam,
    /// In a pressure canner.
    Pressure(Gauge),
}
