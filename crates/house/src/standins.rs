//! Instead of one variety: those of the list that are most like it, for when it is sold out.

use crate::alike::{profiles, words};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::guides;
use crate::list::{self, Listed};
use crate::names;
use assortment::profile::{Profile, Words};
pub use assortment::standins::Known;
use assortment::standins::{Assortment, StandIn};
use ledger::ledger::Ledger;

/// Stand-ins that are told. A choice of ours: more are no help to a buyer.
pub const MOST_TOLD: usize = 6;

/// A variety and what may stand in for it.
#[derive(Debug)]
pub struct Instead {
    /// The variety that is asked about.
    pub of: Listed,
    /// The nearest others, nearest first.
    pub nearest: Vec<Alternative>,
}

/// A variety that is like another.
#[derive(Debug)]
pub struct Alternative {
    /// The variety.
    pub listed: Listed,
    /// How far it is: 0 the same, 1 as far as any two can be.
    pub distance: f64,
    /// How many traits could be compared.
    pub compared: usize,
    /// Whether they are enough of what is known of the asked one.
    pub known: Known,
    /// Why, in words.
    pub reason: String,
}

/// The varieties most like the one of that name or alias.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`] with the nearest name; a guide's fault; what the ledger refuses.
pub fn of(house: &House, name: &str) -> Result<Instead, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let (variety, mut all, guides) = ledger.at_one_moment(|ledger| {
        let variety = names::find(ledger, name)?;
        let guides = guides::read(&guides::accepted(ledger)?)?;
        Ok::<_, HouseFault>((variety, list::everyone(ledger)?, guides))
    })?;
    let words = words(&guides);
    let profiles = profiles(&all, &words);
    let place = all.iter().position(|listed| listed.variety.id == variety.id);
    let place = place.ok_or(HouseFault::NoSuchVariety { name: name.to_owned(), nearest: None })?;
    let near = nearest(&profiles, &words, place)?;
    let nearest = alternatives(&near, &all);
    Ok(Instead { of: all.swap_remove(place), nearest })
}

pub(crate) fn nearest(profiles: &[Profile], words: &Words, place: usize) -> Result<Vec<StandIn>, HouseFault> {
    Ok(Assortment::new(profiles, words)?.nearest(place, MOST_TOLD))
}

pub(crate) fn alternatives(near: &[StandIn], all: &[Listed]) -> Vec<Alternative> {
    let told = |found: &StandIn| {
        Some(Alternative {
            listed: all.get(found.place)?.clone(),
            distance: found.distance,
            compared: found.compared,
            known: found.known,
            reason: found.reasons.to_string(),
        })
    };
    near.iter().filter_map(told).collect()
}
