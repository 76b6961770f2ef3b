//! What is known of a variety's true mean traits, given its fruit and the house's spread.
//!
//! What was seen of each line ([`super::evidence`]) is steadied by what is usual into a normal for each trait;
//! [`Posterior::measures`] makes one possible variety out of one draw. Length and width are not drawn apart:
//! they follow from weight, shape and fullness, so that no draw is heavy, short and thin at once.

use super::draws::{DIMENSIONS, Point};
use super::evidence::{LINE_COUNT, Line, SizeBy};
use super::usual::{self, Trend};
use crate::ellipsoid;
use crate::guide::fruit::measure::MEASURE_COUNT;

/// A normal distribution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Normal {
    pub(crate) mean: f64,
    pub(crate) variance: f64,
}

impl Normal {
    /// This and an independent observation together.
    pub(crate) fn with(self, seen: Option<Self>) -> Self {
        let Some(seen) = seen else { return self };
        let trust = self.variance / (self.variance + seen.variance);
        Self {
            mean: self.mean + trust * (seen.mean - self.mean),
            variance: self.variance * seen.variance / (self.variance + seen.variance),
        }
    }
}

/// A trait whose usual value goes with another trait, and what was seen of it: ready to be drawn.
#[derive(Clone, Copy, Debug)]
struct Beside {
    usual: Trend,
    seen: f64,
    trust: f64,
    sd: f64,
}

impl Beside {
    fn new(usual: Trend, seen: Option<Normal>) -> Self {
        let Some(seen) = seen else {
            return Self { usual, seen: 0.0, trust: 0.0, sd: usual.variance.sqrt() };
        };
        let trust = usual.variance / (usual.variance + seen.variance);
        Self { usual, seen: seen.mean, trust, sd: (trust * seen.variance).sqrt() }
    }

    /// The trait beside the other one's logarithm, at a standard normal number.
    fn at(&self, other: f64, chance: f64) -> f64 {
        let usual = self.usual.beside(other);
        usual + self.trust * (self.seen - usual) + self.sd * chance
    }
}

/// A normal, ready to be drawn.
#[derive(Clone, Copy, Debug)]
struct Ready {
    mean: f64,
    sd: f64,
}

impl Ready {
    fn new(normal: Normal) -> Self {
        Self { mean: normal.mean, sd: normal.variance.sqrt() }
    }

    fn at(self, chance: f64) -> f64 {
        self.mean + self.sd * chance
    }
}

/// What is known of a variety's true mean traits, ready to be drawn from.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Posterior {
    size_by: SizeBy,
    seen: [Option<Normal>; LINE_COUNT],
    size: Ready,
    shape: Ready,
    fullness: Ready,
    neck: Option<Ready>,
    locules: Beside,
    lobes: Ready,
    soluble_solids: Beside,
    dry_matter: Beside,
}

/// One possible variety: every measure, on the scale that borders live on, in the order of `MEASURES`.
pub(crate) type Measures = [f64; MEASURE_COUNT];

impl Posterior {
    /// From what was seen of each line, in the order of [`LINES`].
    pub(crate) fn from_seen(size_by: SizeBy, seen: [Option<Normal>; LINE_COUNT]) -> Self {
        let [size, shape, fullness, neck, locules, lobes, soluble_solids, dry_matter] = seen;
        let size = match (size_by, size) {
            (SizeBy::Width | SizeBy::Length, Some(seen)) => seen,
            (_, size) => usual::WEIGHT.with(size),
        };
        let usual_dry = if soluble_solids.is_some() { usual::DRY_MATTER_BESIDE } else { usual::DRY_MATTER };
        Self {
            size_by,
            seen,
            size: Ready::new(size),
            shape: Ready::new(usual::SHAPE.with(shape)),
            fullness: Ready::new(usual::FULLNESS.with(fullness)),
            neck: neck.map(|neck| Ready::new(usual::NECK.with(Some(neck)))),
            locules: Beside::new(usual::LOCULES, locules),
            lobes: Ready::new(usual::LOBES.with(lobes)),
            soluble_solids: Beside::new(usual::SOLUBLE_SOLIDS, soluble_solids),
            dry_matter: Beside::new(usual_dry, dry_matter),
        }
    }

