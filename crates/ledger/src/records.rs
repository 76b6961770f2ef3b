//! Single records with where they came from and what has happened to them since.

pub(crate) mod finding;
mod happening;
pub(crate) mod reading;

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::kept::of_one_variety;
use crate::ledger::Ledger;
use crate::varieties::standing_number;
use crate::writer::ids_of;
use finding::find;
use happening::happenings;
use jiff::Timestamp;
use reading::{Reading, read_records};
use record::doubt::Doubt;
use record::id::Id;
use record::note::Note;
use record::variety::Variety;

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
