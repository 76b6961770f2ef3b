//! Doubts: why a record that was kept should be looked at again before anything rests on it.

/// A doubt about one record. A doubted record is kept and shown, but no call rests on it until
/// somebody has looked and confirmed it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Doubt {
    /// What kind of doubt.
    pub kind: DoubtKind,
    /// The doubt in words, with its numbers.
    pub words: String,
}

/// What kind of doubt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DoubtKind {
    /// Beyond what a tomato or its plant can be.
    BeyondLimit,
    /// Weight does not fit the ellipsoid of length and width.
    WeightAgainstSize,
    /// Two columns look swapped, such as length and width or the neck and the width.
    SwappedColumns,
    /// Happened before the plants went out.
    BeforeTransplanting,
    /// Far from every other fruit of its variety.
    UnlikeItsVariety,
    /// Dated after the day it was taken in.
    InTheFuture,
}
