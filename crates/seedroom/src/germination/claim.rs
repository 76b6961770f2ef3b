//! What can honestly be claimed of a lot by a test of so many seeds.
//!
//! A lot that truly sprouts 75 in 100 shows 300 of 400 only about half the time, and to be 95 in 100 sure of 75 takes 315.
//! The law asks for the first; the second is what a house can promise. Start at [`sureness`].

use super::SURE;
use record::share::{Share, WholePercent};
use statistics::binomial::Binomial;
use statistics::intervals::{ShareInterval, Tally, clopper_pearson};

/// What a count says of the true share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sureness {
    /// The exact interval that covers the true share with 95 in 100.
    pub interval: ShareInterval,
    /// What the true share is at least, with 95 in 100.
    pub at_least: Share,
    /// How often a lot just at the minimum shows as many, or more.
    pub lucky: Share,
    /// How often a lot just at the minimum shows as few, or fewer.
    pub unlucky: Share,
}

impl Sureness {
    /// What can be said of the minimum.
    #[must_use]
    pub fn of_minimum(&self) -> OfMinimum {
        let rare = SURE.share().rest();
        if self.lucky <= rare {
            OfMinimum::SurelyReached
        } else if self.unlucky <= rare {
            OfMinimum::SurelyMissed
        } else {
            OfMinimum::NotSure
        }
    }
}

/// What a count says of a minimum, at 95 in 100 on one side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OfMinimum {
    /// A lot at the minimum would hardly show as many.
    SurelyReached,
    /// A lot at the minimum may well show this.
    NotSure,
    /// A lot at the minimum would hardly show as few.
    SurelyMissed,
}

/// Says how sure a count is; `None` where nothing was looked at, or more seen than looked at.
#[must_use]
pub fn sureness(seen: u32, looked_at: u32, minimum: WholePercent) -> Option<Sureness> {
    let tally = Tally::new(seen.into(), looked_at.into())?;
    let at_minimum = Binomial { trials: looked_at, share: minimum.share() };
    Some(Sureness {
        interval: clopper_pearson(tally, SURE.share()),
        at_least: clopper_pearson(tally, one_sided(SURE.share())).low,
        lucky: at_minimum.at_least(seen),
        unlucky: at_minimum.at_most(seen),
    })
}

/// The two-sided level whose lower end alone has the given level.
fn one_sided(level: Share) -> Share {
    Share::new(1.0 - 2.0 * level.rest().get()).unwrap_or(Share::NONE)
}

/// The fewest of `looked_at` seeds that must sprout to be `level` sure of a share; `None` where even all would not do.
///
/// # Examples
/// 315 of 400 to be 95 in 100 sure of 75 in 100.
#[must_use]
pub fn fewest_to_be_sure(looked_at: u32, of: Share, level: Share) -> Option<u32> {
    let rare = level.rest().get();
    // Down from all of them: the chance of as many or more rises, and the last that is still rare is the fewest.
    let chances = Binomial { trials: looked_at, share: of }.chances();
    let mut at_least = 0.0;
    let sure = chances.iter().rev().take_while(|chance| {
        at_least += **chance;
        at_least <= rare
    });
    let sure = u32::try_from(sure.count()).ok().filter(|sure| 0 < *sure)?;
    Some(looked_at.saturating_add(1).saturating_sub(sure))
}

/// How often a lot whose true share is `truly` shows `at_least` of `looked_at`, or more.
#[must_use]
pub fn chance_of_showing(at_least: u32, looked_at: u32, truly: Share) -> Share {
    Binomial { trials: looked_at, share: truly }.at_least(at_least)
}
