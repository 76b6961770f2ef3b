//! Which lots an order is filled from: those that may be shipped, the oldest test first.
//!
//! Start at [`draw`].

use crate::dates::{Month, last_shipping_day, may_ship};
use jiff::civil::Date;
use record::id::Id;
use record::lot::{Lot, Packing};

/// Packets of one size of one lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shelf {
    /// The lot.
    pub lot: Id<Lot>,
    /// Packets there.
    pub packets: u32,
    /// The month of its last test, where it was tested.
    pub tested: Option<Month>,
    /// How it is packed.
    pub packing: Packing,
}

/// What an order is filled from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Drawn {
    /// Lots and packets of each, in the order of drawing.
    pub from: Vec<(Id<Lot>, u32)>,
    /// Packets that could not be found.
    pub short: u32,
    /// Lots passed over, as they are untested, or their test is too old for that day.
    pub passed_over: Vec<Id<Lot>>,
}

/// Fills an order for one size of packet, to be shipped on a day: first from the lot whose test will first be too old, then
/// from the one with the older test, then in the order given.
#[must_use]
pub fn draw(shelves: &[Shelf], wanted: u32, on: Date) -> Drawn {
    let ready = |shelf: &Shelf| shelf.tested.filter(|tested| may_ship(on, *tested, shelf.packing));
    let mut lots: Vec<(Date, Month, &Shelf)> = shelves
        .iter()
        .filter_map(|shelf| {
            ready(shelf).map(|tested| (last_shipping_day(tested, shelf.packing), tested, shelf))
        })
        .collect();
    lots.sort_by_key(|(last, tested, _)| (*last, *tested));
    let mut drawn = Drawn { short: wanted, ..Drawn::default() };
    for (_, _, shelf) in lots {
        let taken = shelf.packets.min(drawn.short);
        if 0 < taken {
            drawn.from.push((shelf.lot, taken));
            drawn.short -= taken;
        }
    }
    let not_ready = shelves.iter().filter(|shelf| 0 < shelf.packets && ready(shelf).is_none());
    drawn.passed_over = not_ready.map(|shelf| shelf.lot).collect();
    drawn
}
