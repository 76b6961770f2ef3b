//! Sales, the next grow-out and increase through the command line.

#![expect(clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod program;

use program::{House, answer, refused};
use serde_json::Value;
use std::fmt::Write;
use std::path::Path;

/// Varieties, and how many packets each sells in a January.
const SOLD: [(&str, [u32; 3]); 6] = [
    ("Amber Lantern", [60, 72, 66]),
    ("Brindle", [12, 9, 14]),
    ("Copper Latch", [30, 28, 35]),
    ("Drip Stone", [5, 8, 4]),
    ("Quince Rose", [90, 84, 99]),
    ("Post Mill", [22, 25, 19]),
];

/// A house of six varieties with three winters of sales, and a full jar of one of them.
fn house() -> House {
    let house = House::new();
    let names: String = SOLD.iter().map(|(name, _)| format!("{name},\n")).collect();
    let varieties = house.write("varieties.csv", format!("variety,also known as\n{names}"));
    run(&house, &["take", &varieties, "--kind", "varieties"]);
    let sales = house.write("sales.csv", sales());
    let taken = run(&house, &["sales", "take", &sales, "--from", "2023-07-01", "--to", "2026-06-30"]);
    assert_eq!((taken["number"].as_u64(), taken["varieties"].as_u64()), (Some(1), Some(6)));
    // 200 g are some 69,000 seeds: enough of the best seller for years.
    run(
        &house,
        &[
            "lot",
            "new",
            "26-001",
            "Quince Rose",
            "--season",
            "2026",
            "--weight",
            "200 g",
            "--on",
            "2026-10-01",
            "--harvested",
            "2026-09-01",
        ],
    );
    house
}

fn sales() -> String {
    let mut text = String::from("Date,Variety,Packets\n");
    for (name, years) in SOLD {
        for (packets, year) in years.iter().zip(2024..) {
            let _ = writeln!(text, "{year}-01-15,{name},{packets}");
        }
    }
    text
}

#[track_caller]
fn run(house: &House, arguments: &[&str]) -> Value {
    let place = house.at("house");
    answer(Path::new(&house.at("")), &[&["--house", place.as_str()], arguments].concat())
}

#[track_caller]
fn refuses(house: &House, arguments: &[&str], named: &str) {
    let place = house.at("house");
    refused(Path::new(&house.at("")), &[&["--house", place.as_str()], arguments].concat(), named);
}

fn next(house: &House, arguments: &[&str]) -> Value {
    run(house, &[&["next", "--season", "2027", "--day", "2026-11-28"], arguments].concat())
}

fn grown(told: &Value) -> Vec<(&str, u64)> {
    let rows = told["grown"].as_array().into_iter().flatten();
    rows.filter_map(|row| Some((row["variety"].as_str()?, row["plots"].as_u64()?))).collect()
}

#[test]
fn sales_are_told_with_what_is_expected() {
    let house = house();
    let told = run(&house, &["sales"]);
    assert_eq!(told["files"][0]["packets"], 682);
    let best = &told["expected"]["varieties"][0];
    assert_eq!(best["variety"], "Quince Rose");
    // Between a quarter under and over the mean of its three winters, 91.
    let year = best["a_year"].as_f64().unwrap_or_default();
    assert!((70.0..110.0).contains(&year), "{year}");
    assert_eq!(told["expected"]["years"].as_array().map(Vec::len), Some(3));
    // The same file adds nothing; a withdrawn one counts no more, until it is restored.
    let again = run(&house, &["sales", "take", &house.at("sales.csv")]);
    assert_eq!(again["taken_before"], true);
    let without = run(&house, &["sales", "withdraw", "1", "--why", "another house's"]);
    assert_eq!(
        (without["files"][0]["withdrawn"].as_bool(), without["expected"].is_null()),
        (Some(true), true)
    );
    refuses(&house, &["next", "--plots", "4"], "no sales are known yet");
    assert!(!run(&house, &["sales", "restore", "1"])["expected"].is_null());
    assert!(run(&house, &["verify"])["sound"].as_bool().unwrap_or_default());
}

#[test]
fn a_file_s_faults_are_told_by_row_and_column() {
    let house = house();
    let untidy = house.write(
        "untidy.csv",
        "Date,Item,Qty\n2027-01-05,Brindle tomato seeds (30),2\n2027-01-06,Brindel,1\n2027-13-01,Brindle,1\n2027-01-07,Brindle,few\n",
    );
    let told = run(&house, &["sales", "take", &untidy, "--dry-run"]);
    assert_eq!((told["packets"].as_i64(), told["number"].as_u64()), (Some(2), None));
    assert_eq!(told["others"][0]["nearest"], "Brindle");
    let faults = told["faults"].as_array().map(Vec::len);
    assert_eq!(faults, Some(2));
    assert_eq!(
        (told["faults"][0]["row"].as_u64(), told["faults"][0]["column"].as_str()),
        (Some(4), Some("Date"))
    );
    assert_eq!(run(&house, &["sales"])["files"].as_array().map(Vec::len), Some(1), "a dry run keeps nothing");
    refuses(
        &house,
        &["sales", "take", &house.write("list.csv", "Name,Colour\nBrindle,red\n")],
        "a column of days",
    );
    // Among notes it is told from them, and its way is shown.
    let orders = house.write("orders.csv", "Order,Date,Item,Qty,Price\n7,2027-01-05,Brindle,2,4.00\n");
    let place = house.at("house");
    let told = program::locule(Path::new(&house.at("")), &["--house", &place, "take", &orders]);
    let told = String::from_utf8_lossy(&told.stdout).into_owned() + &String::from_utf8_lossy(&told.stderr);
    assert!(told.contains("a table of sales"), "{told}");
    let none = house.write("none.csv", "date,item,qty\n2027-01-05,Gift card,1\n");
    refuses(&house, &["sales", "take", &none], "\"Gift card\" is none");
    refuses(
        &house,
        &["sales", "take", &house.at("sales.csv"), "--from", "2025-01-01"],
        "more than it is said to cover",
    );
    refuses(&house, &["sales", "withdraw", "7"], "no such sales record 7");
}

