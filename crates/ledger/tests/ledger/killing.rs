//! A process killed while it takes a file leaves all of the file or nothing, and taking it again ends
//! with exactly its rows.

use crate::ground::{add_varieties, is_sound, on_both};
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use ledger::location::Location;
use std::io::{BufRead, BufReader};
use std::ops::ControlFlow;
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// Rows of every file.
const ROWS: u64 = 8_000;

/// The lines after which the process is killed, and how long to idle before: early, late, on and on into its
/// commit, and just after it.
fn moments() -> Vec<(String, u32)> {
    let rows = (0..ROWS).step_by(1_000).map(|row| (format!("row {row}"), 0));
    let into_commit = (0..10).map(|step| ("committing".to_owned(), step * 40_000));
    let after = [("committed".to_owned(), 0), ("committed".to_owned(), 0)];
    rows.chain(into_commit).chain(after).collect()
}

/// The example beside this test.
fn takes() -> PathBuf {
    let tests = std::env::current_exe().unwrap();
    tests.parent().and_then(|folder| folder.parent()).unwrap().join("examples").join("takes")
}

fn begin(location: &Location, name: &str) -> Command {
    let place = match location {
        Location::File(path) => path.display().to_string(),
        Location::Postgres(url) => url.clone(),
    };
    let mut command = Command::new(takes());
    command.args([&place, name, &ROWS.to_string()]).stdout(Stdio::piped());
    command
}

fn kill_after(location: &Location, name: &str, moment: &str, idle: u32) {
    let mut child = begin(location, name).spawn().unwrap();
    // The reader is kept to the end: a child that cannot speak any more would end by itself.
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map(Result::unwrap);
    assert_eq!(lines.find(|line| line == moment).as_deref(), Some(moment));
    (0..idle).for_each(|_| std::hint::spin_loop());
    child.kill().unwrap();
    child.wait().unwrap();
    drop(lines);
}

fn fruits(ledger: &mut Ledger) -> u64 {
    let mut count = 0;
    ledger
        .fruit_by_variety(Whose::Everyones, &mut |gathered| {
            count += gathered.records.len() as u64;
            ControlFlow::Continue(())
        })
        .unwrap();
    count
}

#[test]
fn a_killed_process_leaves_all_or_nothing() {
    on_both(|location| {
        add_varieties(&mut Ledger::open(location).unwrap(), &["Amber", "Brindle", "Candle"]);
        let mut left = [0, 0];
        for (killed, (moment, idle)) in (1..).zip(moments()) {
            let name = format!("{killed}.csv");
            kill_after(location, &name, &moment, idle);
            let mut ledger = Ledger::open(location).unwrap();
            is_sound(&mut ledger);
            let kept = fruits(&mut ledger) - (killed - 1) * ROWS;
            assert!(kept == 0 || kept == ROWS, "{moment}: {kept} rows are left");
            assert!(moment != "committed" || kept == ROWS, "rows are lost that were told to be committed");
            left[usize::from(kept > 0)] += 1;
            drop(ledger);

            assert!(begin(location, &name).status().unwrap().success());
            let mut ledger = Ledger::open(location).unwrap();
            assert_eq!(fruits(&mut ledger), killed * ROWS, "{moment}");
        }
        is_sound(&mut Ledger::open(location).unwrap());
        println!(
            "killed {} times: nothing left {} times, all left {} times",
            left[0] + left[1],
            left[0],
            left[1]
        );
    });
}
