//! Bringing one table in: all of it or nothing.

mod earlier;
mod gardens;
mod layouts;
mod lots;
mod marks;
mod names;
pub(crate) mod notes;
mod roster;
mod rows;
mod summary;

use crate::batch::{BatchNumber, BatchSummary, Counts, Source};
use crate::fault::LedgerFault;
use crate::kept::keys::{batch_number, new_batch_uuid};
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::store::session::Session;
use crate::store::value::Value;
use earlier::Earlier;
pub(crate) use earlier::ids_of;
use gardens::known::Gardens;
use jiff::Timestamp;
use jiff::civil::Date;
use names::Names;
use record::growout::{GrowOut, PlotLayout};
use record::id::Id;
use record::season::Season;
use record::variety::{Claim, Variety};
use roster::Roster;
use std::collections::BTreeSet;
use std::fmt;
use summary::Touched;
use uuid::Uuid;

/// A variety as a row names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewVariety {
    /// The name the house sells it by.
    pub name: String,
    /// Other names.
    pub aliases: Vec<String>,
    /// What is claimed of it.
    pub claims: Vec<Claim>,
}

/// A grow-out as a row names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewGrowOut {
    /// The name its keepers use.
    pub name: String,
    /// Its season.
    pub season: Season,
    /// Its garden.
    pub garden: String,
}

/// A plot as a row names it.
#[derive(Clone, Debug, PartialEq)]
pub struct NewPlot {
    /// The grow-out it belongs to.
    pub grow_out: Id<GrowOut>,
    /// The label on its stake.
    pub label: String,
    /// What was planted there.
    pub variety: Id<Variety>,
    /// The strip of like ground.
    pub block: Option<u32>,
    /// Row of the bed map.
    pub row: Option<u32>,
    /// Place along the row.
    pub position: Option<u32>,
    /// The day its plants went out.
    pub transplanted: Option<Date>,
    /// How many plants went out.
    pub plant_count: Option<u32>,
    /// What the layout says of it.
    pub layout: PlotLayout,
}

/// What became of one row's fact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Standing {
    /// It is new.
    Added,
    /// It was there already.
    AlreadyThere,
    /// The plot, plant or variety was there, and this row tells more of it, or something newer.
    Extended,
}

/// A thing that a row named, and what became of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placed<Of> {
    /// Its identifier, new or old.
    pub id: Id<Of>,
    /// What became of the row.
    pub standing: Standing,
}

/// Brings one table into the ledger: every call adds to one transaction, which [`Writer::commit`]
/// makes durable and dropping the writer forgets. Others who want to write wait meanwhile.
pub struct Writer<'ledger> {
    session: Session<'ledger>,
    batch: i64,
    uuid: Uuid,
    at: Timestamp,
    roster: Roster,
    names: Option<Names>,
    gardens: Option<Gardens>,
    earlier: Earlier,
    touched: Touched,
    rests_on: BTreeSet<i64>,
    added: Counts,
    place: u32,
    already_there: u64,
    quarantined: u64,
    next_quarantined: i64,
    committed: bool,
}

impl fmt::Debug for Writer<'_> {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.debug_struct("Writer")
            .field("batch", &self.batch)
            .field("added", &self.added)
            .finish_non_exhaustive()
    }
}

impl Ledger {
    /// Begins a batch, waiting for other writers to finish.
    ///
    /// # Errors
    /// [`LedgerFault::TakenAlready`] where a standing batch took this very file and sheet, perhaps while this
    /// one waited; [`LedgerFault::Locked`] where another writer does not finish, or what the disk or server
    /// refuses.
    pub fn begin_batch(&mut self, source: &Source) -> Result<Writer<'_>, LedgerFault> {
        self.begin(source, |session, source| {
            not_taken_already(session, source)?;
            Earlier::read(session, source)
        })
    }

    /// Begins a batch of a few rows that were mended in quarantine or written by hand: they are no version of
    /// their file, so they are not held against what it brought before.
    ///
    /// # Errors
    /// As [`Ledger::begin_batch`].
    pub fn begin_mending(&mut self, source: &Source) -> Result<Writer<'_>, LedgerFault> {
        self.begin(source, |_, _| Ok(Earlier::default()))
    }

    fn begin(
        &mut self,
        source: &Source,
        earlier: impl FnOnce(&mut Session<'_>, &Source) -> Result<Earlier, LedgerFault>,
    ) -> Result<Writer<'_>, LedgerFault> {
        self.store.begin_writing()?;
        let mut session = self.store.session();
        let begun = earlier(&mut session, source).and_then(|earlier| begin(&mut session, source, earlier));
        match begun {
            Ok(begun) => Ok(begun.with(session)),
            Err(fault) => {
                // The first fault is the one to tell.
                let _ = session.roll_back();
                Err(fault)
            }
        }
    }
}

