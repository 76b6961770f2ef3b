//! How fast trusses follow each other, by the size of the fruit: plants with small fruit ripen more trusses in a week.
//!
//! An indeterminate plant's crop is a stream of trusses, so before anything was picked of a variety its stream is held to
//! be that of its kind, quicker or slower as its trusses are ([`crate::crop`]). The house's own picks then move it.
//!
//! What a truss weighs is not taken from here. In the greenhouse of the source trusses were pruned, and one of cherries
//! weighed a third of one of big fruit. In a garden whose plants were not pruned, small-fruited varieties gave 14.1 kg a
//! plant and large-fruited ones 7.6 (a cherry and a grape against six slicers and twelve beefsteaks in 2020 and 2021): 1.9
//! times as much, where these rates alone say 1.8.
//!
//! # Source
//! Trusses picked a plant and week, of twelve plants a type in a greenhouse, 20 March to 31 May 2019: our figures from a
//! public file of records. Garden: gardenR's harvest of 2020 and 2021 (llendway/gardenR, MIT), our sums.

use record::length::Millimetres;
use record::mass::Grams;

/// The outline of a fruit, as far as trusses go by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outline {
    /// About as long as wide.
    Round,
    /// Clearly longer than wide, as a paste or plum tomato.
    Long,
}

/// Length over width from which a fruit is long. Common practice, no source.
const LONG_FROM: f64 = 1.2;

impl Outline {
    /// The outline of a fruit of this length and width.
    #[must_use]
    pub fn of(length: Millimetres, width: Millimetres) -> Self {
        if LONG_FROM * width.get() <= length.get() { Self::Long } else { Self::Round }
    }
}

/// Trusses that ripen on a plant in a week of a heated house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trusses(f64);

/// Grams of a fruit and trusses a week, the smallest first: cherry, small, big. Source: see the head of this file.
const ROUND: [(f64, f64); 3] = [(18.0, 1.33), (45.0, 1.09), (117.0, 0.75)];
/// The same with the long ones in place of the big ones.
const LONG: [(f64, f64); 3] = [(18.0, 1.33), (45.0, 1.09), (110.0, 0.86)];

/// Those of big fruit, where nobody has weighed one.
impl Default for Trusses {
    fn default() -> Self {
        let [.., (_, fewest)] = ROUND;
        Self(fewest)
    }
}

impl Trusses {
    /// What is usual for fruit of a size: along a straight line in the logarithm of the weight, and no more or less than
    /// the smallest and biggest that were counted.
    #[must_use]
    pub fn usual(fruit: Grams, outline: Outline) -> Self {
        let [cherry, small, big] = match outline {
            Outline::Round => ROUND,
            Outline::Long => LONG,
        };
        let log = fruit.get().clamp(cherry.0, big.0).ln();
        let between = |(lighter, more): (f64, f64), (heavier, fewer): (f64, f64)| {
            more + (fewer - more) * (log - lighter.ln()) / (heavier.ln() - lighter.ln())
        };
        Self(if log < small.0.ln() { between(cherry, small) } else { between(small, big) })
    }

    /// How many a week.
    #[must_use]
    pub fn a_week(self) -> f64 {
        self.0
    }
}
