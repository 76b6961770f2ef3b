//! The list as a table for a spreadsheet or another program, filtered and sorted as it is shown.

use crate::calls;
use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::kept::{KeptCall, KeptMeasure};
use crate::list::filter::{Filter, Showing};
use crate::list::{Listed, list};
use crate::tables::{self, Form};
use jiff::civil::Date;
use ledger::calls::CallSubject;
use publish::tables::{Cell, Sheet};
use std::path::Path;

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
    let bytes = tables::bytes(&sheet, form, today)?;
    Ok(Exported { bytes, varieties: list.fitting })
}

/// Writes the list into a file of the form that its ending names.
///
/// # Errors
/// As [`export`]; [`HouseFault::NotKnown`] for another ending; what the disk refuses.
pub fn export_to(house: &House, filter: &Filter, file: &Path, today: Date) -> Result<u64, HouseFault> {
    let form = Form::named(file, "ending of an exported list", "a file that ends in .csv, .xlsx or .json")?;
    let exported = export(house, filter, form, today)?;
    folder::write(file, exported.bytes)?;
    Ok(exported.varieties)
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
