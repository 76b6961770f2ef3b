//! Undoing a batch as one, and undoing the undoing. Both are facts; nothing is ever deleted.

use crate::batch::{Act, BatchNumber};
use crate::fault::LedgerFault;
use crate::kept::keys::batch_number;
use crate::ledger::Ledger;
use crate::store::session::Session;
use std::collections::BTreeSet;

/// What to do with standing batches that use what an undone batch brought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Resting {
    /// Undo nothing and name them.
    Refuse,
    /// Undo them too.
    UndoToo,
}

impl Ledger {
    /// The standing batches that rest on this one, directly or through others, newest first.
    ///
    /// A batch rests on another where it uses its varieties or plots, replaces one of its records, or
    /// took only what was new in a later version of its file.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchBatch`], or what the disk or server refuses.
    pub fn resting_on(&mut self, number: BatchNumber) -> Result<Vec<BatchNumber>, LedgerFault> {
        let mut session = self.store.session();
        stands(&mut session, number)?;
        resting_on(&mut session, number)
    }

    /// Undoes a batch, and tells all that were undone, newest first.
    ///
    /// # Errors
    /// [`LedgerFault::RestedOn`] where others rest on it and `resting` refuses;
    /// [`LedgerFault::NoSuchBatch`], [`LedgerFault::UndoneAlready`], or what the disk or server refuses.
    pub fn undo(
        &mut self,
        number: BatchNumber,
        act: &Act,
        resting: Resting,
    ) -> Result<Vec<BatchNumber>, LedgerFault> {
        self.store.writing(|session| {
            if !stands(session, number)? {
                return Err(LedgerFault::UndoneAlready(number));
            }
            let by = resting_on(session, number)?;
            if resting == Resting::Refuse && !by.is_empty() {
                return Err(LedgerFault::RestedOn { batch: number, by });
            }
            let undone: Vec<BatchNumber> = by.into_iter().chain([number]).collect();
            undone.iter().try_for_each(|batch| refuse_lots_of(session, *batch))?;
            undone.iter().try_for_each(|batch| write_down(session, &OF_BATCHES, batch.0, "undone", act))?;
            Ok(undone)
        })
    }

    /// Restores an undone batch.
    ///
    /// # Errors
    /// [`LedgerFault::RestsOn`] where what it used is undone; [`LedgerFault::TakenSince`] where its file
    /// was taken again; [`LedgerFault::NameClash`] and its like where another has its names now;
    /// [`LedgerFault::NoSuchBatch`], [`LedgerFault::NotUndone`], or what the disk or server refuses.
    pub fn restore(&mut self, number: BatchNumber, act: &Act) -> Result<(), LedgerFault> {
        self.store.writing(|session| {
            if stands(session, number)? {
                return Err(LedgerFault::NotUndone(number));
            }
            refuse_missing_ground(session, number)?;
            refuse_second_taking(session, number)?;
            write_down(session, &OF_BATCHES, number.0, "restored", act)?;
            refuse_double_names(session)?;
            refuse_double_grow_outs(session)?;
            refuse_double_plots(session)?;
            refuse_double_endings(session)
        })
    }
}

/// Whether a batch stands.
pub(crate) fn stands(session: &mut Session<'_>, number: BatchNumber) -> Result<bool, LedgerFault> {
    let sql = "SELECT (SELECT count(*) FROM standing_batch s WHERE s.number = b.number)
               FROM batch b WHERE b.number = $1";
    let found = session.first(sql, &[number.0.into()], |row| row.whole(0))?;
    found.map(|standing| standing > 0).ok_or(LedgerFault::NoSuchBatch(number))
}

fn resting_on(session: &mut Session<'_>, number: BatchNumber) -> Result<Vec<BatchNumber>, LedgerFault> {
    let mut found = BTreeSet::new();
    let mut to_ask = vec![number];
    while let Some(asked) = to_ask.pop() {
        let sql =
            "SELECT batch FROM resting WHERE rests_on = $1 AND batch IN (SELECT number FROM standing_batch)";
        for batch in session.rows(sql, &[asked.0.into()], |row| batch_number(row, 0))? {
            if found.insert(batch) {
                to_ask.push(batch);
            }
        }
    }
    Ok(found.into_iter().rev().collect())
}

/// Lots stay in the books, so what they are of stays too.
fn refuse_lots_of(session: &mut Session<'_>, batch: BatchNumber) -> Result<(), LedgerFault> {
    let sql =
        "SELECT l.lot_number FROM standing_lot l JOIN variety v ON v.number = l.variety WHERE v.batch = $1
        UNION SELECT l.lot_number FROM standing_lot l JOIN standing_lot_entry e ON e.lot = l.number
        JOIN lot_origin o ON o.entry = e.number JOIN plot p ON p.number = o.plot WHERE p.batch = $1
        UNION SELECT l.lot_number FROM standing_lot l JOIN standing_lot_entry e ON e.lot = l.number
        JOIN lot_entry_taken t ON t.entry = e.number WHERE t.batch = $1";
    let lots = session.rows(sql, &[batch.0.into()], |row| row.words(0))?;
    if lots.is_empty() { Ok(()) } else { Err(LedgerFault::LotsOf { batch, lots }) }
}

/// Where it is written that something was taken out of use or brought back: the table, and its column of what.
pub(crate) struct Undoings {
    /// The table.
    pub(crate) table: &'static str,
    /// The column that names what was undone.
    pub(crate) what: &'static str,
}

