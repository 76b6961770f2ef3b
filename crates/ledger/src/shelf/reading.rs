//! The list read off the shelf: as many rows as a page shows, and how many there are in all.

use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::ledger::Ledger;
use crate::names::key;
use crate::shelf::conditions::{Conditions, order, sorted_column};
use crate::shelf::wanted::{Part, SortedBy, Want, Way};
use crate::shelf::words::plain_words;
use crate::store::row::Row;
use crate::store::value::Value;
use record::id::Id;
use record::variety::Variety;

/// A row as it is read off the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Read {
    /// The variety.
    pub variety: Id<Variety>,
    /// The key of what its calls rest on; nothing where it was never called.
    pub rests_on: Option<u64>,
    /// What the row shows, in the form that the house gives it.
    pub told: String,
}

/// How many rows there are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counted {
    /// All of them.
    pub rows: u64,
    /// Those with a contested call.
    pub contested: u64,
}

/// How many varieties share a class and a habit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cell {
    /// The class, where one was called.
    pub class: Option<String>,
    /// The habit, where one was called.
    pub habit: Option<String>,
    /// How many.
    pub varieties: u64,
}

/// Some of the rows that are as wanted, and how many there are.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Portion {
    /// How many are as wanted.
    pub counted: Counted,
    /// The rows, in order.
    pub rows: Vec<Read>,
}

