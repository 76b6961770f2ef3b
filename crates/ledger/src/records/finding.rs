//! Finding one note by its identifier.

use crate::fault::LedgerFault;
use crate::kept::keys::batch_and_place;
use crate::kept::note_number;
use crate::records::Noun;
use crate::store::session::Session;
use crate::store::value::Value;
use record::id::Id;
use record::note::Note;

/// A note's place in the ledger.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Found {
    pub(crate) number: i64,
    pub(crate) noun: Noun,
    pub(crate) batch: i64,
    pub(crate) source_row: i64,
    pub(crate) variety: i64,
}

/// The tables of the five nouns.
pub(crate) const TABLES: [(Noun, &str); 5] = [
    (Noun::FruitSample, "fruit_sample"),
    (Noun::Pick, "pick"),
    (Noun::HeightReading, "height_reading"),
    (Noun::StageNote, "stage_note"),
    (Noun::ColourReading, "colour_reading"),
];

/// Finds a note by its identifier.
pub(crate) fn find(session: &mut Session<'_>, id: Id<Note>) -> Result<Found, LedgerFault> {
    let (uuid, place) = batch_and_place(id);
    let sql = "SELECT number FROM batch WHERE uuid = $1";
    let batch = session.first(sql, &[Value::Bytes(uuid.as_bytes())], |row| row.whole(0))?;
    let batch = batch.ok_or(LedgerFault::NoSuchRecord(id))?;
    let number = note_number(batch, place);
    for (noun, table) in TABLES {
        let sql = format!("SELECT source_row, variety FROM {table} WHERE id = $1");
        let found = session.first(&sql, &[number.into()], |row| {
            Ok(Found { number, noun, batch, source_row: row.whole(0)?, variety: row.whole(1)? })
        })?;
        if let Some(found) = found {
            return Ok(found);
        }
    }
    Err(LedgerFault::NoSuchRecord(id))
}

/// Finds a note that is neither withdrawn nor replaced nor undone.
pub(crate) fn find_standing(session: &mut Session<'_>, id: Id<Note>) -> Result<Found, LedgerFault> {
    let found = find(session, id)?;
    let stands = session.first(
        "SELECT number FROM standing_batch WHERE number = $1 AND $2 NOT IN (SELECT record FROM ended_record)",
        &[found.batch.into(), found.number.into()],
        |row| row.whole(0),
    )?;
    stands.map(|_| found).ok_or(LedgerFault::NoLongerStands(id))
}
