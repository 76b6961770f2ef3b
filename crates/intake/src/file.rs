//! Opening a file: what it really is, whatever its name says, and the tables in it.
//!
//! Start at [`open`]. Text is never loaded whole; workbooks are, within limits that are checked
//! before they are unpacked.

use crate::delimited;
use crate::encoding::{self, Decoding, TextEncoding};
use crate::headings;
use crate::opendocument;
use crate::package::Package;
use crate::table::Table;
use crate::workbook;
use std::fs::File;
use std::io::{self, BufReader, Cursor, Read, Seek};
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

/// Bytes that can be read from any place.
pub(crate) trait Source: Read + Seek {}
impl<R: Read + Seek> Source for R {}

impl Content {
    /// A fresh reader from the first byte.
    pub(crate) fn reader(&self) -> io::Result<Box<dyn Source>> {
        Ok(match self {
            Self::Path(path) => Box::new(File::open(path)?),
            Self::Bytes(bytes) => Box::new(Cursor::new(Arc::clone(bytes))),
        })
    }

    fn beginning(&self) -> io::Result<Vec<u8>> {
        let mut beginning = Vec::new();
        self.reader()?.take(encoding::SAMPLE as u64).read_to_end(&mut beginning)?;
        Ok(beginning)
    }
}

/// Why a file could not be opened at all.
#[derive(Debug, thiserror::Error)]
pub enum OpenFault {
    /// The operating system would not give the bytes.
    #[error("{}", refused(.0))]
    Unreadable(#[from] io::Error),
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
    #[error("would unpack to {0}")]
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

/// What the system said, in words that do not need a programmer.
fn refused(fault: &io::Error) -> String {
    match fault.kind() {
        io::ErrorKind::NotFound => "is not there".to_owned(),
        io::ErrorKind::IsADirectory => "is a folder".to_owned(),
        io::ErrorKind::PermissionDenied => "may not be read".to_owned(),
        _ => format!("cannot be read: {fault}"),
    }
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
            Self::Damaged(_) => "open it and save it again, or save it as .csv",
        }
    }
}

/// What the first bytes of a file say it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Looks {
    Zip,
    Compound,
    Other(&'static str),
    Text,
}

/// First bytes of files that are not tables. Source: each format's own specification.
const OTHERS: [(&[u8], &str); 10] = [
    (b"%PDF-", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"\x1f\x8b", "a packed file"),
    (b"7z\xbc\xaf\x27\x1c", "a packed file"),
    (b"SQLite format 3\0", "a database"),
    (b"{\\rtf", "a letter"),
    (b"<!DOCTYPE", "a web page"),
    (b"<html", "a web page"),
];

/// Opens a file and gives its tables, one for a text file and one a sheet for a workbook.
///
/// `file_name` is only ever shown and searched for words such as `picks`; it is never used as a path.
/// What the bytes are decides, not what the name ends in.
///
/// # Errors
/// [`OpenFault`], with its remedy, when nothing in the file can be read as a table.
pub fn open(file_name: &str, content: Content) -> Result<Vec<Table>, OpenFault> {
    let beginning = content.beginning()?;
    if beginning.is_empty() {
        return Err(OpenFault::Empty);
    }
    match looks(&beginning) {
        Looks::Zip => fenced(|| open_package(file_name, &content)),
        Looks::Compound => Err(compound_fault(&content)?),
        Looks::Other(what) => Err(OpenFault::NotATable(what)),
        Looks::Text => Ok(vec![open_text(file_name, content)?]),
    }
}

fn looks(beginning: &[u8]) -> Looks {
    let other = || OTHERS.iter().find(|(first, _)| starts_with_any_case(beginning, first));
    match beginning {
        [b'P', b'K', 3 | 5, 4 | 6, ..] => Looks::Zip,
        [0xD0, 0xCF, 0x11, 0xE0, ..] => Looks::Compound,
        _ => other().map_or(Looks::Text, |(_, what)| Looks::Other(what)),
    }
}

fn starts_with_any_case(bytes: &[u8], first: &[u8]) -> bool {
    bytes.get(..first.len()).is_some_and(|begins| begins.eq_ignore_ascii_case(first))
}

/// Opens a package behind a last fence: a fault in a library that reads it is a damaged file to the grower,
/// and never the end of the program.
fn fenced(open: impl FnOnce() -> Result<Vec<Table>, OpenFault>) -> Result<Vec<Table>, OpenFault> {
    let opened = std::panic::catch_unwind(std::panic::AssertUnwindSafe(open));
    opened.unwrap_or_else(|_| Err(OpenFault::Damaged("it cannot be read to its end".to_owned())))
}

fn open_package(file_name: &str, content: &Content) -> Result<Vec<Table>, OpenFault> {
    let mut package = Package::open(content)?;
    let tables = if package.holds("xl/workbook.xml") {
        workbook::tables(file_name, content, &mut package)?
    } else if package.holds("xl/workbook.bin") {
        return Err(OpenFault::OldWorkbook);
    } else if package.holds("content.xml") {
        opendocument::tables(file_name, &mut package)?
    } else {
        return Err(OpenFault::NotATable("a packed file"));
    };
    if tables.is_empty() { Err(OpenFault::Empty) } else { Ok(tables) }
}

/// Bytes of a compound file in which the mark of encryption is looked for; it stands in the directory,
/// which writers put near the beginning or the end.
const COMPOUND_SEARCH: u64 = 64 * 1024 * 1024;

/// A compound file is either an old workbook or the wrapping of an encrypted new one.
fn compound_fault(content: &Content) -> io::Result<OpenFault> {
    let mark: Vec<u8> = "EncryptedPackage".encode_utf16().flat_map(u16::to_le_bytes).collect();
    let mut bytes = Vec::new();
    content.reader()?.take(COMPOUND_SEARCH).read_to_end(&mut bytes)?;
    let encrypted = memchr::memmem::find(&bytes, &mark).is_some();
    Ok(if encrypted { OpenFault::Encrypted } else { OpenFault::OldWorkbook })
}

fn open_text(file_name: &str, content: Content) -> Result<Table, OpenFault> {
    let encoding = encoding::detect(&mut BufReader::new(content.reader()?))?
        .ok_or(OpenFault::NotATable("a file of bytes"))?;
    let sample = text_sample(&content, encoding)?;
    if sample.iter().all(u8::is_ascii_whitespace) {
        return Err(OpenFault::Empty);
    }
    let delimiter = delimited::sniff(&sample, &headings::recognised_in);
    let read_as = format!("text with {} in {}", delimited::delimiter_name(delimiter), encoding.name());
    Ok(Table::of_text(file_name, read_as, content, encoding, delimiter))
}

fn text_sample(content: &Content, encoding: TextEncoding) -> io::Result<Vec<u8>> {
    let mut decoding = Decoding::new(content.reader()?, encoding);
    let mut sample = vec![0; encoding::SAMPLE];
    let read = decoding.read(&mut sample)?;
    sample.truncate(read);
    Ok(sample)
}
