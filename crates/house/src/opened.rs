//! Files given, opened and recognised, in the order that they need each other.

use crate::asked::{self, Asked};
use crate::corrected::{self, Corrected};
use crate::fault::HouseFault;
use crate::sales::SalesTrouble;
use crate::take::Request;
use crate::weather::bring::{self, Intent, WeatherTaken};
use intake::file;
pub use intake::file::Content;
use intake::layout::{Layout, SavedMapping};
use intake::recognise::recognise;
use intake::sales::is_plainly_of_sales;
use intake::table::Table;
use ledger::batch::Sha256;
use ledger::ledger::Ledger;
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

/// Files given, opened.
#[derive(Debug, Default)]
pub(crate) struct Opening {
    /// Tables that can be taken, in the order that they need each other.
    pub(crate) tables: Vec<Opened>,
    /// Rows of the quarantine that come back corrected.
    pub(crate) corrected: Vec<Corrected>,
    /// Files of stations' days.
    pub(crate) weather: Vec<Given>,
    /// What cannot be taken.
    pub(crate) unreadable: Vec<Unreadable>,
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
    /// By what the table would be known again, where it was opened.
    pub known_by: Option<KnownBy>,
}

/// By what a table is known to have been taken before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KnownBy {
    /// The file's SHA-256.
    pub sha256: Sha256,
    /// The sheet of a workbook.
    pub sheet: Option<String>,
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
pub(crate) fn open_all(files: &[Given], saved: &[SavedMapping], asked: &Asked) -> Opening {
    let (mut opening, mut tables) = (Opening::default(), Vec::new());
    for given in files {
        if bring::is_weather(given, saved, asked) {
            opening.weather.push(given.clone());
            continue;
        }
        match open_one(given) {
            Ok((of_file, _)) if let Some(days) = bring::of_workbook(given, &of_file, saved, asked) => {
                opening.weather.push(days);
            }
            Ok((of_file, sha256)) => tables.extend(of_file.into_iter().map(|table| (table, sha256))),
            Err(fault) => opening.unreadable.push(unopened(given.name.clone(), fault)),
        }
    }
    let unsaid = column_of_none(&tables, asked);
    for (table, sha256) in tables {
        opening.put(table, sha256, |table| read_layout(table, saved, asked, unsaid.as_deref()));
    }
    opening.tables.sort_by_key(|opened| opened.layout.kind);
    opening
}

impl Opening {
    /// Takes the weather files, or looks at them; those that cannot be taken join what cannot be read.
    ///
    /// # Errors
    /// What the ledger refuses.
    pub(crate) fn take_weather(
        &mut self,
        ledger: &mut Ledger,
        request: &Request,
        intent: Intent,
    ) -> Result<Vec<WeatherTaken>, HouseFault> {
        let mut taken = Vec::new();
        for given in std::mem::take(&mut self.weather) {
            match bring::take(ledger, &given, request, intent) {
                Err(fault @ (HouseFault::File { .. } | HouseFault::Weather(_))) => {
                    self.unreadable.push(unopened(given.name, fault));
                }
                other => taken.push(other?),
            }
        }
        Ok(taken)
    }
}

fn unopened(table: String, fault: HouseFault) -> Unreadable {
    Unreadable { table, fault, top: Vec::new(), known_by: None }
}

/// A heading that something is said of and that no table has.
fn column_of_none(tables: &[(Table, Sha256)], asked: &Asked) -> Option<String> {
    let has =
        |heading: &str, table: &Table| asked::place_of(table, heading).is_ok_and(|place| place.is_some());
    let of_none = |heading: &&String| !tables.iter().any(|(table, _)| has(heading, table));
    asked.columns.iter().map(|column| &column.heading).find(of_none).cloned()
}

impl Opening {
    fn put(
        &mut self,
        table: Table,
        sha256: Sha256,
        layout: impl FnOnce(&Table) -> Result<Layout, HouseFault>,
    ) {
        let layout = match corrected::read(&table) {
            Ok(Some(corrected)) => return self.corrected.push(corrected),
            Ok(None) => layout(&table),
            Err(fault) => Err(fault),
        };
        match layout {
            Ok(layout) => self.tables.push(Opened { table, layout, sha256 }),
            Err(fault) => {
                let known_by = Some(KnownBy { sha256, sheet: table.sheet().map(str::to_owned) });
                let (table, top) = (name_of(&table), top(&table));
                self.unreadable.push(Unreadable { table, fault, top, known_by });
            }
        }
    }
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

fn read_layout(
    table: &Table,
    saved: &[SavedMapping],
    asked: &Asked,
    unsaid: Option<&str>,
) -> Result<Layout, HouseFault> {
    if let Some(heading) = unsaid {
        return Err(HouseFault::NoSuchColumn { table: name_of(table), heading: heading.to_owned() });
    }
    if !asked.says_notes(&name_of(table)) && is_plainly_of_sales(table) {
        return Err(SalesTrouble::IsOfSales(name_of(table)).into());
    }
    let answers = asked::answers_for(table, asked)?;
    recognise(table, saved, &answers).map_err(|fault| HouseFault::Recognise { table: name_of(table), fault })
}

pub(crate) fn fingerprint(content: &Content) -> io::Result<Sha256> {
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
