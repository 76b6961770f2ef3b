//! Writing the seed room's books: a new lot, notes of lots, and entries withdrawn or restored.

use crate::batch::Act;
use crate::fault::LedgerFault;
use crate::kept::keys::{id, new_uuid};
use crate::kept::print::Print;
use crate::kept::words::Word;
use crate::ledger::Ledger;
use crate::lots::reading::{entries, own_number};
use crate::lots::written::written;
use crate::lots::{EntryNumber, EntryState};
use crate::names::label_key;
use crate::store::session::Session;
use crate::store::value::Value;
use crate::undo::{Undoings, write_down};
use crate::varieties::standing_number;
use record::id::Id;
use record::lot::{Lot, LotNote, LotOrigin};
use record::season::Season;
use record::stock::Movement;
use record::variety::Variety;

/// Undoings of entries.
const UNDOINGS: Undoings = Undoings { table: "lot_undoing", what: "entry" };

/// A lot that is to be founded.
#[derive(Clone, Debug, PartialEq)]
pub struct NewLot {
    /// The lot number that stands on its jar.
    pub number: String,
    /// The variety.
    pub variety: Id<Variety>,
    /// The season of its harvest.
    pub season: Season,
}

/// A lot that is to be founded together with others.
#[derive(Clone, Debug, PartialEq)]
pub struct LotToFound {
    /// The lot.
    pub lot: NewLot,
    /// What is known of it.
    pub notes: Vec<LotNote>,
    /// The place, among those founded with it, of the lot that its parents were sown from; it stands before this one.
    pub sown_from: Option<usize>,
}

/// What becomes of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// It no longer stands.
    Withdrawn,
    /// It stands again.
    Restored,
}

/// Says whether all standing movements of a lot can be together: those that stood, and those to be added.
pub type Stands<'c> = &'c mut dyn FnMut(&[Movement]) -> bool;

impl Ledger {
    /// Founds a lot with what is known of it.
    ///
    /// # Errors
    /// As [`Ledger::found_lots`].
    pub fn found_lot(
        &mut self,
        lot: &NewLot,
        notes: &[LotNote],
        act: &Act,
        stands: Stands<'_>,
    ) -> Result<Id<Lot>, LedgerFault> {
        self.store.writing(|session| found(session, lot, notes.to_vec(), act, stands))
    }

    /// Founds lots with what is known of them, all of them or none.
    ///
    /// # Errors
    /// [`LedgerFault::LotThere`] where a number is taken; [`LedgerFault::Nameless`] of a number without letter or figure;
    /// [`LedgerFault::NoSuchVariety`]; else as [`Ledger::note_lots`].
    pub fn found_lots(
        &mut self,
        lots: &[LotToFound],
        act: &Act,
        stands: Stands<'_>,
    ) -> Result<(), LedgerFault> {
        self.store.writing(|session| {
            let mut founded: Vec<Id<Lot>> = Vec::with_capacity(lots.len());
            for LotToFound { lot, notes, sown_from } in lots {
                let parents = sown_from.and_then(|place| founded.get(place).copied());
                let notes = notes.iter().cloned().map(|note| of_parents(note, parents)).collect();
                founded.push(found(session, lot, notes, act, &mut *stands)?);
            }
            Ok(())
        })
    }

    /// Writes notes of lots down, all of them or none, and tells their numbers in the same order.
    ///
    /// The lot of a movement is the one it is written down for. `stands` is asked once for each lot that seed moves in.
    ///
    /// # Errors
    /// [`LedgerFault::StockRefused`] where `stands` says no; [`LedgerFault::NoSuchLot`], [`LedgerFault::NoSuchPlot`]; what the
    /// disk or server refuses.
    pub fn note_lots(
        &mut self,
        notes: &[(Id<Lot>, LotNote)],
        act: &Act,
        stands: Stands<'_>,
    ) -> Result<Vec<EntryNumber>, LedgerFault> {
        self.store.writing(|session| add_notes(session, notes, act, stands))
    }

    /// Withdraws an entry, or restores one that is withdrawn, and tells the number of its lot.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchEntry`]; [`LedgerFault::EntryIsSo`] where it is so already; [`LedgerFault::StockRefused`] where
    /// what is left of the lot's movements cannot be; [`LedgerFault::LotThere`] where a lot that is to stand again finds its
    /// number taken; what the disk or server refuses.
    pub fn turn_lot_entry(
        &mut self,
        entry: EntryNumber,
        turn: Turn,
        act: &Act,
        stands: Stands<'_>,
    ) -> Result<String, LedgerFault> {
        self.store.writing(|session| {
            let sql = "SELECT l.uuid, l.lot_key, l.lot_number, e.noun FROM lot_entry e
                JOIN seed_lot l ON l.number = e.lot WHERE e.number = $1";
            let found = session.first(sql, &[entry.0.into()], |row| {
                Ok((id::<Lot>(row, 0)?, row.words(1)?, row.words(2)?, row.words(3)?))
            })?;
            let (lot, key, number, noun) = found.ok_or(LedgerFault::NoSuchEntry(entry))?;
            let is_so = match turn {
                Turn::Withdrawn => !is_standing(session, entry)?,
                Turn::Restored => is_standing(session, entry)?,
            };
            if is_so {
                return Err(LedgerFault::EntryIsSo(entry));
            }
            if noun == "lot" && turn == Turn::Restored {
                not_there(session, &key, &number)?;
            }
            write_down(session, &UNDOINGS, entry.0, turn.word(), act)?;
            ask(session, lot, stands)?;
            Ok(number)
        })
    }
}

