//! A folder written beside its place and swapped in whole.
//!
//! While it is made it stands beside the place as `NAME.part`; the folder that is replaced is set aside as
//! `NAME.before`, its files that we wrote are removed by the list that we left in it, and whatever else is found in it
//! is carried over into the new one. A run that was killed leaves the old folder as it was, or both, and the next run
//! finishes the swap. Start at [`Beside::begin`].

use crate::fault::HouseFault;
use publish::pages::File;
use std::collections::HashSet;
use std::fs::{self, TryLockError};
use std::io::ErrorKind;
use std::path::{Component, Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};

/// The list of what we wrote, in the folder itself. It is also how a folder of ours is known.
const LIST: &str = "written-by-locule.txt";

/// The first line of the list.
const LIST_BEGINS: &str =
    "# locule wrote these files. It removes them, and no others, when it writes this folder again.\n";

/// A folder in the making.
pub(super) struct Beside {
    to: PathBuf,
    part: PathBuf,
    before: PathBuf,
    /// Held while we write, so that two runs do not write into one folder.
    lock: fs::File,
    written: Mutex<Vec<String>>,
    bytes: AtomicU64,
    /// From then on a folder beside would be another run's.
    is_swapped: AtomicBool,
}

/// How much was written.
pub(super) struct Amount {
    pub(super) files: u64,
    pub(super) bytes: u64,
}

impl Beside {
    /// Begins a folder that is to stand at `to`.
    ///
    /// # Errors
    /// [`HouseFault::NotEmpty`] where something stands there that is not ours; [`HouseFault::Busy`] where another run
    /// is writing it; what the disk refuses.
    pub(super) fn begin(to: &Path) -> Result<Self, HouseFault> {
        let to = at(to, std::path::absolute(to))?;
        let to = to.canonicalize().unwrap_or(to);
        let (part, before) = (neighbour(&to, ".part"), neighbour(&to, ".before"));
        if let Some(parent) = to.parent() {
            at(parent, fs::create_dir_all(parent))?;
        }
        let lock = take(&part)?;
        finish_what_was_begun(&to, &before)?;
        refuse_strange(&to)?;
        let (written, bytes, is_swapped) = (Mutex::default(), AtomicU64::new(0), AtomicBool::new(false));
        Ok(Self { to, part, before, lock, written, bytes, is_swapped })
    }

    /// Writes one file of the folder.
    ///
    /// # Errors
    /// What the disk refuses.
    pub(super) fn write(&self, file: &File) -> Result<(), HouseFault> {
        let path = self.part.join(&file.path);
        let written = match fs::write(&path, &file.bytes) {
            Err(fault) if fault.kind() == ErrorKind::NotFound => {
                let folder = path.parent().unwrap_or(&self.part);
                fs::create_dir_all(folder).and_then(|()| fs::write(&path, &file.bytes))
            }
            other => other,
        };
        at(&path, written)?;
        self.bytes.fetch_add(u64::try_from(file.bytes.len()).unwrap_or(u64::MAX), Ordering::Relaxed);
        self.names().push(file.path.clone());
        Ok(())
    }

    fn names(&self) -> std::sync::MutexGuard<'_, Vec<String>> {
        self.written.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    /// Swaps the folder in.
    ///
    /// # Errors
    /// [`HouseFault::InTheWay`] where a file that is not ours has the name of one that was written: nothing was
    /// changed then; what the disk refuses.
    pub(super) fn swap_in(self) -> Result<Amount, HouseFault> {
        let mut names = std::mem::take(&mut *self.names());
        names.sort();
        let list = self.part.join(LIST);
        at(&list, fs::write(&list, format!("{LIST_BEGINS}{}\n", names.join("\n"))))?;
        refuse_in_the_way(&self.to, &names)?;
        if self.to.exists() {
            at(&self.to, fs::rename(&self.to, &self.before))?;
        }
        if let Err(fault) = fs::rename(&self.part, &self.to) {
            // The first fault is the one to tell; the old folder goes back to its place.
            let _ = fs::rename(&self.before, &self.to);
            return Err(HouseFault::file(&self.to, fault));
        }
        self.is_swapped.store(true, Ordering::Relaxed);
        drop(self.lock.unlock());
        carry_over(&self.before, &self.to)?;
        let files = u64::try_from(names.len()).unwrap_or(u64::MAX);
        Ok(Amount { files, bytes: self.bytes.load(Ordering::Relaxed) })
    }
}

impl Drop for Beside {
    /// A folder that was not swapped in is taken away again.
    fn drop(&mut self) {
        if !self.is_swapped.load(Ordering::Relaxed) {
            let _ = fs::remove_dir_all(&self.part);
        }
    }
}

