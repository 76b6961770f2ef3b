//! Filling an order: packets sold off the shelf, or filled out of the jar for it, from the lots whose tests will first be too
//! old.
//!
//! Seed under the minimum, untested seed and seed whose test is too old never goes out so, whoever asks. An order is filled
//! whole or not at all: of two who take the last packets at once, one is told no. Start at [`fill`].

use super::fault::SeedRoomFault;
use super::law::{Asked, judged_by};
use super::packets::Wanted;
use super::shelves::{drawn, shelf};
use super::{Books, LotSeen, LotState, telling, typed, writing};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::names;
use ledger::batch::Act;
use ledger::ledger::Ledger;
use ledger::names::label_key;
use record::id::Id;
use record::lot::{ITSELF, Lot, LotNote};
use record::stock::{Fill, Movement, Place};
use seedroom::stock::draw::Shelf;
use std::collections::BTreeSet;

/// An order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Order {
    /// The packets, by variety or by lot.
    pub wanted: Vec<Wanted>,
    /// The seed in each; the one size that there is, if none is told.
    pub of: Option<Fill>,
    /// What is done with it.
    pub doing: Doing,
    /// Whether it is booked.
    pub booking: Booking,
}

/// What is done with the packets of an order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Packets on the shelf are sold.
    Sell,
    /// Packets are filled out of the jar, and stay on the shelf.
    Pack,
}

/// Whether an order is booked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Booking {
    /// The packets are moved.
    Booked,
    /// It is only said which lots they would come from.
    OnlyTold,
}

/// Packets of one lot in an order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taken {
    /// The variety.
    pub variety: String,
    /// The lot's number.
    pub lot: String,
    /// Where its jar stands, as far as somebody said.
    pub location: Option<String>,
    /// Packets of it.
    pub packets: u32,
    /// The seed in each.
    pub fill: Fill,
    /// Its state, in words.
    pub state: String,
}

/// Fills an order, all of it or nothing, and says which lots the packets come from.
///
/// # Errors
/// [`SeedRoomFault`] for packets that cannot be had, with the lots that were passed over, and why; what the ledger refuses.
pub fn fill(house: &House, order: &Order, asked: Asked, act: &Act) -> Result<Vec<Taken>, HouseFault> {
    if order.wanted.is_empty() {
        return Err(SeedRoomFault::NoPackets.into());
    }
    let by = judged_by(house, asked)?;
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let chosen: Vec<(LotSeen, u32, Fill)> = ledger.at_one_moment(|ledger| {
        let seen = Books::read(ledger)?.seen(by.goes_by(asked))?;
        let lines = order.wanted.iter().map(|wanted| line(ledger, &seen, wanted, order, asked));
        Ok::<_, HouseFault>(lines.collect::<Result<Vec<_>, _>>()?.into_iter().flatten().collect())
    })?;
    if order.booking == Booking::Booked {
        book(&mut ledger, order.doing, &chosen, asked, act)?;
    }
    Ok(chosen.iter().map(|(seen, packets, fill)| taken(seen, *packets, *fill)).collect())
}

fn taken(seen: &LotSeen, packets: u32, fill: Fill) -> Taken {
    Taken {
        variety: seen.variety.clone(),
        lot: seen.lot.number.clone(),
        location: seen.account.keeping.as_ref().and_then(|keeping| keeping.location.clone()),
        packets,
        fill,
        state: telling::state(seen.account.state),
    }
}

/// The lots that one line of an order is filled from.
fn line(
    ledger: &mut Ledger,
    seen: &[LotSeen],
    wanted: &Wanted,
    order: &Order,
    asked: Asked,
) -> Result<Vec<(LotSeen, u32, Fill)>, HouseFault> {
    let of_number = |seen: &&LotSeen| label_key(&seen.lot.number) == label_key(&wanted.of);
    let lot = seen.iter().find(of_number);
    let (name, own): (String, Vec<&LotSeen>) = match lot {
        Some(lot) => (format!("lot {}", lot.lot.number), vec![lot]),
        None => {
            let variety = names::find(ledger, &wanted.of)?;
            (variety.name, seen.iter().filter(|seen| seen.lot.variety == variety.id).collect())
        }
    };
    let own: Vec<&LotSeen> = own.into_iter().filter(|seen| seen.account.state != LotState::Gone).collect();
    let fill = size(&name, &own, order)?;
    let at = match order.doing {
        Doing::Sell => Place::Packets(fill),
        Doing::Pack => Place::Jar,
    };
    let lots: Vec<(&LotSeen, Shelf)> = own.into_iter().map(|seen| (seen, shelf(seen, at, fill))).collect();
    let from = drawn(&lots, &name, wanted.packets, asked.today)?;
    let found =
        |lot: Id<Lot>| lots.iter().find(|(seen, _)| seen.lot.id == lot).map(|(seen, _)| (*seen).clone());
    Ok(from.into_iter().filter_map(|(lot, packets)| Some((found(lot)?, packets, fill))).collect())
}

/// The seed in each packet: as told, or the one size that lies on the shelf.
fn size(name: &str, own: &[&LotSeen], order: &Order) -> Result<Fill, SeedRoomFault> {
    if let Some(fill) = order.of {
        return Ok(fill);
    }
    if order.doing == Doing::Pack {
        return Err(SeedRoomFault::NoSize);
    }
    let held = own.iter().flat_map(|seen| &seen.account.held);
    let sizes: BTreeSet<Fill> = held
        .filter_map(|(place, _)| match place {
            Place::Packets(fill) => Some(*fill),
            _ => None,
        })
        .collect();
    let sizes: Vec<Fill> = sizes.into_iter().collect();
    match sizes.as_slice() {
        [one] => Ok(*one),
        [] => Err(SeedRoomFault::NoneFilled(name.to_owned())),
        _ => {
            let sizes = sizes.iter().map(|fill| telling::mass(fill.each())).collect();
            Err(SeedRoomFault::SeveralSizes { of: name.to_owned(), sizes })
        }
    }
}

fn book(
    ledger: &mut Ledger,
    doing: Doing,
    chosen: &[(LotSeen, u32, Fill)],
    asked: Asked,
    act: &Act,
) -> Result<(), HouseFault> {
    let mut notes: Vec<(Id<Lot>, LotNote)> = Vec::with_capacity(chosen.len());
    for (seen, packets, fill) in chosen {
        let mass = typed::packets(*packets, *fill)?;
        let (from, to) = match doing {
            Doing::Sell => (Place::Packets(*fill), Place::Sold),
            Doing::Pack => (Place::Jar, Place::Packets(*fill)),
        };
        let moved = Movement { lot: ITSELF, on: asked.today, from, to, mass };
        notes.push((seen.lot.id, LotNote::Movement(moved)));
    }
    let number = |lot: Id<Lot>| {
        let own = chosen.iter().find(|(seen, ..)| seen.lot.id == lot);
        own.map(|(seen, ..)| seen.lot.number.clone()).unwrap_or_default()
    };
    writing::note_all(ledger, &notes, number, act)
}
