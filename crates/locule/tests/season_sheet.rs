//! `locule print season` through the command line: a small house's year on paper.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod grown;
mod program;

use program::{answer, refused};
use std::fs;
use std::path::Path;

const ASKED: [&str; 6] = ["--house", "house", "print", "season", "--weather", "milwaukee"];

fn is_pdf(file: &Path) -> bool {
    fs::read(file).unwrap().starts_with(b"%PDF")
}

#[test]
fn a_season_is_printed_with_the_harvest_of_the_houses_plots() {
    let folder = tempfile::tempdir().unwrap();
    grown::house(folder.path());
    let told = answer(folder.path(), &[&ASKED[..], &["--year", "2031", "--to", "season.pdf"]].concat());
    assert!(is_pdf(&folder.path().join("season.pdf")));
    assert_eq!(told["varieties"], serde_json::json!(["Amber Post"]));
    assert_eq!((told["year"].as_i64(), told["no_harvest"].as_str()), (Some(2031), None));
    let own = answer(folder.path(), &[&ASKED[..], &["--year", "2031"]].concat());
    assert!(own["file"].as_str().unwrap().ends_with("season-milwaukee-2031.pdf"), "{own}");
}

#[test]
fn a_house_without_picks_has_a_calendar_still() {
    let folder = tempfile::tempdir().unwrap();
    answer(folder.path(), &["new", "house"]);
    let told = answer(folder.path(), &[&ASKED[..], &["--to", "season.pdf", "--paper", "a4"]].concat());
    assert!(is_pdf(&folder.path().join("season.pdf")));
    assert!(told["no_harvest"].as_str().unwrap().contains("picks on 4 days or more"), "{told}");
}

#[test]
fn what_cannot_be_printed_says_why_and_leaves_nothing() {
    let folder = tempfile::tempdir().unwrap();
    grown::house(folder.path());
    let cases: [(&[&str], &str); 5] = [
        (&["print", "season"], "nobody said whose season"),
        (&["print", "season", "--garden", "Hill"], "no garden \"Hill\""),
        (&["print", "season", "--weather", "milwaukee", "--variety", "Nobody"], "Nobody"),
        (&["print", "season", "--weather", "milwaukee", "--paper", "a3"], "only the chart"),
        (&["print", "season", "--weather", "milwaukee", "--transplant", "31-31"], "no day of a year"),
    ];
    for (typed, words) in cases {
        refused(folder.path(), &[&["--house", "house"], typed].concat(), words);
    }
    let printed = folder.path().join("house/printed");
    assert!(fs::read_dir(printed).map_or(0, Iterator::count) == 0);
}
