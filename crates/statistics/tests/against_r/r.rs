//! Runs an R script on a table and reads what it answers.

use serde_json::Value;
use std::path::PathBuf;
use std::process::Command;

/// What the script says where a package is missing.
const MISSING: &str = "missing:";

/// The answers of `NAME.R` for a table, one a design; `None` after saying what is left out.
pub(crate) fn answers(name: &str, table: &str) -> Option<Vec<Value>> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/against_r");
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("against_r_{name}.csv"));
    std::fs::write(&path, table).unwrap();
    let run =
        Command::new("Rscript").arg("--vanilla").arg(folder.join(format!("{name}.R"))).arg(&path).output();
    let Ok(output) = run else {
        println!("left out: {name} against R (no Rscript)");
        return None;
    };
    let text = String::from_utf8(output.stdout).unwrap();
    if text.starts_with(MISSING) {
        println!("left out: {name} against R ({})", text.trim());
        return None;
    }
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let answers: Vec<Value> = serde_json::from_str(&text).unwrap();
    Some(answers)
}

/// A number of an answer.
pub(crate) fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// Numbers of an answer.
pub(crate) fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

/// Counts designs and the largest gap of each kind, and tells them at the end.
#[derive(Debug, Default)]
pub(crate) struct Tally {
    compared: usize,
    widest: std::collections::BTreeMap<&'static str, f64>,
}

impl Tally {
    /// One more design was compared.
    pub(crate) fn count(&mut self) {
        self.compared += 1;
    }

    /// Holds where a gap is within what is allowed; remembers the widest.
    #[track_caller]
    pub(crate) fn within(
        &mut self,
        what: &'static str,
        gap: f64,
        allowed: f64,
        design: &dyn std::fmt::Debug,
    ) {
        let widest = self.widest.entry(what).or_insert(0.0);
        *widest = widest.max(gap);
        assert!(gap <= allowed, "{what}: {gap} apart, {allowed} allowed, in {design:?}");
    }

    /// Tells what was compared; at least `least` designs must have been.
    #[track_caller]
    pub(crate) fn tell(&self, table: &str, least: usize) {
        println!("{table} against R: {} designs, widest gaps {:?}", self.compared, self.widest);
        assert!(least <= self.compared, "{} designs compared", self.compared);
    }
}
