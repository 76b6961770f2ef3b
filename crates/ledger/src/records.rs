//! Single records with where they came from and what has happened to them since.

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::kept::keys::{Keys, batch_and_place, batch_number, note_id};
use crate::kept::read::each_note;
use crate::kept::words::Word;
use crate::kept::{Head, Kept, note_number, of_one_variety, order, select};
use crate::ledger::Ledger;
use crate::store::Store;
use crate::store::session::Session;
use crate::store::value::Value;
use crate::varieties::standing_number;
use crate::writer::ids_of;
use jiff::Timestamp;
use record::colour::ColourReading;
use record::doubt::Doubt;
use record::fruit::FruitSample;
use record::height::HeightReading;
use record::id::Id;
use record::note::Note;
use record::pick::Pick;
use record::stage::StageNote;
use record::variety::Variety;
use std::collections::HashMap;
use std::ops::ControlFlow;
use uuid::Uuid;

/// The five nouns that notes are of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Noun {
    /// A fruit weighed, measured or cut.
    FruitSample,
    /// Fruit taken on one day.
    Pick,
    /// A plant's height.
    HeightReading,
    /// Something seen on a walk.
    StageNote,
    /// A colour read.
    ColourReading,
}

/// A note in the ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded {
    /// Its identifier.
    pub id: Id<Note>,
    /// What was seen.
    pub note: Note,
    /// Where it came from.
    pub from: Provenance,
    /// What made somebody doubt it.
    pub doubts: Vec<Doubt>,
    /// Whether it counts.
    pub state: RecordState,
}

/// Where a record came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Provenance {
    /// The batch.
    pub batch: BatchNumber,
    /// Who brought it in.
    pub who: String,
    /// When.
    pub at: Timestamp,
    /// The file, unless it was written by hand.
    pub file_name: Option<String>,
    /// The sheet of a workbook.
    pub sheet: Option<String>,
    /// The row of the file, counted from 1; of what was corrected, for a correction.
    pub row: u64,
}

/// Whether a record counts as evidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RecordState {
    /// It counts.
    Standing,
    /// It was doubted, looked at and confirmed in that batch; it counts.
    Confirmed(BatchNumber),
    /// It is doubted and does not count until it is confirmed.
    SetAside,
    /// It was withdrawn in that batch.
    Withdrawn(BatchNumber),
    /// That record replaced it.
    Replaced(Id<Note>),
    /// The batch it came in with is undone.
    Undone,
}

/// One thing that happened to a record.
#[derive(Clone, Debug, PartialEq)]
pub struct Happening {
    /// The batch in which it happened, or which was undone or restored.
    pub batch: BatchNumber,
    /// Who, when and why.
    pub act: Act,
    /// What happened.
    pub what: Happened,
    /// Whether the batch stands; if not, it is as if this had not happened.
    pub stands: bool,
}

/// What happened to a record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Happened {
    /// It came in.
    Taken,
    /// It replaced that one.
    ReplacedAnother(Id<Note>),
    /// It was confirmed against its doubts.
    Confirmed,
    /// It was withdrawn.
    Withdrawn,
    /// That one replaced it.
    ReplacedBy(Id<Note>),
    /// Its batch was undone.
    Undone,
    /// Its batch was restored.
    Restored,
}

impl Ledger {
    /// Every note about one variety, whatever its state, by noun and in the order they came in.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn records_of(&mut self, variety: Id<Variety>) -> Result<Vec<Recorded>, LedgerFault> {
        let number = standing_number(&mut self.store.session(), variety)?;
        read_records(&mut self.store, of_one_variety, &[number.into()])
    }

    /// Every note that came in with one batch, by noun and in the order they came in.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn records_in(&mut self, batch: BatchNumber) -> Result<Vec<Recorded>, LedgerFault> {
        let between = |_: &str| "n.id BETWEEN $1 AND $2".to_owned();
        read_records(&mut self.store, between, &ids_of(batch.0.into()))
    }

    /// One note.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchRecord`], or what the disk or server refuses.
    pub fn record(&mut self, id: Id<Note>) -> Result<Recorded, LedgerFault> {
        let found = find(&mut self.store.session(), id)?;
        let mut records = Vec::new();
        let mut reading = Reading::new(&mut self.store)?;
        reading.read_noun(&mut self.store, found.noun, "n.id = $1", &[found.number.into()], &mut records)?;
        records.pop().ok_or(LedgerFault::NoSuchRecord(id))
    }

    /// All that happened to one note, oldest first.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchRecord`], or what the disk or server refuses.
    pub fn happenings(&mut self, id: Id<Note>) -> Result<Vec<Happening>, LedgerFault> {
        let mut session = self.store.session();
        let found = find(&mut session, id)?;
        happenings(&mut session, &found)
    }
}

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
struct Reading {
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
    fn new(store: &mut Store) -> Result<Self, LedgerFault> {
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

    fn read_noun(
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
        let notes = format!("SELECT n.id FROM {} n WHERE {which}", K::TABLE.name);
        let done = Done::read(&mut session, &notes, values)?;
        let sql = format!("{} WHERE {which}{}", select::<K>(), order::<K>(""));
        each_note::<K>(&mut session, &self.keys, &sql, values, &mut |head, kept| {
            records.push(self.recorded(&head, kept.note(), &done)?);
            Ok(ControlFlow::Continue(()))
        })
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

impl Done {
    /// Reads what was done, by batches that stand, to the notes that a query tells.
    fn read(session: &mut Session<'_>, notes: &str, values: &[Value<'_>]) -> Result<Self, LedgerFault> {
        let standing = "batch IN (SELECT number FROM standing_batch)";
        let mut done = Self::default();
        let sql =
            format!("SELECT record, kind, words FROM doubt WHERE record IN ({notes}) ORDER BY record, place");
        session.rows(&sql, values, |row| {
            let doubt = Doubt { kind: Word::read(row.text(1)?)?, words: row.words(2)? };
            done.doubts.entry(row.whole(0)?).or_default().push(doubt);
            Ok(())
        })?;
        let ended = |table: &str| {
            format!(
                "SELECT record, batch FROM {table} WHERE {standing} AND record IN ({notes}) ORDER BY batch DESC"
            )
        };
        let pairs =
            session.rows(&ended("confirmation"), values, |row| Ok((row.whole(0)?, batch_number(row, 1)?)))?;
        done.confirmed.extend(pairs);
        let pairs =
            session.rows(&ended("withdrawal"), values, |row| Ok((row.whole(0)?, batch_number(row, 1)?)))?;
        done.withdrawn.extend(pairs);
        let sql = format!(
            "SELECT record, batch, replacement FROM correction WHERE {standing} AND record IN ({notes})"
        );
        let replaced =
            session.rows(&sql, values, |row| Ok((row.whole(0)?, (row.whole(1)?, row.whole(2)?))))?;
        done.replaced.extend(replaced);
        Ok(done)
    }
}

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

fn happenings(session: &mut Session<'_>, found: &Found) -> Result<Vec<Happening>, LedgerFault> {
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
