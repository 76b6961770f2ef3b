//! Reading all that happened to one note.

use crate::batch::Act;
use crate::fault::LedgerFault;
use crate::kept::keys::{batch_number, note_id};
use crate::records::finding::{Found, TABLES};
use crate::records::{Happened, Happening};
use crate::store::session::Session;
use record::id::Id;
use record::note::Note;
use uuid::Uuid;

/// Everything that happened to one note: what was done to it in batches, and the undoings of its own.
const HAPPENINGS: &str = "SELECT e.what, b.number, b.who, b.at_us, b.why, e.other, o.uuid,
        (SELECT count(*) FROM standing_batch s WHERE s.number = b.number), e.place
    FROM (
        SELECT 0 AS place, 'taken' AS what, n.batch AS batch, CAST(NULL AS BIGINT) AS other FROM {table} n WHERE n.id = $1
        UNION ALL SELECT 1, 'replaced another', batch, record FROM correction WHERE replacement = $1
        UNION ALL SELECT 2, 'confirmed', batch, CAST(NULL AS BIGINT) FROM confirmation WHERE record = $1
        UNION ALL SELECT 2, 'withdrawn', batch, CAST(NULL AS BIGINT) FROM withdrawal WHERE record = $1
        UNION ALL SELECT 2, 'replaced by', batch, replacement FROM correction WHERE record = $1
    ) e JOIN batch b ON b.number = e.batch LEFT JOIN batch o ON o.number = e.other / 4294967296
    UNION ALL
    SELECT u.action, u.batch, u.who, u.at_us, u.why, CAST(NULL AS BIGINT), NULL, 1, u.number + 2
    FROM undoing u WHERE u.batch = $2
    ORDER BY 4, 9, 2";

pub(crate) fn happenings(session: &mut Session<'_>, found: &Found) -> Result<Vec<Happening>, LedgerFault> {
    let table = TABLES.iter().find(|(noun, _)| *noun == found.noun).map_or("", |(_, table)| table);
    let sql = HAPPENINGS.replace("{table}", table);
    session.rows(&sql, &[found.number.into(), found.batch.into()], |row| {
        let other = match (row.whole_or_none(5)?, row.bytes_or_none(6)?) {
            (Some(number), Some(batch)) => Some(note_id(Uuid::from_bytes(batch), number)),
            _ => None,
        };
        Ok(Happening {
            batch: batch_number(row, 1)?,
            act: Act { who: row.words(2)?, at: row.moment(3)?, why: row.words_or_none(4)? },
            what: happened(row.text(0)?, other)?,
            stands: row.whole(7)? > 0,
        })
    })
}

fn happened(what: &str, other: Option<Id<Note>>) -> Result<Happened, LedgerFault> {
    match (what, other) {
        ("taken", None) => Ok(Happened::Taken),
        ("confirmed", None) => Ok(Happened::Confirmed),
        ("withdrawn", None) => Ok(Happened::Withdrawn),
        ("undone", None) => Ok(Happened::Undone),
        ("restored", None) => Ok(Happened::Restored),
        ("replaced another", Some(other)) => Ok(Happened::ReplacedAnother(other)),
        ("replaced by", Some(other)) => Ok(Happened::ReplacedBy(other)),
        (other, _) => Err(LedgerFault::Damaged(format!("{other:?} cannot happen to a record"))),
    }
}
