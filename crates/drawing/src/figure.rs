//! The figure: a look with every gap filled, so that it can be drawn, and with what was filled marked.
//!
//! Guesses here are for the pencil only. They never leave the drawing, and what rests on one is drawn
//! faint or dashed.

use crate::look::{FruitLook, Shoulder, Tip};
use crate::paint::Palette;
use crate::svg::fingerprint;
use record::colour::{ColourSeen, Pattern, TradeColour};
use record::length::Millimetres;
use record::share::Share;
use std::f64::consts::PI;

/// Grams in a cubic millimetre of fruit, by its ellipsoid. Source: facts/identity.md section 5,
/// cultivated and cherry subset: weight = 1.06 x pi/6 x width squared x length.
const GRAMS_PER_CUBIC_MILLIMETRE: f64 = 1.06e-3;
/// Length over width where neither is measured. Source: facts/identity.md section 5, cherry fruit
/// about 0.90 to 0.92.
const USUAL_RATIO: f64 = 0.91;
/// Width drawn where nothing at all is known of size, in millimetres. A choice of the drawing.
const UNKNOWN_WIDTH: f64 = 50.0;
/// Smallest and largest fruit drawn, in millimetres. What is beyond is a doubt for intake, not a picture.
const DRAWN: std::ops::RangeInclusive<f64> = 2.0..=300.0;
/// Narrowest and longest length over width drawn.
const DRAWN_RATIO: std::ops::RangeInclusive<f64> = 0.25..=6.0;
/// Most lobes and most chambers that a picture can still show apart. A choice of the drawing.
const MOST_PARTS: u32 = 36;
/// Outer wall over radius where not measured. Common practice, no source.
const USUAL_WALL: f64 = 0.16;
/// Narrowest neck drawn, over the greatest width; less would be a stalk. A choice of the drawing.
const NARROWEST_NECK: f64 = 0.3;
/// Fruit with at least this many chambers is lobed a little even where lobes were not counted.
/// Common practice, no source.
const LOBED_FROM: u32 = 6;

/// Everything that the pencil needs, in millimetres and shares.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Figure {
    /// Stem end to blossom end, millimetres.
    pub(crate) length: f64,
    /// Greatest width, millimetres.
    pub(crate) width: f64,
    /// Whether both were measured.
    pub(crate) size_known: bool,
    /// Width a quarter down over greatest width.
    pub(crate) neck: f64,
    pub(crate) shoulder: Shoulder,
    pub(crate) tip: Tip,
    /// Lobes; 0 is smooth.
    pub(crate) lobes: u32,
    /// How deep the lobes are cut, as a share of the radius.
    pub(crate) lobe_depth: f64,
    pub(crate) locules: u32,
    /// Whether anybody has cut the fruit and counted.
    pub(crate) cut: bool,
    /// Outer wall over radius.
    pub(crate) wall: f64,
    /// Part of the cut face that is gel, where measured.
    pub(crate) gel: Option<f64>,
    pub(crate) seeds: Option<u32>,
    pub(crate) palette: Palette,
    pub(crate) colour_known: bool,
    pub(crate) pattern: Pattern,
    /// Yellow and red in one fruit: the flesh is streaked too.
    pub(crate) bicolour: bool,
    /// Where scatter starts: the same for the same name.
    pub(crate) seed: u64,
}

impl Figure {
    pub(crate) fn of(look: &FruitLook) -> Self {
        let (length, width) = size(look);
        let ratio = length / width;
        let locules = look.locules.unwrap_or_else(|| usual_locules(length, width)).clamp(1, MOST_PARTS);
        let (lobes, lobe_depth) = lobes(look, locules);
        let shoulder = look.shoulder.unwrap_or_else(|| usual_shoulder(look, ratio));
        let tip = look.tip.unwrap_or(if ratio < 0.78 { Tip::Flat } else { Tip::Rounded });
        Self {
            length,
            width,
            size_known: look.length.is_some() && look.width.is_some(),
            neck: look.neck.map_or_else(|| usual_neck(ratio, shoulder, tip), Share::get).max(NARROWEST_NECK),
            shoulder,
            tip,
            lobes,
            lobe_depth,
            locules,
            cut: look.locules.is_some(),
            wall: look.wall.map_or(USUAL_WALL, Share::get).clamp(0.04, 0.7),
            gel: look.gel.map(Share::get),
            seeds: look.seeds,
            palette: Palette::of(look.exterior, look.flesh),
            colour_known: look.exterior.is_some() || look.flesh.is_some(),
            pattern: look.pattern.unwrap_or(Pattern::Plain),
            bicolour: [look.exterior, look.flesh].contains(&Some(ColourSeen::Word(TradeColour::Bicolour))),
            seed: fingerprint(&look.name),
        }
    }

