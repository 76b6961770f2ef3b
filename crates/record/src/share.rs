//! Shares of a whole: probabilities from 0 to 1, and percentages by mass as instruments print them.

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