/// The best seller's jar is full, so the ground goes to the next best; what is asked for comes in.
#[test]
fn the_next_grow_out_goes_by_sales_and_stock() {
    let house = house();
    let told = next(&house, &["--plots", "4", "--worth-thin", "0"]);
    let names: Vec<&str> = grown(&told).into_iter().map(|(name, _)| name).collect();
    assert!(names.contains(&"Amber Lantern") && !names.contains(&"Quince Rose"), "{told}");
    assert!(grown(&told).iter().map(|(_, plots)| plots).sum::<u64>() <= 4);
    let (worth, bound) =
        (told["worth"].as_f64().unwrap_or_default(), told["bound"].as_f64().unwrap_or_default());
    assert!(0.99 * bound <= worth && worth <= bound + 1e-9);
    assert!(told["left_out_count"].as_u64() > Some(0));
    let more = told["more"]["packets"].as_f64().unwrap_or_default();
    assert!(0.0 < more, "{}", told["more"]);
    let wished = next(
        &house,
        &["--plots", "4", "--worth-thin", "0", "--must", "drip stone", "--without", "Amber Lantern"],
    );
    let names: Vec<&str> = grown(&wished).into_iter().map(|(name, _)| name).collect();
    assert!(names.contains(&"Drip Stone") && !names.contains(&"Amber Lantern"), "{wished}");
}

#[test]
fn what_cannot_be_is_refused_with_help() {
    let house = house();
    refuses(&house, &["next"], "nothing says what there is to grow on");
    refuses(&house, &["next", "--plots", "4", "--wish", "Brindel"], "Brindel");
    refuses(&house, &["next", "--plots", "1", "--must", "Brindle", "--must", "Post Mill"], "do not fit");
    refuses(&house, &["next", "--plots", "4", "--season", "2019"], "season 2019");
    refuses(&house, &["next", "--plots", "4", "--write", &house.at("next.toml")], "no beds");
    refuses(&house, &["next", "--as", "2019 Home"], "2019 Home");
    refuses(&house, &["increase", "Brindle", "--packets", "10", "--between-plants", "18"], "18");
    refuses(&house, &["increase", "Brindel", "--packets", "10"], "Brindel");
}

const GROUND: &str = "name = \"2027 Home\"
season = 2027
replicates = 2
checks = [\"Brindle\"]
[planting]
plants = 6
between-plants = \"18 in\"
between-rows = \"24 in\"
[[garden]]
name = \"Home\"
[[garden.bed]]
name = \"North\"
length = \"60 ft\"
width = \"4 ft\"
[[garden.bed]]
name = \"South\"
length = \"60 ft\"
width = \"4 ft\"
";

/// What was chosen is written as a layout file, that file is laid out, and the next year takes its ground.
#[test]
fn what_was_chosen_is_laid_out() {
    let house = house();
    let ground = house.write("ground.toml", GROUND);
    let written = house.at("next.toml");
    let told = next(&house, &[&ground, "--write", &written]);
    assert_eq!(told["of_checks"], 2);
    let laid = run(&house, &["layout", &written]);
    let plots = |name: &str| {
        let all = laid["plots"].as_array().into_iter().flatten();
        all.filter(|plot| plot["variety"] == name).count() as u64
    };
    for (name, wanted) in grown(&told) {
        assert_eq!(plots(name), wanted, "{name}");
    }
    assert_eq!(plots("Brindle"), 2);
    refuses(
        &house,
        &["next", &ground, "--season", "2027", "--day", "2026-11-28", "--write", &written],
        "next.toml",
    );
    let name = laid["kept"]["grow_outs"][0].as_str().unwrap_or_default();
    let later = run(&house, &["next", "--as", name, "--season", "2028", "--day", "2027-11-28"]);
    assert_eq!(later["plots"], told["plots"]);
    assert!(!grown(&later).is_empty());
}

/// 312 mg for a hundred seeds; a lot of 31.2 g from 10 plants is 1,000 seeds a plant.
#[test]
fn increase_goes_by_own_lots() {
    let house = house();
    let usual = run(&house, &["increase", "Brindle", "--packets", "200", "--seeds", "25", "--besides", "0"]);
    assert_eq!(usual["seeds"], 5000);
    assert!(usual["fruits"].as_u64() > Some(0));
    let words = |told: &Value| told["words"].to_string();
    assert!(words(&usual).contains("what is usual") && words(&usual).contains("201.76"), "{usual}");
    run(
        &house,
        &[
            "lot",
            "new",
            "25-001",
            "Brindle",
            "--season",
            "2025",
            "--weight",
            "31.2 g",
            "--on",
            "2025-10-01",
            "--parents",
            "10",
        ],
    );
    let weighing = ["312 mg"; 8];
    run(&house, &[&["lot", "weigh", "25-001", "--on", "2025-10-02"], &weighing[..]].concat());
    let own = run(&house, &["increase", "Brindle", "--packets", "200", "--seeds", "25", "--besides", "0"]);
    assert!((own["seeds_a_plant"].as_f64().unwrap_or_default() - 1000.0).abs() < 1.0, "{own}");
    // One lot alone may be twice out: 500 seeds a plant in nine cases of ten, and 5,000 are wanted.
    assert_eq!((own["plants"].as_u64(), own["fruits"].is_null()), (Some(10), true));
    assert!(words(&own).contains("By 1 lot"), "{own}");
}
