//! Files that must be there whole or not at all.

use crate::fault::LedgerFault;
use std::ffi::OsString;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

/// The path of a file that goes with another: the same name with an ending.
pub(crate) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(ending);
    PathBuf::from(name)
}

/// Removes a database file with its log, where they are there.
pub(crate) fn remove(path: &Path) -> Result<(), LedgerFault> {
    for file in [path.to_owned(), beside(path, "-wal"), beside(path, "-shm"), beside(path, "-journal")] {
        match fs::remove_file(file) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(disk(error)),
            _ => {}
        }
    }
    Ok(())
}

/// Gives a finished file its name, durably, unless something has that name already.
pub(crate) fn publish(finished: &Path, to: &Path) -> Result<(), LedgerFault> {
    force_to_disk(finished)?;
    // A hard link, unlike a renaming, refuses to cover what somebody has put there meanwhile.
    match fs::hard_link(finished, to) {
        Ok(()) => remove(finished)?,
        Err(_) if to.exists() => return Err(LedgerFault::ThereAlready(to.display().to_string())),
        // Memory sticks often know no hard links.
        Err(_) => fs::rename(finished, to).map_err(disk)?,
    }
    force_folder(to)
}

/// Puts a finished file in the place of another, durably and in one step.
pub(crate) fn replace(finished: &Path, to: &Path) -> Result<(), LedgerFault> {
    force_to_disk(finished)?;
    fs::rename(finished, to).map_err(disk)?;
    force_folder(to)
}

/// Keeps a file under a second name that is still free, made of its own and a count; tells that name.
pub(crate) fn keep_a_second(path: &Path, ending: &str) -> Result<PathBuf, LedgerFault> {
    let mut count = 1;
    loop {
        let second = beside(path, &format!("{ending}{count}"));
        match fs::hard_link(path, &second) {
            Ok(()) => return Ok(second),
            Err(_) if second.exists() => count += 1,
            Err(_) => return fs::copy(path, &second).map(|_| second).map_err(disk),
        }
    }
}

/// Tells what the disk refused.
pub(crate) fn disk(error: io::Error) -> LedgerFault {
    LedgerFault::Disk(error.to_string())
}

fn force_to_disk(path: &Path) -> Result<(), LedgerFault> {
    File::open(path).and_then(|file| file.sync_all()).map_err(disk)
}

/// A new name is durable only when its folder is. Systems that cannot open a folder see to it themselves.
fn force_folder(path: &Path) -> Result<(), LedgerFault> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match File::open(folder) {
        Ok(folder) if cfg!(unix) => folder.sync_all().map_err(disk),
        _ => Ok(()),
    }
}

/// Which file stands at a path, whatever it is called: its device and its number there. Nothing where the
/// system does not tell.
#[cfg(unix)]
pub(crate) fn identity(path: &Path) -> Option<(u64, u64)> {
    use std::os::unix::fs::MetadataExt;
    fs::metadata(path).ok().map(|file| (file.dev(), file.ino()))
}

/// Which file stands at a path: this system does not tell.
#[cfg(not(unix))]
pub(crate) fn identity(_path: &Path) -> Option<(u64, u64)> {
    None
}
