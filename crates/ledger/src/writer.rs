//! Bringing one table in: all of it or nothing.

use crate::batch::{BatchNumber, BatchSummary, Source};
use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use crate::quarantine::{QuarantineNumber, Rejected};
use jiff::civil::Date;
use record::doubt::Doubt;
use record::growout::{GrowOut, Plant, Plot};
use record::id::Id;
use record::note::Note;
use record::season::Season;
use record::variety::{Claim, Variety};
use std::marker::PhantomData;

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
#[derive(Clone, Debug, PartialEq, Eq)]
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
#[derive(Debug)]
pub struct Writer<'ledger> {
    ledger: PhantomData<&'ledger mut Ledger>,
}

impl Ledger {
    /// Begins a batch, waiting for other writers to finish.
    ///
    /// # Errors
    /// [`LedgerFault::Locked`] where another writer does not finish, or what the disk or server refuses.
    pub fn begin_batch(&mut self, source: &Source) -> Result<Writer<'_>, LedgerFault> {
        unimplemented!("{source:?}")
    }
}

impl Writer<'_> {
    /// The number this batch will have.
    #[must_use]
    pub fn batch(&self) -> BatchNumber {
        unimplemented!()
    }

    /// Adds a variety, or adds to the one of that name what it does not have yet.
    ///
    /// # Errors
    /// [`LedgerFault::NameClash`] where one of its names means another variety; the writer is still usable
    /// and nothing of the row was added. Else what the disk or server refuses.
    pub fn add_variety(&mut self, row: u64, new: &NewVariety) -> Result<Placed<Variety>, LedgerFault> {
        unimplemented!("{row} {new:?}")
    }

    /// Adds a grow-out, or finds the one of that name.
    ///
    /// # Errors
    /// [`LedgerFault::GrowOutClash`] where that name has another season or garden; the writer is still
    /// usable. Else what the disk or server refuses.
    pub fn add_grow_out(&mut self, row: u64, new: &NewGrowOut) -> Result<Placed<GrowOut>, LedgerFault> {
        unimplemented!("{row} {new:?}")
    }

    /// Adds a plot, or adds to the one of that label what is new about it; the newest row wins.
    ///
    /// # Errors
    /// [`LedgerFault::PlotClash`] where that label has another variety; the writer is still usable.
    /// [`LedgerFault::NoSuchGrowOut`], [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn add_plot(&mut self, row: u64, new: &NewPlot) -> Result<Placed<Plot>, LedgerFault> {
        unimplemented!("{row} {new:?}")
    }

    /// Adds a plant, or adds to it what is new; the newest row wins.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchPlot`], or what the disk or server refuses.
    pub fn add_plant(&mut self, row: u64, plant: &Plant) -> Result<Standing, LedgerFault> {
        unimplemented!("{row} {plant:?}")
    }

    /// Adds one note with the doubts about it, unless an earlier version of this file brought it.
    ///
    /// The n-th equal note of a file is held against the n-th equal note of its earlier versions, so two
    /// fruits of one weight stay two fruits, and a file taken again with three new rows adds three.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], [`LedgerFault::NoSuchPlot`], or what the disk or server refuses.
    pub fn add_note(&mut self, row: u64, note: &Note, doubts: &[Doubt]) -> Result<Standing, LedgerFault> {
        unimplemented!("{row} {note:?} {doubts:?}")
    }

    /// Puts one row into quarantine, unless it was quarantined from an earlier version of this file.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn reject(&mut self, rejected: &Rejected) -> Result<Standing, LedgerFault> {
        unimplemented!("{rejected:?}")
    }

    /// Marks a quarantined row of an earlier batch as solved by this one.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchQuarantined`], [`LedgerFault::SolvedAlready`], or what the disk or server refuses.
    pub fn solve(&mut self, quarantined: QuarantineNumber) -> Result<(), LedgerFault> {
        unimplemented!("{quarantined:?}")
    }

    /// Makes everything durable and tells what became of it.
    ///
    /// # Errors
    /// What the disk or server refuses; then nothing of the batch was kept.
    pub fn commit(self) -> Result<BatchSummary, LedgerFault> {
        unimplemented!()
    }
}