impl Ledger {
    /// The rows that are as wanted, in order, and how many there are in all. The shelf must stand: see
    /// [`Ledger::shelf`].
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn shelved(
        &mut self,
        wants: &[Want],
        by: SortedBy,
        way: Way,
        part: Part,
    ) -> Result<Portion, LedgerFault> {
        let mut session = self.store.session();
        let conditions = Conditions::searching(&session, wants);
        let mut values = conditions.values();
        let limit = limit(&mut values, part);
        // What fits is looked for once, then counted and put in order. The order is written twice: inside it ends
        // the reading early, outside it puts the joined rows right.
        let sql = format!(
            "WITH fitting AS MATERIALIZED (SELECT s.variety, s.name_key, s.rests_on, s.contested{carried}
             FROM {from} WHERE {all})
             SELECT c.fitting, c.contested, v.uuid, s.rests_on, t.told
             FROM (SELECT count(*) AS fitting, count(*) FILTER (WHERE contested = 1) AS contested FROM fitting) c
             LEFT JOIN (SELECT * FROM fitting s ORDER BY {order}{limit}) s ON 1 = 1
             LEFT JOIN shelf_told t ON t.variety = s.variety LEFT JOIN variety v ON v.number = s.variety
             ORDER BY {order}",
            carried = sorted_column(by).map(|column| format!(", s.{column}")).unwrap_or_default(),
            from = conditions.from(),
            order = order(by, way),
            all = conditions.all()
        );
        let mut portion = Portion::default();
        session.rows(&sql, &values, |row| {
            portion.counted = Counted { rows: row.count(0)?, contested: row.count(1)? };
            if row.text_or_none(4)?.is_some() {
                portion.rows.push(read(row, 2)?);
            }
            Ok(())
        })?;
        Ok(portion)
    }

    /// The rows of the whole list, in order: no more of it is read than is handed out.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn whole_shelf(&mut self, by: SortedBy, way: Way, part: Part) -> Result<Vec<Read>, LedgerFault> {
        let mut session = self.store.session();
        let mut values = Vec::new();
        let limit = limit(&mut values, part);
        let sql = format!(
            "SELECT v.uuid, s.rests_on, t.told FROM
             (SELECT s.variety, s.rests_on, s.name_key{carried} FROM shelf s ORDER BY {order}{limit}) s
             JOIN shelf_told t ON t.variety = s.variety JOIN variety v ON v.number = s.variety ORDER BY {order}",
            carried = sorted_column(by).map(|column| format!(", s.{column}")).unwrap_or_default(),
            order = order(by, way),
        );
        session.rows(&sql, &values, |row| read(row, 0))
    }

    /// How many varieties of the whole list have a contested call.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn contested_on_shelf(&mut self) -> Result<u64, LedgerFault> {
        let counted =
            self.store.first("SELECT count(*) FROM shelf WHERE contested = 1", &[], |row| row.count(0));
        Ok(counted?.unwrap_or(0))
    }

    /// Which of these words are a word of some variety's name, and so no slip of the pen.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn name_words<'w>(&mut self, words: &[&'w str]) -> Result<Vec<&'w str>, LedgerFault> {
        let mut session = self.store.session();
        let sql = "SELECT variety FROM shelf_name_word WHERE word = $1 LIMIT 1";
        let mut known = Vec::new();
        for word in words {
            let plain = plain_words(word);
            let mut is_known = !plain.is_empty();
            for piece in plain.split_whitespace() {
                is_known = is_known && session.first(sql, &[piece.into()], |row| row.whole(0))?.is_some();
            }
            if is_known {
                known.push(*word);
            }
        }
        Ok(known)
    }

    /// Which of these are the whole name of a variety.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn names_among<'n>(&mut self, names: &[&'n str]) -> Result<Vec<&'n str>, LedgerFault> {
        let mut session = self.store.session();
        let sql = "SELECT variety FROM shelf WHERE name_key = $1 LIMIT 1";
        let mut found = Vec::new();
        for name in names {
            if session.first(sql, &[key(name).as_str().into()], |row| row.whole(0))?.is_some() {
                found.push(*name);
            }
        }
        Ok(found)
    }

    /// How many rows there would be without each want in turn, read in one go.
    ///
    /// # Shape
    /// One count a want, in their order.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn count_without_each(&mut self, wants: &[Want]) -> Result<Vec<u64>, LedgerFault> {
        if wants.len() < 2 {
            // Without its only want it is the whole list.
            let all = self.store.first("SELECT count(*) FROM shelf", &[], |row| row.count(0))?;
            return Ok(wants.iter().map(|_| all.unwrap_or(0)).collect());
        }
        let mut session = self.store.session();
        let conditions = Conditions::of(&session, wants);
        let counts: Vec<String> = (0..wants.len())
            .map(|place| format!("count(*) FILTER (WHERE {})", conditions.without(place)))
            .collect();
        let sql = format!("SELECT {} FROM shelf s", counts.join(", "));
        let read = session.first(&sql, &conditions.values(), |row| {
            (0..wants.len()).map(|place| row.count(place)).collect::<Result<Vec<u64>, _>>()
        })?;
        Ok(read.unwrap_or_default())
    }

    /// How many rows as wanted stand in each cell of class and habit.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn shelf_cells(&mut self, wants: &[Want]) -> Result<Vec<Cell>, LedgerFault> {
        let mut session = self.store.session();
        let conditions = Conditions::of(&session, wants);
        let sql = format!(
            "SELECT s.class, s.habit, count(*) FROM shelf s WHERE {} GROUP BY s.class, s.habit
             ORDER BY s.class NULLS LAST, s.habit NULLS LAST",
            conditions.all()
        );
        session.rows(&sql, &conditions.values(), |row| {
            Ok(Cell { class: row.words_or_none(0)?, habit: row.words_or_none(1)?, varieties: row.count(2)? })
        })
    }
}

/// A row from its variety's identifier on.
fn read(row: &Row<'_>, first: usize) -> Result<Read, LedgerFault> {
    Ok(Read {
        variety: keys::id(row, first)?,
        rests_on: row.whole_or_none(first + 1)?.map(i64::cast_unsigned),
        told: row.words(first + 2)?,
    })
}

fn limit(values: &mut Vec<Value<'_>>, part: Part) -> String {
    match part {
        Part::Whole => String::new(),
        Part::Rows { most, after } => {
            values.push(most.into());
            values.push(after.into());
            format!(" LIMIT ${} OFFSET ${}", values.len() - 1, values.len())
        }
    }
}
