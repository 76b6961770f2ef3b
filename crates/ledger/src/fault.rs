//! What can go wrong with a ledger, told apart by who can mend it.

use crate::batch::BatchNumber;
use crate::lots::EntryNumber;
use crate::quarantine::QuarantineNumber;
use crate::sales::SalesNumber;
use crate::weather::WeatherNumber;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::lot::Lot;
use record::note::Note;
use record::variety::Variety;
use std::path::PathBuf;
use thiserror::Error;

/// Why the ledger could not do what was asked.
#[derive(Debug, Error)]
pub enum LedgerFault {
    /// Nothing stands at that path.
    #[error("there is no ledger at {}", .0.display())]
    NotThere(PathBuf),
    /// A new ledger was to be made where something stands already.
    #[error("{0} is there already")]
    ThereAlready(String),
    /// Something else stands there: not a database, or not ours.
    #[error("{0} is not a ledger")]
    NotALedger(String),
    /// A backup was to be restored that is none, or is not there.
    #[error("{} is no backup of a ledger", .0.display())]
    NotABackup(PathBuf),
    /// A newer program has written it.
    #[error("the ledger is of form {found}, and this program knows forms up to {known}")]
    NewerForm {
        /// The form found.
        found: u32,
        /// The newest form known here.
        known: u32,
    },
    /// Somebody else has been writing for too long.
    #[error("another program is writing to the ledger and has not finished")]
    Locked,
    /// The server does not answer or refuses us.
    #[error("cannot reach the ledger at {place}: {cause}")]
    CannotReach {
        /// The server, without its password.
        place: String,
        /// What the driver said.
        cause: String,
    },
    /// The disk is full, the file may not be written, or reading failed.
    #[error("the ledger's disk refused: {0}")]
    Disk(String),
    /// One name would mean two varieties. The writer is still usable: reject the row and go on.
    #[error("the name {name:?} already means {holder:?}, so it cannot also mean {wanted:?}")]
    NameClash {
        /// The name or alias, as it was written.
        name: String,
        /// The variety that has it now.
        holder: String,
        /// The variety that was to have it.
        wanted: String,
    },
    /// A variety without a name, a grow-out without a name or a plot without a label. The writer is still
    /// usable.
    #[error("it has no name")]
    Nameless,
    /// A grow-out of that name has another season or garden. The writer is still usable.
    #[error("the grow-out {name:?} is already known as season {season}, garden {garden:?}")]
    GrowOutClash {
        /// Its name.
        name: String,
        /// Its season in the ledger.
        season: i16,
        /// Its garden in the ledger.
        garden: String,
    },
    /// A plot of that label has another variety. The writer is still usable.
    #[error("plot {label:?} of {grow_out:?} is already planted with {holder:?}, not {wanted:?}")]
    PlotClash {
        /// The label on its stake.
        label: String,
        /// Its grow-out.
        grow_out: String,
        /// The variety that the ledger has there.
        holder: String,
        /// The variety that was to be there.
        wanted: String,
    },
    /// Later batches use what this one brought; they must be undone first, or with it.
    #[error("batch {batch} cannot be undone alone: {} on it", resting(.by))]
    RestedOn {
        /// The batch that was to go.
        batch: BatchNumber,
        /// The batches that rest on it, newest first.
        by: Vec<BatchNumber>,
    },
    /// What this batch used is undone; it must be restored first.
    #[error("batch {batch} cannot be restored: it rests on what is undone, batch {}", list(.on))]
    RestsOn {
        /// The batch that was to come back.
        batch: BatchNumber,
        /// The undone batches that it rests on, oldest first.
        on: Vec<BatchNumber>,
    },
    /// The same file was taken again after the undoing; both would count its rows twice.
    #[error("batch {batch} cannot be restored: the same file was taken again as batch {by}")]
    TakenSince {
        /// The batch that was to come back.
        batch: BatchNumber,
        /// The standing batch of the same file.
        by: BatchNumber,
    },
    /// A standing batch took this very file and sheet.
    #[error("this very file was taken before, as batch {0}")]
    TakenAlready(BatchNumber),
    /// A standing weather record comes from this very file.
    #[error("this very file was taken before, as weather record {0}")]
    WeatherTakenAlready(WeatherNumber),
    /// A standing sales record comes from this very file.
    #[error("this very file was taken before, as sales record {0}")]
    SalesTakenAlready(SalesNumber),
    /// No sales record of that number stands, or is withdrawn, as it was asked for.
    #[error("there is no such sales record {0} to be turned")]
    NoSuchSales(SalesNumber),
    /// No weather record of that station stands.
    #[error("no weather of a station {0:?} is kept")]
    NoSuchStation(String),
    /// No weather record of that station is withdrawn.
    #[error("no weather record of {0:?} is withdrawn")]
    NothingWithdrawn(String),
    /// A lot of that number stands.
    #[error("there is a lot {0:?} already")]
    LotThere(String),
    /// No such lot, or it is withdrawn.
    #[error("there is no lot {0}")]
    NoSuchLot(Id<Lot>),
    /// No such entry of the seed room.
    #[error("the seed room has no entry {0}")]
    NoSuchEntry(EntryNumber),
    /// An entry was to be withdrawn that is withdrawn, or restored that stands.
    #[error("entry {0} is so already")]
    EntryIsSo(EntryNumber),
    /// Seed was to be moved that is not there, or a movement taken back that others rest on.
    #[error("seed cannot be moved so")]
    StockRefused,
    /// Lots are of a variety or from a plot that a batch brought.
    #[error("batch {batch} cannot be undone: lots are of what it brought: {}", .lots.join(", "))]
    LotsOf {
        /// The batch that was to go.
        batch: BatchNumber,
        /// The lots' numbers.
        lots: Vec<String>,
    },
    /// No such batch.
    #[error("there is no batch {0}")]
    NoSuchBatch(BatchNumber),
    /// It is undone already.
    #[error("batch {0} is undone already")]
    UndoneAlready(BatchNumber),
    /// It is not undone.
    #[error("batch {0} is not undone")]
    NotUndone(BatchNumber),
    /// No such variety, or its batch is undone.
    #[error("there is no variety {0}")]
    NoSuchVariety(Id<Variety>),
    /// No such grow-out, or its batch is undone.
    #[error("there is no grow-out {0}")]
    NoSuchGrowOut(Id<GrowOut>),
    /// No such plot, or its batch is undone.
    #[error("there is no plot {0}")]
    NoSuchPlot(Id<Plot>),
    /// No such record.
    #[error("there is no record {0}")]
    NoSuchRecord(Id<Note>),
    /// The record is withdrawn, replaced or undone already, so nothing more can be done to it.
    #[error("record {0} no longer stands")]
    NoLongerStands(Id<Note>),
    /// A record can be replaced only by one of the same noun.
    #[error("a {was} cannot be corrected into a {becomes}")]
    OtherNoun {
        /// The noun of the record.
        was: &'static str,
        /// The noun of its replacement.
        becomes: &'static str,
    },
    /// One batch holds more notes than can be numbered.
    #[error("one table holds more than four thousand million notes")]
    TooLarge,
    /// No such quarantined row.
    #[error("there is no quarantined row {0}")]
    NoSuchQuarantined(QuarantineNumber),
    /// The quarantined row is solved already.
    #[error("quarantined row {0} is solved already")]
    SolvedAlready(QuarantineNumber),
    /// Backup and restore here are for files only.
    #[error("a ledger on a PostgreSQL server is backed up by the server's own tools")]
    ServerKeepsItself,
    /// A backup was to be restored that has faults itself.
    #[error("{} is damaged: {finding}", .path.display())]
    DamagedBackup {
        /// The backup.
        path: PathBuf,
        /// The first fault found.
        finding: String,
    },
    /// What is stored cannot be read back: the file was changed by something else or is damaged.
    #[error("the ledger holds what it should not: {0}")]
    Damaged(String),
    /// A fault of this program.
    #[error("the ledger could not {doing}: {cause}")]
    Ours {
        /// What it was doing.
        doing: &'static str,
        /// What the driver said.
        cause: String,
    },
}

