//! Killing the program at random moments while it takes files: after each kill the ledger is whole, and
//! taking the files again ends with exactly the right rows.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use serde_json::Value;
use std::fmt::Write;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

/// How many kills, as the house's first issue asks.
const KILLS: u32 = 200;
/// Rows of the file that is being taken: enough that most kills fall within the taking.
const ROWS: u32 = 20_000;

fn locule(house: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_locule"));
    command.env_remove("LOCULE_HOUSE").arg("--house").arg(house).arg("--json");
    command
}

fn run(house: &Path, arguments: &[&str]) -> Value {
    let output = locule(house).args(arguments).output().unwrap();
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice::<Value>(&output.stdout).unwrap()["answer"].clone()
}

fn fruit_file(folder: &Path) -> String {
    let mut text = "variety,plant,date,weight (g),length (mm),width (mm),locules\n".to_owned();
    for row in 0..ROWS {
        let (plant, day, weight) = (row % 12 + 1, row % 28 + 1, 50 + row % 17);
        writeln!(text, "Old Pike,{plant},2026-08-{day:02},{weight},60,40,2").unwrap();
    }
    let file = folder.join("fruit.csv");
    fs::write(&file, text).unwrap();
    file.to_str().unwrap().to_owned()
}

fn house(folder: &Path) -> std::path::PathBuf {
    let house = folder.join("house");
    let made = Command::new(env!("CARGO_BIN_EXE_locule")).arg("new").arg(&house).status().unwrap();
    assert!(made.success());
    let list = folder.join("list.csv");
    fs::write(&list, "variety\nOld Pike\n").unwrap();
    run(&house, &["take", list.to_str().unwrap()]);
    house
}

/// A fresh copy of a house that holds one variety and no fruit.
fn copy(of: &Path, to: &Path) {
    let _ = fs::remove_dir_all(to);
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(of).unwrap().flatten().filter(|entry| entry.path().is_file()) {
        fs::copy(entry.path(), to.join(entry.file_name())).unwrap();
    }
}

fn time_of_one_taking(house: &Path, work: &Path, file: &str) -> Duration {
    copy(house, work);
    let begun = Instant::now();
    run(work, &["take", file]);
    begun.elapsed()
}

#[test]
fn two_hundred_kills_leave_whole_ledgers() {
    let folder = tempfile::tempdir().unwrap();
    let (house, file, work) = (house(folder.path()), fruit_file(folder.path()), folder.path().join("work"));
    let mut whole = time_of_one_taking(&house, &work, &file);
    let mut chance = ChaCha8Rng::seed_from_u64(2026);
    let (mut within, mut finished) = (0, 0);
    for _ in 0..KILLS {
        copy(&house, &work);
        let mut child =
            locule(&work).args(["take", &file]).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        let wait = whole.mul_f64(chance.random_range(0.0..1.1));
        thread::sleep(wait);
        let _ = child.kill();
        child.wait().unwrap();
        assert_eq!(run(&work, &["verify"])["sound"], true);
        let begun = Instant::now();
        let taken = run(&work, &["take", &file])["tables"][0].clone();
        let again = begun.elapsed();
        // Either nothing of the file was kept and all of it comes in now, or the kill came after the end.
        match (taken["taken_before"].as_bool().unwrap(), taken["added"].as_u64().unwrap()) {
            (false, added) => {
                assert_eq!(added, u64::from(ROWS));
                within += 1;
                // The machine is busier at times: the next kill goes by how long a taking took just now.
                whole = again;
            }
            (true, added) => {
                assert_eq!(added, 0);
                finished += 1;
                whole = whole.min(wait);
            }
        }
        assert_eq!(run(&work, &["show", "Old Pike"])["record_count"], ROWS);
    }
    println!("{within} kills fell before the end of the taking, {finished} after it");
    assert!(KILLS / 2 < within, "most kills must fall within the taking, not {within} of {KILLS}");
}
