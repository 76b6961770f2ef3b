//! Workbooks made by hand, so that a test can say exactly what is in them.

#![allow(dead_code, unreachable_pub, clippy::unwrap_used, reason = "each test file makes its own workbooks")]

use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;

/// A zip package of named parts.
pub fn package(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in parts {
        zip.start_file(*name, SimpleFileOptions::default()).unwrap();
        zip.write_all(content).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

const WORKBOOK: &str = r#"<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><workbookPr/><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets></workbook>"#;
const RELATIONS: &str = r#"<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>"#;
const ROOT: &str = r#"<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>"#;

/// An XLSX workbook of one sheet whose rows are given as XML.
pub fn xlsx(rows: &str) -> Vec<u8> {
    xlsx_with(rows, &[])
}

/// An XLSX workbook with more parts.
pub fn xlsx_with(rows: &str, more: &[(&str, &[u8])]) -> Vec<u8> {
    packed(WORKBOOK.as_bytes(), rows, more)
}

/// An XLSX workbook with a workbook part of its own.
pub fn xlsx_of(workbook: &[u8], rows: &str) -> Vec<u8> {
    packed(workbook, rows, &[])
}

fn packed(workbook: &[u8], rows: &str, more: &[(&str, &[u8])]) -> Vec<u8> {
    let sheet = format!(
        r#"<?xml version="1.0"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>{rows}</sheetData></worksheet>"#
    );
    let mut parts: Vec<(&str, &[u8])> = vec![
        ("_rels/.rels", ROOT.as_bytes()),
        ("xl/workbook.xml", workbook),
        ("xl/_rels/workbook.xml.rels", RELATIONS.as_bytes()),
        ("xl/worksheets/sheet1.xml", sheet.as_bytes()),
    ];
    parts.extend_from_slice(more);
    package(&parts)
}

/// An ODS workbook of sheets, each a name and its rows as XML.
pub fn ods(sheets: &[(&str, &str)]) -> Vec<u8> {
    let tables: String = sheets
        .iter()
        .map(|(name, rows)| format!(r#"<table:table table:name="{name}">{rows}</table:table>"#))
        .collect();
    let content = format!(
        r#"<?xml version="1.0"?><office:document-content xmlns:office="o" xmlns:table="t" xmlns:text="x" xmlns:calcext="c"><office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>"#
    );
    package(&[
        ("mimetype", b"application/vnd.oasis.opendocument.spreadsheet"),
        ("content.xml", content.as_bytes()),
    ])
}

/// One ODS row of text cells.
pub fn ods_row(cells: &[&str]) -> String {
    let cells: String = cells
        .iter()
        .map(|cell| {
            format!(
                r#"<table:table-cell office:value-type="string"><text:p>{cell}</text:p></table:table-cell>"#
            )
        })
        .collect();
    format!("<table:table-row>{cells}</table:table-row>")
}
