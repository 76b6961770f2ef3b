//! The list through the program: plain words, filters, orders, files, and a shelf that is never trusted blindly.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use assert_cmd::Command;
use serde_json::Value;
use std::fs;
use std::path::PathBuf;
use tempfile::TempDir;

const VARIETIES: &str =
    "Variety,Also known as,Claim\nMarl,,sweet\nDrip Stone,Dripping Stone,tangy\n@Cinder,,\n";

struct House {
    folder: TempDir,
}

impl House {
    fn new(more: &[&str]) -> Self {
        let house = Self { folder: TempDir::new().unwrap() };
        let new = locule()
            .arg("new")
            .arg(house.at("house"))
            .args(more)
            .args(["--units", "metric"])
            .output()
            .unwrap();
        assert!(new.status.success(), "{}", String::from_utf8_lossy(&new.stderr));
        fs::write(house.at("varieties.csv"), VARIETIES).unwrap();
        let mut fruit = String::from("Variety,Date,Plant,Weight (g),Length (mm),Width (mm),Locules\n");
        for plant in 1..=4 {
            for day in 1..=5 {
                fruit.push_str(&format!("Marl,2024-08-{day:02},{plant},{},62,41,2\n", 56 + day + plant));
                fruit.push_str(&format!("Drip Stone,2025-08-{day:02},{plant},{},60,90,9\n", 300 + day));
            }
        }
        fs::write(house.at("fruit.csv"), fruit).unwrap();
        for file in ["varieties.csv", "fruit.csv"] {
            house.ok(&["take", house.at(file).to_str().unwrap()]);
        }
        house.ok(&["call"]);
        house
    }

    fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    #[track_caller]
    fn told(&self, arguments: &[&str], code: i32) -> (String, String) {
        let output = locule().arg("--house").arg(self.at("house")).args(arguments).output().unwrap();
        let told = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(code), "{arguments:?}: {told}");
        (String::from_utf8(output.stdout).unwrap(), told)
    }

    #[track_caller]
    fn ok(&self, arguments: &[&str]) -> String {
        self.told(arguments, 0).0
    }

    #[track_caller]
    fn json(&self, arguments: &[&str]) -> Value {
        let with: Vec<&str> = ["--json"].iter().chain(arguments).copied().collect();
        serde_json::from_str::<Value>(&self.ok(&with)).unwrap()["answer"].clone()
    }

    #[track_caller]
    fn names(&self, arguments: &[&str]) -> Vec<String> {
        let listed = self.json(&[&["list"], arguments].concat());
        let name = |variety: &Value| variety["name"].as_str().unwrap().to_owned();
        listed["varieties"].as_array().unwrap().iter().map(name).collect()
    }
}

fn locule() -> Command {
    let mut command = Command::cargo_bin("locule").unwrap();
    command.env_remove("LOCULE_HOUSE");
    command
}

#[test]
fn plain_words_find_and_say_how_they_were_read() {
    let house = House::new(&[]);
    assert_eq!(house.names(&["plum or paste under 4 oz"]), ["Marl"]);
    assert_eq!(house.names(&["over", "200", "g"]), ["Drip Stone"]);
    assert_eq!(house.names(&["not over 200 g"]), ["Marl"]);
    assert_eq!(house.names(&["sweet"]), ["Marl"], "a claim's word");
    assert_eq!(house.names(&["drippi"]), ["Drip Stone"], "an alias by its beginning");
    assert_eq!(house.names(&["grown in 2025"]), ["Drip Stone"]);
    let told = house.ok(&["list", "plum under 4 oz"]);
    assert!(told.contains("\"plum\": fruit class plum") && told.contains("at most 113 g"), "{told}");
}

#[test]
fn filters_sorts_and_pages() {
    let house = House::new(&[]);
    assert_eq!(house.names(&["--season", "2024"]), ["Marl"]);
    assert_eq!(house.names(&["--find", "STONE"]), ["Drip Stone"]);
    assert_eq!(house.names(&["--sort", "weight"]), ["Marl", "Drip Stone", "@Cinder"]);
    assert_eq!(house.names(&["--sort", "weight", "--reverse"]), ["Drip Stone", "Marl", "@Cinder"]);
    assert_eq!(house.names(&["--sort", "newest", "--reverse"]), ["Drip Stone", "Marl", "@Cinder"]);
    assert_eq!(house.names(&["--page", "7"]).len(), 3, "beyond the last page is the last");
    assert_eq!(house.names(&["--all"]).len(), 3);
    let (_, told) = house.told(&["list", "--use", "polishing"], 2);
    assert!(told.contains("\"polishing\" is no use") && told.contains("canning"), "{told}");
    house.told(&["list", "--season", "9999"], 2);
}

