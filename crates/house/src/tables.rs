//! Tables as files: whatever the house hands out as one is written here.

use crate::fault::HouseFault;
use jiff::civil::Date;
use publish::tables::delimited::{ByteOrderMark, to_csv};
use publish::tables::workbook::to_xlsx;
use publish::tables::{Cell, Sheet};
use serde_json::{Map, Value};
use std::path::Path;

/// The form of a table in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Comma-separated text.
    Csv,
    /// A workbook.
    Xlsx,
    /// A list of objects.
    Json,
}

impl Form {
    /// The form that a file's ending names.
    #[must_use]
    pub fn of(file: &Path) -> Option<Self> {
        match file.extension()?.to_str()?.to_lowercase().as_str() {
            "csv" => Some(Self::Csv),
            "xlsx" => Some(Self::Xlsx),
            "json" => Some(Self::Json),
            _ => None,
        }
    }

    /// The form that a file's ending names, where it must name one. `what` is refused else, and `known` would do.
    pub(crate) fn named(file: &Path, what: &'static str, known: &str) -> Result<Self, HouseFault> {
        Self::of(file).ok_or_else(|| HouseFault::NotKnown {
            what,
            word: file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default(),
            known: known.to_owned(),
        })
    }
}

/// A table as the bytes of a file.
///
/// # Errors
/// [`HouseFault::Table`] where the form cannot hold it.
pub(crate) fn bytes(sheet: &Sheet, form: Form, today: Date) -> Result<Vec<u8>, HouseFault> {
    match form {
        Form::Csv => csv(sheet),
        Form::Xlsx => to_xlsx(std::slice::from_ref(sheet), today).map_err(refused),
        Form::Json => serde_json::to_vec_pretty(&objects(sheet)).map_err(refused),
    }
}

/// A table as comma-separated text.
///
/// # Errors
/// As [`bytes()`].
pub(crate) fn csv(sheet: &Sheet) -> Result<Vec<u8>, HouseFault> {
    let mut csv = Vec::new();
    to_csv(sheet, ByteOrderMark::Written, &mut csv).map_err(refused)?;
    Ok(csv)
}

fn refused(fault: impl ToString) -> HouseFault {
    HouseFault::Table(fault.to_string())
}

/// The table as a list of objects; what is not known is left out.
fn objects(sheet: &Sheet) -> Vec<Map<String, Value>> {
    let value = |cell: &Cell| match cell {
        Cell::Empty => None,
        Cell::Text(words) => Some(words.as_str().into()),
        Cell::Number(number) => Some((*number).into()),
        Cell::Count(count) => Some((*count).into()),
        Cell::Day(day) => Some(day.to_string().into()),
    };
    let object = |row: &Vec<Cell>| {
        let fields = sheet.headings.iter().zip(row);
        fields.filter_map(|(heading, cell)| Some((heading.clone(), value(cell)?))).collect()
    };
    sheet.rows.iter().map(object).collect()
}
