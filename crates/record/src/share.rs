//! Shares of a whole: probabilities from 0 to 1, percentages by mass as instruments print them, and whole per cent as
//! labels print them.

/// A share of a whole or a probability, from 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Share(f64);

impl Share {
    /// Nothing of it.
    pub const NONE: Self = Self(0.0);
    /// All of it.
    pub const ALL: Self = Self(1.0);

    /// Takes 0 to 1, both included.
    #[must_use]
    pub fn new(share: f64) -> Option<Self> {
        (0.0..=1.0).contains(&share).then_some(Self(share))
    }

    /// `part` of `whole`, or `None` where `whole` is nothing or `part` is more than it.
    #[must_use]
    pub fn of(part: u64, whole: u64) -> Option<Self> {
        #[expect(
            clippy::cast_precision_loss,
            reason = "counts of plants, fruit and draws stay far below 2^52"
        )]
        (whole > 0).then(|| part as f64 / whole as f64).and_then(Self::new)
    }

    /// The share as a number from 0 to 1.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }

    /// What is left of the whole.
    #[must_use]
    pub fn rest(self) -> Self {
        Self(1.0 - self.0)
    }
}

/// A percentage by mass, from 0 to 100: soluble solids as a refractometer prints them (degrees
/// Brix) and dry matter.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Percent(f64);

impl Percent {
    /// Takes 0 to 100, both included.
    #[must_use]
    pub fn new(percent: f64) -> Option<Self> {
        (0.0..=100.0).contains(&percent).then_some(Self(percent))
    }

    /// The number of per cent.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

/// A whole number of per cent from 0 to 100, as a seed law's tables and labels have it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WholePercent(u8);

impl WholePercent {
    /// Takes 0 to 100, both included.
    #[must_use]
    pub fn new(percent: u8) -> Option<Self> {
        (percent <= 100).then_some(Self(percent))
    }

    /// The per cent `N`, checked when the program is built.
    #[must_use]
    pub const fn of<const N: u8>() -> Self {
        const { assert!(N <= 100, "more than the whole") };
        Self(N)
    }

    /// `part` of `whole` to the nearest per cent, a half upwards; `None` as [`Share::of`].
    #[must_use]
    pub fn nearest(part: u32, whole: u32) -> Option<Self> {
        let (part, whole) = (u64::from(part), u64::from(whole));
        let percent = (200 * part + whole).checked_div(2 * whole)?;
        (part <= whole).then_some(percent).and_then(|percent| u8::try_from(percent).ok()).map(Self)
    }

    /// The number of per cent.
    #[must_use]
    pub fn get(self) -> u8 {
        self.0
    }

    /// The same share, from 0 to 1.
    #[must_use]
    pub fn share(self) -> Share {
        Share(f64::from(self.0) / 100.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_per_cent_rounds_a_half_upwards() {
        let nearest = |part, whole| WholePercent::nearest(part, whole).map(WholePercent::get);
        assert_eq!(nearest(297, 400), Some(74));
        assert_eq!(nearest(298, 400), Some(75));
        assert_eq!(nearest(400, 400), Some(100));
        assert_eq!(nearest(401, 400), None);
        assert_eq!(nearest(0, 0), None);
    }
}
