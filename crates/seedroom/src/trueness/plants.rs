//! Plants of one grow-out by their fruit: what was measured of each, and which of them do not go with the others.
//!
//! Start at [`misfits`].

use super::mixture::{Drawn, TwoKinds, two_kinds};
use super::plot::{Measured, PlantOf, PlotFault, Stranger, strangers};
use record::fruit::FruitSample;
use record::share::Share;
use statistics::two_groups::FEWEST_ROWS;
use std::collections::BTreeMap;

/// How seldom plants of one kind lie so far apart that they are told. A house of a few hundred plots sees one such by chance in
/// some years; a smaller chance would pass over off-types. Common practice, no source.
pub const SELDOM: f64 = 0.001;

/// What does not go together among plants of one variety in one grow-out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Misfits {
    /// What was compared.
    pub measures: Measures,
    /// Single plants far from the others, the farthest first.
    pub strangers: Vec<Stranger>,
    /// Plants that fall into two kinds.
    pub kinds: Option<TwoKinds>,
}

/// What plants are compared by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Measures {
    /// The weight of their fruit.
    #[default]
    Weight,
    /// The weight of their fruit, and its length over its width.
    WeightAndShape,
}

/// Finds the plants of one variety in one grow-out whose fruit does not go with the others.
///
/// # Shape
/// `samples`: of plants that are noted by themselves, in any order; those without a weight are left out.
#[must_use]
pub fn misfits(samples: &[(PlantOf, &FruitSample)], drawn: &mut Drawn) -> Misfits {
    let Some(seldom) = Share::new(SELDOM) else { return Misfits::default() };
    let (measures, plants) = measured(samples);
    // Of too few plants to compare nothing is told.
    compared(measures, &plants, seldom, drawn).unwrap_or_default()
}

fn compared(
    measures: Measures,
    plants: &[Measured],
    seldom: Share,
    drawn: &mut Drawn,
) -> Result<Misfits, PlotFault> {
    let kinds = two_kinds(plants, seldom, drawn)?;
    Ok(Misfits { measures, kinds, strangers: strangers(plants, seldom)? })
}

/// Sums over the fruits of one plant.
#[derive(Clone, Copy, Default)]
struct Sums {
    fruits: f64,
    grams: f64,
    shaped: f64,
    shape: f64,
}

/// The means of each plant: weight and shape where as many plants have a shape as can be parted, else weight alone.
fn measured(samples: &[(PlantOf, &FruitSample)]) -> (Measures, Vec<Measured>) {
    let mut by_plant: BTreeMap<PlantOf, Sums> = BTreeMap::new();
    for (plant, sample) in samples {
        let sums = by_plant.entry(*plant).or_default();
        let fruits = f64::from(sample.fruit_count.get());
        if let Some(weight) = sample.weight {
            sums.fruits += fruits;
            sums.grams += fruits * weight.get();
        }
        if let Some((length, width)) = sample.length.zip(sample.width).filter(|(_, width)| 0.0 < width.get())
        {
            sums.shaped += fruits;
            sums.shape += fruits * length.get() / width.get();
        }
    }
    by_plant.retain(|_, sums| 0.0 < sums.grams);
    let has_shape = |sums: &Sums| 0.0 < sums.shape;
    let shaped = by_plant.values().filter(|sums| has_shape(sums)).count();
    if FEWEST_ROWS <= shaped {
        let both = by_plant.into_iter().filter(|(_, sums)| has_shape(sums));
        let means = |sums: Sums| vec![sums.grams / sums.fruits, sums.shape / sums.shaped];
        let plants = both.map(|(plant, sums)| Measured { plant, means: means(sums) }).collect();
        return (Measures::WeightAndShape, plants);
    }
    let plants = by_plant.into_iter();
    let plants = plants.map(|(plant, sums)| Measured { plant, means: vec![sums.grams / sums.fruits] });
    (Measures::Weight, plants.collect())
}