/// Only whoever holds the pen can be sure: another may have taken the same file while this one waited for it.
fn not_taken_already(session: &mut Session<'_>, source: &Source) -> Result<(), LedgerFault> {
    let Some(file) = &source.sha256 else { return Ok(()) };
    let sql = "SELECT b.number FROM batch b WHERE b.sha256 = $1 AND coalesce(b.sheet, '') = $2
               AND b.number IN (SELECT number FROM standing_batch) ORDER BY b.number";
    let values = [Value::Bytes(&file.0), source.sheet.as_deref().unwrap_or_default().into()];
    match session.first(sql, &values, |row| batch_number(row, 0))? {
        Some(by) => Err(LedgerFault::TakenAlready(by)),
        None => Ok(()),
    }
}

/// What a writer needs to know before the first row.
struct Begun {
    batch: i64,
    uuid: Uuid,
    at: Timestamp,
    roster: Roster,
    earlier: Earlier,
    next_quarantined: i64,
}

impl Begun {
    fn with(self, session: Session<'_>) -> Writer<'_> {
        Writer {
            session,
            batch: self.batch,
            uuid: self.uuid,
            at: self.at,
            roster: self.roster,
            names: None,
            gardens: None,
            earlier: self.earlier,
            touched: Touched::default(),
            rests_on: BTreeSet::new(),
            added: Counts::default(),
            place: 0,
            already_there: 0,
            quarantined: 0,
            next_quarantined: self.next_quarantined,
            committed: false,
        }
    }
}

fn begin(session: &mut Session<'_>, source: &Source, earlier: Earlier) -> Result<Begun, LedgerFault> {
    let batch = session.next_number("batch")?;
    let uuid = new_batch_uuid(source.at);
    add_source(session, batch, uuid, source)?;
    let next_quarantined = session.next_number("quarantine")?;
    Ok(Begun { batch, uuid, at: source.at, roster: Roster::read(session)?, earlier, next_quarantined })
}

fn add_source(session: &mut Session<'_>, batch: i64, uuid: Uuid, source: &Source) -> Result<(), LedgerFault> {
    session.execute(
        "INSERT INTO batch (number, uuid, who, at_us, kind, file_name, sheet, sha256, reading, why)
         VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
        &[
            batch.into(),
            Value::Bytes(uuid.as_bytes()),
            source.who.as_str().into(),
            source.at.into(),
            source.kind.stands_as().word().into(),
            source.file_name.as_deref().into(),
            source.sheet.as_deref().into(),
            source.sha256.as_ref().map(|file| file.0.as_slice()).into(),
            source.reading.as_deref().into(),
            source.why.as_deref().into(),
        ],
    )?;
    if source.kind.is_of_the_seed_room() {
        let values = [batch.into(), source.kind.word().into()];
        session.execute("INSERT INTO seed_room_batch (batch, kind) VALUES ($1, $2)", &values)?;
    }
    for (place, words) in (0_i64..).zip(&source.headings) {
        let values = [batch.into(), place.into(), words.as_str().into()];
        session.execute("INSERT INTO heading (batch, place, words) VALUES ($1, $2, $3)", &values)?;
    }
    Ok(())
}

impl Writer<'_> {
    /// The number this batch will have.
    #[must_use]
    pub fn batch(&self) -> BatchNumber {
        BatchNumber(u32::try_from(self.batch).unwrap_or(u32::MAX))
    }

    /// Makes everything durable and tells what became of it.
    ///
    /// # Errors
    /// What the disk or server refuses; then nothing of the batch was kept.
    pub fn commit(mut self) -> Result<BatchSummary, LedgerFault> {
        let summary = self.write_summary()?;
        self.session.commit()?;
        self.committed = true;
        Ok(summary)
    }

    /// Remembers that this batch uses what another brought.
    fn rest_on(&mut self, other: i64) {
        if other != self.batch {
            self.rests_on.insert(other);
        }
    }
}

impl Drop for Writer<'_> {
    fn drop(&mut self) {
        if !self.committed {
            // Nobody is left to tell; a transaction that is not ended ends with its connection.
            let _ = self.session.roll_back();
        }
    }
}
