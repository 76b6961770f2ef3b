//! Lots of seed and notes of them that a table brings: entries of the seed room's books, with the row that each came from.

use crate::batch::Act;
use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::lots::reading::{entries, own_number};
use crate::lots::writing::{add_notes, found};
use crate::lots::{EntryState, NewLot};
use crate::names::label_key;
use crate::store::session::Session;
use crate::writer::{Standing, Writer};
use record::id::Id;
use record::lot::{Lot, LotNote};
use record::variety::Variety;

impl Writer<'_> {
    /// Founds a lot with what its row tells of it. A lot of that number, variety and season is there already.
    ///
    /// Of seed, notes may only tell what came into the jar: the books are not asked about stock here.
    ///
    /// # Errors
    /// [`LedgerFault::LotThere`] where another lot has the number; what the disk or server refuses.
    pub fn add_lot(&mut self, row: u64, lot: &NewLot, notes: &[LotNote]) -> Result<Standing, LedgerFault> {
        if let Some((variety, season)) = standing(&mut self.session, &lot.number)? {
            if (variety, season) != (lot.variety, i64::from(lot.season.year())) {
                return Err(LedgerFault::LotThere(lot.number.clone()));
            }
            self.already_there += 1;
            return Ok(Standing::AlreadyThere);
        }
        let act = self.act()?;
        let id = found(&mut self.session, lot, notes.to_vec(), &act, &mut |_| true)?;
        let own = own_number(&mut self.session, id)?;
        let sql = "SELECT number FROM lot_entry WHERE lot = $1 ORDER BY number";
        let entries = self.session.rows(sql, &[own.into()], |row| row.whole(0))?;
        self.added.lots += 1;
        self.added.lot_entries += u64::try_from(entries.len().saturating_sub(1)).unwrap_or(u64::MAX);
        entries.into_iter().try_for_each(|entry| self.taken(row, entry))?;
        Ok(Standing::Added)
    }

    /// Notes something of a lot; the same note that stands already is not written twice.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchLot`]; what the disk or server refuses.
    pub fn add_lot_note(&mut self, row: u64, lot: Id<Lot>, note: &LotNote) -> Result<Standing, LedgerFault> {
        let known = entries(&mut self.session, Some(lot))?;
        let stands = known.iter().filter(|entry| entry.state == EntryState::Standing);
        if stands.filter_map(|entry| entry.note.as_ref()).any(|known| known == note) {
            self.already_there += 1;
            return Ok(Standing::AlreadyThere);
        }
        let act = self.act()?;
        for entry in add_notes(&mut self.session, &[(lot, note.clone())], &act, &mut |_| true)? {
            self.taken(row, entry.0.into())?;
            self.added.lot_entries += 1;
        }
        Ok(Standing::Added)
    }

    fn taken(&mut self, row: u64, entry: i64) -> Result<(), LedgerFault> {
        let row = i64::try_from(row).unwrap_or(i64::MAX);
        let sql = "INSERT INTO lot_entry_taken (entry, batch, source_row) VALUES ($1, $2, $3)";
        self.session.execute(sql, &[entry.into(), self.batch.into(), row.into()]).map(|_| ())
    }

    /// Who brings the batch in, and when.
    fn act(&mut self) -> Result<Act, LedgerFault> {
        let sql = "SELECT who, file_name FROM batch WHERE number = $1";
        let found = self.session.first(sql, &[self.batch.into()], |row| {
            Ok(Act { who: row.words(0)?, at: self.at, why: row.words_or_none(1)? })
        })?;
        found.ok_or_else(|| LedgerFault::Damaged("a batch that is being written is not there".to_owned()))
    }
}

/// The variety and season of the standing lot of a number.
fn standing(session: &mut Session<'_>, number: &str) -> Result<Option<(Id<Variety>, i64)>, LedgerFault> {
    let sql = "SELECT v.uuid, l.season FROM standing_lot l JOIN variety v ON v.number = l.variety WHERE l.lot_key = $1";
    let key = label_key(number);
    session.first(sql, &[key.as_str().into()], |row| Ok((keys::id(row, 0)?, row.whole(1)?)))
}
