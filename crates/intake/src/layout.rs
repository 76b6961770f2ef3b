//! The layout: what each column of a table was read as. Plain data, to be shown before anything is
//! stored, changed by the user, and saved as a mapping for the next file with the same headings.

use crate::column::ColumnUse;
use crate::day::DateOrder;
use crate::kind::Kind;
use crate::number::DecimalMark;
use crate::unit::{LengthUnit, MassUnit, Unit};
use record::season::Season;
use std::ops::Range;

/// What a table is and what each of its columns was read as.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// What the table is a table of.
    pub kind: Kind,
    /// The row on which the headings stand, from 1.
    pub heading_row: u64,
    /// A stable number made of the headings, by which a saved mapping is found again.
    pub heading_fingerprint: u64,
    /// The columns, from the left.
    pub columns: Vec<Column>,
    /// The season of rows that name none.
    pub season: Option<Season>,
    /// The grow-out of rows that name none.
    pub grow_out: Option<String>,
    /// The words that stood above the headings.
    pub titles: Vec<String>,
    /// Rows below the headings, blank ones left out; of a long text table about so many, by its line breaks.
    pub row_count: u64,
    /// What was decided for the table as a whole and from what, in words.
    pub notes: Vec<String>,
    /// What must be answered before the rows that hang on it can be taken.
    pub questions: Vec<Question>,
    /// The saved mapping that was applied.
    pub mapping: Option<String>,
}

/// What one column was read as.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Its place from the left, from 0.
    pub place: usize,
    /// Its heading as written.
    pub heading: String,
    /// What it was read as.
    pub reads: ColumnUse,
    /// Whether the heading was understood. An ignored column may be understood (`notes`) or not.
    pub understood: bool,
    /// The unit of cells that name none.
    pub unit: Option<Unit>,
    /// What parts whole from tenths.
    pub decimal_mark: Option<DecimalMark>,
    /// Which of day and month comes first.
    pub date_order: Option<DateOrder>,
    /// Up to three of its cells.
    pub samples: Vec<String>,
    /// What was decided and from what, in words.
    pub notes: Vec<String>,
}

/// Something that the file does not say and that must not be guessed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Question {
    /// Neither heading nor cells name a unit.
    #[error("column {heading:?}: in which unit? {sample:?} names none")]
    Unit {
        /// The column's place.
        place: usize,
        /// Its heading.
        heading: String,
        /// A cell that cannot be read.
        sample: String,
    },
    /// Day first or month first.
    #[error("column {heading:?}: is {sample:?} day first or month first? no date in the column tells")]
    DateOrder {
        /// The column's place.
        place: usize,
        /// Its heading.
        heading: String,
        /// A cell that cannot be read.
        sample: String,
    },
    /// Thousands or tenths.
    #[error("column {heading:?}: does {sample:?} hold thousands or decimals? no number in the column tells")]
    DecimalMark {
        /// The column's place.
        place: usize,
        /// Its heading.
        heading: String,
        /// A cell that cannot be read.
        sample: String,
    },
    /// Dates without a year, and no season named.
    #[error("column {heading:?}: of which season is {sample:?}?")]
    Season {
        /// The column's place.
        place: usize,
        /// Its heading.
        heading: String,
        /// A cell that cannot be read.
        sample: String,
    },
}

/// What the user or the house says where the file does not, or instead of what was recognised.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answers {
    /// What the table is.
    pub kind: Option<Kind>,
    /// The row on which the headings stand, from 1.
    pub heading_row: Option<u64>,
    /// Answers about single columns.
    pub columns: Vec<ColumnAnswer>,
    /// Day first or month first, for columns that do not tell.
    pub date_order: Option<DateOrder>,
    /// Point or comma, for columns that do not tell.
    pub decimal_mark: Option<DecimalMark>,
    /// Unit of weights that name none in heading or cell.
    pub mass_unit: Option<MassUnit>,
    /// Unit of lengths that name none in heading or cell.
    pub length_unit: Option<LengthUnit>,
    /// Season of rows that name none.
    pub season: Option<Season>,
    /// Grow-out of rows that name none.
    pub grow_out: Option<String>,
}

