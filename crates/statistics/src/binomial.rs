//! Counts out of a known number of tries, each with the same chance: exact chances, and what they say of two shares.
//!
//! [`Binomial`] is one count; [`range_beyond`] the range of several like counts; [`same_share`] the exact test that two
//! counts come from one share. Intervals for a share are in [`intervals`](crate::intervals).

use record::share::Share;
use statrs::function::beta::beta_reg;
use statrs::function::gamma::ln_gamma;

/// The number of tries out of `trials` that succeed, each with chance `share`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Binomial {
    /// Tries.
    pub trials: u32,
    /// The chance of each.
    pub share: Share,
}

impl Binomial {
    /// The chance of `seen` or fewer.
    #[must_use]
    pub fn at_most(self, seen: u32) -> Share {
        let Some(above) = self.trials.checked_sub(seen).filter(|above| 0 < *above) else { return Share::ALL };
        match self.share.rest().get() {
            rest if rest <= 0.0 => Share::NONE,
            rest if 1.0 <= rest => Share::ALL,
            rest => chance(beta_reg(f64::from(above), f64::from(seen) + 1.0, rest)),
        }
    }

    /// The chance of `seen` or more.
    #[must_use]
    pub fn at_least(self, seen: u32) -> Share {
        match (seen, self.share.get()) {
            (0, _) => Share::ALL,
            (seen, _) if self.trials < seen => Share::NONE,
            (_, share) if share <= 0.0 => Share::NONE,
            (_, share) if 1.0 <= share => Share::ALL,
            (seen, share) => chance(beta_reg(f64::from(seen), f64::from(self.trials - seen) + 1.0, share)),
        }
    }

    /// The chance of every count from 0 to `trials`; they add up to 1.
    ///
    /// Steps outwards from the likeliest count, so that nothing overflows and the large chances keep their digits.
    #[must_use]
    pub fn chances(self) -> Vec<f64> {
        let (share, rest) = (self.share.get(), self.share.rest().get());
        let likeliest = self.likeliest();
        let mut weights = vec![0.0; self.trials as usize + 1];
        let trials = f64::from(self.trials);
        let up = |seen: f64| (trials - seen) * share / ((seen + 1.0) * rest);
        let (below, above) = weights.split_at_mut(likeliest as usize);
        let mut weight = 1.0;
        for (seen, place) in (likeliest..).zip(above) {
            *place = weight;
            weight *= if rest <= 0.0 { 0.0 } else { up(f64::from(seen)) };
        }
        weight = 1.0;
        for (seen, place) in (0..likeliest).zip(below).rev() {
            weight /= up(f64::from(seen));
            *place = weight;
        }
        let whole: f64 = weights.iter().sum();
        weights.iter_mut().for_each(|weight| *weight /= whole);
        weights
    }

    /// A count that no other is likelier than.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to the trials")]
    fn likeliest(self) -> u32 {
        let at = ((f64::from(self.trials) + 1.0) * self.share.get()).floor();
        (at as u32).min(self.trials)
    }
}

/// A chance, roundings kept inside 0 to 1.
fn chance(chance: f64) -> Share {
    Share::new(chance.clamp(0.0, 1.0)).unwrap_or(Share::NONE)
}

/// The chance that the largest and the smallest of `replicates` independent counts lie more than `range` apart.
///
/// `P(range <= r) = sum over a of [F(a + r) - F(a - 1)]^k - [F(a + r) - F(a)]^k`: the smallest count is `a`.
///
/// # Source
/// Identity of order statistics: all counts lie in `a..=a + r`, and not all of them in `a + 1..=a + r`.
#[must_use]
pub fn range_beyond(count: Binomial, replicates: u32, range: u32) -> Share {
    let Ok(power) = i32::try_from(replicates) else { return Share::ALL };
    let mut below = 0.0;
    let up_to: Vec<f64> = std::iter::once(0.0)
        .chain(count.chances().into_iter().map(|chance| {
            below += chance;
            below
        }))
        .collect();
    let last = up_to.last().copied().unwrap_or(1.0);
    let tops = up_to.iter().skip(range as usize + 1).chain(std::iter::repeat(&last));
    let within = up_to.iter().zip(up_to.iter().skip(1)).zip(tops);
    let within = within.map(|((before, at), top)| (top - before).powi(power) - (top - at).powi(power));
    chance(1.0 - within.sum::<f64>())
}

/// x seen of n looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seen {
    /// Seen.
    pub seen: u32,
    /// Looked at; at least as many.
    pub looked_at: u32,
}

/// Divisions of a total that are this much likelier than the one seen still count as no likelier: they tie with it
/// but for rounding. Source: R's `fisher.test`, `relErr = 1 + 10^(-7)`.
const TIED: f64 = 1.0 + 1e-7;

/// The chance that two counts from one share divide their total as unevenly as these, or more; 1 where nothing tells.
///
/// Fisher's exact test, both sides: all divisions of the same total that are no likelier than the one seen.
/// `None` where more is seen than was looked at.
///
/// # Source
/// Fisher 1934, Statistical Methods for Research Workers, 5th edition (citation from memory, unverified).
#[must_use]
pub fn same_share(first: Seen, second: Seen) -> Option<Share> {
    if first.looked_at < first.seen || second.looked_at < second.seen {
        return None;
    }
    let total = first.seen.checked_add(second.seen)?;
    let log_chance =
        |of_first: u32| log_ways(first.looked_at, of_first) + log_ways(second.looked_at, total - of_first);
    let seen = log_chance(first.seen);
    let divisions = total.saturating_sub(second.looked_at)..=total.min(first.looked_at);
    let (mut whole, mut uneven) = (0.0, 0.0);
    for relative in divisions.map(|of_first| (log_chance(of_first) - seen).exp()) {
        whole += relative;
        uneven += if relative <= TIED { relative } else { 0.0 };
    }
    Some(chance(uneven / whole))
}

/// The logarithm of the number of ways to choose.
fn log_ways(from: u32, chosen: u32) -> f64 {
    let factorial = |count: u32| ln_gamma(f64::from(count) + 1.0);
    factorial(from) - factorial(chosen) - factorial(from - chosen)
}
