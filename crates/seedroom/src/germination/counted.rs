//! A test added up: seeds, seedlings of each sort, whole per cent, and in what it falls short of an official test.
//!
//! Start at [`add_up`].

use super::{FINAL_COUNT_DAYS, REPLICATE_SEEDS, TEST_SEEDS};
use record::germination::{GerminationTest, Made, Replicate, Seedlings};
use record::share::WholePercent;

/// All replicates of a test together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Counted {
    /// Seeds laid out.
    pub sown: u32,
    /// What had become of them.
    pub seedlings: Seedlings,
    /// Normal seedlings at the first count; `None` where a replicate had none.
    pub first_count: Option<u32>,
}

impl Counted {
    /// Normal seedlings to the nearest whole per cent: the germination that a label tells.
    #[must_use]
    pub fn germination(self) -> WholePercent {
        percent(self.seedlings.normal, self.sown)
    }

    /// Hard seed to the nearest whole per cent; told beside germination, never within it (7 CFR 201.21, 2020).
    #[must_use]
    pub fn hard(self) -> WholePercent {
        percent(self.seedlings.hard, self.sown)
    }

    /// Normal seedlings and hard seed: what counts towards the standard (7 CFR 201.31).
    #[must_use]
    pub fn towards_standard(self) -> u32 {
        self.seedlings.normal.saturating_add(self.seedlings.hard)
    }

    /// The same to the nearest whole per cent.
    #[must_use]
    pub fn standard_percent(self) -> WholePercent {
        percent(self.towards_standard(), self.sown)
    }
}

/// Counts are parts of what was sown, so there always is a per cent; an empty sum has none of it.
fn percent(part: u32, whole: u32) -> WholePercent {
    WholePercent::nearest(part, whole).unwrap_or(WholePercent::of::<0>())
}

/// Adds replicates up; `None` where there are none, or more seeds than can be counted.
///
/// # Shape
/// `replicates`: at least one, in any order.
#[must_use]
pub fn add_up(replicates: &[Replicate]) -> Option<Counted> {
    let total = |of: fn(Replicate) -> u32| {
        replicates.iter().try_fold(0_u32, |sum, replicate| sum.checked_add(of(*replicate)))
    };
    let first = replicates.iter().map(|replicate| replicate.first_count());
    Some(Counted {
        sown: total(Replicate::sown).filter(|sown| 0 < *sown)?,
        seedlings: Seedlings {
            normal: total(|replicate| replicate.seedlings().normal)?,
            abnormal: total(|replicate| replicate.seedlings().abnormal)?,
            hard: total(|replicate| replicate.seedlings().hard)?,
            dead: total(|replicate| replicate.seedlings().dead)?,
        },
        first_count: first.sum(),
    })
}

/// In what a test falls short of the one that the law describes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shortfall {
    /// Fewer seeds than 7 CFR 201.54 asks for.
    FewSeeds {
        /// Seeds laid out.
        sown: u32,
    },
    /// A replicate of more seeds than 7 CFR 201.54 lets stand together.
    CrowdedReplicate {
        /// Seeds of the largest replicate.
        sown: u32,
    },
    /// The final count came before the day of 7 CFR 201.58, and may have missed late seedlings.
    CountedEarly {
        /// Days from laying out to the final count.
        days: i32,
    },
    /// Made by the house itself.
    InHouse,
}

/// All that a tomato test falls short in; empty for one as the law describes it.
#[must_use]
pub fn shortfalls(test: &GerminationTest) -> Vec<Shortfall> {
    let sown: u64 = test.replicates.iter().map(|replicate| u64::from(replicate.sown())).sum();
    let largest = test.replicates.iter().map(|replicate| replicate.sown()).max().unwrap_or(0);
    let days = test.begun_on.until(test.counted_on).map_or(0, |span| span.get_days());
    let few = u32::try_from(sown).ok().filter(|sown| *sown < TEST_SEEDS);
    [
        few.map(|sown| Shortfall::FewSeeds { sown }),
        (REPLICATE_SEEDS < largest).then_some(Shortfall::CrowdedReplicate { sown: largest }),
        (days < FINAL_COUNT_DAYS).then_some(Shortfall::CountedEarly { days }),
        (test.made == Made::InHouse).then_some(Shortfall::InHouse),
    ]
    .into_iter()
    .flatten()
    .collect()
}
