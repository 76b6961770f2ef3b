//! Workbooks as growers keep them: merged titles, dates, bare day numbers, formulas.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod house;

use house::workbooks::{ods, ods_row, xlsx, xlsx_of};
use house::{bytes, taken, taken_with};
use intake::file::open;
use intake::layout::Answers;
use jiff::civil::date;
use record::season::Season;
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};

/// A merged title, headings, dates as dates and as bare numbers, a total by formula.
fn written_workbook() -> Vec<u8> {
    let mut book = Workbook::new();
    let dated = Format::new().set_num_format("d-mmm-yy");
    let sheet = book.add_worksheet().set_name("samples").unwrap();
    sheet.merge_range(0, 0, 0, 3, "The bench in August", &Format::new()).unwrap();
    for (place, heading) in (0..).zip(["Variety", "Date", "Weight, g", "Locules"]) {
        sheet.write(2, place, heading).unwrap();
    }
    sheet.write(3, 0, "Amber Bell").unwrap();
    sheet.write_with_format(3, 1, ExcelDateTime::from_ymd(2031, 8, 14).unwrap(), &dated).unwrap();
    sheet.write(3, 2, 1234.5).unwrap();
    sheet.write(3, 3, 5).unwrap();
    sheet.write(4, 0, "Nan").unwrap();
    // 14 August 2031 as a bare number: 48 074 days after day 0.
    sheet.write(4, 1, 48_074).unwrap();
    sheet.write(4, 2, "1,2").unwrap();
    sheet.write(5, 0, "Total").unwrap();
    sheet.write_formula(5, 2, "=SUM(C4:C5)").unwrap();
    book.add_worksheet().set_name("empty").unwrap();
    book.add_worksheet().set_name("other").unwrap().write(0, 0, "see samples").unwrap();
    book.save_to_buffer().unwrap()
}

/// ECMA-376 Part 1, 18.17.4.1: serial 48 074 of the 1900 system is 14 August 2031 (checked by `date -u -d
/// "1899-12-30 +48074 days"`).
#[test]
fn dates_and_numbers_keep_their_sort() {
    let content = written_workbook();
    let tables = open("bench.xlsx", bytes(&content)).unwrap();
    assert_eq!(
        tables.iter().map(|table| table.sheet().unwrap_or("")).collect::<Vec<_>>(),
        ["samples", "other"]
    );
    let outcome = taken("bench.xlsx", &content);
    assert_eq!(outcome.layout.titles, ["The bench in August"]);
    assert_eq!(outcome.layout.heading_row, 3);
    assert_eq!(outcome.weights(), [Some(1234.5), Some(1.2)]);
    assert_eq!(outcome.days(), [Some(date(2031, 8, 14)); 2]);
    assert_eq!((outcome.tally.totals, outcome.questions()), (1, Vec::<String>::new()));
}

fn text(place: &str, text: &str) -> String {
    format!(r#"<c r="{place}" t="inlineStr"><is><t>{text}</t></is></c>"#)
}

fn headings() -> String {
    format!(r#"<row r="1">{}{}{}</row>"#, text("A1", "variety"), text("B1", "date"), text("C1", "weight (g)"))
}

#[test]
fn formulas_give_the_value_they_were_saved_with() {
    let row = |number: u32, cell: &str| {
        let nan = text(&format!("A{number}"), "Nan");
        format!(r#"<row r="{number}">{nan}<c r="C{number}"{cell}</c></row>"#)
    };
    let rows = [
        headings(),
        row(2, "><f>1+0.5</f><v>1.5</v>"),
        row(3, "><f>1+0.5</f>"),
        row(4, r#" t="e"><f>1/0</f><v>#DIV/0!</v>"#),
        row(5, r#" t="str"><f>"1.4 g"</f><v>1.4 g</v>"#),
    ];
    let season = Answers { season: Season::new(2031), ..Answers::default() };
    let outcome = taken_with("samples.xlsx", xlsx(&rows.concat()), &season);
    assert_eq!(outcome.weights(), [Some(1.5), Some(1.4)]);
    assert_eq!(
        outcome.reasons(),
        [
            "3: weight (g): the cell holds a formula without its value",
            "4: weight (g): the formula failed with #DIV/0!",
        ]
    );
}

/// ECMA-376 Part 1, 18.17.4.1: in the 1904 system serial 0 is 1 January 1904; 46 612 is 14 August 2031.
#[test]
fn workbooks_that_count_from_1904_are_read_so() {
    let row = format!(
        r#"<row r="2">{}<c r="B2"><v>46612</v></c><c r="C2"><v>1.5</v></c></row>"#,
        text("A2", "Nan")
    );
    let book = br#"<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><workbookPr date1904="1"/><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets></workbook>"#;
    let rows = headings() + &row;
    let content = xlsx_of(book, &rows);
    assert_eq!(taken("samples.xlsx", content).days(), [Some(date(2031, 8, 14))]);
}

#[test]
fn rejected_workbook_rows_are_written_out_as_typed() {
    let row = format!(
        r#"<row r="2">{}<c r="B2"><v>48074</v></c><c r="C2"><v>1.5</v></c></row>"#,
        text("A2", "Nann")
    );
    let outcome = taken("samples.xlsx", xlsx(&(headings() + &row)));
    assert_eq!(outcome.rejections[0].cells, ["Nann", "2031-08-14", "1.5"]);
}

#[test]
fn open_document_sheets_are_read() {
    let typed = r#"<table:table-row table:number-rows-repeated="2"><table:table-cell office:value-type="string"><text:p>Amber <text:span>Bell</text:span><office:annotation><text:p>pinned note</text:p></office:annotation></text:p></table:table-cell><table:table-cell office:value-type="date" office:date-value="2031-08-14T00:00:00"><text:p>14/08/31</text:p></table:table-cell><table:table-cell office:value-type="float" office:value="170.5"><text:p>170,5</text:p></table:table-cell></table:table-row>"#;
    let formula = r##"<table:table-row><table:table-cell office:value-type="string"><text:p>Nan</text:p></table:table-cell><table:table-cell/><table:table-cell table:formula="of:=1/0" office:value-type="string" calcext:value-type="error"><text:p>#DIV/0!</text:p></table:table-cell></table:table-row>"##;
    let rows = [
        ods_row(&["Fruit samples 2031"]),
        ods_row(&["variety", "date", "weight (g) &amp; more"]).replace(" &amp; more", ""),
    ]
    .concat();
    let content = ods(&[("bench &amp; scale", &format!("{rows}{typed}{formula}"))]);
    let tables = open("bench.ods", bytes(&content)).unwrap();
    assert_eq!((tables[0].sheet(), tables[0].read_as()), (Some("bench & scale"), "an ODS workbook"));
    let outcome = taken("bench.ods", &content);
    assert_eq!(outcome.weights(), [Some(170.5), Some(170.5)]);
    assert_eq!(outcome.days(), [Some(date(2031, 8, 14)); 2]);
    assert_eq!(outcome.reasons(), ["5: weight (g): the formula failed with #DIV/0!"]);
    // Rows that the sheet repeats are rows of their own.
    assert_eq!(outcome.entries.iter().map(|entry| entry.0).collect::<Vec<_>>(), [3, 4]);
}
