//! A table of an unknown tomato: its fruits, picks, heights or colours as anybody keeps them, with no variety named.
//!
//! Every row is of the one unknown, so a column that names varieties, plots or grow-outs is passed over.
//! Start at [`take`].

use crate::column::ColumnUse;
use crate::entry::Entry;
use crate::kind::Kind;
use crate::layout::{Answers, ColumnAnswer, Layout};
use crate::recognise::{RecogniseFault, recognise};
use crate::rejection::Rejection;
use crate::roster::Roster;
use crate::table::{ReadFault, Table};
use crate::take::{self, Taken};
use jiff::civil::Date;
use record::doubt::Doubt;
use record::id::Id;
use record::note::Note;
use record::season::Season;
use record::variety::Variety;
use std::ops::ControlFlow;
use uuid::Uuid;

/// Rows of an unknown that are read; it is a handful and no harvest. A choice of ours.
pub const MOST_ROWS: usize = 5000;

/// The word that stands for the unknown in a column of its own, as its heading and in every row.
const STAND_IN: &str = "Variety";

/// What a table told of an unknown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// What was seen, with what is odd about it.
    pub notes: Vec<(Note, Vec<Doubt>)>,
    /// Rows that could not be read.
    pub rejected: Vec<Rejection>,
}

/// Why a table of an unknown cannot be read.
#[derive(Debug, thiserror::Error)]
pub enum UnnamedFault {
    /// Its headings cannot be made out.
    #[error(transparent)]
    Recognise(#[from] RecogniseFault),
    /// It cannot be read to its end.
    #[error(transparent)]
    Read(#[from] ReadFault),
    /// It is no handful.
    #[error("it holds more than {MOST_ROWS} rows, which is no handful")]
    TooLong,
}

/// Reads a table of one unknown; rows with no season of their own are of `season`.
///
/// # Errors
/// [`UnnamedFault`] where it is no table, or too long.
pub fn take(table: &Table, season: Season, today: Date) -> Result<Told, UnnamedFault> {
    let named = with_stand_in(table)?;
    let answers = Answers { season: Some(season), ..said_of(table) };
    let layout = recognised(&named, &answers)?;
    let roster = roster();
    let mut told = Told::default();
    take::take(&named, &layout, &roster, today, &mut |taken| {
        match taken {
            Taken::Entry { entry: Entry::Note(note), doubts, .. } => told.notes.push((note, doubts)),
            Taken::Entry { .. } => {}
            Taken::Rejected(rejection) => told.rejected.push(rejection),
        }
        ControlFlow::Continue(())
    })?;
    Ok(told)
}

/// The same table with the unknown's own column at the left.
fn with_stand_in(table: &Table) -> Result<Table, UnnamedFault> {
    let mut rows: Vec<(u64, Vec<String>)> = Vec::new();
    table.walk(&mut |row| {
        let cells = row.cells().map(|cell| cell.text.to_owned());
        let is_blank = row.is_blank();
        let first = if is_blank { String::new() } else { STAND_IN.to_owned() };
        rows.push((row.number, std::iter::once(first).chain(cells).collect()));
        if rows.len() <= MOST_ROWS { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    })?;
    if MOST_ROWS < rows.len() {
        return Err(UnnamedFault::TooLong);
    }
    Ok(Table::of_rows(table.file_name(), table.sheet(), &rows))
}

/// Recognises a table; one that may hold fruit samples among other kinds holds them here.
fn recognised(table: &Table, answers: &Answers) -> Result<Layout, RecogniseFault> {
    match recognise(table, &[], answers) {
        Err(RecogniseFault::SeveralKinds { kinds }) if kinds.contains(&Kind::FruitSamples) => {
            recognise(table, &[], &Answers { kind: Some(Kind::FruitSamples), ..answers.clone() })
        }
        layout => layout,
    }
}

/// What is said of the table with the stand-in beside it: the stand-in names the unknown, and columns of the
/// table as it was, one further to the right, that name what an unknown does not have are passed over.
fn said_of(table: &Table) -> Answers {
    let said = |place, reads| ColumnAnswer { place, reads: Some(reads), ..ColumnAnswer::default() };
    let mut answers = Answers { columns: vec![said(0, ColumnUse::Variety)], ..Answers::default() };
    // A table that cannot be made out without the stand-in names nothing that would be in its way.
    if let Ok(layout) = recognised(table, &Answers::default()) {
        let names = [ColumnUse::Variety, ColumnUse::Plot, ColumnUse::GrowOut];
        let over = layout.columns.iter().filter(|column| names.contains(&column.reads));
        answers.columns.extend(over.map(|column| said(column.place + 1, ColumnUse::Ignored)));
        answers.kind = Some(layout.kind);
    }
    answers
}

fn roster() -> Roster {
    let mut roster = Roster::new();
    let (name, aliases, claims) = (STAND_IN.to_owned(), Vec::new(), Vec::new());
    roster.add_variety(&Variety { id: Id::from_uuid(Uuid::nil()), name, aliases, claims }, None);
    roster
}
