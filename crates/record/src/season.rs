//! A growing season, named by the year of its harvest.

use std::fmt;

/// A season. South of the equator a season crosses New Year; it takes the year in which it ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Season(i16);

/// First year taken for a season. Older notes exist, but a year below this is a typing error far
/// more often. Common practice, no source.
const EARLIEST: i16 = 1900;
/// Last year taken for a season, likewise.
const LATEST: i16 = 2199;

impl Season {
    /// Takes a year from 1900 to 2199.
    #[must_use]
    pub fn new(year: i16) -> Option<Self> {
        (EARLIEST..=LATEST).contains(&year).then_some(Self(year))
    }

    /// The year of harvest.
    #[must_use]
    pub fn year(self) -> i16 {
        self.0
    }
}

impl fmt::Display for Season {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(to, "{}", self.0)
    }
}
