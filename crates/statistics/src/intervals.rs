//! Intervals for a share seen x times in n: exact (Clopper and Pearson), short (Wilson), and two between.
//!
//! Use [`clopper_pearson`] where a promise is printed (it never covers less than its level), [`wilson`] where a fair
//! width matters more than a guarantee, [`mid_p`] for the exact test's interval less its needless caution, and
//! [`jeffreys`] where the interval is read as a belief that began open.

use crate::normal::inner_quantile;
use record::share::Share;
use statrs::function::beta::beta_reg;

/// A share's interval; both ends belong to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShareInterval {
    /// The lower end.
    pub low: Share,
    /// The upper end.
    pub high: Share,
}

/// x seen of n looked at: n is at least 1 and x at most n.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tally {
    seen: u64,
    looked_at: u64,
}

impl Tally {
    /// Takes at least one looked at, and no more seen than looked at.
    #[must_use]
    pub fn new(seen: u64, looked_at: u64) -> Option<Self> {
        (0 < looked_at && seen <= looked_at).then_some(Self { seen, looked_at })
    }

    /// Seen, not seen.
    #[expect(clippy::cast_precision_loss, reason = "nobody counts to 2^52")]
    fn counts(self) -> (f64, f64) {
        (self.seen as f64, (self.looked_at - self.seen) as f64)
    }
}

/// The exact two-sided interval that covers the true share with at least `level`.
///
/// # Source
/// Clopper and Pearson 1934, Biometrika 26:404-413 (citation from memory, unverified).
#[must_use]
pub fn clopper_pearson(tally: Tally, level: Share) -> ShareInterval {
    let (seen, unseen) = tally.counts();
    let tail = 0.5 * level.rest().get();
    let low = if seen < 1.0 { 0.0 } else { beta_quantile(seen, unseen + 1.0, tail) };
    let high = if unseen < 1.0 { 1.0 } else { 1.0 - beta_quantile(unseen, seen + 1.0, tail) };
    interval(low, high)
}

/// The score interval: shares that a normal test at `level` would not refuse.
///
/// # Source
/// Wilson 1927, J. Am. Stat. Assoc. 22:209-212 (citation from memory, unverified).
#[must_use]
pub fn wilson(tally: Tally, level: Share) -> ShareInterval {
    let (seen, unseen) = tally.counts();
    let tail = 0.5 * level.rest().get();
    if tail <= 0.0 {
        return interval(0.0, 1.0);
    }
    let looked_at = seen + unseen;
    let squared = inner_quantile(tail).powi(2);
    let centre = seen + 0.5 * squared;
    let half = (squared * (seen * unseen / looked_at + 0.25 * squared)).sqrt();
    let whole = looked_at + squared;
    let low = if seen < 1.0 { 0.0 } else { (centre - half) / whole };
    let high = if unseen < 1.0 { 1.0 } else { (centre + half) / whole };
    interval(low, high)
}

/// The interval of shares that an exact test refuses only when its chance, the half of what was seen itself left
/// out, is under the tail: it covers with `level` on the mean over true shares, not for each.
///
/// # Source
/// Lancaster 1961, J. Am. Stat. Assoc. 56:223-234 (citation from memory, unverified).
#[must_use]
pub fn mid_p(tally: Tally, level: Share) -> ShareInterval {
    let (seen, unseen) = tally.counts();
    let tail = 0.5 * level.rest().get();
    interval(mid_p_low(seen, unseen, tail), 1.0 - mid_p_low(unseen, seen, tail))
}

/// The share at which more than `seen`, and half the chance of `seen` itself, come to `tail`.
fn mid_p_low(seen: f64, unseen: f64, tail: f64) -> f64 {
    if seen < 1.0 {
        return 0.0;
    }
    let at_least = |share: f64| beta_reg(seen, unseen + 1.0, share);
    let more = |share: f64| if unseen < 1.0 { 0.0 } else { beta_reg(seen + 1.0, unseen, share) };
    halving(tail, |share| 0.5 * (at_least(share) + more(share)))
}

/// The middle of the belief that starts from Jeffreys's open one, beta(1/2, 1/2), and has seen the tally.
///
/// With nothing seen the lower end is 0, with everything the upper end 1.
///
/// # Source
/// Brown, Cai and DasGupta 2001, Statistical Science 16:101-133 (citation from memory, unverified).
#[must_use]
pub fn jeffreys(tally: Tally, level: Share) -> ShareInterval {
    let (seen, unseen) = tally.counts();
    let tail = 0.5 * level.rest().get();
    let low = if seen < 1.0 { 0.0 } else { beta_quantile(seen + 0.5, unseen + 0.5, tail) };
    let high = if unseen < 1.0 { 1.0 } else { 1.0 - beta_quantile(unseen + 0.5, seen + 0.5, tail) };
    interval(low, high)
}

/// Both ends, roundings kept inside 0 to 1.
fn interval(low: f64, high: f64) -> ShareInterval {
    let share = |end: f64, otherwise| Share::new(end.clamp(0.0, 1.0)).unwrap_or(otherwise);
    ShareInterval { low: share(low, Share::NONE), high: share(high, Share::ALL) }
}

/// The point below which a beta(a, b) share falls with chance `chance`.
fn beta_quantile(a: f64, b: f64, chance: f64) -> f64 {
    halving(chance, |share| beta_reg(a, b, share))
}

/// Where a chance that rises from 0 at no share to 1 at all passes `height`.
///
/// Halving needs no start and cannot run away; it ends when no number lies between the two sides.
fn halving(height: f64, rising: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    while let middle = 0.5 * (low + high)
        && low < middle
        && middle < high
        && f64::EPSILON * low < high - low
    {
        if rising(middle) < height { low = middle } else { high = middle }
    }
    high
}
