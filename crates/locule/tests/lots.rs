//! Lots of seed through the command line: founded, weighed, tested, packed, sold, taken back, and never below nothing.

#![expect(clippy::unwrap_used, reason = "a test stops where it cannot go on")]

mod program;

use program::{answer, refused};
use std::fs;
use std::path::Path;
use std::thread;

/// A house with one variety and one lot of 42.5 g, 120 packets of 100 mg packed from it.
fn house(at: &Path) {
    answer(at, &["new", "house"]);
    fs::write(at.join("varieties.csv"), "variety,also known as\nDrip Stone,\n").unwrap();
    answer(at, &["--house", "house", "take", "varieties.csv", "--kind", "varieties"]);
    lot(at, &["new", "31-014", "drip stone", "--season", "2031", "--weight", "42.5 g", "--on", "2031-09-20"]);
    lot(at, &["pack", "31-014", "120", "--of", "100 mg", "--on", "2032-01-10"]);
}

fn lot(at: &Path, args: &[&str]) -> serde_json::Value {
    answer(at, &[&["--house", "house", "lot", "--day", "2032-03-01"], args].concat())
}

fn test(at: &Path, normal: [&str; 4]) -> serde_json::Value {
    let days = ["--begun", "2032-01-10", "--counted", "2032-01-24"];
    let start = ["--house", "house", "germination", "--day", "2032-03-01", "note", "31-014"];
    answer(at, &[&start[..], &days, &["--normal"], &normal].concat())
}

#[test]
fn a_lot_is_judged_by_its_newest_test() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    assert_eq!(lot(at, &["show", "31-014"])["state"], "untested");
    // 7 CFR 201.30a: five calendar months after the end of January; 201.55: a mean of 89 allows 12 points.
    let told = test(at, ["88", "92", "85", "91"]);
    assert_eq!(told["state"], "fit");
    assert_eq!(told["until"], "2032-06-30");
    assert_eq!(told["germination_percent"], 89);
    let replicates = told["tests"][0]["replicates"].as_str().unwrap();
    assert!(replicates.contains("within the 12 of 7 CFR 201.55"), "{replicates}");
    // 201.55: a mean of 75 allows 17 points, and these lie 18 apart.
    assert_eq!(test(at, ["66", "84", "75", "75"])["state"], "test again");
    // 201.31: 74 of 100 is below the standard.
    assert_eq!(test(at, ["74", "74", "74", "74"])["state"], "below");
    let late = answer(at, &["--house", "house", "lot", "--day", "2032-07-01", "show", "31-014"]);
    assert_eq!(late["state"], "too old");
}

#[test]
fn two_packers_cannot_both_take_the_last_packets() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    let sell = || {
        let start = ["--house", "house", "lot", "move", "31-014", "70 packets", "--on", "2032-02-01"];
        program::locule(at, &[&start[..], &["--from", "100 mg", "--to", "sold"]].concat()).status.success()
    };
    let (one, other) = thread::scope(|scope| {
        let one = scope.spawn(sell);
        let other = sell();
        (one.join().unwrap(), other)
    });
    assert!(one != other, "one is told no");
    let held = lot(at, &["show", "31-014"])["held"].clone();
    assert!(held.as_array().unwrap().iter().any(|line| line == "50 packets of 100 mg"), "{held}");
}

#[test]
fn an_entry_that_others_rest_on_stays_and_any_other_goes_and_comes_back() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    // Entry 1 founded the lot, 2 brought its seed in, 3 packed it: without 2 there was nothing to pack.
    refused(at, &["--house", "house", "lot", "withdraw", "2"], "cannot be taken");
    let gone = lot(at, &["withdraw", "3", "--why", "counted wrongly"]);
    assert_eq!(gone["held"], serde_json::json!(["42.5 g in the jar"]));
    lot(at, &["restore", "3"]);
    refused(at, &["--house", "house", "lot", "restore", "3"], "is so already");
    // A lot that was founded by mistake stands no longer, and its number is free.
    assert_eq!(lot(at, &["withdraw", "1"])["lots"], serde_json::json!([]));
    lot(at, &["new", "31-014", "Drip Stone", "--season", "2031"]);
    refused(at, &["--house", "house", "lot", "restore", "1"], "31-014");
    answer(at, &["--house", "house", "verify"]);
}

