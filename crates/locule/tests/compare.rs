//! A small grow-out compared through the command line, its figures worked out by hand.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use assert_cmd::Command;
use serde_json::Value;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// Kilograms a plant of three varieties in four blocks.
const YIELDS: [(&str, [f64; 4]); 3] = [
    ("Amber Post", [2.0, 2.2, 1.8, 2.1]),
    ("Barn Red", [4.0, 4.3, 3.9, 4.1]),
    ("Copper Gate", [2.1, 2.3, 2.0, 2.2]),
];

fn locule(at: &Path, arguments: &[&str]) -> std::process::Output {
    Command::cargo_bin("locule").unwrap().current_dir(at).args(arguments).output().unwrap()
}

#[track_caller]
fn done(at: &Path, arguments: &[&str]) -> String {
    let output = locule(at, arguments);
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// A house with the grow-out brought in: four plants a plot, picked twice.
fn house(folder: &Path) -> std::path::PathBuf {
    let (mut list, mut beds, mut picks) = (
        String::from("variety\n"),
        String::new(),
        String::from("grow-out,plot,variety,date,weight (g),fruit count\n"),
    );
    beds.push_str("grow-out,season,garden,plot,variety,block,plants,transplanted\n");
    for (variety, yields) in YIELDS {
        writeln!(list, "{variety}").unwrap();
        for (block, kilograms) in (1..).zip(yields) {
            let plot = format!("{}{block}", &variety[..1]);
            writeln!(beds, "2025 Home,2025,Home,{plot},{variety},{block},4,2025-05-20").unwrap();
            let half = kilograms * 4.0 * 500.0;
            writeln!(picks, "2025 Home,{plot},{variety},2025-08-01,{half},20").unwrap();
            writeln!(picks, "2025 Home,{plot},{variety},2025-08-15,{half},20").unwrap();
        }
    }
    for (name, text) in [("list.csv", list), ("beds.csv", beds), ("picks.csv", picks)] {
        fs::write(folder.join(name), text).unwrap();
    }
    done(folder, &["new", "house", "--units", "metric"]);
    let house = folder.join("house");
    done(&house, &["take", "../list.csv", "../beds.csv", "../picks.csv"]);
    house
}

#[test]
fn a_grow_out_is_compared_as_by_hand() {
    let folder = tempfile::tempdir().unwrap();
    let house = house(folder.path());
    let told = done(&house, &["compare", "2025 home", "yield", "--check", "Amber Post"]);
    assert!(told.contains("12 of 12 plots have a number."), "{told}");
    assert!(told.contains("Barn Red: 2.05 kg (4.5 lb) a plant more than Amber Post"), "{told}");
    let json: Value = serde_json::from_str(&done(
        &house,
        &["--json", "compare", "2025 Home", "yield", "--check", "Amber Post"],
    ))
    .unwrap();
    let answer = &json["answer"];
    // Complete blocks: plain means, 4075, 2150 and 2025 g. Squares left over by hand (kg): 2.025, 4.075 and 2.150 less their
    // grand mean, and the blocks' means 2.7, 2.9333, 2.5667, 2.8, leave 0.01 on 6 degrees of freedom.
    let means: Vec<f64> = (0..3).map(|at| answer["varieties"][at]["mean"].as_f64().unwrap()).collect();
    for (mean, by_hand) in means.iter().zip([4075.0, 2150.0, 2025.0]) {
        assert!((mean - by_hand).abs() < 1e-3, "{means:?}");
    }
    let by_hand = (2.0 * squares_left_over() / 6.0 / 4.0).sqrt() * 1000.0;
    let error = answer["error_of_difference"].as_f64().unwrap();
    assert!((error - by_hand).abs() < 1e-3 * by_hand, "{error} is not {by_hand}");
}

/// The sum of squares that varieties and blocks leave, in kilograms, by the textbook's table.
fn squares_left_over() -> f64 {
    let grand: f64 = YIELDS.iter().flat_map(|(_, own)| own).sum::<f64>() / 12.0;
    let block = |at: usize| YIELDS.iter().map(|(_, own)| own[at]).sum::<f64>() / 3.0;
    let cell = |own: &[f64; 4], at: usize| own[at] - own.iter().sum::<f64>() / 4.0 - block(at) + grand;
    YIELDS.iter().flat_map(|(_, own)| (0..4).map(move |at| cell(own, at).powi(2))).sum()
}

#[test]
fn what_cannot_be_compared_says_what_to_do() {
    let folder = tempfile::tempdir().unwrap();
    let house = house(folder.path());
    for (arguments, said) in [
        (&["compare", "2025 Away", "yield"][..], "2025 Home"),
        (&["compare", "2025 Home", "taste"], "fruit count"),
        (&["compare", "2025 Home", "soluble-solids"], "no plot has a number for soluble solids"),
        (&["compare", "2025 Home", "yield", "--check", "Nobody"], "there is no variety \"Nobody\""),
        (&["compare", "2025 Home", "yield", "--export", "table.doc"], ".csv or .xlsx"),
    ] {
        let output = locule(&house, arguments);
        let errors = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {errors}");
        assert!(errors.contains(said) && errors.contains("help:"), "{arguments:?}: {errors}");
    }
    let table = house.join("table.csv");
    done(&house, &["compare", "2025 Home", "yield", "--export", table.to_str().unwrap()]);
    assert_eq!(fs::read_to_string(table).unwrap().lines().count(), 4);
}
