//! Which lots an order is filled from: those that reach the minimum and may be shipped, the oldest test first.
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
    /// Where its last test puts it.
    pub quality: Quality,
}

/// Where a lot's last test puts it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quality {
    /// At the minimum that the house goes by, or above.
    Reached,
    /// Under it: such seed goes out only where somebody names its lot.
    Under,
}

/// What an order is filled from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Drawn {
    /// Lots and packets of each, in the order of drawing.
    pub from: Vec<(Id<Lot>, u32)>,
    /// Packets that could not be found.
    pub short: u32,
    /// Lots passed over though packets of them are there, and why.
    pub passed_over: Vec<(Id<Lot>, PassedOver)>,
}

/// Why a lot is passed over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassedOver {
    /// It has no test that says anything.
    Untested,
    /// Its test is too old on the day of shipment, or of a later month.
    TestOutOfDate,
    /// Its test lies under the minimum.
    UnderMinimum,
}

/// Fills an order for one size of packet, to be shipped on a day: first from the lot whose test will first be too old, then
/// from the one with the older test, then in the order given.
#[must_use]
pub fn draw(shelves: &[Shelf], wanted: u32, on: Date) -> Drawn {
    let ready = |shelf: &Shelf| match (shelf.tested, shelf.quality) {
        (None, _) => Err(PassedOver::Untested),
        (Some(tested), _) if !may_ship(on, tested, shelf.packing) => Err(PassedOver::TestOutOfDate),
        (Some(_), Quality::Under) => Err(PassedOver::UnderMinimum),
        (Some(tested), Quality::Reached) => Ok(tested),
    };
    let mut lots: Vec<(Date, Month, &Shelf)> = shelves
        .iter()
        .filter_map(|shelf| {
            ready(shelf).ok().map(|tested| (last_shipping_day(tested, shelf.packing), tested, shelf))
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
    let there = shelves.iter().filter(|shelf| 0 < shelf.packets);
    drawn.passed_over = there.filter_map(|shelf| Some((shelf.lot, ready(shelf).err()?))).collect();
    drawn
}