/// What the user says about one column; it goes before what was recognised.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ColumnAnswer {
    /// The column's place from the left, from 0.
    pub place: usize,
    /// What it holds.
    pub reads: Option<ColumnUse>,
    /// The unit of cells that name none.
    pub unit: Option<Unit>,
    /// Day first or month first.
    pub date_order: Option<DateOrder>,
    /// Point or comma.
    pub decimal_mark: Option<DecimalMark>,
}

/// Answers kept by the house for every file with the same headings.
#[derive(Clone, Debug, PartialEq)]
pub struct SavedMapping {
    /// The name the house gave it.
    pub name: String,
    /// The headings it belongs to.
    pub heading_fingerprint: u64,
    /// What it answers.
    pub answers: Answers,
}

impl Layout {
    /// Everything that this layout has decided, as answers: saved as a mapping, or given back when a
    /// single row of the file is mended later, so that it is read as its whole column was.
    #[must_use]
    pub fn settled(&self) -> Answers {
        let columns = self.columns.iter().map(Column::settled).collect();
        Answers {
            kind: Some(self.kind),
            columns,
            season: self.season,
            grow_out: self.grow_out.clone(),
            ..Answers::default()
        }
    }
}

impl Answers {
    /// The answer about one column.
    pub(crate) fn column(&self, place: usize) -> Option<&ColumnAnswer> {
        self.columns.iter().find(|answer| answer.place == place)
    }

    /// These answers for a table that has `added` columns of a quarantine's export. Such columns of the
    /// table that the answers were given for are left out first.
    pub(crate) fn beside(&self, added: &Range<usize>) -> Self {
        let is_exported = |column: &&ColumnAnswer| column.reads == Some(ColumnUse::Quarantine);
        let exported: Vec<usize> =
            self.columns.iter().filter(is_exported).map(|column| column.place).collect();
        let mut moved = self.clone();
        moved.columns.retain(|column| !exported.contains(&column.place));
        for column in &mut moved.columns {
            column.place -= exported.iter().filter(|place| **place < column.place).count();
            column.place += if added.start <= column.place { added.len() } else { 0 };
        }
        moved
    }

    /// These answers, and where they are silent those of a saved mapping.
    pub(crate) fn over(&self, saved: &Self) -> Self {
        let mut columns = saved.columns.clone();
        columns.retain(|column| self.column(column.place).is_none());
        let ours = self.columns.iter().map(|column| match saved.column(column.place) {
            Some(saved) => column.over(saved),
            None => *column,
        });
        columns.extend(ours);
        Self {
            kind: self.kind.or(saved.kind),
            heading_row: self.heading_row.or(saved.heading_row),
            columns,
            date_order: self.date_order.or(saved.date_order),
            decimal_mark: self.decimal_mark.or(saved.decimal_mark),
            mass_unit: self.mass_unit.or(saved.mass_unit),
            length_unit: self.length_unit.or(saved.length_unit),
            season: self.season.or(saved.season),
            grow_out: self.grow_out.clone().or_else(|| saved.grow_out.clone()),
        }
    }
}

impl ColumnAnswer {
    fn over(&self, saved: &Self) -> Self {
        Self {
            place: self.place,
            reads: self.reads.or(saved.reads),
            unit: self.unit.or(saved.unit),
            date_order: self.date_order.or(saved.date_order),
            decimal_mark: self.decimal_mark.or(saved.decimal_mark),
        }
    }
}

impl Column {
    fn settled(&self) -> ColumnAnswer {
        ColumnAnswer {
            place: self.place,
            reads: Some(self.reads),
            unit: self.unit,
            date_order: self.date_order,
            decimal_mark: self.decimal_mark,
        }
    }
}
