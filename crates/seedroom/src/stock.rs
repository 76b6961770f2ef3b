//! Stock: seed moved from place to place, so that nothing is ever lost from the books or there twice.
//!
//! Every movement takes from one place what it puts into another, in whole milligrams, so all places together always come
//! to nothing: what the house holds is what harvests and purchases have given. No place of the house is ever under nothing,
//! on any day. Undoing is the opposite movement. Start at [`balances`]; [`draw`] picks packets for an order, the oldest test
//! first.

pub mod draw;

use record::id::Id;
use record::lot::Lot;
use record::mass::Milligrams;
use record::stock::{Movement, Place};
use std::collections::BTreeMap;

/// Why a movement cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StockFault {
    /// It moves nothing, or to where it is.
    #[error("a movement takes something from one place to another")]
    NoMovement,
    /// Packets are moved whole.
    #[error("{} are not whole packets of {}", in_grams(*.moved), in_grams(*.each))]
    BrokenPacket {
        /// Milligrams moved.
        moved: u64,
        /// Milligrams of one packet.
        each: u64,
    },
    /// Less is there on that day than is taken.
    #[error("{} are there, {} cannot be taken", in_grams(*.held), in_grams(*.taken))]
    TooLittle {
        /// Milligrams there.
        held: u64,
        /// Milligrams to be taken.
        taken: u64,
    },
    /// More than can be counted.
    #[error("more seed than can be counted")]
    TooMuch,
}

/// A mass as people weigh seed: in grams, from a tenth of one on, else in milligrams.
fn in_grams(milligrams: u64) -> String {
    let (whole, part) = (milligrams / 1000, milligrams % 1000);
    match (whole, part) {
        (0, 0..100) => format!("{part} mg"),
        (_, 0) => format!("{whole} g"),
        _ => format!("{whole}.{}", format!("{part:03}").trim_end_matches('0')) + " g",
    }
}

/// A movement that cannot be, by its place in what was given, and why.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("movement {}: {fault}", .at + 1)]
pub struct Refused {
    /// Its place, counted from 0.
    pub at: usize,
    /// Why.
    pub fault: StockFault,
}

/// What is where: seed that has come into a place and seed that has gone from it, each lot by itself.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Balances {
    flows: BTreeMap<(Id<Lot>, Place), Flow>,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Flow {
    come: Milligrams,
    gone: Milligrams,
}

impl Balances {
    /// What the house holds of a lot in one place; nothing of a place outside.
    #[must_use]
    pub fn held(&self, lot: Id<Lot>, place: Place) -> Milligrams {
        let flow = self.flows.get(&(lot, place)).filter(|_| place.is_held());
        flow.and_then(|flow| flow.come.less(flow.gone)).unwrap_or_default()
    }

    /// What has gone to a place outside and not come back, less what has come from there: below nothing for an origin.
    #[must_use]
    pub fn net(&self, lot: Id<Lot>, place: Place) -> i128 {
        self.flows
            .get(&(lot, place))
            .map_or(0, |flow| i128::from(flow.come.get()) - i128::from(flow.gone.get()))
    }

    /// Every place that seed has touched, with its net; a lot's nets add up to nothing.
    pub fn nets(&self) -> impl Iterator<Item = (Id<Lot>, Place, i128)> {
        self.flows.keys().map(|(lot, place)| (*lot, *place, self.net(*lot, *place)))
    }

    /// Books one movement after those already booked.
    ///
    /// # Errors
    /// [`StockFault`] for a movement that cannot be; the balances then stay as they were.
    pub fn book(&mut self, movement: &Movement) -> Result<(), StockFault> {
        let Movement { lot, from, to, mass, .. } = *movement;
        if mass == Milligrams::NONE || from == to {
            return Err(StockFault::NoMovement);
        }
        for place in [from, to] {
            whole_packets(place, mass)?;
        }
        let held = self.held(lot, from);
        if from.is_held() && held < mass {
            return Err(StockFault::TooLittle { held: held.get(), taken: mass.get() });
        }
        let flow = |place| self.flows.get(&(lot, place)).copied().unwrap_or_default();
        let (leaves, enters) = (flow(from), flow(to));
        let gone = leaves.gone.plus(mass).ok_or(StockFault::TooMuch)?;
        let come = enters.come.plus(mass).ok_or(StockFault::TooMuch)?;
        self.flows.insert((lot, from), Flow { gone, ..leaves });
        self.flows.insert((lot, to), Flow { come, ..enters });
        Ok(())
    }
}

fn whole_packets(place: Place, mass: Milligrams) -> Result<(), StockFault> {
    match place {
        Place::Packets(fill) if fill.packets(mass).is_none() => {
            Err(StockFault::BrokenPacket { moved: mass.get(), each: fill.each().get() })
        }
        _ => Ok(()),
    }
}

/// Books movements by their days, those of one day in the order given.
///
/// A movement written down late takes its place by its day, and is refused where it would have left less than nothing on
/// any day since.
///
/// # Shape
/// `movements`: any order of days.
///
/// # Errors
/// [`Refused`] with the first movement, by day, that cannot be.
pub fn balances(movements: &[Movement]) -> Result<Balances, Refused> {
    let mut by_day: Vec<(usize, &Movement)> = movements.iter().enumerate().collect();
    by_day.sort_by_key(|(at, movement)| (movement.on, *at));
    let mut balances = Balances::default();
    for (at, movement) in by_day {
        balances.book(movement).map_err(|fault| Refused { at, fault })?;
    }
    Ok(balances)
}
