//! The command reference and the JSON Schemas in docs/ are those of the program.

use assert_cmd::Command;
use std::fs;
use std::path::Path;

#[test]
fn the_docs_hold_what_the_program_writes() {
    let fresh = tempfile::tempdir().unwrap();
    Command::cargo_bin("locule").unwrap().arg("reference").arg(fresh.path()).assert().success();
    let docs = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs");
    let mut names = vec!["commands.md".to_owned()];
    let schemas = fs::read_dir(fresh.path().join("json")).unwrap().flatten();
    names.extend(schemas.map(|entry| format!("json/{}", entry.file_name().to_str().unwrap())));
    assert!(20 < names.len(), "some shapes are missing: {names:?}");
    for name in names {
        let written = fs::read_to_string(fresh.path().join(&name)).unwrap();
        let kept = fs::read_to_string(docs.join(&name)).unwrap_or_default();
        assert!(written == kept, "docs/{name} is old: run target/release/locule reference docs");
    }
}
