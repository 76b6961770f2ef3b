//! The program as a test runs it: in a folder, or on a house in a folder of its own.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]
#![allow(dead_code, reason = "each test asks for what it needs of it")]

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

/// Runs the program in a folder, and in no house but the one that it finds there.
pub(crate) fn locule(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_locule"));
    command.args(arguments).current_dir(folder).env_remove("LOCULE_HOUSE").output().unwrap()
}

/// What it answers, as data.
#[track_caller]
pub(crate) fn answer(folder: &Path, arguments: &[&str]) -> Value {
    let output = locule(folder, &[&["--json"], arguments].concat());
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice::<Value>(&output.stdout).unwrap()["answer"].clone()
}

/// The top of the tree, where the demo house's raw files and its hidden truth lie.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// A table of the demo house's hidden truth: its headings and its rows.
pub(crate) fn truth(name: &str) -> (csv::StringRecord, Vec<csv::StringRecord>) {
    let mut reader = csv::Reader::from_path(root().join("demo-house").join(name)).unwrap();
    (reader.headers().unwrap().clone(), reader.records().map(Result::unwrap).collect())
}

/// Makes the demo house in a folder of its own, and gives the house's place in it and what was told.
pub(crate) fn demo() -> (TempDir, PathBuf, String) {
    let folder = tempfile::tempdir().unwrap();
    let house = folder.path().join("house");
    let made = locule(&root(), &["demo", "--no-serve", "--in", house.to_str().unwrap()]);
    assert!(made.status.success(), "{}", String::from_utf8_lossy(&made.stderr));
    (folder, house, String::from_utf8(made.stdout).unwrap())
}

/// Asserts that it refuses, names what is wrong and says what helps.
#[track_caller]
pub(crate) fn refused(folder: &Path, arguments: &[&str], named: &str) {
    let output = locule(folder, arguments);
    let told = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(told.contains(named) && told.contains("help: "), "{told}");
}

/// A house in a folder of its own.
pub(crate) struct House {
    folder: TempDir,
}

impl House {
    /// An empty house.
    pub(crate) fn new() -> Self {
        let house = Self { folder: tempfile::tempdir().unwrap() };
        answer(house.folder.path(), &["new", "house", "--by", "Wren"]);
        house
    }

    /// Where a file of this name lies beside the house.
    pub(crate) fn at(&self, name: &str) -> String {
        self.folder.path().join(name).to_str().unwrap().to_owned()
    }

    /// Writes a file beside the house, and tells where it is.
    pub(crate) fn write(&self, name: &str, text: impl AsRef<[u8]>) -> String {
        fs::write(self.folder.path().join(name), text).unwrap();
        self.at(name)
    }

    /// Runs the program on the house from wherever the test runs: its code, its answer, what it told.
    pub(crate) fn run(&self, arguments: &[&str]) -> (i32, Value, String) {
        let at = self.at("house");
        let output = locule(Path::new("."), &[&["--json", "--house", &at], arguments].concat());
        let answer = serde_json::from_slice::<Value>(&output.stdout).unwrap_or(Value::Null);
        let (code, told) = (output.status.code().unwrap(), String::from_utf8(output.stderr).unwrap());
        (code, answer["answer"].clone(), told)
    }

    /// What it answers where it must not refuse.
    #[track_caller]
    pub(crate) fn ok(&self, arguments: &[&str]) -> Value {
        let (code, answer, told) = self.run(arguments);
        assert_eq!(code, 0, "{arguments:?}: {told}");
        answer
    }
}
