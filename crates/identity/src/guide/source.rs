//! Where a value of a guide comes from, and who says otherwise.

/// Where a value comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sourced {
    /// The source, or `common practice, no source`, or `from memory, unverified`.
    pub source: String,
    /// Published sources that say otherwise, each with what it says.
    pub contradicted_by: Vec<String>,
}

impl Sourced {
    /// Whether the value was written down from memory and still has to be checked.
    #[must_use]
    pub fn is_unverified(&self) -> bool {
        self.source.contains("unverified")
    }
}
