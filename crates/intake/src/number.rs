//! Numbers as growers write them.

/// What parts whole from tenths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DecimalMark {
    /// 6.3; a comma then parts thousands.
    Point,
    /// 6,3; a point then parts thousands.
    Comma,
}

impl DecimalMark {
    /// Its name: `point` or `comma`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Point => "point",
            Self::Comma => "comma",
        }
    }

    /// The mark of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        [Self::Point, Self::Comma].into_iter().find(|mark| mark.name() == name)
    }
}
