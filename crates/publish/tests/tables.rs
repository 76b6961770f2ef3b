//! Tables there and back: what is written is what a reader finds.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test stops at its first surprise")]

use calamine::{Data, Reader, Xlsx, open_workbook_from_rs};
use jiff::civil::{Date, date};
use proptest::prelude::{Strategy, any, prop_assert, prop_assert_eq, prop_oneof, proptest};
use publish::tables::delimited::{ByteOrderMark, to_csv};
use publish::tables::guard::{guarded, is_risky, unguarded};
use publish::tables::workbook::{XlsxFault, to_xlsx};
use publish::tables::{Cell, Sheet};
use std::io::Cursor;

const MADE_ON: Date = date(2031, 12, 4);

/// Texts as wild as a keeper's notes, with the dangerous beginnings often among them.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![any::<String>(), "'{0,3}[=+@\\-\t\r]['=+\\-@a-z0-9 ]{0,8}", "[ '\"=,;\r\n\ta-c]{0,10}",]
}

fn cell() -> impl Strategy<Value = Cell> {
    let day = (1950_i16..2100, 1_i8..=12, 1_i8..=28)
        .prop_map(|(year, month, day)| Cell::Day(date(year, month, day)));
    prop_oneof![
        text().prop_map(Cell::Text),
        any::<f64>().prop_map(Cell::Number),
        (0_u64..1 << 53).prop_map(Cell::Count),
        day,
        proptest::strategy::Just(Cell::Empty),
    ]
}

fn sheet() -> impl Strategy<Value = Sheet> {
    let rows = proptest::collection::vec(proptest::collection::vec(cell(), 0..6), 0..8);
    (text(), proptest::collection::vec(text(), 1..5), rows).prop_map(|(name, headings, rows)| Sheet {
        name,
        headings,
        rows,
    })
}

fn csv_of(sheet: &Sheet, mark: ByteOrderMark) -> Vec<u8> {
    let mut bytes = Vec::new();
    to_csv(sheet, mark, &mut bytes).unwrap();
    bytes
}

fn csv_rows(bytes: &[u8]) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(bytes);
    reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
}

fn one_cell(cell: Cell) -> Sheet {
    Sheet { name: "quarantine".into(), headings: vec!["value".into()], rows: vec![vec![cell]] }
}

fn xlsx_cells(bytes: Vec<u8>) -> (Vec<String>, calamine::Range<Data>) {
    let mut book: Xlsx<_> = open_workbook_from_rs(Cursor::new(bytes)).unwrap();
    let names = book.sheet_names();
    let formulas = book.worksheet_formula(&names[0]).unwrap();
    assert!(formulas.cells().all(|(_, _, formula)| formula.is_empty()), "a formula was written");
    let cells = book.worksheet_range(&names[0]).unwrap();
    (names, cells)
}

/// What a reader should find of a cell in a CSV file once the guard is off.
fn in_csv(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => text.clone(),
        Cell::Number(number) if number.is_finite() => number.to_string(),
        Cell::Number(_) | Cell::Empty => String::new(),
        Cell::Count(count) => count.to_string(),
        Cell::Day(day) => day.to_string(),
    }
}

#[track_caller]
fn agrees(text: &str, written: &str) {
    assert_eq!(guarded(text), written);
    assert_eq!(unguarded(written), text);
}

#[test]
fn only_risky_text_is_guarded() {
    agrees("=HYPERLINK(\"x\")", "'=HYPERLINK(\"x\")");
    agrees("+1 lb", "'+1 lb");
    agrees("-", "'-");
    agrees("@here", "'@here");
    agrees("\tx", "'\tx");
    agrees("\rx", "'\rx");
    agrees("'=kept", "''=kept");
    agrees("'30s heirloom", "'30s heirloom");
    agrees("4 oz", "4 oz");
    agrees("", "");
}