#[test]
fn what_cannot_be_is_refused_with_what_to_do() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    let refuse =
        |args: &[&str], named: &str| refused(at, &[&["--house", "house", "lot"], args].concat(), named);
    refuse(&["new", "31-014", "Drip Stone", "--season", "2031"], "31-014");
    refuse(&["new", "31-015", "Nobody Knows", "--season", "2031"], "Nobody Knows");
    refuse(&["new", "31-015", "Drip Stone", "--season", "31"], "31");
    refuse(&["pack", "31-099", "1", "--of", "100 mg"], "31-099");
    refuse(&["pack", "31-014", "1", "--of", "100"], "100");
    refuse(&["move", "31-014", "50 g", "--from", "jar", "--to", "sold"], "cannot be taken");
    refuse(&["move", "31-014", "150 mg", "--from", "100 mg", "--to", "sold"], "whole packets");
    refuse(&["move", "31-014", "1 g", "--from", "jar", "--to", "cellar"], "cellar");
    refuse(&["inspect", "31-014", "60", "--off-type", "potato leaf"], "potato leaf");
    let noted = ["--house", "house", "germination", "note", "31-014", "--begun", "2032-01-10"];
    let early = ["--counted", "2032-01-09", "--normal", "90"];
    refused(at, &[&noted[..], &early].concat(), "2032-01-09");
    let many = ["--counted", "2032-01-24", "--normal", "101"];
    refused(at, &[&noted[..], &many].concat(), "replicate 1");
}

const BOOK: &str = r#"[[lot]]
number = "31-020"
variety = "Drip Stone"
season = 2031
on = "2031-10-01"
seed = "20 g"
parents = 8
weighed = ["281 mg", "279 mg", "284 mg"]
moisture = "6.8 %"
[[lot.test]]
begun = "2032-01-10"
counted = "2032-01-24"
seeds = 100
normal = [88, 92, 85, 91]
[[lot.packets]]
on = "2032-02-01"
count = 50
of = "100 mg"
sold = 20
sold-by = "2032-02-20"
[[lot]]
number = "32-001"
variety = "drip stone"
season = 2032
on = "2032-02-25"
seed = "5 g"
sown-from = "31-020"
"#;

/// A seed book is taken whole, and where any of it cannot be, nothing of it is.
#[test]
fn a_seed_book_is_taken_whole_or_not_at_all() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    let refused_with = |book: &str, named: &str| {
        fs::write(at.join("book.toml"), book).unwrap();
        refused(at, &["--house", "house", "lot", "take", "book.toml"], named);
        assert_eq!(answer(at, &["--house", "house", "lot"])["lots"].as_array().unwrap().len(), 1);
    };
    refused_with(&BOOK.replace("count = 50", "count = 500"), "lot 31-020");
    refused_with(&BOOK.replace("32-001", "31-014"), "there is a lot \"31-014\" already");
    refused_with(&BOOK.replace("drip stone", "no such"), "no such");
    refused_with(&BOOK.replace("seed = \"5 g\"", "seed = \"5\""), "line 26, seed");
    refused_with(&BOOK.replace("[88, 92, 85, 91]", "[188, 92, 85, 91]"), "line 10");
    refused_with(&BOOK.replace("sown-from = \"31-020\"", "sown-from = \"30-001\""), "30-001");
    let plot = "seed = \"5 g\"\ngrow-out = \"No such\"\nplot = \"1\"";
    refused_with(&BOOK.replace("seed = \"5 g\"", plot), "No such");
    fs::write(at.join("book.toml"), BOOK).unwrap();
    let told = lot(at, &["take", "book.toml"]);
    assert_eq!(told["lots"].as_array().unwrap().len(), 3);
    let told = lot(at, &["show", "31-020"]);
    // 50 packets of 100 mg from 20 g, 20 of them sold: 18 g are held.
    assert_eq!((told["state"].as_str(), told["held_mg"].as_u64()), (Some("fit"), Some(18_000)));
    assert_eq!(lot(at, &["show", "32-001"])["origin"][0], "parents sown from 31-020");
}
