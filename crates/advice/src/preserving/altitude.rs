//! Altitude: feet as process tables print them, metres at the border.

/// Feet in a metre come from this: 0.3048 metres a foot, exactly. Source: NIST SP 811 (2008), Appendix B.8.
const METRES_PER_FOOT: f64 = 0.3048;

/// An altitude above sea level in feet.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Feet(f64);

impl Feet {
    /// Takes any finite altitude, below the sea too.
    #[must_use]
    pub fn new(feet: f64) -> Option<Self> {
        feet.is_finite().then_some(Self(feet))
    }

    /// Takes metres.
    #[must_use]
    pub fn from_metres(metres: f64) -> Option<Self> {
        Self::new(metres / METRES_PER_FOOT)
    }

    /// The number of feet.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}
