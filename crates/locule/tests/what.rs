//! What an unknown tomato is, what to offer instead and where the list has gaps, through the program.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod program;

use program::{answer, locule, refused};
use serde_json::Value;
use std::fs;
use tempfile::TempDir;

/// Three plums, one of them a week later and green, and a beefsteak.
const FRUIT: [(&str, f64, f64, f64, u32, &str); 4] = [
    ("Gate Pin", 58.0, 61.0, 38.0, 2, "red"),
    ("Latch Key", 60.0, 62.0, 39.0, 2, "red"),
    ("Moss Peg", 57.0, 60.0, 38.0, 2, "green"),
    ("Great Churn", 460.0, 76.0, 102.0, 11, "red"),
];

fn house() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).display().to_string();
    assert!(locule(folder.path(), &["new", &at("house"), "--units", "metric"]).status.success());
    let mut list = String::from("Variety\n");
    let mut rows = String::from("Variety,Date,Plant,Weight (g),Length (mm),Width (mm),Locules,Colour\n");
    for (name, grams, length, width, locules, colour) in FRUIT {
        list.push_str(&format!("{name}\n"));
        for fruit in 0..20 {
            let (plant, day) = (1 + fruit % 5, 1 + fruit / 5);
            let grams = grams * (1.0 + 0.02 * f64::from(fruit % 3));
            rows.push_str(&format!(
                "{name},2025-08-{day:02},{plant},{grams:.1},{length},{width},{locules},{colour}\n"
            ));
        }
    }
    fs::write(at("list.csv"), list).unwrap();
    fs::write(at("fruit.csv"), rows).unwrap();
    let inside = folder.path().join("house");
    for file in ["list.csv", "fruit.csv"] {
        let taken = locule(&inside, &["take", &at(file)]);
        assert!(taken.status.success(), "{}", String::from_utf8_lossy(&taken.stdout));
    }
    assert!(locule(&inside, &["call"]).status.success());
    folder
}

const PLUM: [&str; 11] = [
    "what",
    "--weight",
    "58 g",
    "--length",
    "61 mm",
    "--width",
    "38 mm",
    "--locules",
    "2",
    "--colour",
    "red",
];

#[test]
fn an_unknown_is_called_with_or_without_a_house() {
    let bare = tempfile::tempdir().unwrap();
    let told = answer(bare.path(), &PLUM);
    assert_eq!(told["fruit"]["call"]["verdict"], "plum");
    assert_eq!(told["colour"]["exterior"]["verdict"], "red");
    assert_eq!((&told["habit"]["call"]["measured"], &told["nearest"]), (&Value::Bool(false), &Value::Null));
    let words = locule(bare.path(), &PLUM);
    let words = String::from_utf8_lossy(&words.stdout);
    assert!(words.contains("There is no house here, so there was no list to compare it with."), "{words}");
    assert!(words.contains("1 fruit of 1 plant stands for its variety here."), "{words}");

    let folder = house();
    let told = answer(&folder.path().join("house"), &PLUM);
    assert_eq!(told["nearest"][0]["variety"]["name"], "Gate Pin");
    assert!(told["nearest"][0]["reason"].as_str().unwrap().starts_with("as heavy, same colour, same shape"));
    let last = told["nearest"].as_array().unwrap().last().unwrap()["variety"]["name"].clone();
    assert_eq!(last, "Great Churn");
}

