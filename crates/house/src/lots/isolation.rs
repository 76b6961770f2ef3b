//! Whether a lot's seed may have crossed: the distance that was told beside the one that suits its flowers, and what stood near.

use super::LotSeen;
use super::fault::SeedRoomFault;
use super::telling::isolation as words;
use crate::fault::HouseFault;
use crate::folder::House;
use crate::kept::{self, KeptFruit};
use ledger::calls::CallSubject;
use ledger::ledger::Ledger;
use record::id::Id;
use record::language::Units;
use record::variety::Variety;
pub use seedroom::trueness::isolation::{CrossingRisk, Isolation, KnownBy};
use seedroom::trueness::isolation::{IsolationGuide, SHIPPED, judged, read};
use std::collections::BTreeSet;
use std::fs;
use std::io::ErrorKind;

/// A lot's isolation, and what its grow-out held beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct LotIsolation {
    /// The distance beside the guide.
    pub isolation: Isolation,
    /// Other varieties in the grow-out of its plot; `None` where its plot is not told.
    pub others: Option<usize>,
}

impl LotIsolation {
    /// All of it in words, a part at a time.
    #[must_use]
    pub fn words(&self, units: Units) -> Vec<String> {
        words(self, units)
    }
}

/// Judges a lot's isolation; `None` where the house's guide tells of no flower.
///
/// # Errors
/// A guide's fault; what the ledger or the disk refuses.
pub fn of(house: &House, seen: &LotSeen) -> Result<Option<LotIsolation>, HouseFault> {
    let guide = guide(house)?;
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let class = fruit_class(&mut ledger, seen.lot.variety)?;
    let told = seen.lot.origin.isolation;
    let Some(isolation) = judged(&guide, &seen.variety, class.as_deref(), told) else { return Ok(None) };
    Ok(Some(LotIsolation { isolation, others: others(&mut ledger, seen)? }))
}

/// The isolation guide: the house's own where it has that file, else the shipped one.
///
/// # Errors
/// A guide's fault; what the disk refuses.
pub fn guide(house: &House) -> Result<IsolationGuide, HouseFault> {
    let (file, shipped) = SHIPPED;
    let own = house.folder.join(file);
    let text = match fs::read_to_string(&own) {
        Ok(text) => text,
        Err(fault) if fault.kind() == ErrorKind::NotFound => shipped.to_owned(),
        Err(fault) => return Err(HouseFault::file(&own, fault)),
    };
    Ok(read(file, &text).map_err(SeedRoomFault::from)?)
}

fn fruit_class(ledger: &mut Ledger, variety: Id<Variety>) -> Result<Option<String>, HouseFault> {
    let calls = ledger.calls_of(variety)?;
    let fruit = calls.iter().find(|call| call.subject == CallSubject::FruitClass);
    let kept: Option<KeptFruit> = fruit.and_then(|call| kept::read(&call.detail));
    Ok(kept.and_then(|kept| kept.call.verdict))
}

/// Other varieties that stood in the grow-out of a lot's plot.
fn others(ledger: &mut Ledger, seen: &LotSeen) -> Result<Option<usize>, HouseFault> {
    let Some(plot) = seen.lot.origin.plot else { return Ok(None) };
    let plots = ledger.plots()?;
    let Some(own) = plots.iter().find(|one| one.id == plot) else { return Ok(None) };
    let beside = plots.iter().filter(|one| one.grow_out == own.grow_out && one.variety != seen.lot.variety);
    let varieties: BTreeSet<Id<Variety>> = beside.map(|plot| plot.variety).collect();
    Ok(Some(varieties.len()))
}
