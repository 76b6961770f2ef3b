//! Fruit by the canner load: pounds as bought for so many jars of a pack.
//!
//! A full canner is planned by the load figure and what is left over by the average, for the two do not agree: a load of
//! seven quarts of crushed tomatoes takes 22 lb, while seven times its average is 19.25. Start at [`fruit_for`].

use crate::boiling::Between;
use record::mass::{GRAMS_PER_POUND, Grams};

/// A canning jar. These are liquid measures; baskets are dry ones, a sixth larger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Jar {
    /// A U.S. liquid pint.
    Pint,
    /// A U.S. liquid quart.
    Quart,
}

/// Millilitres in a U.S. liquid quart. Source: NIST Handbook 44, Appendix C.
const MILLILITRES_PER_QUART: f64 = 946.352_946;

impl Jar {
    /// Both, from small to large.
    pub const ALL: [Self; 2] = [Self::Pint, Self::Quart];

    /// Its name, as the guide writes it and people read it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Pint => "pint",
            Self::Quart => "quart",
        }
    }

    /// What it holds to the brim, in millilitres.
    #[must_use]
    pub fn millilitres(self) -> f64 {
        MILLILITRES_PER_QUART * self.quarts()
    }

    /// Jars in a full canner load. Source: Complete Guide to Home Canning (2015), Guide 3.
    #[must_use]
    pub fn load(self) -> u32 {
        match self {
            Self::Pint => 9,
            Self::Quart => 7,
        }
    }

    fn quarts(self) -> f64 {
        match self {
            Self::Pint => 0.5,
            Self::Quart => 1.0,
        }
    }
}

/// What the jars are filled with, as far as its fruit is printed by the load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Filling {
    /// Juice.
    Juice,
    /// Tomato and vegetable juice blend, at most 3 cups of other vegetables to 22 lb.
    JuiceBlend,
    /// Crushed, without added liquid.
    Crushed,
    /// Whole or halved, in water.
    InWater,
    /// Whole or halved, in tomato juice, whose own fruit comes on top.
    InJuice,
    /// Whole or halved, raw, without added liquid.
    Raw,
    /// Sauce boiled down by about a third.
    ThinSauce,
    /// Sauce boiled down by about a half.
    ThickSauce,
}

/// A row of the printed quantities, pounds of fruit as bought.
struct Printed {
    quart_load: f64,
    pint_load: Option<f64>,
    quart_average: Option<f64>,
    quarts_a_bushel: Option<Between<f64>>,
}

/// Pounds in a bushel of tomatoes, everywhere in the guide. Source: Complete Guide to Home Canning (2015), Guide 3.
pub const BUSHEL_POUNDS: f64 = 53.0;

impl Filling {
    /// Every filling.
    pub const ALL: [Self; 8] = [
        Self::Juice,
        Self::JuiceBlend,
        Self::Crushed,
        Self::InWater,
        Self::InJuice,
        Self::Raw,
        Self::ThinSauce,
        Self::ThickSauce,
    ];

    /// Source: Complete Guide to Home Canning, U.S. Department of Agriculture, 2015, Guide 3, pages 3-5 to 3-26, read
    /// through pages that reproduce it; sauces: National Center for Home Food Preservation, "Standard Tomato Sauce"; raw
    /// pack: a state extension's copy of the same guide.
    fn printed(self) -> Printed {
        let row = |quart, pint, average, low, high| Printed {
            quart_load: quart,
            pint_load: Some(pint),
            quart_average: Some(average),
            quarts_a_bushel: Some(Between { low, high }),
        };
        match self {
            Self::Juice => row(23.0, 14.0, 3.25, 15.0, 18.0),
            Self::JuiceBlend => {
                Printed { quart_load: 22.0, pint_load: None, quart_average: None, quarts_a_bushel: None }
            }
            Self::Crushed => row(22.0, 14.0, 2.75, 17.0, 20.0),
            Self::InWater | Self::InJuice | Self::Raw => row(21.0, 13.0, 3.0, 15.0, 21.0),
            Self::ThinSauce => row(35.0, 21.0, 5.0, 10.0, 12.0),
            Self::ThickSauce => row(46.0, 28.0, 6.5, 7.0, 9.0),
        }
    }

    /// Fruit as bought for one full canner load, or `None` where no figure is printed.
    #[must_use]
    pub fn load(self, jar: Jar) -> Option<Grams> {
        let pounds = match jar {
            Jar::Quart => Some(self.printed().quart_load),
            Jar::Pint => self.printed().pint_load,
        };
        grams(pounds?)
    }

    /// Quarts that so much fruit fills on average, or `None` where no average is printed.
    #[must_use]
    pub fn quarts(self, fruit: Grams) -> Option<f64> {
        Some(fruit.to_pounds().get() / self.printed().quart_average?)
    }

    /// Quarts that a bushel fills, from least to most.
    #[must_use]
    pub fn quarts_a_bushel(self) -> Option<Between<f64>> {
        self.printed().quarts_a_bushel
    }
}

/// Fruit as bought for so many jars: full canner loads by the load figure, the rest by the average.
///
/// `None` where the guide prints no figure that it would take.
#[must_use]
pub fn fruit_for(filling: Filling, jar: Jar, jars: u32) -> Option<Grams> {
    let (loads, rest) = (jars / jar.load(), jars % jar.load());
    let full = if loads == 0 { 0.0 } else { f64::from(loads) * filling.load(jar)?.get() };
    let left = if rest == 0 {
        0.0
    } else {
        f64::from(rest) * jar.quarts() * filling.printed().quart_average? * GRAMS_PER_POUND
    };
    Grams::new(full + left)
}

/// Canner loads for so many jars, the last of them perhaps not full.
#[must_use]
pub fn loads_for(jar: Jar, jars: u32) -> u32 {
    jars.div_ceil(jar.load())
}

/// Jars of a size that a product fills, whole ones only.
///
/// `gravity` is the product's specific gravity. Jars are counted as filled to the brim, so that no jar is promised that
/// the product does not fill.
#[must_use]
pub fn jars_filled(product: Grams, gravity: crate::solids::Gravity, jar: Jar) -> u32 {
    let jars = product.get() / gravity.get() / jar.millilitres();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole jars, clamped by the cast"
    )]
    let whole = jars as u32;
    whole
}

fn grams(pounds: f64) -> Option<Grams> {
    Grams::new(pounds * GRAMS_PER_POUND)
}
