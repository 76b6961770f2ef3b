//! Keeping a ledger safe: a copy made while others write, and a copy put back.

use crate::fault::LedgerFault;
use crate::ledger::{LET_GO_WITHIN, Ledger};
use crate::location::Location;
use crate::store::files::{self, beside, disk};
use crate::store::sqlite::settle;
use crate::store::{Store, sqlite};
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use std::fs;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::Duration;

/// A backup that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BackedUp {
    /// The backup.
    pub path: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
}

/// A backup that was put back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PutBack {
    /// Where the ledger that stood there before was set aside, if one stood there.
    pub set_aside: Option<PathBuf>,
}

impl Ledger {
    /// Copies the ledger to one file while others may write; the copy is whole and of one moment.
    ///
    /// # Errors
    /// [`LedgerFault::ThereAlready`] where a file stands at `to`; [`LedgerFault::ServerKeepsItself`] on a
    /// server; or what the disk refuses.
    pub fn back_up_to(&mut self, to: &Path) -> Result<BackedUp, LedgerFault> {
        let Store::File(connection) = &self.store else { return Err(LedgerFault::ServerKeepsItself) };
        if to.exists() {
            return Err(LedgerFault::ThereAlready(to.display().to_string()));
        }
        let unfinished = beside(to, ".unfinished");
        files::remove(&unfinished)?;
        let made = copy(connection, &unfinished).and_then(|()| files::publish(&unfinished, to));
        if made.is_err() {
            files::remove(&unfinished)?;
        }
        made?;
        Ok(BackedUp { path: to.to_owned(), bytes: fs::metadata(to).map_err(disk)?.len() })
    }
}

/// Puts a backup in the place of a ledger file. The backup is verified first and copied beside the
/// ledger; the old ledger is set aside under another name, and the copy takes its place in one step.
///
/// # Errors
/// [`LedgerFault::NotABackup`], [`LedgerFault::DamagedBackup`], [`LedgerFault::Locked`] where the ledger is in use, or what the disk refuses.
pub fn put_back(backup: &Path, ledger: &Path) -> Result<PutBack, LedgerFault> {
    if !backup.is_file() {
        return Err(LedgerFault::NotABackup(backup.to_owned()));
    }
    let fresh = beside(ledger, ".fresh");
    files::remove(&fresh)?;
    // Even a damaged backup must not be written to, so it is the copy that is opened.
    fs::copy(backup, &fresh).map_err(disk)?;
    let put = verify_copy(backup, &fresh).and_then(|()| take_place(&fresh, ledger));
    if put.is_err() {
        files::remove(&fresh)?;
    }
    put
}

/// One step copies all pages as they are at one moment; in WAL mode writers go on meanwhile.
fn copy(connection: &Connection, to: &Path) -> Result<(), LedgerFault> {
    let doing = "copy the ledger";
    let mut copy = Connection::open(to).map_err(sqlite::fault(doing))?;
    let step = Backup::new(connection, &mut copy).and_then(|backup| backup.step(-1));
    match step.map_err(sqlite::fault(doing))? {
        StepResult::Done => {}
        _ => return Err(LedgerFault::Locked),
    }
    // The copy is one file, without a log beside it, until it is opened as a ledger.
    copy.pragma_update(None, "journal_mode", "DELETE").map_err(sqlite::fault(doing))?;
    copy.close().map_err(|(_, error)| sqlite::fault(doing)(error))
}

fn verify_copy(backup: &Path, fresh: &Path) -> Result<(), LedgerFault> {
    let named = |fault| match fault {
        LedgerFault::NotALedger(_) => LedgerFault::NotABackup(backup.to_owned()),
        LedgerFault::Damaged(finding) => LedgerFault::DamagedBackup { path: backup.to_owned(), finding },
        other => other,
    };
    let mut ledger = Ledger::open(&Location::File(fresh.to_owned())).map_err(named)?;
    let verified = ledger.verify().map_err(named)?;
    match verified.checks.iter().flat_map(|check| &check.findings).next() {
        Some(finding) => {
            Err(LedgerFault::DamagedBackup { path: backup.to_owned(), finding: finding.clone() })
        }
        None => settle(ledger.store),
    }
}

fn take_place(fresh: &Path, ledger: &Path) -> Result<PutBack, LedgerFault> {
    let set_aside = match ledger.exists() {
        true => Some(set_aside(ledger)?),
        false => None,
    };
    files::replace(fresh, ledger)?;
    Ok(PutBack { set_aside })
}

/// How long a ledger that is to be set aside may still be in use: a workbench that nobody reads lets go of it
/// within [`crate::ledger::LET_GO_WITHIN`].
const STILL_IN_USE: Duration = LET_GO_WITHIN.saturating_mul(2);

/// Between two looks whether it was let go. Common practice, no source.
const LOOK_AGAIN: Duration = Duration::from_millis(100);

/// Waits until nobody has the old ledger open any more, and writes its log into it.
fn settle_old(ledger: &Path) -> Result<(), LedgerFault> {
    let mut waited = Duration::ZERO;
    loop {
        match Ledger::open(&Location::File(ledger.to_owned())) {
            Ok(old) => match settle(old.store) {
                Err(LedgerFault::Locked) if waited < STILL_IN_USE => {
                    thread::sleep(LOOK_AGAIN);
                    waited += LOOK_AGAIN;
                }
                settled => return settled,
            },
            Err(LedgerFault::Locked) => return Err(LedgerFault::Locked),
            // It cannot be opened, which may be why a backup is put back; it is kept as it is.
            Err(_) => return Ok(()),
        }
    }
}

/// Keeps the old ledger under another name too, so that at every moment one stands in its place.
fn set_aside(ledger: &Path) -> Result<PathBuf, LedgerFault> {
    settle_old(ledger)?;
    let aside = files::keep_a_second(ledger, ".before-")?;
    // A log left beside the file belongs to the old ledger and must not be read into the new one.
    for log in ["-wal", "-shm"] {
        if beside(ledger, log).exists() {
            fs::rename(beside(ledger, log), beside(&aside, log)).map_err(disk)?;
        }
    }
    Ok(aside)
}
