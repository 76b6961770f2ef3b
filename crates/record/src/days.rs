//! A run of days, such as from transplanting to the first ripe fruit.

/// A number of days: finite and never negative. A median of whole days may be a half.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Days(f64);

impl Days {
    /// No days.
    pub const NONE: Self = Self(0.0);

    /// Takes zero or more; NaN, infinity and negatives are no run of days.
    #[must_use]
    pub fn new(days: f64) -> Option<Self> {
        (days.is_finite() && 0.0 <= days).then_some(Self(days))
    }

    /// The number of days.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_run_of_days_is_refused() {
        assert_eq!(Days::new(75.5).map(Days::get), Some(75.5));
        for days in [-1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(Days::new(days), None);
        }
    }
}
