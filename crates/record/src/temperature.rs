//! Temperature: degrees Celsius inside the program, Fahrenheit at its borders.

/// A temperature in degrees Celsius, at or above absolute zero.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Celsius(f64);

/// Absolute zero in degrees Celsius. Source: SI Brochure, 9th edition (BIPM, 2019), section 2.3.1.
const ABSOLUTE_ZERO: f64 = -273.15;

impl Celsius {
    /// Takes any temperature that can exist.
    #[must_use]
    pub fn new(degrees: f64) -> Option<Self> {
        (degrees.is_finite() && ABSOLUTE_ZERO <= degrees).then_some(Self(degrees))
    }

    /// Takes degrees Fahrenheit. Source: NIST SP 811 (2008), Appendix B.8: t/C = (t/F - 32)/1.8.
    #[must_use]
    pub fn from_fahrenheit(degrees: f64) -> Option<Self> {
        Self::new((degrees - 32.0) / 1.8)
    }

    /// The number of degrees Celsius.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }

    /// The same temperature in degrees Fahrenheit.
    #[must_use]
    pub fn to_fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn water_freezes_and_boils_on_both_scales() {
        assert_eq!(Celsius::from_fahrenheit(32.0), Celsius::new(0.0));
        assert_eq!(Celsius::from_fahrenheit(212.0), Celsius::new(100.0));
    }
}
