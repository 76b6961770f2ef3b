//! `locule backup`, `locule restore` and `locule verify`.

use super::reference::{Shape, shape};
use super::{Failure, bars};
use crate::answer::{Answer, Ending};
use crate::arguments::{Backup, Restore};
use house::folder::House;
use house::keep;
use record::language::{counted, grouped};
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A backup that was made.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct BackedUp {
    /// The file.
    file: String,
    /// Its size.
    bytes: u64,
}

pub(crate) fn back_up(house: &House, typed: &Backup) -> Result<BackedUp, Failure> {
    let made = keep::back_up(house, &typed.file)?;
    Ok(BackedUp { file: made.path.display().to_string(), bytes: made.bytes })
}

impl Answer for BackedUp {
    const SHAPE: &'static str = "backup/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "Backed up to {} ({} kB).", self.file, self.bytes.div_ceil(1000))
    }
}

/// A backup that was put back.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Restored {
    /// The backup.
    file: String,
    /// Where the ledger that stood there before was set aside.
    set_aside: Option<String>,
}

pub(crate) fn restore(house: &House, typed: &Restore) -> Result<Restored, Failure> {
    let put_back = keep::restore(house, &typed.file)?;
    let set_aside = put_back.set_aside.map(|path| path.display().to_string());
    Ok(Restored { file: typed.file.display().to_string(), set_aside })
}

impl Answer for Restored {
    const SHAPE: &'static str = "restore/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{} is the ledger now.", self.file)?;
        match &self.set_aside {
            Some(path) => writeln!(to, "The ledger that stood there before is kept as {path}."),
            None => Ok(()),
        }
    }
}

/// What a verification found.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Verified {
    /// Whether all is well.
    sound: bool,
    /// Each thing that was verified.
    checks: Vec<CheckTold>,
}

/// One thing that was verified.
#[derive(Debug, Serialize, JsonSchema)]
struct CheckTold {
    /// What must hold.
    what: String,
    /// How many things were looked at.
    seen: u64,
    /// What does not hold.
    findings: Vec<String>,
}

pub(crate) fn verify(house: &House) -> Result<Verified, Failure> {
    let verified = keep::verify(house, &bars())?;
    let ledger = verified.ledger.checks.iter().map(|check| CheckTold {
        what: check.what.to_owned(),
        seen: check.seen,
        findings: check.findings.clone(),
    });
    let calls = CheckTold {
        what: "every kept call made again from the evidence comes out the same".to_owned(),
        seen: verified.calls_made_again,
        findings: verified.calls_that_differ.clone(),
    };
    let rows = CheckTold {
        what: "every row of the list made again from the calls comes out the same".to_owned(),
        seen: verified.rows_made_again,
        findings: verified.rows_that_differ.clone(),
    };
    Ok(Verified { sound: verified.is_sound(), checks: ledger.chain([calls, rows]).collect() })
}

impl Answer for Verified {
    const SHAPE: &'static str = "verify/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        for check in &self.checks {
            let found = if check.findings.is_empty() { "holds" } else { "DOES NOT HOLD" };
            let seen =
                if check.seen == 0 { String::new() } else { format!(" ({} seen)", grouped(check.seen)) };
            writeln!(to, "{found}: {}{seen}", check.what)?;
            for finding in &check.findings {
                writeln!(to, "  {finding}")?;
            }
        }
        if self.sound {
            writeln!(to, "All is well.")
        } else {
            let faults = self.checks.iter().map(|check| check.findings.len() as u64).sum();
            writeln!(
                to,
                "{} found. Restore the last good backup: locule restore FILE",
                counted(faults, "fault", "faults")
            )
        }
    }

    fn ending(&self) -> Ending {
        if self.sound { Ending::Done } else { Ending::BadInput }
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<BackedUp>(), shape::<Restored>(), shape::<Verified>()]
}
