//! A batch: what came in together from one table of one file, or was done by hand at one time.
//!
//! Every fact belongs to one batch, and the batch knows who brought it, when and where from. A
//! thing done by hand (a correction, a withdrawal, an alias accepted) is a batch too, so that it
//! is seen in the history and can be undone like a file.

use jiff::Timestamp;
use std::fmt;

/// The number of a batch, counted from 1, as people say it: `undo 12`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct BatchNumber(pub u32);

impl fmt::Display for BatchNumber {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(to)
    }
}

/// What a batch holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BatchKind {
    /// Varieties, their aliases and claims.
    Varieties,
    /// A grow-out, its plots and plants.
    GrowOut,
    /// Fruit samples.
    FruitSamples,
    /// Picks.
    Picks,
    /// Height readings.
    Heights,
    /// Stage notes.
    Stages,
    /// Colour readings.
    Colours,
    /// Lots of seed.
    Lots,
    /// Replicates of seed weighed.
    SeedWeighings,
    /// Germination tests.
    GerminationTests,
    /// Something done by hand: a correction, a withdrawal, a confirmation, an alias.
    ByHand,
}

/// The SHA-256 of a whole file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Sha256(pub [u8; 32]);

/// Where the rows of a batch come from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// Who brings it in.
    pub who: String,
    /// When.
    pub at: Timestamp,
    /// What it holds.
    pub kind: BatchKind,
    /// The file's name, without its folder; versions of one file share it. Nothing for what is done by hand.
    pub file_name: Option<String>,
    /// The sheet within a workbook.
    pub sheet: Option<String>,
    /// The file's SHA-256, by which the same file is known again.
    pub sha256: Option<Sha256>,
    /// The cells of its heading row, so that a quarantined row can be read again.
    pub headings: Vec<String>,
    /// How its columns were read, in the form that the house gives it, so that a mended row is read as
    /// the whole table was.
    pub reading: Option<String>,
    /// Why, for what is done by hand; what was said by hand, for what is measured.
    pub why: Option<String>,
}

/// Who does something by hand, when and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Act {
    /// Who.
    pub who: String,
    /// When.
    pub at: Timestamp,
    /// Why, in their words.
    pub why: Option<String>,
}

impl BatchKind {
    /// The kind under which the batch itself stands: tables of the seed room came in a later form and stand among what is
    /// done by hand, with their own kind beside them.
    pub(crate) fn stands_as(self) -> Self {
        if self.is_of_the_seed_room() { Self::ByHand } else { self }
    }

    /// Whether its rows are entries of the seed room's books.
    #[must_use]
    pub fn is_of_the_seed_room(self) -> bool {
        matches!(self, Self::Lots | Self::SeedWeighings | Self::GerminationTests)
    }
}

impl Act {
    /// The source of a batch that this act makes.
    pub(crate) fn source(&self) -> Source {
        Source {
            who: self.who.clone(),
            at: self.at,
            kind: BatchKind::ByHand,
            file_name: None,
            sheet: None,
            sha256: None,
            headings: Vec::new(),
            reading: None,
            why: self.why.clone(),
        }
    }
}

/// How many of each thing a batch added.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Varieties.
    pub varieties: u64,
    /// Aliases.
    pub aliases: u64,
    /// Claims.
    pub claims: u64,
    /// Grow-outs.
    pub grow_outs: u64,
    /// Plots, or new details of plots.
    pub plots: u64,
    /// Plants, or new details of plants.
    pub plants: u64,
    /// Fruit samples.
    pub fruit_samples: u64,
    /// Picks.
    pub picks: u64,
    /// Height readings.
    pub heights: u64,
    /// Stage notes.
    pub stages: u64,
    /// Colour readings.
    pub colours: u64,
    /// Records among these that carry a doubt.
    pub doubted: u64,
    /// Records of other batches that it confirmed.
    pub confirmed: u64,
    /// Records of other batches that it withdrew.
    pub withdrawn: u64,
    /// Records of other batches that it replaced.
    pub corrected: u64,
    /// Lots of seed.
    pub lots: u64,
    /// Other entries of the seed room's books.
    pub lot_entries: u64,
}

impl Counts {
    /// Notes of all five nouns.
    #[must_use]
    pub fn notes(&self) -> u64 {
        self.fruit_samples + self.picks + self.heights + self.stages + self.colours
    }
}

/// What became of one table, told when its batch is committed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BatchSummary {
    /// The batch.
    pub batch: BatchNumber,
    /// What it added.
    pub added: Counts,
    /// Rows' facts that the ledger had already from an earlier version of the file.
    pub already_there: u64,
    /// Facts of earlier versions of the file that this version no longer holds. They still stand.
    pub gone: u64,
    /// Rows put into quarantine.
    pub quarantined: u64,
    /// Quarantined rows of earlier versions that this version no longer holds, now marked as solved.
    pub solved: u64,
}

/// A batch as the history shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BatchInfo {
    /// Its number.
    pub number: BatchNumber,
    /// Where its rows came from. The headings are left out here: see `Ledger::headings`.
    pub source: Source,
    /// What it added.
    pub added: Counts,
    /// Rows' facts that were there already.
    pub already_there: u64,
    /// Facts of earlier versions that its file no longer held.
    pub gone: u64,
    /// Rows it put into quarantine.
    pub quarantined: u64,
    /// Of these, how many still wait.
    pub waiting: u64,
    /// Whether it stands.
    pub state: BatchState,
}

/// Whether a batch stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BatchState {
    /// It counts.
    Standing,
    /// It has been undone and can be restored.
    Undone(Act),
}