#[test]
fn a_handful_comes_in_lines_or_in_a_table() {
    let folder = tempfile::tempdir().unwrap();
    let lines = ["what", "--fruit", "58 g, 61 x 38 mm, plant 1", "--fruit", "2 oz, 2 locules, plant 2"];
    let told = answer(folder.path(), &lines);
    assert_eq!(told["fruit"]["call"]["used"]["fruits"], 2);
    assert_eq!(told["fruit"]["call"]["used"]["plants"], 2);
    let table = folder.path().join("handful.csv");
    fs::write(&table, "Weight (g),Length (mm),Width (mm)\n58,61,38\n55,60,37\n61,62,x\n").unwrap();
    let output = locule(folder.path(), &["--json", "what", "--from", table.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(2), "a row could not be read");
    let told = serde_json::from_slice::<Value>(&output.stdout).unwrap()["answer"].clone();
    assert_eq!(told["fruit"]["call"]["used"]["fruits"], 2);
    assert_eq!(
        (&told["refused"][0]["row"], &told["refused"][0]["column"]),
        (&4.into(), &"Width (mm)".into())
    );
}

#[test]
fn what_cannot_be_is_said_and_what_is_odd_is_doubted() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    refused(at, &["what"], "nothing was told of the tomato");
    refused(at, &["what", "--locules", "0"], "no locules");
    refused(at, &["what", "--width", "38 mm", "--neck", "44 mm"], "44.0 mm wide at its neck");
    refused(
        at,
        &["what", "--weight", "900 g", "--length", "61 mm", "--width", "38 mm"],
        "weighs about 48.9 g",
    );
    refused(at, &["what", "--weight", "58"], "\"58\" has no unit");
    refused(at, &["what", "--from", "nowhere.csv"], "nowhere.csv");
    refused(at, &["what", "--stem-ended", "0"], "after no truss");
    refused(at, &["--house", "nowhere", "what", "--weight", "58 g"], "no house");
    let odd = answer(at, &["what", "--weight", "66 g", "--length", "61 mm", "--width", "38 mm"]);
    assert!(odd["doubts"][0].as_str().unwrap().contains("should weigh about 49 g"), "{odd}");
    assert_eq!(odd["fruit"]["call"]["measured"], true);
}

#[test]
fn a_plant_alone_has_a_habit() {
    let folder = tempfile::tempdir().unwrap();
    let told =
        answer(folder.path(), &["what", "--stem-ended", "4", "--levels-off", "yes", "--ripe-within", "21"]);
    assert_eq!(told["habit"]["call"]["verdict"], "determinate");
    assert_eq!(told["fruit"]["call"]["measured"], false);
}

#[test]
fn stand_ins_come_nearest_first_with_their_reasons() {
    let folder = house();
    let inside = folder.path().join("house");
    let told = answer(&inside, &["instead", "Gate Pin"]);
    let names: Vec<&str> = told["nearest"]
        .as_array()
        .unwrap()
        .iter()
        .map(|near| near["variety"]["name"].as_str().unwrap())
        .collect();
    assert_eq!(names, ["Latch Key", "Moss Peg", "Great Churn"]);
    assert_eq!(told["nearest"][1]["reason"], "as heavy, same shape; green where this is red");
    refused(&inside, &["instead", "Gate Pim"], "nearest: Gate Pin");
}

#[test]
fn a_list_is_counted_by_habit_class_and_colour() {
    let folder = house();
    let inside = folder.path().join("house");
    let told = answer(&inside, &["gaps"]);
    // Nobody has looked at a plant yet, so no variety stands anywhere.
    assert_eq!((&told["counted"], &told["left_out"]), (&0.into(), &4.into()));
    let mut walks = String::from("Variety,Date,Plant,Stem ended\n");
    for (name, ..) in FRUIT {
        for plant in 1..=6 {
            walks.push_str(&format!("{name},2025-08-20,{plant},4\n"));
        }
    }
    let file = folder.path().join("walks.csv");
    fs::write(&file, walks).unwrap();
    let taken = locule(&inside, &["take", file.to_str().unwrap()]);
    assert!(taken.status.success(), "{}", String::from_utf8_lossy(&taken.stdout));
    assert!(locule(&inside, &["call"]).status.success());
    let told = answer(&inside, &["gaps"]);
    assert_eq!((&told["counted"], &told["left_out"]), (&4.into(), &0.into()));
    let held: f64 =
        told["filled"].as_array().unwrap().iter().map(|cell| cell["held"].as_f64().unwrap()).sum();
    assert!((held - 4.0).abs() < 0.3, "{held}");
}
