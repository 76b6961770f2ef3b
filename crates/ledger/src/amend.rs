//! Correcting and withdrawing single records. The old record stays and is no longer counted.

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::records::Noun;
use crate::records::finding::find_standing;
use record::doubt::Doubt;
use record::id::Id;
use record::note::Note;

/// A record that replaced another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Corrected {
    /// The batch in which it did.
    pub batch: BatchNumber,
    /// The new record.
    pub id: Id<Note>,
}

impl Ledger {
    /// Replaces a record by a corrected one, as one batch. It takes the old record's row for its own.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchRecord`], [`LedgerFault::NoLongerStands`], [`LedgerFault::OtherNoun`],
    /// [`LedgerFault::NoSuchVariety`], [`LedgerFault::NoSuchPlot`], or what the disk or server refuses.
    pub fn correct(
        &mut self,
        act: &Act,
        old: Id<Note>,
        note: &Note,
        doubts: &[Doubt],
    ) -> Result<Corrected, LedgerFault> {
        let mut writer = self.begin_mending(&act.source())?;
        let found = find_standing(writer.session(), old)?;
        if found.noun != noun(note) {
            return Err(LedgerFault::OtherNoun { was: found.noun.word(), becomes: noun(note).word() });
        }
        let id = writer.replace(&found, note, doubts)?;
        writer.commit().map(|summary| Corrected { batch: summary.batch, id })
    }

    /// Withdraws records, as one batch.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchRecord`], [`LedgerFault::NoLongerStands`], or what the disk or server refuses.
    pub fn withdraw(&mut self, act: &Act, records: &[Id<Note>]) -> Result<BatchNumber, LedgerFault> {
        let mut writer = self.begin_mending(&act.source())?;
        for id in records {
            let found = find_standing(writer.session(), *id)?;
            writer.withdraw_one(&found)?;
        }
        writer.commit().map(|summary| summary.batch)
    }
}

fn noun(note: &Note) -> Noun {
    match note {
        Note::Fruit(_) => Noun::FruitSample,
        Note::Pick(_) => Noun::Pick,
        Note::Height(_) => Noun::HeightReading,
        Note::Stage(_) => Noun::StageNote,
        Note::Colour(_) => Noun::ColourReading,
    }
}
