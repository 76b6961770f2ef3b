//! A test put to a minimum: do its replicates agree, does the lot stand at the minimum, and how sure is that.
//!
//! Start at [`judge`] for one test, [`judge_all`] for a room of them.

use super::claim::{Sureness, sureness};
use super::compare::{LawSays, Sample, label_stands};
use super::counted::{Counted, add_up};
use super::tolerance::{Agreement, AgreementFault, RangeVerdict, agreement};
use record::germination::Replicate;
use record::share::WholePercent;
use std::collections::HashMap;

/// What a test says of a lot and a minimum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Verdict {
    /// The test added up.
    pub counted: Counted,
    /// Whether its replicates agree, or why they cannot be compared.
    pub replicates: Result<Agreement, AgreementFault>,
    /// Where the lot stands.
    pub standing: Standing,
    /// How sure that is; hard seed counts towards the minimum.
    pub sureness: Sureness,
}

/// Where a lot stands beside a minimum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// At the minimum, or above.
    Reached,
    /// Under the minimum: a packet must say so.
    Missed {
        /// Points short of it.
        short: u8,
        /// Whether a control test as low would still let a label stand that claims the minimum.
        beside_a_claim: LawSays,
    },
    /// The replicates lie too far apart for their mean to count: test again (7 CFR 201.55).
    TestAgain,
}

/// Judges one test; `None` where it has no replicates, or more seeds than can be counted.
#[must_use]
pub fn judge(replicates: &[Replicate], minimum: WholePercent) -> Option<Verdict> {
    let counted = add_up(replicates)?;
    let sureness = sureness(counted.towards_standard(), counted.sown, minimum)?;
    Some(verdict(replicates, counted, sureness, minimum))
}

/// Judges many tests by one minimum, each as [`judge`] does.
///
/// Exact intervals are looked up once for each count, as a room of tests sees the same few hundred counts again and again.
///
/// # Shape
/// `tests`: replicates of each test. Returns one verdict a test, in the same order.
#[must_use]
pub fn judge_all(tests: &[&[Replicate]], minimum: WholePercent) -> Vec<Option<Verdict>> {
    let mut known: HashMap<(u32, u32), Option<Sureness>> = HashMap::new();
    let mut one = |replicates: &[Replicate]| {
        let counted = add_up(replicates)?;
        let (seen, sown) = (counted.towards_standard(), counted.sown);
        let sure = *known.entry((seen, sown)).or_insert_with(|| sureness(seen, sown, minimum));
        Some(verdict(replicates, counted, sure?, minimum))
    };
    tests.iter().map(|replicates| one(replicates)).collect()
}

fn verdict(replicates: &[Replicate], counted: Counted, sureness: Sureness, minimum: WholePercent) -> Verdict {
    let agreement = agreement(replicates);
    let too_wide = agreement.is_ok_and(|agreement| agreement.verdict == RangeVerdict::TooWide);
    let standing = if too_wide { Standing::TestAgain } else { standing(counted, minimum) };
    Verdict { counted, replicates: agreement, standing, sureness }
}

fn standing(counted: Counted, minimum: WholePercent) -> Standing {
    let found = counted.standard_percent();
    match minimum.get().checked_sub(found.get()).filter(|short| 0 < *short) {
        None => Standing::Reached,
        Some(short) => Standing::Missed { short, beside_a_claim: label_stands(minimum, found, Sample::Pure) },
    }
}
