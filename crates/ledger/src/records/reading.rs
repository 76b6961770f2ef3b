//! Reading notes with where they came from and what became of them.

use crate::batch::BatchNumber;
use crate::fault::LedgerFault;
use crate::kept::keys::{Keys, batch_number, note_id};
use crate::kept::read::each_note;
use crate::kept::words::Word;
use crate::kept::{Head, Kept, order, select};
use crate::records::finding::TABLES;
use crate::records::{Noun, Provenance, RecordState, Recorded};
use crate::store::Store;
use crate::store::session::Session;
use crate::store::value::Value;
use record::colour::ColourReading;
use record::doubt::Doubt;
use record::fruit::FruitSample;
use record::height::HeightReading;
use record::note::Note;
use record::pick::Pick;
use record::stage::StageNote;
use std::collections::HashMap;
use std::ops::ControlFlow;
use uuid::Uuid;

/// Reads the notes of all nouns that a condition on `n`, told for each noun's table, takes.
pub(crate) fn read_records(
    store: &mut Store,
    which: impl Fn(&str) -> String,
    values: &[Value<'_>],
) -> Result<Vec<Recorded>, LedgerFault> {
    let mut reading = Reading::new(store)?;
    let mut records = Vec::new();
    for (noun, table) in TABLES {
        reading.read_noun(store, noun, &which(table), values, &mut records)?;
    }
    Ok(records)
}

/// What is needed to tell where notes came from and what became of them.
pub(crate) struct Reading {
    keys: Keys,
    batches: HashMap<i64, From>,
}

struct From {
    uuid: Uuid,
    provenance: Provenance,
    stands: bool,
}

/// What was done to notes, by note.
#[derive(Default)]
struct Done {
    doubts: HashMap<i64, Vec<Doubt>>,
    confirmed: HashMap<i64, BatchNumber>,
    withdrawn: HashMap<i64, BatchNumber>,
    replaced: HashMap<i64, (i64, i64)>,
}

impl Reading {
    pub(crate) fn new(store: &mut Store) -> Result<Self, LedgerFault> {
        let sql = "SELECT number, uuid, who, at_us, file_name, sheet,
            (SELECT count(*) FROM standing_batch s WHERE s.number = b.number) FROM batch b";
        let batches = store.rows(sql, &[], |row| {
            let provenance = Provenance {
                batch: batch_number(row, 0)?,
                who: row.words(2)?,
                at: row.moment(3)?,
                file_name: row.words_or_none(4)?,
                sheet: row.words_or_none(5)?,
                row: 0,
            };
            let uuid = Uuid::from_bytes(row.bytes(1)?);
            Ok((row.whole(0)?, From { uuid, provenance, stands: row.whole(6)? > 0 }))
        })?;
        Ok(Self { keys: Keys::read(store)?, batches: batches.into_iter().collect() })
    }

    pub(crate) fn read_noun(
        &mut self,
        store: &mut Store,
        noun: Noun,
        which: &str,
        values: &[Value<'_>],
        records: &mut Vec<Recorded>,
    ) -> Result<(), LedgerFault> {
        match noun {
            Noun::FruitSample => self.read_kept::<FruitSample>(store, which, values, records),
            Noun::Pick => self.read_kept::<Pick>(store, which, values, records),
            Noun::HeightReading => self.read_kept::<HeightReading>(store, which, values, records),
            Noun::StageNote => self.read_kept::<StageNote>(store, which, values, records),
            Noun::ColourReading => self.read_kept::<ColourReading>(store, which, values, records),
        }
    }

    fn read_kept<K: Kept>(
        &mut self,
        store: &mut Store,
        which: &str,
        values: &[Value<'_>],
        records: &mut Vec<Recorded>,
    ) -> Result<(), LedgerFault> {
        let mut session = store.session();
        let sql = format!("{} WHERE {which}{}", select::<K>(), order::<K>(""));
        let mut notes = Vec::new();
        each_note::<K>(&mut session, &self.keys, &sql, values, &mut |head, kept| {
            notes.push((head, kept.note()));
            Ok(ControlFlow::Continue(()))
        })?;
        let done = Done::read(&mut session, notes.iter().map(|(head, _)| head.id))?;
        for (head, note) in notes {
            records.push(self.recorded(&head, note, &done)?);
        }
        Ok(())
    }

    fn recorded(&self, head: &Head, note: Note, done: &Done) -> Result<Recorded, LedgerFault> {
        let from = self.batch(head.batch)?;
        let row = u64::try_from(head.source_row).unwrap_or_default();
        Ok(Recorded {
            id: note_id(from.uuid, head.id),
            note,
            from: Provenance { row, ..from.provenance.clone() },
            doubts: done.doubts.get(&head.id).cloned().unwrap_or_default(),
            state: match from.stands {
                true => self.state(head.id, done)?,
                false => RecordState::Undone,
            },
        })
    }

    /// The state of a note whose batch stands.
    fn state(&self, number: i64, done: &Done) -> Result<RecordState, LedgerFault> {
        if let Some((batch, replacement)) = done.replaced.get(&number) {
            return Ok(RecordState::Replaced(note_id(self.batch(*batch)?.uuid, *replacement)));
        }
        if let Some(batch) = done.withdrawn.get(&number) {
            return Ok(RecordState::Withdrawn(*batch));
        }
        Ok(match (done.doubts.contains_key(&number), done.confirmed.get(&number)) {
            (true, Some(batch)) => RecordState::Confirmed(*batch),
            (true, None) => RecordState::SetAside,
            (false, _) => RecordState::Standing,
        })
    }

    fn batch(&self, number: i64) -> Result<&From, LedgerFault> {
        let missing = || LedgerFault::Damaged(format!("there is no batch {number}"));
        self.batches.get(&number).ok_or_else(missing)
    }
}

/// Notes that one question asks after. Large enough that asking does not count, small enough for any server.
const ASKED_TOGETHER: usize = 500;

impl Done {
    /// Reads what was done to notes by batches that stand.
    fn read(session: &mut Session<'_>, notes: impl Iterator<Item = i64>) -> Result<Self, LedgerFault> {
        let mut done = Self::default();
        let notes: Vec<String> = notes.map(|note| note.to_string()).collect();
        for some in notes.chunks(ASKED_TOGETHER) {
            // Whole numbers of our own, so nothing that somebody wrote comes into the question.
            done.read_some(session, &some.join(", "))?;
        }
        Ok(done)
    }

    fn read_some(&mut self, session: &mut Session<'_>, notes: &str) -> Result<(), LedgerFault> {
        let sql =
            format!("SELECT record, kind, words FROM doubt WHERE record IN ({notes}) ORDER BY record, place");
        session.rows(&sql, &[], |row| {
            let doubt = Doubt { kind: Word::read(row.text(1)?)?, words: row.words(2)? };
            self.doubts.entry(row.whole(0)?).or_default().push(doubt);
            Ok(())
        })?;
        let mark = |session: &mut Session<'_>, table: &str| {
            let sql = format!(
                "SELECT record, batch FROM {table} WHERE record IN ({notes})
                 AND batch IN (SELECT number FROM standing_batch) ORDER BY batch DESC"
            );
            session.rows(&sql, &[], |row| Ok((row.whole(0)?, batch_number(row, 1)?)))
        };
        self.confirmed.extend(mark(session, "confirmation")?);
        self.withdrawn.extend(mark(session, "withdrawal")?);
        let sql = format!(
            "SELECT record, batch, replacement FROM correction WHERE record IN ({notes})
             AND batch IN (SELECT number FROM standing_batch)"
        );
        let replaced = session.rows(&sql, &[], |row| Ok((row.whole(0)?, (row.whole(1)?, row.whole(2)?))))?;
        self.replaced.extend(replaced);
        Ok(())
    }
}