/// Who can mend a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mender {
    /// Whoever runs the program: another path, another name, another order.
    User,
    /// Whoever keeps the disk or the server.
    Keeper,
    /// We.
    Us,
}

impl LedgerFault {
    /// Tells who can mend it: exit code 2 for the first two, 1 for our own faults.
    #[must_use]
    pub fn mender(&self) -> Mender {
        match self {
            Self::CannotReach { .. } | Self::Disk(_) | Self::Damaged(_) | Self::DamagedBackup { .. } => {
                Mender::Keeper
            }
            Self::Ours { .. } => Mender::Us,
            _ => Mender::User,
        }
    }

    /// What to do about it, for the line under the fault.
    #[must_use]
    pub fn help(&self) -> Option<&'static str> {
        match self {
            Self::NotThere(_) => Some("put a backup in its place with locule restore FILE"),
            Self::NotALedger(_) => Some("put a good backup in its place with locule restore FILE"),
            Self::NotABackup(_) => Some("name a file that locule backup wrote"),
            Self::ThereAlready(_) => Some("choose another name, or put that file away first"),
            Self::NewerForm { .. } => Some("use the newer program that last wrote to this house"),
            Self::Locked => Some("wait for the other program to finish, then try again"),
            Self::NameClash { .. } => Some("mend the name in the row, or take the other name away first"),
            Self::RestedOn { .. } => Some("undo those batches first, or undo them together with it"),
            Self::RestsOn { .. } => Some("restore those batches first, oldest first"),
            Self::TakenSince { .. } => Some("undo the later batch first, or leave things as they are"),
            Self::OtherNoun { .. } => Some("withdraw the record and write the other one anew"),
            Self::TooLarge => Some("split the file"),
            Self::ServerKeepsItself => Some("use pg_dump to keep and pg_restore to bring back"),
            Self::Damaged(_) => Some("put the last good backup in its place with locule restore FILE"),
            Self::DamagedBackup { .. } => Some("restore an older backup; nothing was changed"),
            Self::CannotReach { .. } => Some(
                "start the server, or mend the postgres line in house.toml: postgresql://user@host/database",
            ),
            Self::Disk(_) => Some(
                "make sure that the disk has room and the house folder may be written, which even reading needs",
            ),
            Self::NoSuchBatch(_) | Self::UndoneAlready(_) | Self::NotUndone(_) => {
                Some("see the numbers with locule history")
            }
            Self::NoSuchQuarantined(_) | Self::SolvedAlready(_) => {
                Some("see the numbers with locule quarantine")
            }
            Self::LotThere(_) => Some("give the new lot another number"),
            Self::NoSuchLot(_) | Self::NoSuchEntry(_) | Self::EntryIsSo(_) => {
                Some("see the lots with locule lot, and a lot's entries with locule lot show NUMBER")
            }
            Self::StockRefused => Some("see what is where with locule lot show NUMBER"),
            Self::LotsOf { .. } => {
                Some("withdraw those lots first: locule lot show NUMBER tells their first entry")
            }
            Self::NoSuchRecord(_) => Some("see the records of a variety with locule show VARIETY --records"),
            Self::NoSuchStation(_) | Self::NothingWithdrawn(_) => {
                Some("see the stations with locule weather; take a station's file with locule take FILE")
            }
            Self::WeatherTakenAlready(_) => Some("withdraw that record first, or leave things as they are"),
            Self::SalesTakenAlready(_) => Some("withdraw that record first, or leave things as they are"),
            Self::NoSuchSales(_) => Some("see the records, and which of them stand, with locule sales"),
            Self::NoLongerStands(_) => Some("see what became of it with locule history RECORD"),
            _ => None,
        }
    }
}

fn list(batches: &[BatchNumber]) -> String {
    batches.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

fn resting(by: &[BatchNumber]) -> String {
    match by {
        [one] => format!("batch {one} rests"),
        several => format!("batches {} rest", list(several)),
    }
}
