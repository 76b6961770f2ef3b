//! The seed room's books: lots of seed, and every note of them as an entry that can be withdrawn and restored.
//!
//! A note is never edited: of where a lot comes from, and of how it is kept, the newest that stands counts. Whether seed may
//! be moved so is for whoever asks to say; the books hold the pen while they are asked, so that two who take the last packets
//! at once cannot both have them. Start at [`Ledger::lots`] and [`Ledger::lot_entries`].

pub(crate) mod changed;
pub(crate) mod reading;
pub(crate) mod writing;
mod written;

use crate::batch::Act;
use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::ledger::Ledger;
use record::id::Id;
use record::lot::{Lot, LotNote, LotOrigin};
use record::season::Season;
use record::variety::Variety;
use std::collections::HashMap;
use std::fmt;

pub use writing::{LotToFound, NewLot, Stands, Turn};

/// The number of an entry, counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryNumber(pub u32);

impl fmt::Display for EntryNumber {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(to)
    }
}

/// One entry of the books.
#[derive(Clone, Debug, PartialEq)]
pub struct LotEntry {
    /// Its number.
    pub number: EntryNumber,
    /// The lot.
    pub lot: Id<Lot>,
    /// Who wrote it, when and why.
    pub act: Act,
    /// What it says; `None` of the entry that founded the lot.
    pub note: Option<LotNote>,
    /// Whether it stands.
    pub state: EntryState,
}

/// Whether an entry stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EntryState {
    /// It stands.
    Standing,
    /// Somebody withdrew it; it can be restored.
    Withdrawn(Act),
}

impl Ledger {
    /// Every lot that stands, by number. Ask within [`Ledger::at_one_moment`] where entries are read too.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn lots(&mut self) -> Result<Vec<Lot>, LedgerFault> {
        let mut origins = self.newest_origins()?;
        let sql = "SELECT l.number, l.uuid, l.lot_number, v.uuid, l.season FROM standing_lot l
            JOIN variety v ON v.number = l.variety ORDER BY l.lot_key, l.number";
        self.store.rows(sql, &[], |row| {
            let (number, year) = (row.whole(0)?, row.whole(4)?);
            let season = i16::try_from(year).ok().and_then(Season::new);
            Ok(Lot {
                id: keys::id(row, 1)?,
                number: row.words(2)?,
                variety: keys::id::<Variety>(row, 3)?,
                season: season.ok_or_else(|| LedgerFault::Damaged(format!("{year} is no season")))?,
                origin: origins.remove(&number).unwrap_or_default(),
            })
        })
    }

    /// What counts of every lot's origin, by the lot's own number.
    fn newest_origins(&mut self) -> Result<HashMap<i64, LotOrigin>, LedgerFault> {
        let sql = format!(
            "{} WHERE o.entry IN (SELECT max(number) FROM standing_lot_entry WHERE noun = 'origin' GROUP BY lot)",
            reading::ORIGINS
        );
        let origins = self.store.rows(&sql, &[], |row| Ok((row.whole(0)?, reading::origin(row)?)))?;
        Ok(origins.into_iter().collect())
    }

    /// Every entry of a lot, or of all lots where none is named: the oldest first, the withdrawn ones too. Ask within
    /// [`Ledger::at_one_moment`].
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn lot_entries(&mut self, lot: Option<Id<Lot>>) -> Result<Vec<LotEntry>, LedgerFault> {
        reading::entries(&mut self.store.session(), lot)
    }
}
