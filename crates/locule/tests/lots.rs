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
    one_is_told_no(at, sell);
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

fn order(at: &Path, args: &[&str]) -> serde_json::Value {
    answer(at, &[&["--house", "house", "order", "--day", "2032-03-01"], args].concat())
}

fn order_refused(at: &Path, args: &[&str], named: &str) {
    refused(at, &[&["--house", "house", "order", "--day", "2032-03-01"], args].concat(), named);
}

/// A second lot with an older test, a third that is below the standard, and a fourth that was never tested.
fn three_more(at: &Path) {
    test(at, ["88", "92", "85", "91"]);
    for (number, counted, normal) in [("31-020", "2031-11-24", "90"), ("31-030", "2032-01-24", "70")] {
        lot(at, &["new", number, "Drip Stone", "--season", "2031", "--weight", "10 g", "--on", "2031-09-20"]);
        lot(at, &["pack", number, "20", "--of", "100 mg", "--on", "2032-01-10"]);
        let note = [
            "--house",
            "house",
            "germination",
            "note",
            number,
            "--begun",
            "2031-11-10",
            "--counted",
            counted,
        ];
        answer(at, &[&note[..], &["--normal", normal, normal, normal, normal]].concat());
    }
    lot(at, &["new", "31-040", "Drip Stone", "--season", "2031", "--weight", "10 g", "--on", "2031-09-20"]);
    lot(at, &["pack", "31-040", "9", "--of", "100 mg", "--on", "2032-01-10"]);
}

#[test]
fn an_order_takes_the_oldest_test_first_and_never_what_may_not_be_sold() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    three_more(at);
    let from = |told: &serde_json::Value| -> Vec<(String, u64)> {
        let lots = told["from"].as_array().unwrap().iter();
        lots.map(|one| (one["lot"].as_str().unwrap().to_owned(), one["packets"].as_u64().unwrap())).collect()
    };
    let shown = order(at, &["drip stone=25", "--dry-run"]);
    assert_eq!(from(&shown), [("31-020".to_owned(), 20), ("31-014".to_owned(), 5)]);
    let booked = order(at, &["drip stone=25", "--for", "order 118"]);
    assert_eq!(from(&booked), from(&shown), "nothing was booked before");
    // 140 packets were there, 25 are gone: 115 are left of the lot that may still be sold.
    let left = "passed over: 31-030 (under the minimum), 31-040 (no test that says anything)";
    order_refused(at, &["Drip Stone=116"], left);
    order_refused(at, &["31-030=1"], "0 packets of lot 31-030");
    // By its test of November it may be shipped until the end of April (7 CFR 201.30a).
    refused(at, &["--house", "house", "order", "--day", "2032-07-01", "Drip Stone=1"], "its test is too old");
    // Of two lines, one of which cannot be filled, neither is.
    order_refused(at, &["Drip Stone=5", "31-030=1"], "31-030");
    assert_eq!(from(&order(at, &["Drip Stone=115"])), [("31-014".to_owned(), 115)]);
    order_refused(at, &["Drip Stone=1"], "0 packets of Drip Stone");
    order_refused(at, &["Nobody Knows=1"], "Nobody Knows");
    order_refused(at, &["Drip Stone=none"], "Drip Stone=none");
    // Filled out of the jar they stay in the house.
    order_refused(at, &["Drip Stone=3", "--pack"], "nobody told how much seed");
    let packed = order(at, &["Drip Stone=3", "--pack", "--of", "1 g"]);
    assert_eq!(from(&packed), [("31-020".to_owned(), 3)]);
    let held = lot(at, &["show", "31-020"])["held"].clone();
    assert_eq!(held, serde_json::json!(["5.0 g in the jar", "3 packets of 1.0 g"]));
    lot(at, &["pack", "31-014", "2", "--of", "500 mg", "--on", "2032-02-01"]);
    order_refused(at, &["Drip Stone=1"], "500 mg, 1.0 g");
    answer(at, &["--house", "house", "verify"]);
}

#[test]
fn of_two_orders_for_the_last_packets_one_is_told_no() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    test(at, ["88", "92", "85", "91"]);
    let sell = || {
        let start = ["--house", "house", "order", "--day", "2032-03-01", "Drip Stone=70"];
        program::locule(at, &start).status.success()
    };
    one_is_told_no(at, sell);
}

/// Two at once take what is only there for one of them: one is told no, and 50 packets are left.
fn one_is_told_no(at: &Path, sell: impl Fn() -> bool + Sync) {
    let (one, other) = thread::scope(|scope| {
        let one = scope.spawn(&sell);
        let other = sell();
        (one.join().unwrap(), other)
    });
    assert!(one != other, "one is told no");
    let shown = lot(at, &["show", "31-014"]);
    let held = shown.get("held").and_then(|held| held.as_array()).unwrap();
    assert!(held.iter().any(|line| line == "50 packets of 100 mg"), "{shown}");
}

