//! Backing up, putting back, and finding damage.

use crate::ground::{add_varieties, is_sound, new_file, on_postgres, source, take, weights};
use ledger::batch::BatchKind;
use ledger::fault::LedgerFault;
use ledger::keep::put_back;
use ledger::ledger::Ledger;
use ledger::location::Location;
use record::id::Id;
use record::variety::Variety;
use rusqlite::Connection;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A ledger with one fruit, its path and its variety.
fn filled(folder: &TempDir) -> (PathBuf, Ledger, Id<Variety>) {
    let mut ledger = Ledger::open(&new_file(folder)).unwrap();
    let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
    take(&mut ledger, &source(BatchKind::FruitSamples, "f.csv", 3), variety, &[10.0]);
    (folder.path().join("ledger.db"), ledger, variety)
}

fn opened(path: &Path) -> Ledger {
    Ledger::open(&Location::File(path.to_owned())).unwrap()
}

#[test]
fn a_backup_holds_what_was_there_and_comes_back() {
    let folder = TempDir::new().unwrap();
    let (path, mut ledger, variety) = filled(&folder);
    let backup = folder.path().join("backup.db");
    // A batch that has begun is no part of the backup and does not hinder it.
    let mut other = opened(&path);
    let writer = other.begin_batch(&source(BatchKind::Picks, "p.csv", 9)).unwrap();
    let made = ledger.back_up_to(&backup).unwrap();
    drop(writer);
    assert_eq!(made.bytes, fs::metadata(&backup).unwrap().len());
    assert!(matches!(ledger.back_up_to(&backup), Err(LedgerFault::ThereAlready(_))));

    take(&mut ledger, &source(BatchKind::FruitSamples, "g.csv", 4), variety, &[11.0]);
    drop((ledger, other));
    let put = put_back(&backup, &path).unwrap();
    let mut ledger = opened(&path);
    assert_eq!(weights(&mut ledger, variety).0, [10.0]);
    is_sound(&mut ledger);
    let mode = Connection::open(&path).unwrap().pragma_query_value(None, "journal_mode", |row| row.get(0));
    assert_eq!(mode, Ok("wal".to_owned()));
    let mut aside = opened(&put.set_aside.unwrap());
    assert_eq!(weights(&mut aside, variety).0, [10.0, 11.0]);
    is_sound(&mut aside);
    let left: Vec<_> = fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    let odd = left
        .iter()
        .filter_map(|name| name.to_str())
        .find(|name| name.contains("fresh") || name.contains("unf"));
    assert_eq!(odd, None);
}

#[test]
fn a_backup_goes_where_no_ledger_is_left() {
    let folder = TempDir::new().unwrap();
    let (path, mut ledger, variety) = filled(&folder);
    let backup = folder.path().join("backup.db");
    ledger.back_up_to(&backup).unwrap();
    drop(ledger);
    fs::remove_file(&path).unwrap();
    assert_eq!(put_back(&backup, &path).unwrap().set_aside, None);
    assert_eq!(weights(&mut opened(&path), variety).0, [10.0]);
}

#[test]
fn a_bad_backup_leaves_the_ledger_alone() {
    let folder = TempDir::new().unwrap();
    let (path, mut ledger, variety) = filled(&folder);
    let backup = folder.path().join("backup.db");
    ledger.back_up_to(&backup).unwrap();
    drop(ledger);
    let refuse = |wanted: fn(&LedgerFault) -> bool| {
        let fault = put_back(&backup, &path).unwrap_err();
        assert!(wanted(&fault), "{fault:?}");
        assert_eq!(weights(&mut opened(&path), variety).0, [10.0]);
    };
    let whole = fs::read(&backup).unwrap();

    let changed = Connection::open(&backup).unwrap();
    changed
        .execute_batch("DROP TRIGGER fruit_sample_no_UPDATE; UPDATE fruit_sample SET weight_g = 99.0")
        .unwrap();
    drop(changed);
    refuse(
        |fault| matches!(fault, LedgerFault::DamagedBackup { finding, .. } if finding.contains("was changed")),
    );

    fs::write(&backup, &whole[..whole.len() / 2]).unwrap();
    refuse(|fault| matches!(fault, LedgerFault::DamagedBackup { .. }));
    fs::write(&backup, b"variety,weight\n").unwrap();
    refuse(|fault| matches!(fault, LedgerFault::NotABackup(_)));
    fs::remove_file(&backup).unwrap();
    refuse(|fault| matches!(fault, LedgerFault::NotABackup(_)));
}

#[test]
fn a_ledger_in_use_is_not_replaced() {
    let folder = TempDir::new().unwrap();
    let (path, mut ledger, variety) = filled(&folder);
    let backup = folder.path().join("backup.db");
    ledger.back_up_to(&backup).unwrap();
    assert!(matches!(put_back(&backup, &path), Err(LedgerFault::Locked)));
    assert_eq!(weights(&mut ledger, variety).0, [10.0]);
}

/// Whatever is done to the file behind the ledger's back, one check or another finds it.
#[test]
fn verifying_finds_what_was_done_behind_the_ledgers_back() {
    let damages = [
        ("UPDATE fruit_sample SET weight_g = 10.5", "was changed after it was written"),
        ("UPDATE fruit_sample SET season = 2030", "was changed after it was written"),
        ("UPDATE variety SET name = 'Amber Lentern'", "was changed after it was written"),
        (
            "INSERT INTO quarantine VALUES (1, 1, 2, 7, NULL, '5', 'reason', 'remedy', '5')",
            "quarantined row 1 was changed after it was written",
        ),
        ("DELETE FROM fruit_sample", "says that it holds 1 of fruit_samples and holds 0"),
        ("UPDATE touched SET fruit_samples = 2", "not 2"),
        ("DELETE FROM batch_summary WHERE batch = 1", "batch 1"),
        ("DELETE FROM variety", "refers to a missing variety"),
        (
            "INSERT INTO alias VALUES (1, 'brindle', 1, 1, 'b'); INSERT INTO variety VALUES
          (2, x'00112233445566778899aabbccddeeff', 1, 1, 'Brindle', 'brindle')",
            "every name means one variety",
        ),
    ];
    for (damage, finding) in damages {
        let folder = TempDir::new().unwrap();
        let (path, mut ledger, _) = filled(&folder);
        let file = Connection::open(&path).unwrap();
        file.pragma_update(None, "foreign_keys", false).unwrap();
        let mut triggers = String::new();
        for table in ["fruit_sample", "touched", "batch_summary", "variety"] {
            triggers += &format!("DROP TRIGGER {table}_no_UPDATE; DROP TRIGGER {table}_no_DELETE;");
        }
        file.execute_batch(&triggers).unwrap();
        is_sound(&mut ledger);
        file.execute_batch(damage).unwrap();
        let verified = ledger.verify().unwrap();
        let found: Vec<_> = verified.checks.iter().flat_map(|check| &check.findings).collect();
        assert!(found.iter().any(|found| found.contains(finding)), "{damage}: {found:?}");
    }
}

#[test]
fn a_server_keeps_itself() {
    on_postgres(|location| {
        let folder = TempDir::new().unwrap();
        let mut ledger = Ledger::open(location).unwrap();
        let fault = ledger.back_up_to(&folder.path().join("backup.db")).unwrap_err();
        assert!(matches!(fault, LedgerFault::ServerKeepsItself));
        assert!(fault.help().unwrap().contains("pg_dump"));
    });
}
