//! The fruit-class call. Start at [`call`] for one variety, [`call_all`] for a house.

use crate::call::Call;
use crate::guide::fruit::{ClassName, FruitGuide};
use crate::spread::Spread;
use crate::sums::FruitSums;
use record::language::Units;
use record::share::Share;

/// Evenly spread chances, made once and used for every variety.
#[derive(Clone, Debug)]
pub struct Draws {}

impl Draws {
    /// Makes the draws; the same on every machine.
    #[must_use]
    pub fn new() -> Self {
        Self {}
    }
}

impl Default for Draws {
    fn default() -> Self {
        Self::new()
    }
}

/// A shape mark and how likely the variety carries it.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkShare {
    /// The mark.
    pub mark: ClassName,
    /// How likely; `None` where nothing measured tells it.
    pub share: Option<Share>,
    /// What it rests on, in words.
    pub words: String,
}

/// Calls one variety's fruit class.
#[must_use]
pub fn call(
    sums: &FruitSums,
    spread: &Spread,
    guide: &FruitGuide,
    draws: &Draws,
    units: Units,
) -> Call<ClassName> {
    let _ = (sums, spread, draws, units);
    let names: Vec<ClassName> = guide.class_names().cloned().collect();
    Call::without_evidence(&names, String::new())
}

/// Calls many varieties on all cores, in the order given.
#[must_use]
pub fn call_all(
    varieties: &[&FruitSums],
    spread: &Spread,
    guide: &FruitGuide,
    draws: &Draws,
    units: Units,
) -> Vec<Call<ClassName>> {
    varieties.iter().map(|sums| call(sums, spread, guide, draws, units)).collect()
}

/// The shape marks (heart, hollow, ribbed) that a variety's fruit carries, each with its share.
#[must_use]
pub fn marks(sums: &FruitSums, spread: &Spread, guide: &FruitGuide, draws: &Draws) -> Vec<MarkShare> {
    let _ = (sums, spread, guide, draws);
    Vec::new()
}
