//! Doubted records: seeing them, confirming those that are right, and withdrawing or correcting others.

use crate::fault::HouseFault;
use crate::folder::House;
use ledger::batch::{Act, BatchNumber};
use ledger::ledger::Ledger;
pub use ledger::records::{Happened, Happening, Provenance, RecordState, Recorded};
use record::id::Id;
use record::note::Note;

/// Most doubted records that one look lists.
const MOST_LISTED: u32 = 1000;

/// Records that are set aside until somebody has looked at them, with the name of their variety.
///
/// # Errors
/// What the ledger refuses.
pub fn doubted(house: &House) -> Result<Vec<(String, Recorded)>, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let doubted = ledger.doubted(MOST_LISTED)?;
    let mut named = Vec::with_capacity(doubted.len());
    for recorded in doubted {
        let name = ledger.variety(subject(&recorded.note).variety)?.name;
        named.push((name, recorded));
    }
    Ok(named)
}

/// Confirms doubted records, so that they count.
///
/// # Errors
/// [`HouseFault::CountsAlready`]; what the ledger refuses, such as a record that no longer stands.
pub fn confirm(house: &House, act: &Act, records: &[Id<Note>]) -> Result<BatchNumber, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    for record in records {
        let state = ledger.record(*record)?.state;
        if matches!(state, RecordState::Standing | RecordState::Confirmed(_)) {
            return Err(HouseFault::CountsAlready(*record));
        }
    }
    Ok(ledger.confirm(act, records)?)
}

/// Takes wrong records out of use; they stay in the history.
///
/// # Errors
/// What the ledger refuses, such as a record that no longer stands.
pub fn withdraw(house: &House, act: &Act, records: &[Id<Note>]) -> Result<BatchNumber, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.withdraw(act, records)?)
}

/// All that happened to one record, oldest first.
///
/// # Errors
/// What the ledger refuses.
pub fn happenings(house: &House, record: Id<Note>) -> Result<(Recorded, Vec<Happening>), HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    Ok((ledger.record(record)?, ledger.happenings(record)?))
}

/// What a note is about.
#[must_use]
pub fn subject(note: &Note) -> record::subject::Subject {
    match note {
        Note::Fruit(fruit) => fruit.subject,
        Note::Pick(pick) => pick.subject,
        Note::Height(height) => height.subject,
        Note::Stage(stage) => stage.subject,
        Note::Colour(colour) => colour.subject,
    }
}
