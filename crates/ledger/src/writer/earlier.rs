//! Earlier versions of the same table: what they held, so that only what is new is added.

use crate::batch::Source;
use crate::fault::LedgerFault;
use crate::kept::words::Word;
use crate::records::finding::TABLES;
use crate::store::session::Session;
use crate::store::value::Value;
use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// What standing batches of the same file name, sheet and kind hold.
#[derive(Debug, Default)]
pub(crate) struct Earlier {
    batches: Vec<i64>,
    /// How many notes of each print there are that this version has not shown again yet.
    notes: HashMap<i64, u32, BuildHasherDefault<AsItIs>>,
    /// Quarantined rows of each print that this version has not shown again yet.
    rejects: HashMap<i64, Vec<i64>>,
    seen_again: bool,
}

/// Prints are mixed already, so their lowest bits will do for a hash.
#[derive(Debug, Default)]
struct AsItIs(u64);

impl Hasher for AsItIs {
    fn finish(&self) -> u64 {
        self.0
    }
    fn write(&mut self, bytes: &[u8]) {
        self.0 = bytes.iter().fold(self.0, |hash, byte| hash.rotate_left(8) ^ u64::from(*byte));
    }
    fn write_i64(&mut self, print: i64) {
        self.0 = print.cast_unsigned();
    }
}

impl Earlier {
    /// Reads them; what was done by hand has no earlier versions.
    pub(crate) fn read(session: &mut Session<'_>, source: &Source) -> Result<Self, LedgerFault> {
        let mut earlier = Self::default();
        let Some(file_name) = &source.file_name else { return Ok(earlier) };
        earlier.batches = session.rows(
            "SELECT number FROM batch WHERE file_name = $1 AND kind = $2 AND coalesce(sheet, '') = $3
             AND number IN (SELECT number FROM standing_batch) ORDER BY number",
            &[
                file_name.as_str().into(),
                source.kind.stands_as().word().into(),
                source.sheet.as_deref().unwrap_or_default().into(),
            ],
            |row| row.whole(0),
        )?;
        for batch in earlier.batches.clone() {
            earlier.read_notes(session, batch)?;
            earlier.read_rejects(session, batch)?;
        }
        Ok(earlier)
    }

    fn read_notes(&mut self, session: &mut Session<'_>, batch: i64) -> Result<(), LedgerFault> {
        for (_, table) in TABLES {
            let sql = format!("SELECT print FROM {table} WHERE id BETWEEN $1 AND $2");
            session.stream(&sql, &ids_of(batch), &mut |row| {
                *self.notes.entry(row.whole(0)?).or_default() += 1;
                Ok(std::ops::ControlFlow::Continue(()))
            })?;
        }
        Ok(())
    }

    fn read_rejects(&mut self, session: &mut Session<'_>, batch: i64) -> Result<(), LedgerFault> {
        let sql = "SELECT print, number FROM quarantine WHERE batch = $1 ORDER BY number DESC";
        session.stream(sql, &[batch.into()], &mut |row| {
            self.rejects.entry(row.whole(0)?).or_default().push(row.whole(1)?);
            Ok(std::ops::ControlFlow::Continue(()))
        })
    }

    /// Whether one more note of this print was there; each is found once.
    pub(crate) fn take_note(&mut self, print: i64) -> bool {
        let Some(left) = self.notes.get_mut(&print).filter(|left| **left > 0) else { return false };
        *left -= 1;
        self.seen_again = true;
        true
    }

    /// Whether one more quarantined row of this print was there; each is found once.
    pub(crate) fn take_reject(&mut self, print: i64) -> bool {
        let found = self.rejects.get_mut(&print).and_then(Vec::pop).is_some();
        self.seen_again |= found;
        found
    }

    /// The batches that this version rests on: those of the file, once a row was seen again.
    pub(crate) fn rested_on(&self) -> &[i64] {
        if self.seen_again { &self.batches } else { &[] }
    }

    /// Notes that this version no longer holds.
    pub(crate) fn notes_gone(&self) -> u64 {
        self.notes.values().map(|left| u64::from(*left)).sum()
    }

    /// Quarantined rows that this version no longer holds. A file that shares nothing with the earlier
    /// ones but its name tells nothing of their rows.
    pub(crate) fn rejects_gone(&self) -> Vec<i64> {
        if !self.seen_again {
            return Vec::new();
        }
        let mut gone: Vec<i64> = self.rejects.values().flatten().copied().collect();
        gone.sort_unstable();
        gone
    }
}

/// The first and the last id that notes of a batch can have.
pub(crate) fn ids_of(batch: i64) -> [Value<'static>; 2] {
    use crate::kept::note_number;
    [note_number(batch, 0).into(), note_number(batch, u32::MAX).into()]
}
