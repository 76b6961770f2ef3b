//! A suggestion: the known name that an unknown one is nearest to. It is offered, never applied.

use record::id::Id;
use record::variety::Variety;

/// The known variety nearest to an unknown name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suggestion {
    /// The name as written in the file.
    pub written: String,
    /// The known name or alias that is nearest.
    pub nearest: String,
    /// The variety it names.
    pub variety: Id<Variety>,
}
