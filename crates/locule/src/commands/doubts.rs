//! `locule doubts` and `locule withdraw`: records that look wrong.

use super::records::{self, RecordTold, place};
use super::reference::{Shape, shape};
use super::{Failure, act, answer};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::{DoubtsAction, Withdraw};
use house::doubts;
use house::folder::House;
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn run(house: &House, action: Option<DoubtsAction>, form: Form) -> Result<Ending, Failure> {
    match action {
        None => answer(&doubted(house)?, form),
        Some(DoubtsAction::Confirm { record, by }) => {
            let act = act(house, by.as_ref(), None);
            let batch = doubts::confirm(house, &act, &[records::id(&record)?])?;
            answer(&Confirmed { record, batch: batch.0 }, form)
        }
    }
}

/// Records that are set aside until somebody has looked.
#[derive(Debug, Serialize, JsonSchema)]
struct Doubted {
    /// Oldest first.
    records: Vec<DoubtedRecord>,
}

/// One doubted record.
#[derive(Debug, Serialize, JsonSchema)]
struct DoubtedRecord {
    /// Its variety.
    variety: String,
    /// The record.
    #[serde(flatten)]
    record: RecordTold,
}

fn doubted(house: &House) -> Result<Doubted, Failure> {
    let units = house.settings.units;
    let told = |(variety, recorded)| DoubtedRecord { variety, record: records::told(&recorded, units) };
    Ok(Doubted { records: doubts::doubted(house)?.into_iter().map(told).collect() })
}

impl Answer for Doubted {
    const SHAPE: &'static str = "doubts/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        for DoubtedRecord { variety, record } in &self.records {
            writeln!(to, "{variety}: {} ({})", record.says, place(record))?;
            for doubt in &record.doubts {
                writeln!(to, "  {doubt}")?;
            }
            writeln!(to, "  record {}", record.record)?;
        }
        match self.records.len() as u64 {
            0 => writeln!(to, "No record is doubted."),
            doubted => writeln!(
                to,
                "{} set aside. Right as it stands: locule doubts confirm RECORD. Wrong: locule correct, or locule withdraw.",
                counted(doubted, "record is", "records are")
            ),
        }
    }
}

/// A record that was confirmed.
#[derive(Debug, Serialize, JsonSchema)]
struct Confirmed {
    /// The record.
    record: String,
    /// The batch that says so.
    batch: u32,
}

impl Answer for Confirmed {
    const SHAPE: &'static str = "doubts-confirm/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "The record counts from now on (batch {}). Call again: locule call", self.batch)
    }
}

/// A record that was withdrawn.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Withdrawn {
    /// The record.
    record: String,
    /// The batch that says so.
    batch: u32,
}

pub(crate) fn withdraw(house: &House, typed: &Withdraw) -> Result<Withdrawn, Failure> {
    let act = act(house, typed.by.as_ref(), Some(typed.why.clone()));
    let batch = doubts::withdraw(house, &act, &[records::id(&typed.record)?])?;
    Ok(Withdrawn { record: typed.record.clone(), batch: batch.0 })
}

impl Answer for Withdrawn {
    const SHAPE: &'static str = "withdraw/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "The record no longer counts. Bring it back: locule undo {}", self.batch)
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Doubted>(), shape::<Confirmed>(), shape::<Withdrawn>()]
}
