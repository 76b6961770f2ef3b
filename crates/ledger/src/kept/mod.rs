//! How each noun is kept: its table, its values on the way in, and itself on the way out.

pub(crate) mod colour;
pub(crate) mod fruit;
pub(crate) mod height;
pub(crate) mod keys;
pub(crate) mod pick;
pub(crate) mod print;
pub(crate) mod read;
pub(crate) mod stage;
pub(crate) mod values;
pub(crate) mod words;

use crate::fault::LedgerFault;
use crate::records::Noun;
use crate::store::row::Row;
use crate::store::session::Table;
use record::note::Note;
use record::pick::Cull;
use record::subject::Subject;
use values::Values;

/// Columns that every note begins with, in the order of its values.
/// They are followed by the noun's own.
pub(crate) const SHARED: usize = 8;

/// What a query reads of every note before its own columns.
const READ_FIRST: &str = "n.id, n.batch, n.source_row, n.print, n.variety, n.season, n.plot, n.plant";

/// A noun as it is kept.
pub(crate) trait Kept: Sized {
    /// Which noun.
    const NOUN: Noun;
    /// Its table, with the shared columns first.
    const TABLE: &'static Table;
    /// A table of parts that hang on it, joined as `part`: how, and which columns to read of it.
    const PARTS: Option<(&'static str, &'static str)> = None;

    /// What the note is about.
    fn subject(&self) -> &Subject;

    /// Its own values, in the order of the table's columns.
    fn own<'a>(&'a self, values: &mut Values<'a>);

    /// Reads it back; its own columns begin at `SHARED`.
    fn read(row: &Row<'_>, subject: Subject) -> Result<Self, LedgerFault>;

    /// Takes one more part from a row that reads like the one before.
    fn take_part(&mut self, _row: &Row<'_>) -> Result<(), LedgerFault> {
        Ok(())
    }

    /// Its culls, which only a pick has.
    fn culls(&self) -> &[Cull] {
        &[]
    }

    /// Makes it a note.
    fn note(self) -> Note;
}

/// The beginning of a query that reads a noun; its table is `n`.
pub(crate) fn select<K: Kept>() -> String {
    let own: Vec<String> = K::TABLE.columns.iter().skip(SHARED).map(|column| format!("n.{column}")).collect();
    let (join, parts) = K::PARTS.unwrap_or_default();
    let parts = if parts.is_empty() { String::new() } else { format!(", {parts}") };
    format!("SELECT {READ_FIRST}, {}{parts} FROM {} n {join}", own.join(", "), K::TABLE.name)
}

/// The order that keeps the parts of one note together.
pub(crate) fn order<K: Kept>(first: &str) -> String {
    let last = if K::PARTS.is_some() { ", part.place" } else { "" };
    format!(" ORDER BY {first}n.id{last}")
}

/// What every row of a note begins with.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Head {
    pub(crate) id: i64,
    pub(crate) batch: i64,
    pub(crate) source_row: i64,
    pub(crate) print: i64,
    pub(crate) variety: i64,
    pub(crate) plot: Option<i64>,
}

impl Head {
    pub(crate) fn read(row: &Row<'_>) -> Result<Self, LedgerFault> {
        Ok(Self {
            id: row.whole(0)?,
            batch: row.whole(1)?,
            source_row: row.whole(2)?,
            print: row.whole(3)?,
            variety: row.whole(4)?,
            plot: row.whole_or_none(6)?,
        })
    }
}

/// The values that every print and every row begins with: what the note is about.
pub(crate) fn shared(values: &mut Values<'_>, subject: &Subject, variety: i64, plot: Option<i64>) {
    values.push(variety);
    values.push(i64::from(subject.season.year()));
    values.push(plot);
    values.push(subject.plant.map(|plant| plant.0));
}

/// The number in the ledger of a note: its batch and its place in it.
pub(crate) fn note_number(batch: i64, place: u32) -> i64 {
    batch * (1 << 32) + i64::from(place)
}

/// What stands in a column that is no word, measure or count of ours.
pub(crate) fn damaged(noun: Noun, what: &str, row: &Row<'_>) -> LedgerFault {
    let id = row.whole(0).unwrap_or_default();
    LedgerFault::Damaged(format!("{} {id}: {what}", words::Word::word(noun)))
}

/// Which notes of a table are of the variety `$1`. The table that tells which batches touch a variety, and
/// where in them, stands for an index.
pub(crate) fn of_one_variety(table: &str) -> String {
    format!(
        "n.id IN (SELECT m.id FROM touched t JOIN {table} m ON m.id BETWEEN t.first_note AND t.last_note
         AND m.variety = t.variety WHERE t.variety = $1)"
    )
}
