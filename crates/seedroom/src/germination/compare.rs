//! Two results of one lot side by side: two tests, or what a label claims and what a control test finds.
//!
//! The law's tolerance (7 CFR 201.63) is for tests of 400 seeds; it allows for more than chance, as seed from one bag and one
//! laboratory's eye differ too. Beside it stands the exact chance that seed of one quality parts as far. Start at [`compare`]
//! or [`label_stands`].

use super::TEST_SEEDS;
use super::counted::Counted;
use record::share::{Share, WholePercent};
use statistics::binomial::{Seen, same_share};

/// Points that two results may lie apart, from a mean of so many per cent on. Source: 7 CFR 201.63 (2015), 400 seeds or more.
const TOLERANCE: [(u8, u8); 6] = [(96, 5), (90, 6), (80, 7), (70, 8), (60, 9), (0, 10)];

/// Points more for a component of a mixture, of which 200 seeds are tested. Source: 7 CFR 201.63 (2015).
const COMPONENT_ADDS: u8 = 2;

/// Seeds that a component of 15 per cent or less of a mixture is tested with. Source: 7 CFR 201.54 (February 2020).
pub const COMPONENT_SEEDS: u32 = 200;

/// What was tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sample {
    /// Seed of one kind, 400 seeds.
    Pure,
    /// A component of 15 per cent or less of a mixture, 200 seeds.
    ComponentOfMixture,
}

impl Sample {
    fn seeds(self) -> u32 {
        match self {
            Self::Pure => TEST_SEEDS,
            Self::ComponentOfMixture => COMPONENT_SEEDS,
        }
    }
}

/// Points that the law lets two results lie apart, by the mean of the two.
///
/// "Mean" is taken as the average of the two results; 7 CFR 201.59, which defines it, was not seen.
#[must_use]
pub fn legal_tolerance(first: WholePercent, second: WholePercent, sample: Sample) -> u8 {
    let sum = u16::from(first.get()) + u16::from(second.get());
    let row = TOLERANCE.iter().find(|(from, _)| 2 * u16::from(*from) <= sum);
    let points = row.map_or(0, |(_, points)| *points);
    match sample {
        Sample::Pure => points,
        Sample::ComponentOfMixture => points.saturating_add(COMPONENT_ADDS),
    }
}

/// Whether two tests may be of one quality.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Comparison {
    /// Points between the two.
    pub apart: u8,
    /// What the law says of it.
    pub law: LawSays,
    /// The chance that seed of one quality parts as unevenly, or more: Fisher's exact test.
    pub chance: Share,
}

/// What a tolerance says of two results.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LawSays {
    /// They lie within so many points of each other.
    Within(u8),
    /// They lie further apart than so many points: test again.
    Apart(u8),
    /// One of them is of too few seeds for the law's table.
    NoTable,
}

/// Sets two tests of one lot side by side.
#[must_use]
pub fn compare(first: Counted, second: Counted, sample: Sample) -> Comparison {
    let apart = first.germination().get().abs_diff(second.germination().get());
    let law = if first.sown.min(second.sown) < sample.seeds() {
        LawSays::NoTable
    } else {
        within(apart, legal_tolerance(first.germination(), second.germination(), sample))
    };
    let seen = |test: Counted| Seen { seen: test.seedlings.normal, looked_at: test.sown };
    Comparison { apart, law, chance: same_share(seen(first), seen(second)).unwrap_or(Share::ALL) }
}

fn within(apart: u8, points: u8) -> LawSays {
    if apart <= points { LawSays::Within(points) } else { LawSays::Apart(points) }
}

/// Whether a label's germination stands against a control test of the whole 400 seeds.
///
/// More germination than the label claims is no fault.
#[must_use]
pub fn label_stands(claimed: WholePercent, found: WholePercent, sample: Sample) -> LawSays {
    within(claimed.get().saturating_sub(found.get()), legal_tolerance(claimed, found, sample))
}
