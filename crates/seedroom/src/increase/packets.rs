//! How full to fill a packet, and how many seeds to sow.
//!
//! A packet filled by weight or scoop does not hold the same number of seeds each time, so one that says 30 is filled for
//! more. Start at [`fill`].

use record::share::Share;
use statistics::binomial::Binomial;
use statistics::normal::quantile;

/// How the number of seeds varies from packet to packet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Varies {
    /// Filled to a weight: single seeds vary by such a part of their mean
    /// ([`SeedWeight::seed_variation`](super::weight::SeedWeight::seed_variation)), and so their number by the root of it.
    ByWeight {
        /// Standard deviation of a seed's mass over its mean.
        of_a_seed: f64,
    },
    /// Filled by a scoop or machine whose packets were counted: the number varies by such a part of its mean.
    ByCount {
        /// Standard deviation of the seeds in a packet over their mean.
        of_a_packet: f64,
    },
}

/// How full to fill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Filled {
    /// Seeds to fill for, on the mean.
    pub seeds: u32,
    /// Seeds more than the packet says.
    pub over: u32,
}

/// Seeds tried over what a packet says before giving up: three times as many is no packing.
const MOST_TIMES: u32 = 3;

/// The fewest seeds to fill for so that such a share of packets holds what it says; `None` where even three times as many
/// would not do, or no variation is meant.
///
/// The number in a packet is taken as normal, a half seed below what the packet says still counting as short.
///
/// # Source
/// Number of seeds to a given weight: the central limit theorem of renewal counts (Feller, An Introduction to Probability
/// Theory and Its Applications, volume 2; from memory, unverified).
#[must_use]
pub fn fill(says: u32, varies: Varies, enough: Share) -> Option<Filled> {
    let deviates = quantile(enough)?;
    let holds = |seeds: &u32| {
        let mean = f64::from(*seeds);
        let deviation = match varies {
            Varies::ByWeight { of_a_seed } => of_a_seed * mean.sqrt(),
            Varies::ByCount { of_a_packet } => of_a_packet * mean,
        };
        0.0 <= deviation && f64::from(says) - 0.5 <= mean - deviates * deviation
    };
    let seeds = (says..=says.saturating_mul(MOST_TIMES)).find(holds)?;
    Some(Filled { seeds, over: seeds - says })
}

/// How packets that were counted vary; `None` of fewer than two, or of empty ones.
///
/// # Shape
/// `counts`: seeds of each packet that was opened.
#[must_use]
pub fn counted(counts: &[u32]) -> Option<Varies> {
    let packets = f64::from(u32::try_from(counts.len()).ok().filter(|packets| 1 < *packets)?);
    let mean = counts.iter().map(|count| f64::from(*count)).sum::<f64>() / packets;
    let squares: f64 = counts.iter().map(|count| (f64::from(*count) - mean).powi(2)).sum();
    (0.0 < mean).then(|| Varies::ByCount { of_a_packet: (squares / (packets - 1.0)).sqrt() / mean })
}

/// Seeds tried for a sowing before giving up. Common practice, no source.
const MOST_SOWN: u32 = 100_000;

/// The fewest seeds to sow for at least so many seedlings, `sure` of it; `None` where no reasonable number would do.
///
/// # Examples
/// 20 seeds for 12 seedlings at 75 in 100, and 16 at 90 in 100, to be 95 in 100 sure.
#[must_use]
pub fn seeds_to_sow(seedlings: u32, germination: Share, sure: Share) -> Option<u32> {
    let enough = |seeds: u32| {
        let count = Binomial { trials: seeds, share: germination };
        sure <= count.at_least(seedlings)
    };
    if MOST_SOWN < seedlings || !enough(MOST_SOWN) {
        return None;
    }
    // The chance rises with the seeds: halve the stretch between too few and enough.
    let (mut low, mut high) = (seedlings, MOST_SOWN);
    while low < high {
        let middle = low + (high - low) / 2;
        if enough(middle) { high = middle } else { low = middle + 1 }
    }
    Some(high)
}