proptest! {
    /// The guard comes off exactly, and nothing that it wrote begins as a formula does.
    #[test]
    fn the_guard_can_be_undone(text in text()) {
        let written = guarded(&text);
        prop_assert!(!written.starts_with(['=', '+', '-', '@', '\t', '\r']));
        prop_assert_eq!(unguarded(&written), &text);
        prop_assert_eq!(is_risky(&text), written != text);
    }

    /// A quarantined row that is exported and taken again holds what it held.
    #[test]
    fn csv_comes_back_as_it_went(sheet in sheet()) {
        let rows = csv_rows(&csv_of(&sheet, ByteOrderMark::LeftOut));
        let width = sheet.rows.iter().map(Vec::len).fold(sheet.headings.len(), usize::max);
        let filled = |mut cells: Vec<String>| { cells.resize(width, String::new()); cells };
        let told = sheet.rows.iter().map(|row| filled(row.iter().map(in_csv).collect()));
        let expected: Vec<_> = std::iter::once(filled(sheet.headings.clone())).chain(told).collect();
        let found: Vec<Vec<String>> =
            rows.iter().map(|row| row.iter().map(|cell| unguarded(cell).to_owned()).collect()).collect();
        prop_assert_eq!(found, expected);
    }

    /// A workbook holds the same numbers, days and texts, and no formula.
    #[test]
    fn a_workbook_comes_back_as_it_went(sheet in sheet()) {
        let (_, cells) = xlsx_cells(to_xlsx(std::slice::from_ref(&sheet), MADE_ON).unwrap());
        for (row, wanted) in sheet.rows.iter().enumerate() {
            for (column, wanted) in wanted.iter().enumerate() {
                let found = cells.get_value((row as u32 + 1, column as u32)).cloned().unwrap_or(Data::Empty);
                prop_assert!(same(wanted, &found), "{:?} came back as {:?}", wanted, found);
            }
        }
    }
}

fn same(wanted: &Cell, found: &Data) -> bool {
    match (wanted, found) {
        (Cell::Text(text), Data::Empty) => text.is_empty(),
        (Cell::Text(text), Data::String(found)) => text == found,
        (Cell::Number(number), Data::Float(found)) => number == found,
        (Cell::Number(number), Data::Empty) => !number.is_finite(),
        (Cell::Count(count), Data::Float(found)) => *count as f64 == *found,
        (Cell::Day(day), Data::DateTime(found)) => {
            let (year, month, date, ..) = found.to_ymd_hms_milli();
            (i32::from(day.year()), i32::from(day.month()), i32::from(day.day()))
                == (i32::from(year), i32::from(month), i32::from(date))
        }
        (Cell::Empty, Data::Empty) => true,
        _ => false,
    }
}

#[test]
fn the_byte_order_mark_is_written_when_asked_for() {
    let sheet = one_cell(Cell::Text("Žlutá".into()));
    assert!(csv_of(&sheet, ByteOrderMark::Written).starts_with(b"\xef\xbb\xbfvalue\r\n"));
    assert!(csv_of(&sheet, ByteOrderMark::LeftOut).starts_with(b"value\r\n"));
}

#[test]
fn numbers_stay_numbers() {
    let csv = csv_of(&one_cell(Cell::Number(-4.5)), ByteOrderMark::LeftOut);
    assert_eq!(String::from_utf8(csv).unwrap(), "value\r\n-4.5\r\n");
    let (_, cells) = xlsx_cells(to_xlsx(&[one_cell(Cell::Number(-4.5))], MADE_ON).unwrap());
    assert_eq!(cells.get_value((1, 0)), Some(&Data::Float(-4.5)));
}

#[test]
fn sheet_names_are_made_fit_and_kept_apart() {
    let named = |name: &str| Sheet { name: name.into(), ..one_cell(Cell::Empty) };
    let wild = [
        "List",
        "list",
        "a/b:c*?",
        "",
        "'",
        "history",
        "x".repeat(60).as_str(),
        "x".repeat(60).as_str(),
        "🍅".repeat(40).as_str(),
    ]
    .map(named);
    let (names, _) = xlsx_cells(to_xlsx(&wild, MADE_ON).unwrap());
    assert_eq!(names[..6], ["List", "list 2", "a b c", "Sheet", "Sheet 2", "Sheet history"]);
    assert_eq!(names.len(), wild.len());
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    let sheet = one_cell(Cell::Text("=1+1".into()));
    let book = || to_xlsx(std::slice::from_ref(&sheet), MADE_ON).unwrap();
    assert!(book() == book());
}

#[test]
fn what_a_worksheet_cannot_hold_is_refused_with_its_place() {
    let long = to_xlsx(&[one_cell(Cell::Text("x".repeat(32_768)))], MADE_ON);
    assert!(matches!(long, Err(XlsxFault::TextTooLong { row: 2, column: 1, length: 32_768, .. })));
    let wide = Sheet { rows: vec![vec![Cell::Empty; 16_385]], ..one_cell(Cell::Empty) };
    assert!(matches!(to_xlsx(&[wide], MADE_ON), Err(XlsxFault::TooLarge { columns: 16_385, .. })));
}