    /// The traits just as they were measured, to be told: nothing steadied by what is usual.
    pub(crate) fn as_measured(&self) -> Measures {
        /// Next to no variance: what was seen then outweighs what is usual.
        const CERTAIN: f64 = 1e-12;
        let certain = |seen: Normal| Normal { variance: CERTAIN, ..seen };
        Self::from_seen(self.size_by, self.seen.map(|seen| seen.map(certain))).measures(&[0.0; DIMENSIONS])
    }

    /// The same, had one line not been seen.
    pub(crate) fn without(&self, line: Line) -> Self {
        let mut seen = self.seen;
        if let Some(slot) = seen.get_mut(line as usize) {
            *slot = None;
        }
        let size_by = if line == Line::Size { SizeBy::Weight } else { self.size_by };
        Self::from_seen(size_by, seen)
    }

    /// The same, with something more seen of each line: independent of what was seen before.
    pub(crate) fn after(&self, more: &[Option<Normal>; LINE_COUNT]) -> Self {
        let mut seen = self.seen;
        for (slot, more) in seen.iter_mut().zip(more) {
            *slot = slot.map_or(*more, |seen| Some(seen.with(*more)));
        }
        Self::from_seen(self.size_by, seen)
    }

    /// One possible variety, out of one draw's first coordinates.
    pub(crate) fn measures(&self, draw: &Point) -> Measures {
        let [size, shape, fullness, neck, locules, lobes, soluble_solids, dry_matter, ..] = *draw;
        let shape = self.shape.at(shape);
        let fullness = self.fullness.at(fullness);
        let size = self.size.at(size);
        let weight = match self.size_by {
            SizeBy::Weight => size,
            SizeBy::Width => ellipsoid::log_weight(size + shape, size) + fullness,
            SizeBy::Length => ellipsoid::log_weight(size, size - shape) + fullness,
        };
        let width = ellipsoid::log_width(weight, shape, fullness);
        let neck = self.neck.map_or_else(|| usual::unmeasured_neck(neck, shape), |seen| seen.at(neck));
        let locules = self.locules.at(weight, locules);
        let lobes = self.lobes.at(lobes);
        let solids = self.soluble_solids.at(weight, soluble_solids);
        let told_by = if self.seen(Line::SolubleSolids).is_some() { solids } else { weight };
        let dry = self.dry_matter.at(told_by, dry_matter);
        [weight, width, width + shape, shape, neck, fullness, locules, lobes, dry, solids]
    }

    /// What was seen of a line.
    pub(crate) fn seen(&self, line: Line) -> Option<Normal> {
        self.seen.get(line as usize).copied().flatten()
    }

    /// The value of a measured line in one possible variety: what a further measurement would read.
    pub(crate) fn line_value(&self, line: Line, measures: &Measures) -> f64 {
        let [weight, width, length, shape, neck, fullness, locules, lobes, dry, solids] = *measures;
        match line {
            Line::Size => match self.size_by {
                SizeBy::Weight => weight,
                SizeBy::Width => width,
                SizeBy::Length => length,
            },
            Line::Shape => shape,
            Line::Fullness => fullness,
            Line::Neck => neck,
            Line::Locules => locules,
            Line::Lobes => lobes,
            Line::SolubleSolids => solids,
            Line::DryMatter => dry,
        }
    }

    /// The standard error of a line's mean, on the logarithm; `None` where it was not seen.
    pub(crate) fn error(&self, line: Line) -> Option<f64> {
        self.seen(line).map(|seen| seen.variance.sqrt())
    }
}
