//! SVG text: escaping, short numbers, elements and paths. A finished drawing is an [`Svg`].

use crate::scale::Pixels;
use std::fmt;

/// A finished drawing: a whole `<svg>` element that stands alone, in a page, in an `<img>` or in a PDF.
#[derive(Clone, Debug, PartialEq)]
pub struct Svg {
    width: Pixels,
    height: Pixels,
    markup: String,
}

impl Svg {
    /// Drawn width.
    #[must_use]
    pub fn width(&self) -> Pixels {
        self.width
    }

    /// Drawn height.
    #[must_use]
    pub fn height(&self) -> Pixels {
        self.height
    }

    /// The markup, from `<svg` to `</svg>`; safe to set in HTML as it is.
    #[must_use]
    pub fn markup(&self) -> &str {
        &self.markup
    }

    pub(crate) fn empty(width: Pixels, height: Pixels) -> Self {
        Self { width, height, markup: String::from("<svg xmlns=\"http://www.w3.org/2000/svg\"></svg>") }
    }
}

impl fmt::Display for Svg {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&self.markup)
    }
}
