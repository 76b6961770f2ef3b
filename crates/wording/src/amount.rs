//! How much of a measure is asked for: about so much, at least, at most, or between the two.

use record::days::Days;
use record::length::Millimetres;
use record::mass::Grams;

/// How far from an amount that is asked for plainly ("4 oz", "about 60 g") a variety may be: 15 in 100, since
/// the usual fruit of one variety differs from season to season by as much. Common practice, no source.
pub const ABOUT: f64 = 0.15;

/// A measure that amounts are asked for in.
pub trait Measured: Copy + PartialOrd {
    /// The number, in the measure's own unit.
    fn number(self) -> f64;
}

impl Measured for Grams {
    fn number(self) -> f64 {
        self.get()
    }
}

impl Measured for Millimetres {
    fn number(self) -> f64 {
        self.get()
    }
}

impl Measured for Days {
    fn number(self) -> f64 {
        self.get()
    }
}

impl Measured for u32 {
    fn number(self) -> f64 {
        f64::from(self)
    }
}

/// How much is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount<T> {
    /// About so much: within [`ABOUT`] of it.
    About(T),
    /// This much or more.
    AtLeast(T),
    /// This much or less.
    AtMost(T),
    /// From the first to the second, both included.
    Between(T, T),
}

impl<T: Measured> Amount<T> {
    /// Lower and upper end in the measure's own unit, both included; nothing where it is open.
    #[must_use]
    pub fn ends(self) -> (Option<f64>, Option<f64>) {
        match self {
            Self::About(value) => {
                (Some(value.number() * (1.0 - ABOUT)), Some(value.number() * (1.0 + ABOUT)))
            }
            Self::AtLeast(low) => (Some(low.number()), None),
            Self::AtMost(high) => (None, Some(high.number())),
            Self::Between(low, high) => (Some(low.number()), Some(high.number())),
        }
    }

    /// Whether a value, in the measure's own unit, is such an amount.
    #[must_use]
    pub fn holds(self, value: f64) -> bool {
        let (low, high) = self.ends();
        low.is_none_or(|low| low <= value) && high.is_none_or(|high| value <= high)
    }
}
