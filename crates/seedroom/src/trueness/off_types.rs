//! Off-types among plants looked at: how many a standard lets stand, what passes all the same, and the upper limit.
//!
//! Start at [`acceptance_number`], and read [`passes`] beside it: an acceptance number protects the grower, not the buyer.

use record::share::Share;
use statistics::binomial::Binomial;
use statistics::intervals::{Tally, clopper_pearson};

/// The off-types that a population standard lets stand among so many plants: the fewest that a lot just at the standard
/// keeps to with the given probability.
///
/// # Examples
/// A standard of 1 in 100 at 95 in 100 lets 1 off-type stand among 20 plants.
///
/// # Source
/// Rule of the UPOV test guidelines for self-fertilised crops; 1 per cent and 95 per cent for tomato (TG/44) from memory,
/// unverified.
#[must_use]
pub fn acceptance_number(plants: u32, standard: Share, probability: Share) -> u32 {
    let chances = Binomial { trials: plants, share: standard }.chances();
    let mut at_most = 0.0;
    let short = chances.iter().take_while(|chance| {
        at_most += **chance;
        at_most < probability.get()
    });
    u32::try_from(short.count()).unwrap_or(plants).min(plants)
}

/// The chance that a stock with a true share of off-types passes: the buyer's risk where the share is too high.
#[must_use]
pub fn passes(plants: u32, accepted: u32, off_types: Share) -> Share {
    Binomial { trials: plants, share: off_types }.at_most(accepted)
}

/// The share of off-types that a stock has at most, `level` sure; `None` where no plant was looked at.
#[must_use]
pub fn upper_limit(off_types: u32, plants: u32, level: Share) -> Option<Share> {
    let tally = Tally::new(off_types.into(), plants.into())?;
    let two_sided = Share::new(1.0 - 2.0 * level.rest().get()).unwrap_or(Share::NONE);
    Some(clopper_pearson(tally, two_sided).high)
}

/// The fewest plants among which at least one off-type is seen, `level` sure, if so large a share are off-types.
///
/// `None` where there are none to see, or where nothing short of certainty would do.
#[must_use]
pub fn plants_to_detect(off_types: Share, level: Share) -> Option<u32> {
    let (share, missed) = (off_types.get(), level.rest().get());
    if share <= 0.0 || missed <= 0.0 {
        return None;
    }
    if 1.0 <= share {
        return Some(1);
    }
    whole((missed.ln() / (-share).ln_1p()).ceil().max(1.0))
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole, above 0 and in reach")]
fn whole(count: f64) -> Option<u32> {
    (count <= f64::from(u32::MAX)).then_some(count as u32)
}
