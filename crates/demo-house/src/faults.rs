//! Faults made on purpose: each slip of a keeper's pen, where it stands, and what should become of it.
//!
//! `faults.csv` prints them beside the truth, so that a test can ask whether each was caught. Start at
//! [`Slips::note`].

use std::collections::BTreeMap;

/// What should become of a slip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fate {
    /// The row goes to the quarantine.
    Quarantined,
    /// The row is kept, and doubted.
    Doubted,
    /// The row is passed over: it holds no record.
    PassedOver,
    /// The row reads as it stands, but its evidence belongs to another variety than it says; at most
    /// the calls can tell.
    Misleading,
}

impl Fate {
    /// The word in `faults.csv`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Quarantined => "quarantined",
            Self::Doubted => "doubted",
            Self::PassedOver => "passed over",
            Self::Misleading => "misleading",
        }
    }
}

/// Where in the raw files.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Spot {
    /// Path under `raw/`.
    pub file: String,
    /// The sheet; empty in a text file.
    pub sheet: String,
    /// The row as a spreadsheet numbers it, blank rows counted, a quoted line break not; 0 for the
    /// whole column.
    pub row: u32,
}

/// One slip.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slip {
    /// Where.
    pub spot: Spot,
    /// The heading of its column.
    pub column: String,
    /// What was written.
    pub written: String,
    /// What should become of it.
    pub fate: Fate,
    /// What kind of slip, such as `unknown variety`.
    pub reason: &'static str,
    /// What is true.
    pub truth: String,
}

/// All slips made so far.
#[derive(Clone, Debug, Default)]
pub struct Slips {
    made: Vec<Slip>,
    counts: BTreeMap<String, u32>,
}

impl Slips {
    /// Remembers a slip.
    pub fn note(&mut self, slip: Slip) {
        self.made.push(slip);
    }

    /// True the first `times` that it is asked about `what`.
    pub fn is_due(&mut self, what: &str, times: u32) -> bool {
        let count = self.counts.entry(what.to_owned()).or_insert(0);
        let due = *count < times;
        *count += u32::from(due);
        due
    }

    /// All slips, in the order in which they were made.
    #[must_use]
    pub fn made(&self) -> &[Slip] {
        &self.made
    }
}