pub(crate) fn found(
    session: &mut Session<'_>,
    lot: &NewLot,
    notes: Vec<LotNote>,
    act: &Act,
    stands: Stands<'_>,
) -> Result<Id<Lot>, LedgerFault> {
    let key = label_key(&lot.number);
    if key.is_empty() {
        return Err(LedgerFault::Nameless);
    }
    not_there(session, &key, &lot.number)?;
    let variety = standing_number(session, lot.variety)?;
    let (number, uuid) = (session.next_number("seed_lot")?, new_uuid(act.at));
    let own = [
        Value::Text(lot.number.trim()),
        key.as_str().into(),
        variety.into(),
        i64::from(lot.season.year()).into(),
    ];
    let sql = "INSERT INTO seed_lot (number, uuid, lot_number, lot_key, variety, season)
        VALUES ($1, $2, $3, $4, $5, $6)";
    let values: Vec<Value<'_>> =
        [number.into(), Value::Bytes(uuid.as_bytes())].into_iter().chain(own).collect();
    session.execute(sql, &values)?;
    add_entry(session, number, "lot", Print::new().add(&own).done(), act)?;
    let id = Id::from_uuid(uuid);
    let notes: Vec<(Id<Lot>, LotNote)> = notes.into_iter().map(|note| (id, note)).collect();
    add_notes(session, &notes, act, stands)?;
    Ok(id)
}

/// A note of an origin with the lot of the parents, where they were founded with it.
fn of_parents(note: LotNote, parents: Option<Id<Lot>>) -> LotNote {
    match note {
        LotNote::Origin(origin) => {
            LotNote::Origin(LotOrigin { sown_from: parents.or(origin.sown_from), ..origin })
        }
        note => note,
    }
}

fn not_there(session: &mut Session<'_>, key: &str, number: &str) -> Result<(), LedgerFault> {
    let sql = "SELECT count(*) FROM standing_lot WHERE lot_key = $1";
    match session.first(sql, &[key.into()], |row| row.whole(0))?.unwrap_or(0) {
        0 => Ok(()),
        _ => Err(LedgerFault::LotThere(number.to_owned())),
    }
}

fn is_standing(session: &mut Session<'_>, entry: EntryNumber) -> Result<bool, LedgerFault> {
    let sql = "SELECT count(*) FROM standing_lot_entry WHERE number = $1";
    Ok(session.first(sql, &[entry.0.into()], |row| row.whole(0))?.unwrap_or(0) > 0)
}

fn add_entry(
    session: &mut Session<'_>,
    lot: i64,
    noun: &str,
    print: i64,
    act: &Act,
) -> Result<EntryNumber, LedgerFault> {
    let (number, uuid) = (session.next_number("lot_entry")?, new_uuid(act.at));
    session.execute(
        "INSERT INTO lot_entry (number, uuid, lot, noun, print, who, at_us, why)
         VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
        &[
            number.into(),
            Value::Bytes(uuid.as_bytes()),
            lot.into(),
            noun.into(),
            print.into(),
            act.who.as_str().into(),
            act.at.into(),
            act.why.as_deref().into(),
        ],
    )?;
    Ok(EntryNumber(u32::try_from(number).unwrap_or(u32::MAX)))
}

pub(crate) fn add_notes(
    session: &mut Session<'_>,
    notes: &[(Id<Lot>, LotNote)],
    act: &Act,
    stands: Stands<'_>,
) -> Result<Vec<EntryNumber>, LedgerFault> {
    let mut numbers = Vec::with_capacity(notes.len());
    for (lot, note) in notes {
        let own = standing_lot(session, *lot)?;
        let written = written(session, note)?;
        let entry = add_entry(session, own, written.noun, written.print(), act)?;
        written.rows.iter().try_for_each(|row| row.write(session, entry.0.into()))?;
        numbers.push(entry);
    }
    let mut moved: Vec<Id<Lot>> =
        notes.iter().filter(|(_, note)| matches!(note, LotNote::Movement(_))).map(|(lot, _)| *lot).collect();
    moved.sort_unstable();
    moved.dedup();
    moved.into_iter().try_for_each(|lot| ask(session, lot, stands))?;
    Ok(numbers)
}

fn standing_lot(session: &mut Session<'_>, lot: Id<Lot>) -> Result<i64, LedgerFault> {
    let number = own_number(session, lot)?;
    let sql = "SELECT count(*) FROM standing_lot WHERE number = $1";
    match session.first(sql, &[number.into()], |row| row.whole(0))?.unwrap_or(0) {
        0 => Err(LedgerFault::NoSuchLot(lot)),
        _ => Ok(number),
    }
}

/// Asks whether a lot's movements that now stand can be together.
fn ask(session: &mut Session<'_>, lot: Id<Lot>, stands: Stands<'_>) -> Result<(), LedgerFault> {
    let movements: Vec<Movement> = entries(session, Some(lot))?
        .into_iter()
        .filter(|entry| entry.state == EntryState::Standing)
        .filter_map(|entry| match entry.note {
            Some(LotNote::Movement(movement)) => Some(movement),
            _ => None,
        })
        .collect();
    if stands(&movements) { Ok(()) } else { Err(LedgerFault::StockRefused) }
}
