//! Hostile and mistaken files: each is refused with a clear reason, in little memory.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod house;

use house::workbooks::{ods, package, xlsx, xlsx_with};
use house::{bytes, taken};
use intake::file::{Content, OpenFault, open};
use intake::layout::Answers;
use intake::recognise::{RecogniseFault, recognise};

#[track_caller]
fn refused(name: &str, content: impl AsRef<[u8]>, reason: &str) {
    match open(name, bytes(content)) {
        Ok(_) => panic!("{name} was opened"),
        Err(fault) => {
            assert!(fault.to_string().contains(reason), "{name}: {fault}");
            assert!(!fault.remedy().is_empty());
        }
    }
}

#[test]
fn what_is_no_table_is_told() {
    refused("empty.csv", b"", "holds nothing");
    refused("blank.csv", b" \n\n", "holds nothing");
    refused("plan.csv", b"%PDF-1.7\n", "a PDF");
    refused("page.csv", b"<!doctype html><table></table>", "a web page");
    refused("fruit.xlsx", b"\x89PNG\r\n\x1a\n", "a picture");
    refused("old.xls", b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1 and so on", "an old binary workbook");
    refused("raw.csv", (0..5000).map(|at| (at % 11 * 23) as u8).collect::<Vec<u8>>(), "a file of bytes");
    refused("letters.zip", package(&[("a.txt", b"variety,weight")]), "a packed file");
    refused("cut.xlsx", &xlsx("<row/>")[..300], "damaged");
    assert!(matches!(
        open("gone.csv", Content::Path("/nowhere/at/all.csv".into())),
        Err(OpenFault::Unreadable(_))
    ));
}

#[test]
fn locked_workbooks_are_told() {
    let mark: Vec<u8> = "EncryptedPackage".encode_utf16().flat_map(u16::to_le_bytes).collect();
    refused("locked.xlsx", [b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1".as_slice(), &mark].concat(), "password");
    let manifest = br#"<manifest:manifest xmlns:manifest="m"><manifest:file-entry><manifest:encryption-data/></manifest:file-entry></manifest:manifest>"#;
    let locked = package(&[("content.xml", b"....".as_slice()), ("META-INF/manifest.xml", manifest)]);
    refused("locked.ods", locked, "password");
}

/// The name of a file says nothing: a workbook called .csv is a workbook, a text called .xlsx is text.
#[test]
fn content_decides_and_not_the_name() {
    let rows = r#"<row r="1"><c r="A1" t="inlineStr"><is><t>variety</t></is></c><c r="B1" t="inlineStr"><is><t>weight (g)</t></is></c></row><row r="2"><c r="A2" t="inlineStr"><is><t>Nan</t></is></c><c r="B2"><v>1.5</v></c></row>"#;
    let tables = open("fruit.csv", bytes(xlsx(rows))).unwrap();
    assert_eq!(tables[0].read_as(), "an XLSX workbook");
    let tables = open("fruit.xlsx", bytes("variety,weight (g)\nNan,1.5\n")).unwrap();
    assert_eq!(tables[0].read_as(), "text with commas in UTF-8");
}

#[test]
fn zip_bombs_are_not_unpacked() {
    // 64 MB of blanks pack to 64 kB.
    let blanks = vec![b' '; 64 << 20];
    refused("bomb.xlsx", xlsx_with("", &[("xl/sharedStrings.xml", &blanks)]), "its own size");
    refused("bomb.ods", package(&[("content.xml", &blanks)]), "its own size");
    let names: Vec<String> = (0..5000).map(|at| format!("xl/media/{at}")).collect();
    let parts: Vec<(&str, &[u8])> = names.iter().map(|name| (name.as_str(), b"x".as_slice())).collect();
    refused("parts.xlsx", package(&parts), "more than 4096 parts");
}

/// A few bytes that ask for a great deal of room.
#[test]
fn promises_of_size_are_not_believed() {
    let strings = br#"<?xml version="1.0"?><sst xmlns="m" uniqueCount="9999999999999999999999"></sst>"#;
    refused("strings.xlsx", xlsx_with("", &[("xl/sharedStrings.xml", strings)]), "different words");
    let cell = |repeat: &str| {
        format!(
            r#"<table:table-cell table:number-columns-repeated="{repeat}" office:value-type="float" office:value="1"/>"#
        )
    };
    let rows = |repeat: &str, cells: String| {
        format!(r#"<table:table-row table:number-rows-repeated="{repeat}">{cells}</table:table-row>"#)
    };
    refused("rows.ods", ods(&[("S", &rows("1048576", cell("500")))]), "cells in a sheet");
    refused("rows.ods", ods(&[("S", &rows("99999999999", cell("1")))]), "rows in a sheet");
    let far = r#"<row r="1048577"><c r="A1048577"><v>1</v></c></row>"#;
    refused("far.xlsx", xlsx(far), "rows in a sheet");
    let sheets: Vec<(String, String)> = (0..300).map(|at| (format!("S{at}"), rows("1", cell("1")))).collect();
    let sheets: Vec<(&str, &str)> =
        sheets.iter().map(|(name, rows)| (name.as_str(), rows.as_str())).collect();
    refused("sheets.ods", ods(&sheets), "more than 256 sheets");
}

/// Empty rows and columns to the sheet's edge, as office programs write them, cost nothing.
#[test]
fn empty_edges_are_not_filled() {
    let heading = r#"<table:table-row><table:table-cell office:value-type="string"><text:p>variety</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>weight (g)</text:p></table:table-cell><table:table-cell table:number-columns-repeated="16382"/></table:table-row>"#;
    let row = r#"<table:table-row><table:table-cell office:value-type="string"><text:p>Nan</text:p></table:table-cell><table:table-cell office:value-type="float" office:value="1.5"/></table:table-row>"#;
    let edge = r#"<table:table-row table:number-rows-repeated="1048574"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>"#;
    let outcome = taken_in_2031("fruit.ods", &ods(&[("Sheet", &format!("{heading}{row}{edge}"))]));
    assert_eq!(outcome.weights(), [Some(1.5)]);
}

fn taken_in_2031(name: &str, content: &[u8]) -> house::Outcome {
    let season = record::season::Season::new(2031);
    house::taken_with(name, content, &Answers { season, ..Answers::default() })
}

#[test]
fn a_cell_beyond_the_last_column_breaks_its_row() {
    let rows = r#"<row r="1"><c r="A1" t="inlineStr"><is><t>variety</t></is></c><c r="B1" t="inlineStr"><is><t>weight (g)</t></is></c></row><row r="2"><c r="A2" t="inlineStr"><is><t>Nan</t></is></c><c r="XFD2"><v>1.5</v></c></row>"#;
    let outcome = taken_in_2031("fruit.xlsx", &xlsx(rows));
    assert_eq!(outcome.reasons(), ["2: -: the row has more than 512 cells"]);
}

/// Names that are paths are only ever shown.
#[test]
fn paths_in_names_lead_nowhere() {
    let row = house::workbooks::ods_row(&["variety", "weight (g)"]);
    let tables = open("../../etc/passwd", bytes(ods(&[("../../../etc/shadow", &row)]))).unwrap();
    assert_eq!(tables[0].sheet(), Some("../../../etc/shadow"));
    let hidden = xlsx_with("", &[("../../outside.xml", b"<x/>")]);
    refused("slip.xlsx", hidden, "holds nothing");
}

#[test]
fn a_table_without_headings_is_told() {
    let recognised =
        |text: &str| recognise(&open("any.csv", bytes(text)).unwrap()[0], &[], &Answers::default());
    assert!(matches!(recognised("1,2,3\n4,5,6\n"), Err(RecogniseFault::NoHeadings { .. })));
    let lacking = recognised("variety,weight (g),season\n").map(|layout| layout.row_count);
    assert_eq!(lacking.unwrap(), 0);
    let fault = recognised("weight (g),length (mm)\n50,60\n").unwrap_err();
    assert_eq!(fault.to_string(), "a table of fruit samples needs a column for the variety or the plot");
}

/// A line of 64 MB without an end is one broken row, not 64 MB of memory for its cells.
#[test]
fn an_endless_line_is_one_broken_row() {
    let mut text = b"variety,season,weight (g)\nNan,2031,1.5\n".to_vec();
    text.extend(std::iter::repeat_n(b'x', 64 << 20));
    text.extend(b"\nNan,2031,1.4\n");
    let outcome = taken("long.csv", text);
    assert_eq!(outcome.reasons(), ["3: -: the row is longer than 4 MB"]);
    assert_eq!(outcome.weights(), [Some(1.5), Some(1.4)]);
}
