//! Settings and saved column mappings: what the house prefers, not what it has seen.

use crate::batch::BatchKind;
use crate::fault::LedgerFault;
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::quarantine::{cells, one_line};

/// A column mapping that the house saved for tables with the same headings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SavedMapping {
    /// Its name.
    pub name: String,
    /// What such tables hold.
    pub kind: BatchKind,
    /// The heading cells it is for.
    pub headings: Vec<String>,
    /// The mapping, in the form that the house gives it.
    pub mapping: String,
}

const SET: &str = "INSERT INTO setting (name, value) VALUES ($1, $2)
    ON CONFLICT (name) DO UPDATE SET value = excluded.value";

const SAVE: &str = "INSERT INTO mapping (name, kind, headings, body) VALUES ($1, $2, $3, $4)
    ON CONFLICT (name) DO UPDATE SET kind = excluded.kind, headings = excluded.headings, body = excluded.body";

impl Ledger {
    /// A setting.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn setting(&mut self, name: &str) -> Result<Option<String>, LedgerFault> {
        self.store.first("SELECT value FROM setting WHERE name = $1", &[name.into()], |row| row.words(0))
    }

    /// Every setting, by name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn settings(&mut self) -> Result<Vec<(String, String)>, LedgerFault> {
        let sql = "SELECT name, value FROM setting ORDER BY name";
        self.store.rows(sql, &[], |row| Ok((row.words(0)?, row.words(1)?)))
    }

    /// Changes a setting.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn set(&mut self, name: &str, value: &str) -> Result<(), LedgerFault> {
        self.store.execute(SET, &[name.into(), value.into()]).map(|_| ())
    }

    /// Saves a mapping in the place of the one of that name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn save_mapping(&mut self, mapping: &SavedMapping) -> Result<(), LedgerFault> {
        let headings = one_line(&mapping.headings);
        let values = [
            mapping.name.as_str().into(),
            mapping.kind.word().into(),
            headings.as_str().into(),
            mapping.mapping.as_str().into(),
        ];
        self.store.execute(SAVE, &values).map(|_| ())
    }

    /// Every saved mapping, by name.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn mappings(&mut self) -> Result<Vec<SavedMapping>, LedgerFault> {
        let sql = "SELECT name, kind, headings, body FROM mapping ORDER BY name";
        self.store.rows(sql, &[], |row| {
            Ok(SavedMapping {
                name: row.words(0)?,
                kind: Word::read(row.text(1)?)?,
                headings: cells(row.text(2)?),
                mapping: row.words(3)?,
            })
        })
    }

    /// Forgets a saved mapping; tells whether there was one.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn forget_mapping(&mut self, name: &str) -> Result<bool, LedgerFault> {
        let gone = self.store.execute("DELETE FROM mapping WHERE name = $1", &[name.into()])?;
        Ok(gone > 0)
    }
}
