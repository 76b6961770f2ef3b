//! Laying a grow-out out, moving plots, and the paper for it, through the program.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

mod program;

use program::{answer, locule, refused};
use serde_json::Value;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

const VARIETIES: [&str; 9] = [
    "Gate Pin",
    "Latch Key",
    "Moss Peg",
    "Great Churn",
    "Tin Bell",
    "Ox Yoke",
    "Reed Pipe",
    "Hop Pole",
    "Old \"Red\" #1",
];

const LAYOUT: &str = r#"
name = "2031 Home"
season = 2031
replicates = 3
checks = ["Hop Pole"]
varieties = ["Gate Pin", "Latch Key", "Moss Peg", "Great Churn", "Tin Bell", "Ox Yoke", "Reed Pipe", "Hop Pole", 'Old "Red" #1']
[planting]
plants = 4
between-plants = "50 cm"
between-rows = "60 cm"
guard-plants = 1
[[garden]]
name = "Home"
[[garden.bed]]
name = "North"
length = "16 m"
width = "1.3 m"
path = "60 cm"
unusable = [{ from = "5 m", to = "6 m", why = "tap" }]
[[garden.bed]]
name = "South"
length = "60 ft"
width = "1.3 m"
"#;

/// A house with varieties, and a layout file beside its settings.
fn house() -> (TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name).display().to_string();
    assert!(locule(folder.path(), &["new", &at("house"), "--units", "metric"]).status.success());
    let rows: Vec<String> =
        VARIETIES.iter().map(|name| format!("\"{}\"", name.replace('"', "\"\""))).collect();
    fs::write(at("list.csv"), format!("Variety\n{}\n", rows.join("\n"))).unwrap();
    let house = folder.path().join("house");
    answer(&house, &["take", &at("list.csv")]);
    fs::write(house.join("layout.toml"), LAYOUT).unwrap();
    (folder, house)
}

#[test]
fn a_layout_is_shown_kept_moved_printed_and_undone() {
    let (_folder, house) = house();
    let tried = answer(&house, &["layout", "layout.toml", "--dry-run"]);
    assert_eq!((tried["kind"].as_str(), tried["kept"].is_null()), (Some("incomplete blocks"), true));
    assert_eq!(
        tried,
        answer(&house, &["layout", "layout.toml", "--dry-run"]),
        "the same file, the same layout"
    );
    assert_ne!(
        tried["plots"],
        answer(&house, &["layout", "layout.toml", "--dry-run", "--try", "2"])["plots"]
    );
    let planted: Vec<&Value> =
        tried["plots"].as_array().unwrap().iter().filter(|plot| !plot["label"].is_null()).collect();
    assert_eq!(planted.len(), 27);
    for name in VARIETIES {
        let mut own: Vec<u64> = planted
            .iter()
            .filter(|plot| plot["variety"] == name)
            .map(|plot| plot["replicate"].as_u64().unwrap())
            .collect();
        own.sort_unstable();
        assert_eq!(own, [1, 2, 3], "{name} once in each replicate");
    }
    assert!(0.0 < tried["error_of_difference"].as_f64().unwrap());

    let kept = answer(&house, &["layout", "layout.toml", "--by", "Finch"]);
    assert_eq!(kept["kept"]["plots"], 27);
    assert_eq!(kept["kept"]["grow_outs"][0], "2031 Home");
    refused(&house, &["layout", "layout.toml"], "there is a grow-out \"2031 Home\" already");

    plots_change_places(&house);
    paper_is_printed(&house);
    let batch = kept["kept"]["batch"].to_string();
    answer(&house, &["undo", &batch, "--with-dependents"]);
    refused(&house, &["print", "stakes", "2031 Home"], "there is no grow-out \"2031 Home\"");
    assert_eq!(answer(&house, &["verify"])["sound"], true);
}

fn plots_change_places(house: &Path) {
    let would = answer(house, &["layout", "move", "101", "305", "--dry-run"]);
    assert!(would["batch"].is_null() && !would["words"].as_str().unwrap().is_empty());
    let moved = answer(house, &["layout", "move", "101", "305"]);
    assert_eq!(moved["lost"], would["lost"]);
    let back = answer(house, &["layout", "move", "101", "305", "--dry-run"]);
    let (there, again) = (moved["lost"].as_f64().unwrap(), back["lost"].as_f64().unwrap());
    // Information after both moves is that before: (1 - there) (1 - again) = 1.
    assert!(((1.0 - there) * (1.0 - again) - 1.0).abs() < 1e-9, "{there} {again}");
    refused(house, &["layout", "move", "101", "999"], "no plot has the label \"999\"");
}

