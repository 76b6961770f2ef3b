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

    /// Reads a number with its scale, such as `15C`, `68 F` or `5 °C`; `None` of anything else.
    #[must_use]
    pub fn written(text: &str) -> Option<Self> {
        let bare: String = text.chars().filter(|sign| !sign.is_whitespace() && *sign != '°').collect();
        match (bare.strip_suffix(['C', 'c']), bare.strip_suffix(['F', 'f'])) {
            (Some(number), _) => number.parse().ok().and_then(Self::new),
            (_, Some(number)) => number.parse().ok().and_then(Self::from_fahrenheit),
            _ => None,
        }
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
    fn degrees_are_read_in_both_scales() {
        let read = |text| Celsius::written(text).map(|at| at.get().round());
        assert_eq!(read("41 F"), Some(5.0));
        assert_eq!(read("5 °C"), Some(5.0));
        assert!(["5", "", "°", "C", "NaNC", "-400C"].iter().all(|text| Celsius::written(text).is_none()));
    }

    #[test]
    fn water_freezes_and_boils_on_both_scales() {
        assert_eq!(Celsius::from_fahrenheit(32.0), Celsius::new(0.0));
        assert_eq!(Celsius::from_fahrenheit(212.0), Celsius::new(100.0));
    }
}