/// Takes the folder beside for ourselves, clearing what a killed run left in it.
fn take(part: &Path) -> Result<fs::File, HouseFault> {
    let list = part.join(LIST);
    if part.exists() && !list.is_file() {
        return Err(HouseFault::NotEmpty(part.to_owned()));
    }
    at(part, fs::create_dir_all(part))?;
    let lock = at(&list, fs::OpenOptions::new().create(true).append(true).open(&list))?;
    match lock.try_lock() {
        Ok(()) => {}
        Err(TryLockError::WouldBlock) => return Err(HouseFault::Busy(part.to_owned())),
        // A disk without locks: two runs at once are then the user's own lookout.
        Err(TryLockError::Error(_)) => {}
    }
    let inside = at(part, fs::read_dir(part))?.flatten();
    for entry in inside.filter(|entry| entry.file_name() != LIST) {
        let path = entry.path();
        at(&path, if path.is_dir() { fs::remove_dir_all(&path) } else { fs::remove_file(&path) })?;
    }
    Ok(lock)
}

/// A run that was killed between two steps of its swap left the old folder aside.
fn finish_what_was_begun(to: &Path, before: &Path) -> Result<(), HouseFault> {
    match (before.join(LIST).is_file(), to.exists()) {
        (true, false) => at(before, fs::rename(before, to)),
        (true, true) => carry_over(before, to),
        (false, _) => Ok(()),
    }
}

/// Only an empty place or a folder of our own is written to.
fn refuse_strange(to: &Path) -> Result<(), HouseFault> {
    if !to.exists() || to.join(LIST).is_file() {
        return Ok(());
    }
    let mut entries = at(to, fs::read_dir(to))?;
    if entries.next().is_some() { Err(HouseFault::NotEmpty(to.to_owned())) } else { Ok(()) }
}

/// The files that the list of a folder names. A line that would lead out of the folder is no file of ours.
fn listed(folder: &Path) -> HashSet<PathBuf> {
    let text = fs::read_to_string(folder.join(LIST)).unwrap_or_default();
    let lines = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty()).map(PathBuf::from);
    let mut files: HashSet<PathBuf> = lines.filter(|path| is_inside(path)).collect();
    files.insert(PathBuf::from(LIST));
    files
}

fn is_inside(path: &Path) -> bool {
    path.components().all(|part| matches!(part, Component::Normal(_)))
}

/// A file of somebody else that has the name of a page would be lost.
fn refuse_in_the_way(to: &Path, names: &[String]) -> Result<(), HouseFault> {
    let ours = listed(to);
    let strange = |name: &&String| {
        let is_ours = ours.contains(Path::new(name.as_str()));
        !is_ours && to.join(name).symlink_metadata().is_ok()
    };
    names.iter().find(strange).map_or(Ok(()), |name| Err(HouseFault::InTheWay(to.join(name))))
}

/// Empties the folder that was replaced: our own files are removed, all others move into the new folder.
fn carry_over(before: &Path, to: &Path) -> Result<(), HouseFault> {
    if !before.exists() {
        return Ok(());
    }
    let list = PathBuf::from(LIST);
    // The list goes last: without it the folder would no longer be known as ours.
    for file in listed(before).into_iter().filter(|file| *file != list) {
        let _ = fs::remove_file(before.join(file));
    }
    move_all(before, to)?;
    at(before, fs::remove_file(before.join(&list)))?;
    at(before, fs::remove_dir(before))
}

/// Moves what is in one folder into another, but for the list.
fn move_all(from: &Path, to: &Path) -> Result<(), HouseFault> {
    for entry in at(from, fs::read_dir(from))? {
        let entry = at(from, entry)?;
        let (path, target) = (entry.path(), to.join(entry.file_name()));
        if entry.file_name() == LIST {
            continue;
        }
        let is_folder = at(&path, entry.file_type())?.is_dir();
        if is_folder && target.is_dir() {
            move_all(&path, &target)?;
            at(&path, fs::remove_dir(&path))?;
        } else if target.symlink_metadata().is_ok() {
            return Err(HouseFault::InTheWay(path));
        } else {
            at(&path, fs::rename(&path, &target))?;
        }
    }
    Ok(())
}

