//! Gardens: where they lie, whose weather is theirs, and what frost their keeper will risk.

use crate::fault::HouseFault;
use crate::folder::House;
use ledger::batch::Act;
pub use ledger::gardens::Garden;
use ledger::ledger::Ledger;
use ledger::names::label_key;

/// Every garden, by name: those that were told of and those of grow-outs.
///
/// # Errors
/// What the ledger refuses.
pub fn gardens(house: &House) -> Result<Vec<Garden>, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.gardens()?)
}

/// One garden.
///
/// # Errors
/// [`HouseFault::NoSuchGarden`]; what the ledger refuses.
pub fn one(house: &House, name: &str) -> Result<Garden, HouseFault> {
    let known = gardens(house)?;
    let wanted = label_key(name);
    let none = || HouseFault::NoSuchGarden(name.to_owned());
    known.into_iter().find(|garden| label_key(&garden.name) == wanted).ok_or_else(none)
}

/// Writes down what is said of a garden; what is not said now stays as it was. A garden that nobody knew is a new one.
///
/// # Errors
/// What the ledger refuses, such as a garden without a name.
pub fn tell(house: &House, told: Garden, act: &Act) -> Result<Garden, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let wanted = label_key(&told.name);
    let known = ledger.gardens()?.into_iter().find(|garden| label_key(&garden.name) == wanted);
    let known = known.unwrap_or_else(|| Garden { name: told.name.trim().to_owned(), ..Garden::default() });
    let garden = Garden {
        name: known.name,
        place: told.place.or(known.place),
        weather: told.weather.or(known.weather),
        frost_risk_in_100: told.frost_risk_in_100.or(known.frost_risk_in_100),
    };
    ledger.tell_of_garden(&garden, act)?;
    Ok(garden)
}
