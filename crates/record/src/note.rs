//! A note: any one fact as it goes into the ledger.

use crate::colour::ColourReading;
use crate::fruit::FruitSample;
use crate::height::HeightReading;
use crate::pick::Pick;
use crate::stage::StageNote;

/// One fact seen in the garden or on the bench.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// A fruit weighed, measured or cut.
    Fruit(FruitSample),
    /// Fruit taken on one day.
    Pick(Pick),
    /// A plant's height.
    Height(HeightReading),
    /// Something seen on a walk.
    Stage(StageNote),
    /// A colour read.
    Colour(ColourReading),
}
