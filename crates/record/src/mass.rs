//! Mass: grams inside the program, ounces and pounds at its borders.

/// Grams in one avoirdupois pound, exactly. Source: NIST Handbook 44 (2024), Appendix C, "Units of
/// mass": 1 pound = 453.592 37 grams exactly.
pub const GRAMS_PER_POUND: f64 = 453.592_37;

/// Grams in a kilogram.
const GRAMS_PER_KILOGRAM: f64 = 1000.0;

/// Ounces in one avoirdupois pound. Source: NIST Handbook 44 (2024), Appendix C, "Units of mass".
pub const OUNCES_PER_POUND: f64 = 16.0;

/// Grams in one avoirdupois ounce, exactly. Source: NIST Special Publication 811 (2008), Appendix
/// B.8: 1 ounce (avoirdupois) = 28.349 523 125 grams, a sixteenth of a pound.
pub const GRAMS_PER_OUNCE: f64 = GRAMS_PER_POUND / OUNCES_PER_POUND;

/// A mass in grams: finite and never negative.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Grams(f64);

impl Grams {
    /// No mass.
    pub const NONE: Self = Self(0.0);

    /// Takes zero or more; NaN, infinity and negatives are no mass.
    #[must_use]
    pub fn new(grams: f64) -> Option<Self> {
        (grams.is_finite() && 0.0 <= grams).then_some(Self(grams))
    }

    /// The number of grams.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }

    /// The nearest whole milligrams; `None` beyond all counting.
    #[must_use]
    pub fn to_milligrams(self) -> Option<Milligrams> {
        /// From here on not every whole number is one of the machine's.
        const MOST: f64 = 9.0e15;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole, not negative and in reach"
        )]
        Some((self.0 * 1000.0).round()).filter(|mg| *mg <= MOST).map(|mg| Milligrams(mg as u64))
    }

    /// The same mass in avoirdupois ounces.
    #[must_use]
    pub fn to_ounces(self) -> f64 {
        self.0 / GRAMS_PER_OUNCE
    }

    /// The same mass in kilograms.
    #[must_use]
    pub fn to_kilograms(self) -> f64 {
        self.0 / GRAMS_PER_KILOGRAM
    }

    /// So many kilograms.
    #[must_use]
    pub fn of_kilograms(kilograms: f64) -> Option<Self> {
        Self::new(kilograms * GRAMS_PER_KILOGRAM)
    }

    /// So many times as much.
    #[must_use]
    pub fn times(self, count: u32) -> Option<Self> {
        Self::new(self.0 * f64::from(count))
    }

    /// The same mass in avoirdupois pounds.
    #[must_use]
    pub fn to_pounds(self) -> Pounds {
        Pounds(self.0 / GRAMS_PER_POUND)
    }
}

/// A mass in avoirdupois ounces: finite and never negative.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Ounces(f64);

impl Ounces {
    /// Takes zero or more; NaN, infinity and negatives are no mass.
    #[must_use]
    pub fn new(ounces: f64) -> Option<Self> {
        (ounces.is_finite() && 0.0 <= ounces).then_some(Self(ounces))
    }

    /// The same mass in grams; `None` only where the product overflows.
    #[must_use]
    pub fn to_grams(self) -> Option<Grams> {
        Grams::new(self.0 * GRAMS_PER_OUNCE)
    }
}

/// A mass in whole milligrams: seed is moved in these, so that what goes out of one place is to the last digit
/// what comes into another.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Milligrams(u64);

impl Milligrams {
    /// No mass.
    pub const NONE: Self = Self(0);

    /// So many whole milligrams.
    #[must_use]
    pub const fn new(milligrams: u64) -> Self {
        Self(milligrams)
    }

    /// The number of milligrams.
    #[must_use]
    pub const fn get(self) -> u64 {
        self.0
    }

    /// The same mass in grams.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "nobody holds 2^53 mg of seed")]
    pub fn to_grams(self) -> Grams {
        Grams(self.0 as f64 / 1000.0)
    }

    /// Both together; `None` beyond all counting.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
    }

    /// What is left when `other` is taken away; `None` where there is less.
    #[must_use]
    pub fn less(self, other: Self) -> Option<Self> {
        self.0.checked_sub(other.0).map(Self)
    }

    /// So many times as much; `None` beyond all counting.
    #[must_use]
    pub fn times(self, count: u32) -> Option<Self> {
        self.0.checked_mul(u64::from(count)).map(Self)
    }
}

/// A mass in avoirdupois pounds: finite and never negative.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Pounds(f64);

impl Pounds {
    /// Takes zero or more; NaN, infinity and negatives are no mass.
    #[must_use]
    pub fn new(pounds: f64) -> Option<Self> {
        (pounds.is_finite() && 0.0 <= pounds).then_some(Self(pounds))
    }

    /// The number of pounds.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }

    /// The same mass in grams; `None` only where the product overflows.
    #[must_use]
    pub fn to_grams(self) -> Option<Grams> {
        Grams::new(self.0 * GRAMS_PER_POUND)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST SP 811 (2008), Appendix B.8: ounce and pound (avoirdupois) to kilograms.
    #[test]
    fn ounces_and_pounds_agree_with_sp_811() {
        assert_eq!(GRAMS_PER_OUNCE, 28.349_523_125);
        assert_eq!(Ounces::new(16.0).and_then(Ounces::to_grams), Grams::new(453.592_37));
        assert_eq!(Pounds::new(1.0).and_then(Pounds::to_grams), Grams::new(453.592_37));
    }

    #[test]
    fn grams_and_milligrams_are_the_same_mass() {
        assert_eq!(Grams(12.3456).to_milligrams(), Some(Milligrams(12_346)));
        assert_eq!(Milligrams(12_346).to_grams(), Grams(12.346));
        assert_eq!(Grams(1e300).to_milligrams(), None);
    }

    #[test]
    fn what_is_no_mass_is_refused() {
        for grams in [-0.1, f64::NAN, f64::INFINITY] {
            assert_eq!(Grams::new(grams), None);
        }
    }
}
