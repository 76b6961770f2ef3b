//! The list as data: `list.csv` for a spreadsheet, `list.json` for programs.

use crate::catalogue::{Measured, Told};
use crate::chance;
use crate::pages::linked::rounded;
use crate::pages::{File, Folder, PagesFault, WebEntry, rows};
use crate::tables::delimited::{ByteOrderMark, to_csv};
use crate::tables::{Cell, Sheet};
use serde_json::{Map, Value, json};

/// What a column holds of one variety.
type Column = (&'static str, fn(&Folder, usize, &WebEntry) -> Cell);

/// The columns of both, each with its unit in its name.
const COLUMNS: [Column; 23] = [
    ("name", |_, _, entry| text(&entry.told.name)),
    ("also", |_, _, entry| text(&entry.told.aliases.join("; "))),
    ("habit", |folder, _, entry| word(entry.habit.and_then(|habit| folder.list.habits.get(habit)))),
    ("habit_chance", |_, _, entry| sure(&entry.told.habit)),
    ("fruit_class", |folder, _, entry| word(entry.class.and_then(|class| folder.list.classes.get(class)))),
    ("fruit_class_chance", |_, _, entry| sure(&entry.told.fruit_class)),
    ("colour", |_, _, entry| verdict(&entry.told.colour)),
    ("colour_chance", |_, _, entry| sure(&entry.told.colour)),
    ("contested", |_, _, entry| text(if rows::is_contested(entry) { "yes" } else { "no" })),
    ("claim_contradicted", |_, _, entry| text(if rows::is_contradicted(entry) { "yes" } else { "no" })),
    ("weight_g", |_, _, entry| usual(entry.told.facts.weight, |grams| grams.get())),
    ("weight_low_g", |_, _, entry| low(entry.told.facts.weight, |grams| grams.get())),
    ("weight_high_g", |_, _, entry| high(entry.told.facts.weight, |grams| grams.get())),
    ("length_mm", |_, _, entry| usual(entry.told.facts.length, |long| long.get())),
    ("width_mm", |_, _, entry| usual(entry.told.facts.width, |wide| wide.get())),
    ("locules", |_, _, entry| usual(entry.told.facts.locules, f64::from)),
    ("soluble_solids_pct", |_, _, entry| usual(entry.told.facts.soluble_solids, |share| share.get())),
    ("dry_matter_pct", |_, _, entry| usual(entry.told.facts.dry_matter, |share| share.get())),
    ("days_to_ripe", |_, _, entry| usual(entry.told.facts.days_to_ripe, f64::from)),
    ("fruits", |_, _, entry| Cell::Count(entry.told.evidence.fruit_count)),
    ("plants", |_, _, entry| Cell::Count(entry.told.evidence.plant_count)),
    ("seasons", |_, _, entry| Cell::Count(entry.told.evidence.season_count)),
    ("page", |folder, index, _| text(&folder.places.variety(index))),
];

/// Both files.
///
/// # Errors
/// [`PagesFault`], which is a fault in this program.
pub(super) fn files(folder: &Folder) -> Result<[File; 2], PagesFault> {
    let sheet = sheet(folder);
    let mut csv = Vec::new();
    to_csv(&sheet, ByteOrderMark::Written, &mut csv)?;
    let rows: Vec<Value> = sheet.rows.iter().map(|row| object(row)).collect();
    let json = serde_json::to_vec(&json!({
        "house": folder.list.house,
        "made_on": folder.list.made_on.to_string(),
        "varieties": rows,
    }))?;
    let file = |path: &str, bytes| File { path: path.to_owned(), bytes };
    Ok([file("list.csv", csv), file("list.json", json)])
}

fn sheet(folder: &Folder) -> Sheet {
    let entries = folder.list.entries.iter().enumerate();
    let row = |(index, entry)| COLUMNS.iter().map(|(_, cell)| cell(folder, index, entry)).collect();
    Sheet {
        name: "The list".to_owned(),
        headings: COLUMNS.iter().map(|(heading, _)| (*heading).to_owned()).collect(),
        rows: entries.map(row).collect(),
    }
}

/// A row as an object; what was not measured is left out.
fn object(row: &[Cell]) -> Value {
    let mut fields = Map::new();
    for ((heading, _), cell) in COLUMNS.iter().zip(row) {
        let value = match cell {
            Cell::Empty => continue,
            Cell::Text(words) => json!(words),
            Cell::Number(number) => json!(number),
            Cell::Count(count) => json!(count),
            Cell::Day(day) => json!(day.to_string()),
        };
        fields.insert((*heading).to_owned(), value);
    }
    Value::Object(fields)
}

fn text(words: &str) -> Cell {
    if words.is_empty() { Cell::Empty } else { Cell::Text(words.to_owned()) }
}

fn word(kind: Option<&crate::pages::Kind>) -> Cell {
    kind.map_or(Cell::Empty, |kind| text(&kind.name))
}

fn verdict(told: &Told) -> Cell {
    chance::likeliest(&told.verdicts).map_or(Cell::Empty, |(verdict, _)| text(verdict))
}

fn sure(told: &Told) -> Cell {
    chance::likeliest(&told.verdicts).map_or(Cell::Empty, |(_, share)| Cell::Number(rounded(share.get())))
}

fn usual<T: Copy>(measured: Option<Measured<T>>, number: impl Fn(T) -> f64) -> Cell {
    measured.map_or(Cell::Empty, |own| Cell::Number(rounded(number(own.usual))))
}

fn low<T: Copy>(measured: Option<Measured<T>>, number: impl Fn(T) -> f64) -> Cell {
    measured.and_then(|own| own.most).map_or(Cell::Empty, |(low, _)| Cell::Number(rounded(number(low))))
}

fn high<T: Copy>(measured: Option<Measured<T>>, number: impl Fn(T) -> f64) -> Cell {
    measured.and_then(|own| own.most).map_or(Cell::Empty, |(_, high)| Cell::Number(rounded(number(high))))
}
