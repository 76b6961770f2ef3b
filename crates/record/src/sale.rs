//! Sales: packets of a variety that went over the counter or into the post on one day.

use crate::id::Id;
use crate::variety::Variety;
use jiff::civil::Date;

/// Packets sold on one day, or brought back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sale {
    /// The variety.
    pub variety: Id<Variety>,
    /// The day.
    pub on: Date,
    /// Packets; below nothing for those that came back.
    pub packets: i32,
}
