//! A lot: seed of one harvest of one variety with one history.

use crate::growout::Plot;
use crate::id::Id;
use crate::season::Season;
use crate::variety::Variety;
use jiff::civil::Date;

/// Seed of one harvest with one history, told by one number from the drying screen to the packet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lot {
    /// Its identifier.
    pub id: Id<Lot>,
    /// The lot number that stands on its jar, such as `31-014`.
    pub number: String,
    /// The variety.
    pub variety: Id<Variety>,
    /// The season of its harvest.
    pub season: Season,
    /// The day its last seed was taken from fruit, where known.
    pub harvested_on: Option<Date>,
    /// The plot it was grown in; `None` of seed that was bought.
    pub plot: Option<Id<Plot>>,
    /// The lot its parents were sown from, where known.
    pub sown_from: Option<Id<Lot>>,
}
