//! Drawn size: CSS pixels, and how many of them a millimetre of fruit takes.

use record::length::Millimetres;

/// A drawn length in CSS pixels (1/96 inch): finite and never negative.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Pixels(f64);

impl Pixels {
    /// Takes zero or more; NaN, infinity and negatives are no length.
    #[must_use]
    pub fn new(pixels: f64) -> Option<Self> {
        (pixels.is_finite() && 0.0 <= pixels).then_some(Self(pixels))
    }

    /// The number of pixels.
    #[must_use]
    pub fn get(self) -> f64 {
        self.0
    }
}

impl From<u16> for Pixels {
    fn from(pixels: u16) -> Self {
        Self(f64::from(pixels))
    }
}

/// Pixels drawn for each millimetre of fruit, from a hundredth to a hundred.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Scale(f64);

/// Smallest scale drawn: a beefsteak is one pixel wide. A choice of the drawing.
const SMALLEST: f64 = 0.01;
/// Largest scale drawn: a currant is 600 pixels wide. A choice of the drawing.
const LARGEST: f64 = 100.0;

impl Scale {
    /// Life size on a screen of 96 pixels to the inch, and in print.
    pub const LIFE_SIZE: Self = Self(96.0 / record::length::MILLIMETRES_PER_INCH);

    /// Takes pixels a millimetre, from 0.01 to 100.
    #[must_use]
    pub fn new(pixels_per_millimetre: f64) -> Option<Self> {
        (SMALLEST..=LARGEST).contains(&pixels_per_millimetre).then_some(Self(pixels_per_millimetre))
    }

    /// The number of pixels a millimetre.
    #[must_use]
    pub fn pixels_per_millimetre(self) -> f64 {
        self.0
    }

    /// What a length comes to on the drawing.
    #[must_use]
    pub fn drawn(self, length: Millimetres) -> Pixels {
        Pixels(length.get() * self.0)
    }

    /// The nearest scale that can be drawn.
    pub(crate) fn nearest(pixels_per_millimetre: f64) -> Self {
        Self(if pixels_per_millimetre.is_finite() {
            pixels_per_millimetre.clamp(SMALLEST, LARGEST)
        } else {
            SMALLEST
        })
    }
}