#[test]
fn where_nothing_fits_it_says_what_to_leave_out() {
    let house = House::new(&[]);
    let listed = house.json(&["list", "marl over 200 g"]);
    assert_eq!(listed["fitting"], 0);
    let dropped: Vec<(&str, u64)> = listed["to_drop"]
        .as_array()
        .unwrap()
        .iter()
        .map(|drop| (drop["want"].as_str().unwrap(), drop["fitting"].as_u64().unwrap()))
        .collect();
    assert_eq!(dropped.len(), 2, "{dropped:?}");
    assert!(dropped.iter().all(|(_, fitting)| *fitting == 1), "{dropped:?}");
}

#[test]
fn the_list_is_written_into_files() {
    let house = House::new(&[]);
    for name in ["list.csv", "list.xlsx", "list.json"] {
        let file = house.at(name);
        let told = house.ok(&["list", "--export", file.to_str().unwrap()]);
        assert!(told.contains("3 varieties"), "{told}");
        assert!(0 < fs::metadata(&file).unwrap().len());
    }
    let csv = fs::read_to_string(house.at("list.csv")).unwrap();
    assert!(csv.contains("'@Cinder"), "a formula is guarded: {csv}");
    let json: Value = serde_json::from_str(&fs::read_to_string(house.at("list.json")).unwrap()).unwrap();
    assert_eq!(json[0]["variety"], "@Cinder");
    let marl = json.as_array().unwrap().iter().find(|row| row["variety"] == "Marl").unwrap();
    assert!((55.0..65.0).contains(&marl["weight_g"].as_f64().unwrap()), "{marl}");
    let (_, told) = house.told(&["list", "--export", house.at("list.doc").to_str().unwrap()], 2);
    assert!(told.contains(".csv, .xlsx or .json"), "{told}");
}

#[test]
fn a_row_that_was_changed_behind_our_back_is_found_out() {
    let house = House::new(&[]);
    house.ok(&["list"]);
    let told = house.ok(&["verify"]);
    assert!(told.contains("holds: every row of the list") && told.contains("(3 seen)"), "{told}");
    let file = rusqlite::Connection::open(house.at("house/ledger.db")).unwrap();
    file.execute("UPDATE shelf SET weight_g = 1 WHERE name_key = 'marl'", []).unwrap();
    drop(file);
    let (told, _) = house.told(&["verify"], 2);
    assert!(told.contains("DOES NOT HOLD: every row of the list") && told.contains("Marl"), "{told}");
}

#[test]
fn what_was_undone_is_off_the_list_at_once() {
    let house = House::new(&[]);
    assert_eq!(house.names(&["--season", "2025"]), ["Drip Stone"]);
    house.ok(&["undo", "2"]);
    assert!(house.names(&["--season", "2025"]).is_empty());
    assert_eq!(house.json(&["list"])["old"], 3, "calls rest on what is undone");
    house.ok(&["redo", "2"]);
    assert_eq!(house.names(&["--season", "2025"]), ["Drip Stone"]);
    assert_eq!(house.json(&["list"])["old"], 0);
}

/// A server may let somebody read only: the rows are made in memory, and read in the same way.
#[test]
fn a_house_that_may_only_be_read_is_listed_all_the_same() {
    let Some(server) = std::env::var("LOCULE_POSTGRES").ok().filter(|server| !server.is_empty()) else {
        return println!("left out: PostgreSQL");
    };
    let between = if server.contains('?') { '&' } else { '?' };
    let url = format!("{server}{between}schema=list{}", std::process::id());
    let house = House::new(&["--postgres", &url]);
    let asked: [&[&str]; 5] = [
        &[],
        &["plum or paste under 4 oz"],
        &["--sort", "weight", "--reverse"],
        &["marl"],
        &["--season", "2025"],
    ];
    house.ok(&["undo", "2"]);
    let settings = house.at("house/house.toml");
    let text = fs::read_to_string(&settings).unwrap();
    let reading = text.replace(&url, &format!("{url}&options=-c%20default_transaction_read_only%3Don"));
    assert_ne!(reading, text);
    fs::write(&settings, &reading).unwrap();
    let in_memory = asked.map(|asked| house.json(&[&["list"], asked].concat()));
    fs::write(&settings, &text).unwrap();
    let shelved = asked.map(|asked| house.json(&[&["list"], asked].concat()));
    assert_eq!(in_memory, shelved);
}
