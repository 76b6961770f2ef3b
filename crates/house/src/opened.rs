//! Files given, opened and recognised, in the order that they need each other.

use crate::asked::{self, Asked};
use crate::fault::HouseFault;
use intake::file;
pub use intake::file::Content;
use intake::layout::{Layout, SavedMapping};
use intake::recognise::recognise;
use intake::table::Table;
use ledger::batch::Sha256;
use sha2::Digest;
use std::fs::File;
use std::io::{self, Read};
use std::ops::ControlFlow;
use std::path::Path;

/// A file as it was given.
#[derive(Clone, Debug)]
pub struct Given {
    /// Its name, without its folder.
    pub name: String,
    /// Its bytes, or where they are.
    pub content: Content,
}

impl Given {
    /// The file at a path.
    #[must_use]
    pub fn at(path: &Path) -> Self {
        let name = path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
        Self { name, content: Content::Path(path.to_owned()) }
    }
}

/// A table that was recognised and can be taken.
#[derive(Debug)]
pub struct Opened {
    /// The table.
    pub table: Table,
    /// What each column was read as.
    pub layout: Layout,
    /// The file's SHA-256.
    pub sha256: Sha256,
}

/// A file or table that cannot be taken at all.
#[derive(Debug)]
pub struct Unreadable {
    /// File and sheet.
    pub table: String,
    /// Why.
    pub fault: HouseFault,
    /// Its first rows as they stand, where it was opened, so that it can be said what they hold.
    pub top: Vec<Vec<String>>,
}

/// File and sheet, as messages name them.
#[must_use]
pub fn name_of(table: &Table) -> String {
    match table.sheet() {
        Some(sheet) => format!("{}, sheet {sheet:?}", table.file_name()),
        None => table.file_name().to_owned(),
    }
}

/// Opens and recognises every table of every file: varieties first, then grow-outs, then notes.
#[must_use]
pub fn open_all(files: &[Given], saved: &[SavedMapping], asked: &Asked) -> (Vec<Opened>, Vec<Unreadable>) {
    let (mut opened, mut unreadable) = (Vec::new(), Vec::new());
    for given in files {
        match open_one(given) {
            Err(fault) => unreadable.push(Unreadable { table: given.name.clone(), fault, top: Vec::new() }),
            Ok((tables, sha256)) => {
                for table in tables {
                    match read_layout(&table, saved, asked) {
                        Ok(layout) => opened.push(Opened { table, layout, sha256 }),
                        Err(fault) => {
                            let top = top(&table);
                            unreadable.push(Unreadable { table: name_of(&table), fault, top });
                        }
                    }
                }
            }
        }
    }
    opened.sort_by_key(|opened| opened.layout.kind);
    (opened, unreadable)
}

/// Rows of a table's top that are shown.
const TOP_ROWS: usize = 6;

/// The first rows of a table; none of what cannot be read.
fn top(table: &Table) -> Vec<Vec<String>> {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let read = table.walk(&mut |row| {
        rows.push(row.cells().map(|cell| cell.text.to_owned()).collect());
        if rows.len() < TOP_ROWS { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    });
    read.map(|_| rows).unwrap_or_default()
}

fn open_one(given: &Given) -> Result<(Vec<Table>, Sha256), HouseFault> {
    let fault = |fault| HouseFault::Open { file: given.name.clone(), fault };
    let sha256 = fingerprint(&given.content).map_err(|cause| fault(cause.into()))?;
    let tables = file::open(&given.name, given.content.clone()).map_err(fault)?;
    Ok((tables, sha256))
}

fn read_layout(table: &Table, saved: &[SavedMapping], asked: &Asked) -> Result<Layout, HouseFault> {
    let answers = asked::answers_for(table, asked)?;
    recognise(table, saved, &answers).map_err(|fault| HouseFault::Recognise { table: name_of(table), fault })
}

fn fingerprint(content: &Content) -> io::Result<Sha256> {
    let mut digest = sha2::Sha256::new();
    match content {
        Content::Bytes(bytes) => digest.update(bytes),
        Content::Path(path) => {
            let (mut file, mut piece) = (File::open(path)?, vec![0; 1 << 16]);
            loop {
                let read = file.read(&mut piece)?;
                match piece.get(..read) {
                    Some(read) if !read.is_empty() => digest.update(read),
                    _ => break,
                }
            }
        }
    }
    Ok(Sha256(digest.finalize().into()))
}
