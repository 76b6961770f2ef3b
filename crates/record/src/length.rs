//! Length: millimetres inside the program, inches and feet at its borders.

/// Millimetres in one inch, exactly. Source: NIST Special Publication 811 (2008), Appendix B.8:
/// 1 inch = 2.54 E-02 metre, exact.
pub const MILLIMETRES_PER_INCH: f64 = 25.4;

/// Inches in one foot. Source: NIST Handbook 44 (2024), Appendix C, "Units of length".
pub const INCHES_PER_FOOT: f64 = 12.0;

/// A length in millimetres: finite and never negative.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Millimetres(f64);

impl Millimetres {
    /// No length.
    pub const NONE: Self = Self(0.0);

    /// Takes zero or more; NaN, infinity and negatives are no length.
    #[must_use]
    pub fn new(millimetres: f64) -> Option<Self> {
        (millimetres.is_finite() && 0.0 <= millimetres).then_some(Self(millimetres))
    }

    /// The number of millimetres.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }

    /// The same length in inches.
    #[must_use]
    pub fn to_inches(self) -> f64 {
        self.0 / MILLIMETRES_PER_INCH
    }
}

/// A length in inches: finite and never negative.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Inches(f64);

impl Inches {
    /// Takes zero or more; NaN, infinity and negatives are no length.
    #[must_use]
    pub fn new(inches: f64) -> Option<Self> {
        (inches.is_finite() && 0.0 <= inches).then_some(Self(inches))
    }

    /// The same length in millimetres; `None` only where the product overflows.
    #[must_use]
    pub fn to_millimetres(self) -> Option<Millimetres> {
        Millimetres::new(self.0 * MILLIMETRES_PER_INCH)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST SP 811 (2008), Appendix B.8: foot = 304.8 mm, inch = 25.4 mm, both exact.
    #[test]
    fn inches_agree_with_sp_811() {
        assert_eq!(Inches::new(1.0).and_then(Inches::to_millimetres), Millimetres::new(25.4));
        let foot = Inches::new(12.0).and_then(Inches::to_millimetres).map(Millimetres::get);
        assert!(foot.is_some_and(|foot| (foot - 304.8).abs() < 1e-9));
    }
}
