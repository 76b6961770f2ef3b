//! The measures that a page tells of a variety: the usual value of a trait and what most fruit falls in.
//!
//! These are for catalogues and portraits. Calls do not rest on them: a call weighs seasons and plants,
//! where a page says what a cook will find in the hand. Start at [`usual`].

use crate::spread::Spread;
use crate::sums::{FruitSums, Trait};
use statistics::variety_means::{PlantSums, variety_mean};

/// Standard deviations that leave a tenth of a normal distribution on each side.
/// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, table of the normal distribution
/// (1.2816 is the 0.9 quantile).
const EIGHT_IN_TEN: f64 = 1.281_6;

/// A trait's usual value and the range that eight fruits in ten fall in, in the trait's own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UsualRange {
    /// The usual value: the geometric mean over the variety's fruit.
    pub usual: f64,
    /// Eight fruits in ten are at or above this, less a tenth.
    pub low: f64,
    /// Eight fruits in ten are at or below this, less a tenth.
    pub high: f64,
    /// How many fruits it rests on.
    pub fruits: u64,
}

/// The usual value of a trait and its range over seasons, plants and fruits, `None` where nobody measured it.
///
/// The range is that of the house's spread round the variety's own mean, so a variety with two fruits
/// is told as wide as it is and not as narrow as two fruits happen to lie.
#[must_use]
pub fn usual(sums: &FruitSums, spread: &Spread, of: Trait) -> Option<UsualRange> {
    let (usual, fruits) = sums.typical(of)?;
    let variance = spread.of(of).map_or(0.0, |spread| spread.season() + spread.plant() + spread.fruit());
    let factor = (EIGHT_IN_TEN * variance.sqrt()).exp();
    Some(UsualRange { usual, low: usual / factor, high: usual * factor, fruits })
}

/// The variety's own mean of a trait and the interval that holds it eight times in ten.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeanRange {
    /// Lower end.
    pub low: f64,
    /// The mean.
    pub mean: f64,
    /// Upper end.
    pub high: f64,
}

/// Where the variety's mean of a trait lies, each season and plant weighed by how much it can say, in the
/// trait's own unit; `None` where nobody measured it.
#[must_use]
pub fn mean(sums: &FruitSums, spread: &Spread, of: Trait) -> Option<MeanRange> {
    let plants: Vec<PlantSums> = sums.plants(of).into_iter().map(|(_, sums)| sums).collect();
    let mean = variety_mean(&plants, &spread.of(of)?)?;
    let factor = (EIGHT_IN_TEN * mean.standard_error).exp();
    let centre = mean.estimate.exp();
    Some(MeanRange { low: centre / factor, mean: centre, high: centre * factor })
}