/// Undoings of whole batches.
const OF_BATCHES: Undoings = Undoings { table: "undoing", what: "batch" };

/// Writes down that something was taken out of use or brought back.
///
/// # Errors
/// What the disk or server refuses.
pub(crate) fn write_down(
    session: &mut Session<'_>,
    undoings: &Undoings,
    what: u32,
    action: &str,
    act: &Act,
) -> Result<(), LedgerFault> {
    let Undoings { table, what: column } = undoings;
    let number = session.next_number(table)?;
    session.execute(
        &format!(
            "INSERT INTO {table} (number, {column}, action, who, at_us, why) VALUES ($1, $2, $3, $4, $5, $6)"
        ),
        &[
            number.into(),
            what.into(),
            action.into(),
            act.who.as_str().into(),
            act.at.into(),
            act.why.as_deref().into(),
        ],
    )?;
    Ok(())
}

fn refuse_missing_ground(session: &mut Session<'_>, batch: BatchNumber) -> Result<(), LedgerFault> {
    let sql = "SELECT rests_on FROM resting WHERE batch = $1
               AND rests_on NOT IN (SELECT number FROM standing_batch) ORDER BY rests_on";
    let on = session.rows(sql, &[batch.0.into()], |row| batch_number(row, 0))?;
    if on.is_empty() { Ok(()) } else { Err(LedgerFault::RestsOn { batch, on }) }
}

/// A later batch of the same table was taken while this one was undone, so it holds the same rows.
fn refuse_second_taking(session: &mut Session<'_>, batch: BatchNumber) -> Result<(), LedgerFault> {
    let sql = "SELECT later.number FROM batch this JOIN batch later
        ON later.file_name = this.file_name AND later.kind = this.kind
        AND coalesce(later.sheet, '') = coalesce(this.sheet, '') AND later.number > this.number
        WHERE this.number = $1 AND later.number IN (SELECT number FROM standing_batch)
        ORDER BY later.number";
    match session.first(sql, &[batch.0.into()], |row| batch_number(row, 0))? {
        Some(by) => Err(LedgerFault::TakenSince { batch, by }),
        None => Ok(()),
    }
}

/// Names that stand twice, with both holders. A variety may go by an alias that is also its own name.
const DOUBLE_NAMES: &str = "SELECT one.written, one.holder, other.holder FROM standing_name one
    JOIN standing_name other ON other.name_key = one.name_key AND one.variety < other.variety
    ORDER BY one.name_key";

fn refuse_double_names(session: &mut Session<'_>) -> Result<(), LedgerFault> {
    let double = session.first(DOUBLE_NAMES, &[], |row| {
        Ok(LedgerFault::NameClash { name: row.words(0)?, holder: row.words(1)?, wanted: row.words(2)? })
    })?;
    double.map_or(Ok(()), Err)
}

/// Grow-outs that stand twice.
pub(crate) const DOUBLE_GROW_OUTS: &str = "SELECT one.name, one.season, one.garden FROM grow_out one
    JOIN grow_out other ON other.name_key = one.name_key AND one.number < other.number
    WHERE one.batch IN (SELECT number FROM standing_batch) AND other.batch IN (SELECT number FROM standing_batch)
    ORDER BY one.name_key";

fn refuse_double_grow_outs(session: &mut Session<'_>) -> Result<(), LedgerFault> {
    let double = session.first(DOUBLE_GROW_OUTS, &[], |row| {
        let season = i16::try_from(row.whole(1)?).unwrap_or_default();
        Ok(LedgerFault::GrowOutClash { name: row.words(0)?, season, garden: row.words(2)? })
    })?;
    double.map_or(Ok(()), Err)
}

/// Plots that stand twice.
pub(crate) const DOUBLE_PLOTS: &str = "SELECT one.label, g.name, v.name, w.name FROM plot one
    JOIN plot other ON other.grow_out = one.grow_out AND other.label_key = one.label_key
        AND one.number < other.number
    JOIN grow_out g ON g.number = one.grow_out
    JOIN variety v ON v.number = one.variety JOIN variety w ON w.number = other.variety
    WHERE one.batch IN (SELECT number FROM standing_batch) AND other.batch IN (SELECT number FROM standing_batch)
    ORDER BY g.name_key, one.label_key";

fn refuse_double_plots(session: &mut Session<'_>) -> Result<(), LedgerFault> {
    let double = session.first(DOUBLE_PLOTS, &[], |row| {
        let (label, grow_out) = (row.words(0)?, row.words(1)?);
        Ok(LedgerFault::PlotClash { label, grow_out, holder: row.words(2)?, wanted: row.words(3)? })
    })?;
    double.map_or(Ok(()), Err)
}

/// Notes that were withdrawn or replaced by two standing batches, with the batches.
const DOUBLE_ENDINGS: &str = "SELECT record, min(batch), max(batch) FROM
    (SELECT record, batch FROM withdrawal UNION ALL SELECT record, batch FROM correction) ending
    WHERE batch IN (SELECT number FROM standing_batch) GROUP BY record HAVING count(*) > 1 ORDER BY record";

fn refuse_double_endings(session: &mut Session<'_>) -> Result<(), LedgerFault> {
    let double = session.first(DOUBLE_ENDINGS, &[], |row| {
        Ok(LedgerFault::TakenSince { batch: batch_number(row, 1)?, by: batch_number(row, 2)? })
    })?;
    double.map_or(Ok(()), Err)
}
