//! The copy: what the walk sheets' template is given to set, every word of it ready to print.

use crate::catalogue::Paper;
use crate::typesetting::Fonts;
use crate::walk_sheets::{Cell, Row, Table, Walk, WalkSheets};
use serde::Serialize;

/// All sheets.
#[derive(Serialize)]
pub(super) struct Copy {
    families: Vec<String>,
    paper: &'static str,
    house: String,
    grow_out: String,
    title: String,
    year: i16,
    month: i8,
    day: i8,
    when: String,
    sketch: Option<String>,
    walks: Vec<WalkCopy>,
}

#[derive(Serialize)]
struct WalkCopy {
    whose: String,
    due: String,
    tables: Vec<TableCopy>,
}

#[derive(Serialize)]
struct TableCopy {
    title: String,
    headings: Vec<String>,
    widths: Vec<f64>,
    rows: Vec<RowCopy>,
}

#[derive(Serialize)]
struct RowCopy {
    begins: Option<String>,
    cells: Vec<CellCopy>,
}

#[derive(Serialize)]
struct CellCopy {
    words: String,
    due: &'static str,
}

/// Words walk sheets for their template.
pub(super) fn copy(sheets: &WalkSheets, paper: Paper, fonts: &Fonts) -> Copy {
    Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        paper: paper.typst_name(),
        house: fonts.legible(&sheets.house),
        grow_out: fonts.legible(&sheets.grow_out),
        title: fonts.legible(&format!("Walk sheets of {}, {}", sheets.grow_out, sheets.day)),
        year: sheets.day.year(),
        month: sheets.day.month(),
        day: sheets.day.day(),
        when: sheets.day.strftime("%A %-d %B %Y").to_string(),
        sketch: sheets.sketch.clone(),
        walks: sheets.walks.iter().map(|walk| walk_copy(walk, fonts)).collect(),
    }
}

fn walk_copy(walk: &Walk, fonts: &Fonts) -> WalkCopy {
    WalkCopy {
        whose: fonts.legible(&walk.whose),
        due: fonts.legible(&walk.due),
        tables: walk.tables.iter().map(|table| table_copy(table, fonts)).collect(),
    }
}

fn table_copy(table: &Table, fonts: &Fonts) -> TableCopy {
    TableCopy {
        title: table.title.clone(),
        headings: table.columns.iter().map(|column| column.heading.clone()).collect(),
        widths: table.columns.iter().map(|column| column.width.get()).collect(),
        rows: table.rows.iter().map(|row| row_copy(row, fonts)).collect(),
    }
}

fn row_copy(row: &Row, fonts: &Fonts) -> RowCopy {
    let cell = |cell: &Cell| match cell {
        Cell::Printed(words) => CellCopy { words: fonts.legible(words), due: "printed" },
        Cell::Open => CellCopy { words: String::new(), due: "open" },
        Cell::NotDue => CellCopy { words: String::new(), due: "no" },
    };
    RowCopy {
        begins: row.begins.as_deref().map(|begins| fonts.legible(begins)),
        cells: row.cells.iter().map(cell).collect(),
    }
}