fn neighbour(to: &Path, ending: &str) -> PathBuf {
    let mut name = to.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

fn at<T>(path: &Path, outcome: std::io::Result<T>) -> Result<T, HouseFault> {
    outcome.map_err(|fault| HouseFault::file(path, fault))
}

#[cfg(test)]
mod tests {
    use super::*;
    use tempfile::TempDir;

    fn file(path: &str, text: &str) -> File {
        File { path: path.to_owned(), bytes: text.as_bytes().to_vec() }
    }

    fn write(to: &Path, files: &[(&str, &str)]) -> Result<Amount, HouseFault> {
        let beside = Beside::begin(to)?;
        files.iter().try_for_each(|(path, text)| beside.write(&file(path, text)))?;
        beside.swap_in()
    }

    /// Every file under a folder with its text, but for our list.
    fn found(folder: &Path) -> Vec<(String, String)> {
        fn walk(top: &Path, folder: &Path, all: &mut Vec<(String, String)>) {
            for entry in fs::read_dir(folder).unwrap().flatten() {
                let path = entry.path();
                if path.is_dir() {
                    walk(top, &path, all);
                } else if entry.file_name() != LIST {
                    let name = path.strip_prefix(top).unwrap().to_str().unwrap().replace('\\', "/");
                    all.push((name, fs::read_to_string(&path).unwrap()));
                }
            }
        }
        let mut all = Vec::new();
        walk(folder, folder, &mut all);
        all.sort();
        all
    }

    #[track_caller]
    fn holds(folder: &Path, files: &[(&str, &str)]) {
        let expected: Vec<_> =
            files.iter().map(|(path, text)| ((*path).to_owned(), (*text).to_owned())).collect();
        assert_eq!(found(folder), expected);
    }

    #[test]
    fn a_second_run_replaces_its_own_files_and_keeps_all_others() {
        let room = TempDir::new().unwrap();
        let to = room.path().join("deep/web");
        let amount = write(&to, &[("a.html", "1"), ("old/b.html", "1"), ("kept/c.html", "1")]).unwrap();
        assert_eq!((amount.files, amount.bytes), (3, 3));
        fs::write(to.join("CNAME"), "mine").unwrap();
        fs::write(to.join("kept/photo.jpg"), "mine").unwrap();
        fs::create_dir_all(to.join("own/deeper")).unwrap();
        fs::write(to.join("own/deeper/x"), "mine").unwrap();
        write(&to, &[("a.html", "2"), ("kept/c.html", "2")]).unwrap();
        let mine = [("CNAME", "mine"), ("a.html", "2"), ("kept/c.html", "2"), ("kept/photo.jpg", "mine")];
        holds(&to, &[mine.as_slice(), &[("own/deeper/x", "mine")]].concat());
        assert_eq!(fs::read_dir(to.parent().unwrap()).unwrap().count(), 1, "nothing is left beside");
    }

    #[test]
    fn what_is_not_ours_is_refused_and_left() {
        let room = TempDir::new().unwrap();
        let strange = room.path().join("papers");
        fs::create_dir(&strange).unwrap();
        fs::write(strange.join("will.txt"), "mine").unwrap();
        assert!(matches!(write(&strange, &[("a.html", "1")]), Err(HouseFault::NotEmpty(_))));
        holds(&strange, &[("will.txt", "mine")]);
        let to = room.path().join("web");
        write(&to, &[("a.html", "1")]).unwrap();
        fs::write(to.join("b.html"), "mine").unwrap();
        assert!(matches!(write(&to, &[("b.html", "2")]), Err(HouseFault::InTheWay(_))));
        holds(&to, &[("a.html", "1"), ("b.html", "mine")]);
    }

    #[test]
    fn a_run_that_stops_leaves_the_old_folder_and_a_second_cannot_begin_beside_it() {
        let room = TempDir::new().unwrap();
        let to = room.path().join("web");
        write(&to, &[("a.html", "1")]).unwrap();
        let first = Beside::begin(&to).unwrap();
        first.write(&file("a.html", "2")).unwrap();
        assert!(matches!(Beside::begin(&to).map(|_| ()), Err(HouseFault::Busy(_))));
        drop(first);
        holds(&to, &[("a.html", "1")]);
        assert!(!room.path().join("web.part").exists());
    }

    /// The steps of a swap after which a run may be killed: the old folder set aside, the new one in its place.
    #[test]
    fn a_swap_that_was_killed_is_finished_by_the_next_run() {
        for is_new_in_place in [false, true] {
            let room = TempDir::new().unwrap();
            let (to, before) = (room.path().join("web"), room.path().join("web.before"));
            write(&to, &[("a.html", "1"), ("b.html", "1")]).unwrap();
            fs::write(to.join("CNAME"), "mine").unwrap();
            fs::rename(&to, &before).unwrap();
            if is_new_in_place {
                write(&room.path().join("new"), &[("a.html", "2")]).unwrap();
                fs::rename(room.path().join("new"), &to).unwrap();
            }
            write(&to, &[("a.html", "3")]).unwrap();
            holds(&to, &[("CNAME", "mine"), ("a.html", "3")]);
            assert!(!before.exists());
        }
    }

    #[test]
    fn a_list_that_was_tampered_with_leads_nowhere_else() {
        let room = TempDir::new().unwrap();
        let (to, outside) = (room.path().join("web"), room.path().join("outside.txt"));
        write(&to, &[("a.html", "1")]).unwrap();
        fs::write(&outside, "mine").unwrap();
        let absolute = outside.display();
        fs::write(to.join(LIST), format!("../outside.txt\n{absolute}\na.html\n")).unwrap();
        write(&to, &[("a.html", "2")]).unwrap();
        assert_eq!(fs::read_to_string(&outside).unwrap(), "mine");
    }
}
