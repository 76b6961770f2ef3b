//! The list as a table for a spreadsheet or another program, filtered and sorted as it is shown.

use crate::calls;
use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::kept::{KeptCall, KeptMeasure};
use crate::list::filter::{Filter, Showing};
use crate::list::{Listed, list};
use jiff::civil::Date;
use ledger::calls::CallSubject;
use publish::tables::delimited::{ByteOrderMark, to_csv};
use publish::tables::workbook::to_xlsx;
use publish::tables::{Cell, Sheet};
use std::path::Path;

/// The form of an exported list.
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
}

/// An exported list.
#[derive(Debug)]
pub struct Exported {
    /// The bytes of the file.
    pub bytes: Vec<u8>,
    /// How many varieties it holds.
    pub varieties: u64,
}

/// The list as a file: every variety that fits, whichever page was shown.
///
/// # Errors
/// As [`list()`]; [`HouseFault::Table`] where the form cannot hold it.
pub fn export(house: &House, filter: &Filter, form: Form, today: Date) -> Result<Exported, HouseFault> {
    let list = list(house, &Filter { showing: Showing::Whole, ..filter.clone() })?;
    let sheet = sheet(&list.varieties);
    let bytes = match form {
        Form::Csv => {
            let mut csv = Vec::new();
            to_csv(&sheet, ByteOrderMark::Written, &mut csv).map_err(refused)?;
            csv
        }
        Form::Xlsx => to_xlsx(&[sheet], today).map_err(refused)?,
        Form::Json => serde_json::to_vec_pretty(&objects(&sheet)).map_err(refused)?,
    };
    Ok(Exported { bytes, varieties: list.fitting })
}

/// Writes the list into a file of the form that its ending names.
///
/// # Errors
/// As [`export`]; [`HouseFault::NotKnown`] for another ending; what the disk refuses.
pub fn export_to(house: &House, filter: &Filter, file: &Path, today: Date) -> Result<u64, HouseFault> {
    let form = Form::of(file).ok_or_else(|| HouseFault::NotKnown {
        what: "ending of an exported list",
        word: file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default(),
        known: "a file that ends in .csv, .xlsx or .json".to_owned(),
    })?;
    let exported = export(house, filter, form, today)?;
    folder::write(file, exported.bytes)?;
    Ok(exported.varieties)
}

fn refused(fault: impl ToString) -> HouseFault {
    HouseFault::Table(fault.to_string())
}

/// Measures of the table, with their units in the headings.
const MEASURES: [&str; 10] = [
    "weight_g",
    "length_mm",
    "width_mm",
    "neck_over_width",
    "locules",
    "lobes",
    "soluble_solids_percent",
    "dry_matter_percent",
    "days_to_ripe",
    "plant_height_mm",
];

/// What is called.
const SUBJECTS: [CallSubject; 3] = [CallSubject::Habit, CallSubject::FruitClass, CallSubject::Colour];

/// Varieties as a table: names, calls with how sure each is, usual measures and how many fruits they rest on.
fn sheet(varieties: &[Listed]) -> Sheet {
    let mut headings = vec!["variety".to_owned(), "also_known_as".to_owned()];
    for subject in SUBJECTS {
        let about = calls::subject(subject).replace(' ', "_");
        headings.extend([about.clone(), format!("{about}_probability"), format!("{about}_contested")]);
    }
    headings.extend(MEASURES.map(str::to_owned));
    headings.push("fruits".to_owned());
    Sheet { name: "The list".to_owned(), headings, rows: varieties.iter().map(row).collect() }
}

fn row(listed: &Listed) -> Vec<Cell> {
    let mut cells = vec![text(&listed.variety.name), text(&listed.variety.aliases.join("; "))];
    for subject in SUBJECTS {
        let call = listed.calls().find(|(about, _)| *about == subject).map(|(_, call)| call);
        cells.extend(called(call.filter(|call| call.measured)));
    }
    let facts = listed.fruit.as_ref().map(|fruit| fruit.facts).unwrap_or_default();
    let measures = [
        facts.weight_g,
        facts.length_mm,
        facts.width_mm,
        facts.neck,
        facts.locules,
        facts.lobes,
        facts.soluble_solids_pct,
        facts.dry_matter_pct,
        facts.days_to_ripe,
        facts.plant_height_mm,
    ];
    cells.extend(measures.map(|measure: Option<KeptMeasure>| {
        measure.map_or(Cell::Empty, |measure| Cell::Number(to_thousandths(measure.usual)))
    }));
    cells.push(listed.fruit.as_ref().map_or(Cell::Empty, |fruit| Cell::Count(fruit.call.used.fruits)));
    cells
}

fn called(call: Option<&KeptCall>) -> [Cell; 3] {
    let Some(call) = call else { return [Cell::Empty, Cell::Empty, Cell::Empty] };
    let contested = if call.contested { "contested" } else { "" };
    [
        text(call.verdict.as_deref().unwrap_or("between")),
        Cell::Number(to_thousandths(call.probability)),
        text(contested),
    ]
}

/// No table pretends to more: fruit is weighed to a gram and probabilities are drawn.
fn to_thousandths(number: f64) -> f64 {
    (number * 1000.0).round() / 1000.0
}

fn text(words: &str) -> Cell {
    if words.is_empty() { Cell::Empty } else { Cell::Text(words.to_owned()) }
}

/// The table as a list of objects; what is not known is left out.
fn objects(sheet: &Sheet) -> Vec<serde_json::Map<String, serde_json::Value>> {
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