fn paper_is_printed(house: &Path) {
    let stakes = answer(house, &["print", "stakes", "2031 home"]);
    assert_eq!((stakes["stakes"].as_u64(), stakes["sheet"].as_str()), (Some(27), Some("63.5 x 38.1 mm")));
    let plants = answer(house, &["print", "stakes", "2031 Home", "--each-plant", "--sheet", "4 x 1 in"]);
    assert_eq!((plants["stakes"].as_u64(), plants["sheets"].as_u64()), (Some(108), Some(6)));
    let walk = answer(
        house,
        &[
            "print",
            "walk-sheets",
            "2031 Home",
            "--date",
            "2031-08-14",
            "--person",
            "Wren",
            "--person",
            "Finch",
        ],
    );
    assert_eq!((walk["plots"].as_u64(), walk["parts"].as_u64()), (Some(27), Some(2)));
    assert_eq!(answer(house, &["print", "walk-sheets", "2031 Home", "--per", "10"])["parts"], 3);
}

#[test]
fn words_show_the_beds_and_what_they_can_tell() {
    let (_folder, house) = house();
    let output = locule(&house, &["layout", "layout.toml", "--dry-run"]);
    let told = String::from_utf8(output.stdout).unwrap();
    for part in ["Home, bed North", "row 1", "Hop Pole*", "8 times in 10", "kg a plant", "Nothing was kept"] {
        assert!(told.contains(part), "{part}: {told}");
    }
}

#[test]
fn what_is_wrong_in_a_file_is_told_by_line_and_field() {
    let (_folder, house) = house();
    let with = |from: &str, to: &str| {
        assert!(LAYOUT.contains(from));
        fs::write(house.join("odd.toml"), LAYOUT.replace(from, to)).unwrap();
    };
    let told = |named: &str| refused(&house, &["layout", "odd.toml"], named);
    with("\"60 ft\"", "\"sixty\"");
    told("odd.toml, line 22, length: ");
    with("season = 2031", "season = \"2031\"");
    told("odd.toml, line 3, season: invalid type");
    with("\"Gate Pin\"", "\"Gate Pim\"");
    told("there is no variety \"Gate Pim\"");
    with("\"Latch Key\"", "\"Gate Pin\"");
    told("\"Gate Pin\" is named twice");
    with("replicates = 3", "replicates = 30");
    told("270 plots are wanted, and the ground has room for");
    with("\"6 m\"", "\"60 m\"");
    told("the stretch \"tap\" does not lie within the bed");
    with("season = 2031", "season = 2031\nseasons = 1");
    told("unknown field `seasons`");
    with("replicates = 3", "replicates = 3\nkind = \"augmented blocks\"");
    told("augmented blocks need at least two checks");
    fs::write(house.join("odd.toml"), b"name = \xff\n").unwrap();
    told("is not text in UTF-8");
    refused(&house, &["layout", "nowhere.toml"], "is not there");
    refused(&house, &["layout", "move", "1", "2"], "no grow-out was laid out here yet");
    refused(&house, &["print", "stakes"], "no grow-out is named");
    refused(&house, &["print", "stakes", "2031 Home", "--sheet", "huge"], "is no label sheet");
    refused(&house, &["print", "walk-sheets", "x", "--date", "14.8."], "is no day");
}

/// What a file of beds says beyond blocks and rows is kept as a layout of ours is.
#[test]
fn a_file_of_beds_may_say_replicate_bed_role_and_stretch() {
    let (folder, house) = house();
    let beds = "Plot,Variety,Rep,Block,Bed,Row,Position,Role,From (m),To (m),Plants\n\
        1,Gate Pin,1,1,North,1,1,,0.5,2.5,4\n\
        2,Hop Pole,1,2,North,1,2,check,2.5,4.5,4\n\
        ,,,,North,1,3,guard,4.5,5,1\n\
        3,Latch Key,1,2,North,1,4,entry,7,5,4\n\
        4,Moss Peg,1,2,North,1,5,boss,7,9,4\n";
    fs::write(folder.path().join("beds.csv"), beds).unwrap();
    let file = folder.path().join("beds.csv").display().to_string();
    let output = locule(
        &house,
        &["--json", "take", &file, "--kind", "grow-out", "--season", "2031", "--grow-out", "2031 Hill"],
    );
    let taken: Value = serde_json::from_slice(&output.stdout).unwrap();
    let table = &taken["answer"]["tables"][0];
    assert_eq!((table["added"].as_u64(), table["quarantined"].as_u64()), (Some(2), Some(2)), "{taken}");
    let stakes = answer(&house, &["print", "stakes", "2031 Hill"]);
    assert_eq!(stakes["stakes"], 2);
    refused(&house, &["layout", "move", "1", "2", "--grow-out", "2031 Hill"], "was not laid out here");
}
