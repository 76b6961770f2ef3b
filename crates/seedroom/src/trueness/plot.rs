//! Plants of one plot whose fruit does not go with the others: worth a second look, and no more.
//!
//! A mixed lot often shows first as one plant with longer, heavier or more lobed fruit. Start at [`strangers`]. A plant that
//! is told here may be an off-type, a sick plant or a slip of the scale; one that is not told may still be an off-type, as
//! two or more strangers of one kind hide each other.

use record::growout::{PlantNumber, Plot};
use record::id::Id;
use record::share::Share;
use statistics::multiplicity::steps::holm;
use statistics::outlying;

/// A plant: its plot, and its number there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct PlantOf {
    /// The plot.
    pub plot: Id<Plot>,
    /// The number.
    pub number: PlantNumber,
}

/// What was measured of one plant: positive means over its fruits, such as weight, length and width, in one order for all.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// The plant.
    pub plant: PlantOf,
    /// Its means.
    pub means: Vec<f64>,
}

/// A plant that does not go with the others.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stranger {
    /// The plant.
    pub plant: PlantOf,
    /// How often the farthest of so many like plants lies as far out, by Holm's rule.
    pub chance: Share,
}

/// Why plants cannot be put beside each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlotFault {
    /// Plants with unlike measures, or a mean that is nothing or no number.
    #[error("every plant needs the same measures, each above nothing")]
    Measures,
    /// Too few plants for so many measures, or measures that follow from each other.
    #[error("too few plants for so many measures, or one measure follows from the others")]
    TooFew,
}

/// Plants that like plants lie as far out as in such a share of plots, or more seldom; the farthest first.
///
/// Measures are compared by their logarithms, as fruit differs by parts and not by grams.
///
/// # Shape
/// `plants`: at least two more than measures, in any order.
///
/// # Errors
/// [`PlotFault`] where they cannot be compared.
pub fn strangers(plants: &[Measured], seldom: Share) -> Result<Vec<Stranger>, PlotFault> {
    let rows = logarithms(plants)?;
    let chances = holm(&outlying::chances(&rows).ok_or(PlotFault::TooFew)?);
    let told = plants.iter().zip(chances).map(|(plant, chance)| Stranger { plant: plant.plant, chance });
    let mut told: Vec<Stranger> = told.filter(|stranger| stranger.chance <= seldom).collect();
    told.sort_by(|one, other| one.chance.get().total_cmp(&other.chance.get()));
    Ok(told)
}

/// The logarithms of plants' measures, a row a plant.
pub(super) fn logarithms(plants: &[Measured]) -> Result<Vec<Vec<f64>>, PlotFault> {
    let measures = plants.first().map_or(0, |plant| plant.means.len());
    let whole = |plant: &Measured| {
        plant.means.len() == measures && plant.means.iter().all(|mean| mean.is_finite() && 0.0 < *mean)
    };
    if measures == 0 || !plants.iter().all(whole) {
        return Err(PlotFault::Measures);
    }
    Ok(plants.iter().map(|plant| plant.means.iter().map(|mean| mean.ln()).collect()).collect())
}
