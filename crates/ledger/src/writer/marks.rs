//! Things done to single notes: confirmed, withdrawn, replaced.

use crate::fault::LedgerFault;
use crate::kept::keys::note_id;
use crate::kept::words::Word;
use crate::records::finding::Found;
use crate::store::session::Session;
use crate::writer::Writer;
use crate::writer::notes::Noted;
use record::doubt::Doubt;
use record::id::Id;
use record::note::Note;

impl<'ledger> Writer<'ledger> {
    /// The connection, for questions that a mark asks first.
    pub(crate) fn session(&mut self) -> &mut Session<'ledger> {
        &mut self.session
    }

    /// Confirms a doubted note.
    pub(crate) fn confirm_one(&mut self, found: &Found) -> Result<(), LedgerFault> {
        self.mark("INSERT INTO confirmation (record, noun, batch) VALUES ($1, $2, $3)", found)?;
        self.added.confirmed += 1;
        Ok(())
    }

    /// Withdraws a note.
    pub(crate) fn withdraw_one(&mut self, found: &Found) -> Result<(), LedgerFault> {
        self.mark("INSERT INTO withdrawal (record, noun, batch) VALUES ($1, $2, $3)", found)?;
        self.added.withdrawn += 1;
        Ok(())
    }

    /// Replaces a note by another of the same noun.
    pub(crate) fn replace(
        &mut self,
        old: &Found,
        note: &Note,
        doubts: &[Doubt],
    ) -> Result<Id<Note>, LedgerFault> {
        let row = u64::try_from(old.source_row).unwrap_or_default();
        let Noted::Added(new) = self.note(row, note, doubts)? else {
            return Err(LedgerFault::Damaged("a correction found itself in an earlier file".to_owned()));
        };
        self.session.flush()?;
        self.session.execute(
            "INSERT INTO correction (record, noun, batch, replacement) VALUES ($1, $2, $3, $4)",
            &[old.number.into(), old.noun.word().into(), self.batch.into(), new.into()],
        )?;
        self.touched.touch(old.variety);
        self.rest_on(old.batch);
        self.added.corrected += 1;
        Ok(note_id(self.uuid, new))
    }

    fn mark(&mut self, sql: &str, found: &Found) -> Result<(), LedgerFault> {
        let values = [found.number.into(), found.noun.word().into(), self.batch.into()];
        self.session.execute(sql, &values)?;
        self.touched.touch(found.variety);
        Ok(())
    }
}
