//! What a note is about: a variety in a season, narrowed to its plot and plant where known.

use crate::growout::{PlantNumber, Plot};
use crate::id::Id;
use crate::season::Season;
use crate::variety::Variety;

/// What a note is about. The season is never missing: without it one summer's weather could pass
/// for the variety itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Subject {
    /// The variety.
    pub variety: Id<Variety>,
    /// The season of the note.
    pub season: Season,
    /// The plot, where the note names one.
    pub plot: Option<Id<Plot>>,
    /// The plant within the plot, where the note names one.
    pub plant: Option<PlantNumber>,
}
