//! Finds and reads the oracles, and compares with them.

use serde_json::Value;
use statistics::component::{Component, Standing};
use std::collections::BTreeMap;
use std::path::PathBuf;

/// Six significant digits and a little more: the goldens carry twelve, good to about eight.
const RELATIVE: f64 = 2e-8;

/// Text of an oracle, or `None` after saying that it is left out.
pub(crate) fn text(name: &str) -> Option<String> {
    let beside = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared/oracles");
    let folder = std::env::var_os("LOCULE_ORACLES").map_or(beside, PathBuf::from);
    let read = std::fs::read_to_string(folder.join(name)).ok();
    if read.is_none() {
        println!("left out: {name}");
    }
    read
}

/// Expected values.
pub(crate) fn golden(name: &str) -> Option<Value> {
    text(name).map(|text| serde_json::from_str(&text).unwrap())
}

/// An oracle table's columns by heading.
pub(crate) fn table(name: &str, separator: char) -> Option<BTreeMap<String, Vec<String>>> {
    text(name).map(|text| parse_table(&text, separator))
}

/// A table's columns by heading.
pub(crate) fn parse_table(text: &str, separator: char) -> BTreeMap<String, Vec<String>> {
    let mut lines =
        text.lines().map(|line| line.split(separator).map(|cell| cell.trim_matches('"').to_owned()));
    let headings: Vec<String> = lines.next().unwrap().collect();
    let rows: Vec<Vec<String>> = lines.map(Iterator::collect).collect();
    let column = |at: usize| rows.iter().map(|row: &Vec<String>| row[at].clone()).collect::<Vec<String>>();
    headings.iter().enumerate().map(|(at, heading)| (heading.clone(), column(at))).collect()
}

/// Numbers of a column.
pub(crate) fn numbers(column: &[String]) -> Vec<f64> {
    column.iter().map(|cell| cell.parse().unwrap()).collect()
}

/// Level numbers of a factor, in the order of its sorted labels, and those labels.
pub(crate) fn levels(column: &[String]) -> (Vec<usize>, Vec<String>) {
    let mut labels = column.to_vec();
    labels.sort();
    labels.dedup();
    (column.iter().map(|cell| labels.iter().position(|label| label == cell).unwrap()).collect(), labels)
}

/// Columns of a factor as R codes it: one for each level but the first.
pub(crate) fn treatment_columns(levels: &[usize]) -> Vec<Vec<f64>> {
    let last = levels.iter().copied().max().unwrap();
    (1..=last).map(|level| levels.iter().map(|own| f64::from(u8::from(*own == level))).collect()).collect()
}

/// Holds where two numbers are the same to the goldens' digits.
#[track_caller]
pub(crate) fn agrees(what: &str, found: f64, expected: &Value) {
    agrees_within(what, found, expected, RELATIVE);
}

/// Holds where two numbers differ by less than a share of the larger.
#[track_caller]
pub(crate) fn agrees_within(what: &str, found: f64, expected: &Value, relative: f64) {
    let expected = expected.as_f64().unwrap();
    let allowed = relative * expected.abs().max(1e-4);
    assert!((found - expected).abs() <= allowed, "{what}: found {found}, expected {expected}");
}

/// Holds where a component is estimated and the same.
#[track_caller]
pub(crate) fn component_agrees(what: &str, found: Component, expected: &Value) {
    assert!(matches!(found.standing, Standing::Estimated { .. }), "{what}: {found:?}");
    agrees(what, found.variance, expected);
}
