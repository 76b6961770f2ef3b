//! The ledger's own small numbers for varieties, plots and batches, and what the world calls them.
//!
//! Rows refer to each other by small whole numbers, which are short and fast; the world knows
//! UUIDs. A note has no UUID of its own: it has its batch's, with its place in the batch at the end.

use crate::batch::BatchNumber;
use crate::fault::LedgerFault;
use crate::kept::Head;
use crate::store::Store;
use crate::store::row::Row;
use jiff::Timestamp;
use record::growout::{PlantNumber, Plot};
use record::id::Id;
use record::note::Note;
use record::season::Season;
use record::subject::Subject;
use record::variety::Variety;
use uuid::{Builder, Uuid};

/// Bytes at the end of a batch's UUID that are nought, for a note's place in the batch.
const PLACE_BYTES: usize = 4;

/// A new UUIDv7 of that moment.
pub(crate) fn new_uuid(at: Timestamp) -> Uuid {
    Builder::from_unix_timestamp_millis(millis(at), &chance()).into_uuid()
}

/// A new UUIDv7 of that moment for a batch.
pub(crate) fn new_batch_uuid(at: Timestamp) -> Uuid {
    let mut bytes = new_uuid(at).into_bytes();
    bytes.iter_mut().rev().take(PLACE_BYTES).for_each(|byte| *byte = 0);
    Uuid::from_bytes(bytes)
}

/// Moments before 1970 have no UUIDv7; a clock that is so wrong gets the first one.
fn millis(at: Timestamp) -> u64 {
    u64::try_from(at.as_millisecond()).unwrap_or(0)
}

fn chance() -> [u8; 10] {
    let random = Uuid::new_v4().into_bytes();
    let mut taken = [0; 10];
    // The first six bytes of a version 4 UUID are all chance, and so are the last seven.
    let all = random.iter().take(6).chain(random.iter().skip(9)).copied();
    taken.iter_mut().zip(all).for_each(|(to, from)| *to = from);
    taken
}

/// The identifier of the note at a place of a batch.
pub(crate) fn note_id(batch: Uuid, number: i64) -> Id<Note> {
    let place = number.cast_unsigned() & u64::from(u32::MAX);
    Id::from_uuid(Uuid::from_u128(batch.as_u128() | u128::from(place)))
}

/// The batch's UUID and the place in it that a note's identifier is made of.
pub(crate) fn batch_and_place(id: Id<Note>) -> (Uuid, u32) {
    let whole = id.uuid().as_u128();
    let place = whole & u128::from(u32::MAX);
    (Uuid::from_u128(whole ^ place), u32::try_from(place).unwrap_or(u32::MAX))
}

/// A batch's number as it is stored, as people say it.
pub(crate) fn batch_number(row: &Row<'_>, column: usize) -> Result<BatchNumber, LedgerFault> {
    row.small(column).map(BatchNumber)
}

/// A UUID in a column, as an identifier.
pub(crate) fn id<Of>(row: &Row<'_>, column: usize) -> Result<Id<Of>, LedgerFault> {
    row.bytes(column).map(Uuid::from_bytes).map(Id::from_uuid)
}

/// Identifiers by the ledger's own numbers, which run from 1 without gaps.
#[derive(Debug)]
pub(crate) struct Keys {
    varieties: Vec<Option<Id<Variety>>>,
    plots: Vec<Option<Id<Plot>>>,
}

impl Keys {
    /// Reads them all; a house has thousands, not millions.
    pub(crate) fn read(store: &mut Store) -> Result<Self, LedgerFault> {
        Ok(Self {
            varieties: by_number(store, "SELECT number, uuid FROM variety")?,
            plots: by_number(store, "SELECT number, uuid FROM plot")?,
        })
    }

    /// The identifier of a variety.
    pub(crate) fn variety(&self, number: i64) -> Result<Id<Variety>, LedgerFault> {
        found(&self.varieties, number, "variety")
    }

    /// The identifier of a plot.
    pub(crate) fn plot(&self, number: i64) -> Result<Id<Plot>, LedgerFault> {
        found(&self.plots, number, "plot")
    }

    /// What a row is about, from the columns that every note begins with.
    pub(crate) fn subject(&self, row: &Row<'_>, head: &Head) -> Result<Subject, LedgerFault> {
        let year = row.whole(5)?;
        let season = i16::try_from(year).ok().and_then(Season::new);
        Ok(Subject {
            variety: self.variety(head.variety)?,
            season: season.ok_or_else(|| LedgerFault::Damaged(format!("{year} is no season")))?,
            plot: head.plot.map(|plot| self.plot(plot)).transpose()?,
            plant: row.small_or_none(7)?.map(PlantNumber),
        })
    }
}

fn by_number<Of>(store: &mut Store, sql: &str) -> Result<Vec<Option<Id<Of>>>, LedgerFault> {
    let pairs = store.rows(sql, &[], |row| Ok((row.whole(0)?, id::<Of>(row, 1)?)))?;
    let last = pairs.iter().map(|(number, _)| *number).max().unwrap_or(0);
    let mut all = vec![None; usize::try_from(last).unwrap_or(0) + 1];
    for (number, id) in pairs {
        if let Some(place) = usize::try_from(number).ok().and_then(|number| all.get_mut(number)) {
            *place = Some(id);
        }
    }
    Ok(all)
}

fn found<Of>(all: &[Option<Id<Of>>], number: i64, what: &str) -> Result<Id<Of>, LedgerFault> {
    let place = usize::try_from(number).ok();
    let id = place.and_then(|place| all.get(place)).copied().flatten();
    id.ok_or_else(|| LedgerFault::Damaged(format!("there is no {what} {number}")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_notes_identifier_is_its_batchs_and_its_place() {
        let batch = new_batch_uuid(Timestamp::UNIX_EPOCH);
        let id = note_id(batch, crate::kept::note_number(7, 123_456));
        assert_eq!(batch_and_place(id), (batch, 123_456));
        assert_eq!(id.uuid().get_version_num(), 7);
        assert_eq!(batch_and_place(note_id(batch, crate::kept::note_number(7, u32::MAX))), (batch, u32::MAX));
    }

    #[test]
    fn later_notes_have_later_identifiers() {
        let at = |second| Timestamp::from_second(second).unwrap();
        let early = new_batch_uuid(at(1_900_000_000));
        let late = new_batch_uuid(at(1_900_000_001));
        assert!(note_id(early, 5) < note_id(early, 6));
        assert!(note_id(early, 6) < note_id(late, 1));
    }
}