    /// A number from 0 to 1 that is always the same for this variety and `index`.
    pub(crate) fn scatter(&self, index: u32) -> f64 {
        // SplitMix64's mixing steps: a change of one bit changes half the bits of the result.
        let mut mixed = self.seed.wrapping_add(u64::from(index).wrapping_mul(0x9e37_79b9_7f4a_7c15));
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        f64::from(u32::try_from((mixed ^ (mixed >> 31)) >> 32).unwrap_or(0)) / f64::from(u32::MAX)
    }
}

/// Length and width drawn, from what is known of either and of the weight.
fn size(look: &FruitLook) -> (f64, f64) {
    let measured = |size: Option<Millimetres>| size.map(Millimetres::get).filter(|size| *size > 0.0);
    // Width squared times length, which the weight gives.
    let product = look.weight.map(|weight| 6.0 / PI * weight.get() / GRAMS_PER_CUBIC_MILLIMETRE);
    let product = product.filter(|product| *product > 0.0);
    let (length, width) = match (measured(look.length), measured(look.width)) {
        (Some(length), Some(width)) => (length, width),
        (Some(length), None) => {
            (length, product.map_or(length / USUAL_RATIO, |product| (product / length).sqrt()))
        }
        (None, Some(width)) => {
            (product.map_or(width * USUAL_RATIO, |product| product / width.powi(2)), width)
        }
        (None, None) => {
            let width = product.map_or(UNKNOWN_WIDTH, |product| (product / USUAL_RATIO).cbrt());
            (width * USUAL_RATIO, width)
        }
    };
    let [length, width] = [length, width].map(|size| size.clamp(*DRAWN.start(), *DRAWN.end()));
    (length.clamp(width * DRAWN_RATIO.start(), width * DRAWN_RATIO.end()), width)
}

/// Chambers hinted at in a fruit that nobody has cut.
///
/// # Source
/// facts/identity.md section 5: locules grow as weight to the power 0.30; two in a 10 g cherry.
fn usual_locules(length: f64, width: f64) -> u32 {
    let grams = PI / 6.0 * GRAMS_PER_CUBIC_MILLIMETRE * width * width * length;
    let locules = 2.0 * (grams / 10.0).max(1.0).powf(0.30);
    let nearest = (2..MOST_PARTS).find(|count| locules < f64::from(*count) + 0.5);
    nearest.unwrap_or(MOST_PARTS)
}

/// Lobes and how deep they are cut.
fn lobes(look: &FruitLook, locules: u32) -> (u32, f64) {
    match look.lobes {
        Some(lobes) if lobes < 2 => (0, 0.0),
        Some(lobes) => (lobes.min(MOST_PARTS), 0.062),
        None if look.locules.is_some() && locules >= LOBED_FROM => (locules, 0.018),
        None => (0, 0.0),
    }
}

fn usual_shoulder(look: &FruitLook, ratio: f64) -> Shoulder {
    match look.neck {
        Some(neck) if neck.get() < 0.74 => Shoulder::Tapered,
        _ if ratio > 1.15 => Shoulder::Rounded,
        _ if ratio < 0.82 => Shoulder::Indented,
        _ => Shoulder::Flat,
    }
}

/// Neck over width of an outline of this kind. A choice of the drawing.
fn usual_neck(ratio: f64, shoulder: Shoulder, tip: Tip) -> f64 {
    match (shoulder, tip) {
        (Shoulder::Tapered, _) => 0.6,
        (_, Tip::Pointed) => 0.97,
        (Shoulder::Indented, _) => 0.935,
        (Shoulder::Flat, _) => 0.915,
        (Shoulder::Rounded, _) if ratio > 1.25 => 0.92,
        (Shoulder::Rounded, _) => 0.88,
    }
}