/// The house's own law and minimum hold wherever no command names another.
#[test]
fn law_and_minimum_of_the_house_are_settings() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    test(at, ["78", "78", "78", "78"]);
    let state = |args: &[&str]| lot(at, &[&["show", "31-014"], args].concat())["state"].clone();
    assert_eq!(state(&[]), "fit");
    answer(at, &["--house", "house", "settings", "--minimum", "80"]);
    assert_eq!(state(&[]), "under the house's own");
    assert_eq!(state(&["--minimum", "78"]), "fit");
    assert_eq!(state(&["--law", "us"]), "fit", "a law that is named goes by its own minimum");
    order_refused(at, &["Drip Stone=1"], "under the minimum");
    // Less than the law asks for does not count.
    answer(at, &["--house", "house", "settings", "--minimum", "60"]);
    let by = lot(at, &["show", "31-014"])["judged_by"].clone();
    assert_eq!(by["minimum_percent"], 75);
    assert!(by["rule"].as_str().unwrap().contains("60% is less"), "{by}");
    answer(at, &["--house", "house", "settings", "--law", "eu", "--minimum", "0"]);
    let rule = lot(at, &["show", "31-014"])["judged_by"]["rule"].clone();
    assert!(rule.as_str().unwrap().contains("2002/55/EC"), "{rule}");
    let settings = answer(at, &["--house", "house", "settings"]);
    assert_eq!((&settings["law"], &settings["minimum_percent"]), (&"eu".into(), &serde_json::Value::Null));
}

/// 7 CFR 201.4: a file sample of 400 seeds for a year after the last of the lot is gone, the record for three years.
#[test]
fn samples_and_records_are_listed_with_the_day_they_may_go() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    assert_eq!(lot(at, &["kept"])["lots"], serde_json::json!([]));
    lot(at, &["move", "31-014", "1.2 g", "--from", "jar", "--to", "file-sample", "--on", "2032-01-10"]);
    lot(at, &["move", "31-014", "29.3 g", "--from", "jar", "--to", "sold", "--on", "2032-02-10"]);
    assert_eq!(lot(at, &["kept"])["lots"][0]["sample_may_go"], serde_json::Value::Null);
    lot(at, &["move", "31-014", "120 packets", "--from", "100 mg", "--to", "sold", "--on", "2032-02-20"]);
    let kept = lot(at, &["kept"])["lots"][0].clone();
    assert_eq!(kept["gone_on"], "2032-02-20");
    assert_eq!(
        (&kept["sample_may_go"], &kept["record_may_go"]),
        (&"2033-02-20".into(), &"2035-02-20".into())
    );
    assert_eq!(lot(at, &["show", "31-014"])["state"], "gone");
}

/// Section 3 of the seed-lot facts: 299 plants for 1 in 100, 59 for 5; 20 plants and 1 off-type pass a lot of 5 in 100 with 0.7358.
#[test]
fn plants_to_look_at_are_counted() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    assert_eq!(answer(at, &["plants"])["to_see"], 299);
    assert_eq!(answer(at, &["plants", "--share", "5"])["to_keep"], 59);
    let told = answer(at, &["plants", "20", "--share", "1"]);
    assert_eq!(told["accepted"], 1);
    let passes = &told["passes"][1];
    assert_eq!(passes["off_types"], 0.05);
    assert!((passes["passes"].as_f64().unwrap() - 0.7358).abs() < 5e-5, "{passes}");
    refused(at, &["plants", "--share", "0"], "no share of plants");
    refused(at, &["plants", "0"], "no number of plants");
}

/// Lots, weighings and tests from tables as they are kept; what cannot be read waits in the quarantine, and is mended there.
#[test]
fn tables_of_the_seed_room_come_in_like_others() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    house(at);
    let lots = "lot,variety,season,cleaned,seed (g),parents\n31-020,Drip Stone,2031,2031-10-01,20,8\n\
                31-021,Drip Stne,2031,2031-10-01,5,4\n31-014,Low Barn,2030,2031-10-01,1,1\n";
    fs::write(at.join("lots.csv"), lots).unwrap();
    fs::write(at.join("weighings.csv"), "lot,date,weights (mg)\n31-020,2031-10-02,\"281, 279, 284\"\n")
        .unwrap();
    let tests = "lot,laid out,counted,seeds,normal\n31-020,2032-01-10,2032-01-24,100,88 92 85 91\n\
                 31-020,2032-01-10,2032-01-24,100,188 92\n";
    fs::write(at.join("germination.csv"), tests).unwrap();
    fs::write(at.join("more.csv"), "variety,also known as\nLow Barn,\n").unwrap();
    answer(at, &["--house", "house", "take", "more.csv", "--kind", "varieties"]);
    // Lots come before what is noted of them, whatever the order of the files.
    let told = answer(at, &["--house", "house", "take", "germination.csv", "weighings.csv", "lots.csv"]);
    let kinds: Vec<&str> =
        told["tables"].as_array().unwrap().iter().filter_map(|table| table["kind"].as_str()).collect();
    assert_eq!(kinds, ["lots", "seed weighings", "germination tests"]);
    let seen = lot(at, &["show", "31-020"]);
    assert_eq!((&seen["state"], &seen["held_mg"]), (&"fit".into(), &20_000.into()));
    assert!(seen["thousand_seed_weight"].as_str().unwrap().contains("2.81 g"), "{seen}");
    // The misspelt variety, the number that another lot has, and the replicate of 188 of 100.
    let waiting = answer(at, &["--house", "house", "quarantine"]);
    assert_eq!(waiting["rows"].as_array().unwrap().len(), 3, "{waiting}");
    // The books keep their entries: a batch that founded lots goes only when these are withdrawn.
    let batch = told["tables"][0]["batch"].to_string();
    refused(at, &["--house", "house", "undo", &batch], "31-020");
    // The same file adds nothing, and a longer version its new rows.
    answer(at, &["--house", "house", "take", "lots.csv"]);
    fs::write(at.join("lots.csv"), format!("{lots}31-022,Low Barn,2031,2031-10-01,2,3\n")).unwrap();
    answer(at, &["--house", "house", "take", "lots.csv"]);
    assert_eq!(lot(at, &[])["lots"].as_array().unwrap().len(), 3);
    answer(at, &["--house", "house", "verify"]);
}
