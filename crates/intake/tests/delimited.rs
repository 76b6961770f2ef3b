//! Splitting text into rows and cells: held to the `csv` crate where a file is well formed, and to sense
//! where it is not.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod house;

use house::bytes;
use intake::file::open;
use intake::table::{Broken, Table};
use proptest::prelude::*;
use std::ops::ControlFlow;

/// The rows of a table: number, cells, what broke.
fn rows(table: &Table) -> Vec<(u64, Vec<String>, Option<Broken>)> {
    let mut rows = Vec::new();
    table
        .walk(&mut |row| {
            rows.push((row.number, row.cells().map(|cell| cell.text.to_owned()).collect(), row.broken));
            ControlFlow::Continue(())
        })
        .unwrap();
    rows
}

fn cells(content: impl AsRef<[u8]>) -> Vec<Vec<String>> {
    rows(&open("any.csv", bytes(content)).unwrap()[0]).into_iter().map(|(_, cells, _)| cells).collect()
}

#[track_caller]
fn agrees(content: &str, expected: &[&[&str]]) {
    let expected: Vec<Vec<String>> =
        expected.iter().map(|row| row.iter().map(|cell| (*cell).to_owned()).collect()).collect();
    assert_eq!(cells(content), expected, "{content:?}");
}

#[test]
fn text_is_split_as_growers_mean_it() {
    agrees("variety,weight\nNan,2\n", &[&["variety", "weight"], &["Nan", "2"]]);
    agrees("variety;weight\r\nNan;6,3\r\n", &[&["variety", "weight"], &["Nan", "6,3"]]);
    agrees("variety\tweight\rNan\t2", &[&["variety", "weight"], &["Nan", "2"]]);
    agrees("variety|weight\nNan|2", &[&["variety", "weight"], &["Nan", "2"]]);
    agrees("sep=;\nvariety;weight\n", &[&["sep=", ""], &["variety", "weight"]]);
    // Quotes round delimiters, breaks and quotes; a blank before the quote; inches that are no quotes.
    agrees(
        "variety,note\n\"Nan, the\nsmall\", \"says \"\"hi\"\"\"\nNan,4' 6\"\n",
        &[&["variety", "note"], &["Nan, the\nsmall", "says \"hi\""], &["Nan", "4' 6\""]],
    );
    // Words behind a closing quote keep the quotes.
    agrees("variety,weight\n\"Big\" Nan,2\n", &[&["variety", "weight"], &["\"Big\" Nan", "2"]]);
    agrees("variety,weight\n\n,\n", &[&["variety", "weight"], &[""], &["", ""]]);
}

/// A title that holds commas does not make a semicolon file one of commas.
#[test]
fn the_delimiter_is_the_headings() {
    let text = "Fruit, weighed, measured, and cut, at home\nvariety;weight (g);length (mm)\nNan;1,5;9,1\nNan;1,4;9,0\n";
    assert_eq!(cells(text)[1], ["variety", "weight (g)", "length (mm)"]);
}

#[test]
fn a_quote_that_never_closes_costs_one_row() {
    let text = "variety,weight\nNan,2\n\"Nan,3\nNan,4\nNan,5\n";
    let rows = rows(&open("any.csv", bytes(text)).unwrap()[0]);
    let broken: Vec<_> = rows.iter().filter(|row| row.2.is_some()).map(|row| (row.0, row.2)).collect();
    assert_eq!(broken, [(3, Some(Broken::OpenQuote))]);
    assert_eq!(rows.len(), 5);
    assert_eq!(rows[4], (5, vec!["Nan".to_owned(), "5".to_owned()], None));
}

#[test]
fn rows_beyond_the_limits_are_named_and_passed() {
    let long_cell = format!("variety,weight\nNan,{}\nNan,3\n", "9".repeat(2 << 20));
    let long_row = format!("variety,weight\n{}\nNan,3\n", "Nan,".repeat(2 << 20));
    let wide = format!("variety,weight\n{}\nNan,3\n", "x,".repeat(600));
    let nul = "variety,weight\nNa\0n,2\nNan,3\n".to_owned();
    for (text, broken) in [
        (long_cell, Broken::LongCell),
        (long_row, Broken::LongRow),
        (wide, Broken::ManyCells),
        (nul, Broken::Nul),
    ] {
        let rows = rows(&open("any.csv", bytes(&text)).unwrap()[0]);
        assert_eq!(rows.iter().map(|row| row.2).collect::<Vec<_>>(), [None, Some(broken), None]);
        assert_eq!(rows[2].1, ["Nan", "3"]);
    }
}

/// The rows by the `csv` crate, trimmed as we trim.
fn by_csv(text: &str, delimiter: u8) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .from_reader(text.as_bytes());
    let cells = |record: csv::StringRecord| record.iter().map(|cell| cell.trim().to_owned()).collect();
    reader.records().map(|record| cells(record.unwrap())).collect()
}

fn written(rows: &[Vec<String>], delimiter: u8) -> String {
    let mut writer = csv::WriterBuilder::new().flexible(true).delimiter(delimiter).from_writer(Vec::new());
    for row in rows {
        writer.write_record(row).unwrap();
    }
    String::from_utf8(writer.into_inner().unwrap()).unwrap()
}

proptest! {
    /// What the `csv` crate writes is read here as it reads it.
    #[test]
    fn well_formed_text_is_split_as_csv_splits_it(
        data in proptest::collection::vec(proptest::collection::vec("[a-z0-9 ,;\"\n|é]{0,12}", 3), 1..20),
        delimiter in prop::sample::select(vec![b',', b';', b'\t', b'|']),
    ) {
        // A heading row tells the delimiter, as in every real file.
        let mut all = vec![["variety", "weight", "length"].map(str::to_owned).to_vec()];
        all.extend(data);
        let text = written(&all, delimiter);
        let ours: Vec<Vec<String>> =
            cells(&text).into_iter().map(|row| row.into_iter().map(|cell| cell.trim().to_owned()).collect()).collect();
        prop_assert_eq!(ours, by_csv(&text, delimiter));
    }

    /// Whatever the bytes, the walk ends, rows are numbered from 1 without gaps, and a second walk is the same.
    #[test]
    fn any_bytes_are_refused_or_walked(content in proptest::collection::vec(any::<u8>(), 1..3000)) {
        if let Ok(tables) = open("any.csv", bytes(&content)) {
            for table in tables {
                let first = rows(&table);
                prop_assert!(first.iter().zip(1..).all(|(row, number)| row.0 == number));
                prop_assert_eq!(first, rows(&table));
            }
        }
    }

    #[test]
    fn quotes_and_breaks_in_any_order_are_walked(content in "[\",;\r\na\u{e9}' ]{1,400}") {
        if let Ok(tables) = open("any.csv", bytes(&content)) {
            for table in &tables {
                let walked = rows(table);
                prop_assert!(walked.len() <= content.len() + 1);
            }
        }
    }
}
