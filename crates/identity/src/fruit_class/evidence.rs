//! What was seen of a variety's fruit, line by line, ready to be weighed.
//!
//! A line is one trait, or two that tell the same (weight by the scale, weight by size). Start at
//! [`Evidence::of`].

use super::posterior::{Normal, Posterior};
use crate::ellipsoid;
use crate::spread::Spread;
use crate::sums::{FruitSums, Trait};
use statistics::variety_means::{PlantSums, Variances, variety_mean};

/// A line of evidence: one trait, or two that tell the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Line {
    /// Weight; or the one dimension that stands in for it.
    Size,
    Shape,
    Fullness,
    Neck,
    Locules,
    Lobes,
    SolubleSolids,
    DryMatter,
}

/// How many [`Line`]s there are.
pub(crate) const LINE_COUNT: usize = 8;

pub(crate) const LINES: [Line; LINE_COUNT] = [
    Line::Size,
    Line::Shape,
    Line::Fullness,
    Line::Neck,
    Line::Locules,
    Line::Lobes,
    Line::SolubleSolids,
    Line::DryMatter,
];

/// What a fruit's size was told by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SizeBy {
    Weight,
    Width,
    Length,
}

/// One trait's plants.
#[derive(Clone, Debug)]
pub(crate) struct LineEvidence {
    pub(crate) plants: Vec<PlantSums>,
    pub(crate) variances: Variances,
    /// Variance that no more fruit takes away: a share of the fruits was not measured but worked out.
    pub(crate) worked_out: f64,
}

impl LineEvidence {
    /// Its mean as seen, or nothing.
    pub(crate) fn seen(&self) -> Option<Normal> {
        let mean = variety_mean(&self.plants, &self.variances)?;
        Some(Normal { mean: mean.estimate, variance: mean.standard_error.powi(2) + self.worked_out })
    }
}

/// All that was seen of one variety's fruit.
#[derive(Clone, Debug)]
pub(crate) struct Evidence {
    pub(crate) size_by: SizeBy,
    pub(crate) lines: [LineEvidence; LINE_COUNT],
}

impl Evidence {
    pub(crate) fn of(sums: &FruitSums, spread: &Spread) -> Self {
        let size_by = size_by(sums);
        let size = match size_by {
            SizeBy::Weight => pooled(sums, spread, Trait::Weight, Trait::SizedWeight),
            SizeBy::Width => pooled(sums, spread, Trait::Width, Trait::Width),
            SizeBy::Length => pooled(sums, spread, Trait::Length, Trait::Length),
        };
        let alone = |of| pooled(sums, spread, of, of);
        let lines = [
            size,
            pooled(sums, spread, Trait::Shape, Trait::ImpliedShape),
            alone(Trait::Fullness),
            alone(Trait::Neck),
            alone(Trait::Locules),
            alone(Trait::Lobes),
            alone(Trait::SolubleSolids),
            alone(Trait::DryMatter),
        ];
        Self { size_by, lines }
    }

    pub(crate) fn line(&self, line: Line) -> Option<&LineEvidence> {
        self.lines.get(line as usize)
    }

    /// Whether a line was seen at all.
    pub(crate) fn has(&self, line: Line) -> bool {
        self.line(line).is_some_and(|line| !line.plants.is_empty())
    }

    /// Whether any fruit was weighed or measured, without which no class can be told.
    pub(crate) fn is_sized(&self) -> bool {
        self.has(Line::Size)
    }

    /// What is known of the variety.
    pub(crate) fn posterior(&self) -> Posterior {
        Posterior::from_seen(self.size_by, LINES.map(|line| self.line(line).and_then(LineEvidence::seen)))
    }
}

fn size_by(sums: &FruitSums) -> SizeBy {
    let weighed = sums.fruits_with(Trait::Weight) + sums.fruits_with(Trait::SizedWeight);
    match (weighed, sums.fruits_with(Trait::Width), sums.fruits_with(Trait::Length)) {
        (0, width, length) if 0 < width && length <= width => SizeBy::Width,
        (0, _, length) if 0 < length => SizeBy::Length,
        _ => SizeBy::Weight,
    }
}

fn pooled(sums: &FruitSums, spread: &Spread, of: Trait, or: Trait) -> LineEvidence {
    let plants = sums.pooled(of, or).into_iter().map(|(_, plant)| plant).collect();
    let (measured, worked) = (sums.fruits_with(of), sums.fruits_with(or));
    #[expect(clippy::cast_precision_loss, reason = "counts of fruit")]
    let share = if or == of { 0.0 } else { worked as f64 / (measured + worked).max(1) as f64 };
    let variances = spread.known(of).variances;
    LineEvidence { plants, variances, worked_out: (share * ellipsoid::LOG_SD).powi(2) }
}
