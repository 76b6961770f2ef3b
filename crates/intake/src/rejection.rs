//! Rejections: rows that could not be taken, with the reason and the remedy.

use crate::suggestion::Suggestion;
use crate::table::Broken;

/// A row that could not be taken as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Rejection {
    /// The row's number in the file, from 1.
    pub row: u64,
    /// The heading of the column at fault, where one is.
    pub column: Option<String>,
    /// The cell at fault.
    pub value: String,
    /// The reason; its words are the reason for people.
    pub fault: RowFault,
    /// What to do about it, in lower case with no full stop.
    pub remedy: String,
    /// A known variety with a name close to the one written, where that is the fault.
    pub suggestion: Option<Suggestion>,
    /// All cells of the row, under the headings of its table.
    pub cells: Vec<String>,
}

/// Why a row could not be taken.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RowFault {
    /// It could not be split into cells.
    #[error("{0}")]
    Broken(Broken),
}
