//! Doubted records that wait for somebody to look at them.

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use crate::records::Recorded;
use crate::records::finding::find_standing;
use crate::records::reading::read_records;
use record::id::Id;
use record::note::Note;

impl Ledger {
    /// Records that are set aside until somebody confirms, corrects or withdraws them, oldest first, at
    /// most `most` of them.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn doubted(&mut self, most: u32) -> Result<Vec<Recorded>, LedgerFault> {
        let which = |_: &str| {
            "n.id IN (SELECT record FROM doubted_record d
            WHERE record / 4294967296 IN (SELECT number FROM standing_batch)
            AND record NOT IN (SELECT record FROM ended_record) ORDER BY record LIMIT $1)"
                .to_owned()
        };
        let mut records = read_records(&mut self.store, which, &[most.into()])?;
        records.sort_by_key(|recorded| (recorded.from.batch, recorded.id));
        Ok(records)
    }

    /// Confirms doubted records, so that they count, as one batch.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchRecord`], [`LedgerFault::NoLongerStands`], or what the disk or server refuses.
    pub fn confirm(&mut self, act: &Act, records: &[Id<Note>]) -> Result<BatchNumber, LedgerFault> {
        let mut writer = self.begin_mending(&act.source())?;
        for id in records {
            let found = find_standing(writer.session(), *id)?;
            writer.confirm_one(&found)?;
        }
        writer.commit().map(|summary| summary.batch)
    }
}
