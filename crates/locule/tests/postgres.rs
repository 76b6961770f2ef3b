//! The whole loop with the ledger on a PostgreSQL server, through the program. `LOCULE_POSTGRES` names the
//! server; `scripts/postgres-start` starts one.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use assert_cmd::Command;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const VARIETIES: &str = "Variety;Also known as;Habit\nAmber Bell;Amber B.;determinate\nOld Pike;;indet\n";
const FRUIT: &str = "variety,date,weight (g),length (mm),width (mm),locules\nAmber Bell,2026-07-14,58,62,42,2\n\
    Amber B.,2026-07-14,61,64,43,2\nAmber Bel,2026-07-15,60,63,42,3\nOld Pike,2026-07-15,heavy,80,95,9\n\
    Old Pike,2026-07-15,498,85,106,9\n";

struct House {
    folder: TempDir,
}

impl House {
    fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn write(&self, name: &str, text: &str) -> String {
        fs::write(self.at(name), text).unwrap();
        self.at(name).to_str().unwrap().to_owned()
    }

    #[track_caller]
    fn told(&self, arguments: &[&str], code: i32) -> (Value, String) {
        let output =
            locule().arg("--json").arg("--house").arg(self.at("house")).args(arguments).output().unwrap();
        let told = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(code), "{arguments:?}: {told}");
        let answer = serde_json::from_slice::<Value>(&output.stdout).unwrap_or_default();
        (answer["answer"].clone(), told)
    }

    #[track_caller]
    fn ok(&self, arguments: &[&str]) -> Value {
        self.told(arguments, 0).0
    }
}

fn locule() -> Command {
    let mut command = Command::cargo_bin("locule").unwrap();
    command.env_remove("LOCULE_HOUSE");
    command
}

/// A schema of this test's own on the server, where one is named.
fn address() -> Option<String> {
    let server = std::env::var("LOCULE_POSTGRES").ok().filter(|server| !server.is_empty())?;
    let between = if server.contains('?') { '&' } else { '?' };
    Some(format!("{server}{between}schema=loop{}", std::process::id()))
}

fn make(folder: &Path, address: &str, code: i32) {
    locule().arg("new").arg(folder).args(["--by", "Wren", "--postgres", address]).assert().code(code);
}

#[test]
fn the_loop_runs_on_a_shared_server() {
    let Some(address) = address() else {
        println!("left out: PostgreSQL");
        return;
    };
    let house = House { folder: tempfile::tempdir().unwrap() };
    make(&house.at("house"), &address, 0);
    assert!(!house.at("house/ledger.db").exists(), "the ledger is on the server");
    make(&house.at("another"), &address, 2);
    assert!(
        fs::read_dir(house.at("another")).unwrap().next().is_none(),
        "a start that failed can be repeated"
    );

    let (varieties, fruit) = (house.write("list.csv", VARIETIES), house.write("fruit.csv", FRUIT));
    let taken = house.ok(&["take", &fruit, &varieties]);
    assert_eq!(
        (taken["tables"][1]["added"].as_u64(), taken["tables"][1]["quarantined"].as_u64()),
        (Some(3), Some(2))
    );
    assert_eq!(house.ok(&["take", &fruit])["tables"][0]["taken_before"], true);
    assert_eq!(house.ok(&["names", "accept", "Amber Bel", "Amber Bell"])["rows_taken"], 1);
    let number = house.ok(&["quarantine"])["rows"][0]["number"].to_string();
    assert_eq!(house.ok(&["quarantine", "mend", &number, "weight (g)=510"])["added"], 1);

    house.ok(&["call"]);
    assert_eq!(house.ok(&["show", "amber b."])["record_count"], 3);
    assert_eq!(house.ok(&["list"])["of"], 2);
    let undone = house.ok(&["undo", "2", "--with-dependents"])["batches"].as_array().unwrap().len();
    assert_eq!(undone, 3, "the batch, the name's rows and the mended row");
    let is_undone = |house: &House| house.ok(&["history"])["batches"][1]["undone"].clone();
    assert_eq!(is_undone(&house), true);
    house.ok(&["redo", "2"]);
    assert_eq!(is_undone(&house), false);
    let (_, told) = house.told(&["backup", house.at("b.db").to_str().unwrap()], 2);
    assert!(told.contains("pg_dump"), "{told}");
    house.ok(&["print", "catalogue"]);
    assert!(house.at("house/printed").read_dir().unwrap().next().is_some());
    assert!(house.ok(&["verify"])["sound"].as_bool().unwrap());
}
