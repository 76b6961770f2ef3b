//! Names that no variety has: what they may mean, and saying so. Likeness alone never merges two names.

use crate::again::{self, TakenAgain};
use crate::asked::Asked;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::quarantine::Mending;
use crate::roster;
use intake::rejection::RowFault;
use ledger::batch::Act;
use ledger::ledger::Ledger;
use ledger::quarantine::Listed;
use record::variety::Variety;
use std::collections::BTreeMap;

/// A name in the quarantine that no variety has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownName {
    /// The name as written.
    pub name: String,
    /// How many rows wait for it.
    pub rows: u64,
    /// The known name that is nearest, where one is near.
    pub nearest: Option<String>,
}

/// The names that rows in the quarantine wait for, by how many wait.
///
/// # Errors
/// What the ledger refuses.
pub fn unknown(house: &House) -> Result<Vec<UnknownName>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let roster = roster::gather(&mut ledger)?;
    let mut names: BTreeMap<String, u64> = BTreeMap::new();
    for row in ledger.quarantine(Listed::Waiting)? {
        let value = row.rejected.value;
        if row.rejected.reason == RowFault::UnknownVariety(value.clone()).to_string() {
            *names.entry(value).or_default() += 1;
        }
    }
    let mut unknown: Vec<UnknownName> = names
        .into_iter()
        .map(|(name, rows)| {
            let nearest = roster.nearest(&name).map(|suggestion| suggestion.nearest);
            UnknownName { name, rows, nearest }
        })
        .collect();
    unknown.sort_by_key(|unknown| std::cmp::Reverse(unknown.rows));
    Ok(unknown)
}

/// Takes `name` for another name of `variety` from now on, and takes the rows that waited for it, or for
/// what those rows bring, again.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`]; [`HouseFault::NotAName`]; a name clash where it means another; what the ledger refuses.
pub fn accept(house: &House, name: &str, variety: &str, mending: &Mending) -> Result<TakenAgain, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let variety = find(&mut ledger, variety)?;
    let act = Act { who: mending.who.clone(), at: mending.at, why: Some("a spelling accepted".to_owned()) };
    if !name.chars().any(char::is_alphanumeric) {
        return Err(HouseFault::NotAName(name.to_owned()));
    }
    let known = ledger.variety_named(name)?.is_some_and(|known| known.id == variety.id);
    if !known {
        ledger.add_alias(&act, variety.id, name)?;
    }
    again::take_again(&mut ledger, Listed::Waiting, &Asked::default(), mending)
}

/// The variety of a name or alias.
///
/// # Errors
/// [`HouseFault::NoSuchVariety`] with the nearest name; what the ledger refuses.
pub fn find(ledger: &mut Ledger, name: &str) -> Result<Variety, HouseFault> {
    if let Some(variety) = ledger.variety_named(name)? {
        return Ok(variety);
    }
    let nearest = roster::gather(ledger)?.nearest(name).map(|suggestion| suggestion.nearest);
    Err(HouseFault::NoSuchVariety { name: name.to_owned(), nearest })
}
