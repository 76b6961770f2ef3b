//! The walls of the house: reads the tree and fails where an arrow points the wrong way, where a file has
//! grown too long or has a name that says nothing, or where a test was switched off.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Which of our crates each crate may lean on. A new arrow is a design change: say why in the commit.
const ARROWS: [(&str, &[&str]); 20] = [
    ("record", &[]),
    ("statistics", &["record"]),
    ("wording", &["record"]),
    ("identity", &["record", "statistics"]),
    ("assortment", &["record", "statistics"]),
    ("trial", &["record", "statistics"]),
    ("ripening", &["record", "statistics"]),
    ("seedroom", &["record", "statistics"]),
    ("sowing", &["record", "statistics"]),
    ("advice", &["record", "identity", "statistics"]),
    ("photo", &["record"]),
    ("drawing", &["record"]),
    ("stationery", &[]),
    ("ledger", &["record"]),
    ("intake", &["record", "wording"]),
    ("publish", &["record", "drawing", "stationery"]),
    (
        "house",
        &[
            "record",
            "wording",
            "advice",
            "identity",
            "assortment",
            "trial",
            "ripening",
            "seedroom",
            "sowing",
            "photo",
            "drawing",
            "ledger",
            "intake",
            "publish",
        ],
    ),
    ("workbench", &["house", "record", "drawing", "stationery"]),
    ("locule", &["house", "record", "workbench"]),
    ("demo-house", &["record"]),
];

/// File names that say nothing about what is inside.
const EMPTY_NAMES: [&str; 8] =
    ["util.rs", "utils.rs", "helpers.rs", "common.rs", "misc.rs", "types.rs", "manager.rs", "prelude.rs"];

const LONGEST_FILE: usize = 600;
const LONGEST_MEDIAN: usize = 250;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn rust_files() -> Vec<(PathBuf, String)> {
    fn walk(folder: &Path, found: &mut Vec<(PathBuf, String)>) {
        for entry in fs::read_dir(folder).unwrap().flatten() {
            let path = entry.path();
            if path.is_dir() && !path.ends_with("target") {
                walk(&path, found);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let text = fs::read_to_string(&path).unwrap();
                found.push((path, text));
            }
        }
    }
    let mut found = Vec::new();
    walk(&root().join("crates"), &mut found);
    found
}

#[test]
fn arrows_point_inwards() {
    let allowed: BTreeMap<&str, &[&str]> = ARROWS.into_iter().collect();
    for entry in fs::read_dir(root().join("crates")).unwrap().flatten() {
        let name = entry.file_name().into_string().unwrap();
        let leaning =
            allowed.get(name.as_str()).unwrap_or_else(|| panic!("no arrows are written for {name}"));
        let manifest = fs::read_to_string(entry.path().join("Cargo.toml")).unwrap();
        let manifest: toml::Table = manifest.parse().unwrap();
        let dependencies = manifest["dependencies"].as_table().unwrap();
        for ours in dependencies.keys().filter(|dependency| allowed.contains_key(dependency.as_str())) {
            assert!(leaning.contains(&ours.as_str()), "{name} must not know {ours}");
        }
    }
}

#[test]
fn files_stay_small_and_say_what_they_are() {
    let files = rust_files();
    let mut lengths: Vec<usize> = files.iter().map(|(_, text)| text.lines().count()).collect();
    lengths.sort_unstable();
    assert!(lengths[lengths.len() / 2] < LONGEST_MEDIAN, "half the files are long");
    for (path, text) in &files {
        let name = path.file_name().unwrap().to_str().unwrap();
        assert!(text.lines().count() <= LONGEST_FILE, "{} is over {LONGEST_FILE} lines", path.display());
        assert!(!EMPTY_NAMES.contains(&name), "{} says nothing about what is inside", path.display());
        assert!(text.starts_with("//!"), "{} does not open by saying what it is", path.display());
    }
}

#[test]
fn nothing_is_left_for_later_or_switched_off() {
    // Written in pieces so that this file does not find itself.
    let banned = ["TO".to_owned() + "DO", "FIX".to_owned() + "ME", "#[should".to_owned() + "_panic"]
        .into_iter()
        .chain(["#[ig".to_owned() + "nore", "unimpl".to_owned() + "emented!("]);
    let banned: Vec<String> = banned.collect();
    for (path, text) in rust_files() {
        for word in &banned {
            assert!(!text.contains(word.as_str()), "{} holds {word}", path.display());
        }
    }
}

#[test]
fn science_knows_no_clock_file_or_environment() {
    let pure = [
        "record",
        "statistics",
        "wording",
        "identity",
        "assortment",
        "trial",
        "ripening",
        "seedroom",
        "sowing",
        "advice",
        "photo",
        "drawing",
        "stationery",
    ];
    let impure =
        ["std::fs", "std::env::", "std::net", "SystemTime", "Zoned::now", "Timestamp::now", "println!"];
    for (path, text) in rust_files() {
        let inside = path.strip_prefix(root().join("crates")).unwrap();
        let mut parts = inside.iter().map(|part| part.to_str().unwrap());
        let (name, folder) = (parts.next().unwrap(), parts.next().unwrap());
        if pure.contains(&name) && folder == "src" {
            for word in impure {
                assert!(!text.contains(word), "{} must not know {word}", path.display());
            }
        }
    }
}
