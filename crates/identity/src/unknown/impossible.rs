//! What no tomato can be: counts of nothing, a neck wider than the fruit, a weight that its size rules out.
//!
//! These are slips of the pen or the scale, and a call made from them would be nonsense, so they are refused
//! with what to do. What is merely odd is no matter of this file: it may be doubted and called all the same.
//! Start at [`check`].

use super::Unknown;
use crate::ellipsoid;
use record::fruit::FruitSample;
use record::length::Millimetres;
use record::mass::Grams;
use record::note::Note;
use record::share::Percent;
use record::unknown::{FruitSeen, PlantSeen, StemSeen};

/// Widest neck over greatest width that callipers may read by mistake; more is another measure.
/// Common practice, no source.
const WIDEST_NECK: f64 = 1.1;

/// How many times heavier or lighter than a solid fruit of its size a fruit may be. Hollow fruit weigh half
/// (common practice, no source); no shape comes to a third or to three times.
const FURTHEST_FROM_SIZE: f64 = 3.0;

/// What cannot be.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum Impossible {
    /// No seed chamber.
    #[error("fruit {fruit} is said to have no locules, and every tomato has at least one")]
    NoLocules {
        /// Which fruit, counted from 1.
        fruit: usize,
    },
    /// A measure of nothing.
    #[error("fruit {fruit} is said to have a {measure} of nothing")]
    Nothing {
        /// Which fruit.
        fruit: usize,
        /// The measure.
        measure: &'static str,
    },
    /// A neck that is plainly wider than the fruit.
    #[error("fruit {fruit} is said to be {:.1} mm wide at its neck and {:.1} mm at its widest", neck.get(), width.get())]
    NeckOverWidth {
        /// Which fruit.
        fruit: usize,
        /// Width a quarter down.
        neck: Millimetres,
        /// Greatest width.
        width: Millimetres,
    },
    /// A weight that its length and width rule out.
    #[error("fruit {fruit} is said to weigh {:.1} g, and one of its length and width weighs about {:.1} g", weight.get(), by_size.get())]
    WeightAgainstSize {
        /// Which fruit.
        fruit: usize,
        /// The weight.
        weight: Grams,
        /// What a solid fruit of its size weighs.
        by_size: Grams,
    },
    /// More dissolved in the juice than there is dry matter in all.
    #[error("fruit {fruit} is said to have {:.1} % soluble solids in {:.1} % dry matter", solids.get(), dry.get())]
    SolidsOverDryMatter {
        /// Which fruit.
        fruit: usize,
        /// Soluble solids.
        solids: Percent,
        /// Dry matter.
        dry: Percent,
    },
    /// A stem that ends in a truss and has none.
    #[error("the main stem of plant {plant} is said to end in a truss, after no truss")]
    EndsAfterNone {
        /// Which plant, counted from 1.
        plant: usize,
    },
}

impl Impossible {
    /// What to do about it, in lower case with no full stop.
    #[must_use]
    pub fn help(&self) -> &'static str {
        match self {
            Self::NoLocules { .. } => "cut it across and count the seed chambers, or leave the count out",
            Self::Nothing { .. } => "leave out what was not measured",
            Self::NeckOverWidth { .. } => {
                "measure the neck a quarter of the way down from the stem, and the width where it is greatest"
            }
            Self::WeightAgainstSize { .. } => {
                "look at the units, and that length and width are of the fruit that was weighed"
            }
            Self::SolidsOverDryMatter { .. } => "dry matter holds the soluble solids and more: look at both",
            Self::EndsAfterNone { .. } => "count the truss that it ends in, or leave the count out",
        }
    }
}

/// Refuses what no tomato can be.
///
/// # Errors
/// The first [`Impossible`] thing, fruits before plants, in the order given; fruits of notes come last.
pub fn check(unknown: &Unknown) -> Result<(), Impossible> {
    let noted = unknown.notes.iter().filter_map(|note| match note {
        Note::Fruit(sample) => Some(seen(sample)),
        _ => None,
    });
    for (fruit, seen) in (1..).zip(unknown.fruits.iter().cloned().chain(noted)) {
        check_fruit(fruit, &seen)?;
    }
    for (plant, seen) in (1..).zip(&unknown.plants) {
        check_plant(plant, seen)?;
    }
    Ok(())
}

fn seen(sample: &FruitSample) -> FruitSeen {
    FruitSeen {
        weight: sample.weight,
        length: sample.length,
        width: sample.width,
        neck_width: sample.neck_width,
        locules: sample.locules,
        soluble_solids: sample.soluble_solids,
        dry_matter: sample.dry_matter,
        ..FruitSeen::default()
    }
}

fn check_fruit(fruit: usize, seen: &FruitSeen) -> Result<(), Impossible> {
    if seen.locules == Some(0) {
        return Err(Impossible::NoLocules { fruit });
    }
    let measures = [
        ("weight", seen.weight.map(Grams::get)),
        ("length", seen.length.map(Millimetres::get)),
        ("width", seen.width.map(Millimetres::get)),
        ("neck width", seen.neck_width.map(Millimetres::get)),
        ("soluble solids", seen.soluble_solids.map(Percent::get)),
        ("dry matter", seen.dry_matter.map(Percent::get)),
    ];
    if let Some((measure, _)) = measures.into_iter().find(|(_, value)| *value == Some(0.0)) {
        return Err(Impossible::Nothing { fruit, measure });
    }
    if let (Some(neck), Some(width)) = (seen.neck_width, seen.width)
        && WIDEST_NECK * width.get() < neck.get()
    {
        return Err(Impossible::NeckOverWidth { fruit, neck, width });
    }
    if let (Some(solids), Some(dry)) = (seen.soluble_solids, seen.dry_matter)
        && dry < solids
    {
        return Err(Impossible::SolidsOverDryMatter { fruit, solids, dry });
    }
    check_weight(fruit, seen)
}

fn check_weight(fruit: usize, seen: &FruitSeen) -> Result<(), Impossible> {
    let (Some(weight), Some(length), Some(width)) = (seen.weight, seen.length, seen.width) else {
        return Ok(());
    };
    let by_size = ellipsoid::log_weight(length.get().ln(), width.get().ln());
    match Grams::new(by_size.exp()) {
        Some(by_size) if FURTHEST_FROM_SIZE.ln() < (weight.get() / by_size.get()).ln().abs() => {
            Err(Impossible::WeightAgainstSize { fruit, weight, by_size })
        }
        _ => Ok(()),
    }
}

fn check_plant(plant: usize, seen: &PlantSeen) -> Result<(), Impossible> {
    match seen.stem {
        Some(StemSeen::Ended(Some(0))) => Err(Impossible::EndsAfterNone { plant }),
        _ => Ok(()),
    }
}
