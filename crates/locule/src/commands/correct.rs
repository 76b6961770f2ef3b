//! `locule correct`: one record replaced by a corrected one.

use super::quarantine::new_values;
use super::reference::{Shape, shape};
use super::{Failure, mending, records};
use crate::answer::Answer;
use crate::arguments::Correct;
use house::correct;
use house::folder::House;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// A record that was corrected.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Corrected {
    /// The record that was replaced.
    old: String,
    /// The record that counts now.
    new: String,
    /// The batch of the correction.
    batch: u32,
}

pub(crate) fn run(house: &House, typed: &Correct) -> Result<Corrected, Failure> {
    let values = new_values(&typed.values)?;
    let mending = mending(house, typed.by.as_ref());
    let corrected = correct::correct(house, records::id(&typed.record)?, &values, &typed.why, &mending)?;
    Ok(Corrected { old: typed.record.clone(), new: corrected.id.to_string(), batch: corrected.batch.0 })
}

impl Answer for Corrected {
    const SHAPE: &'static str = "correct/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "Record {} counts now; the old one stays in the history.", self.new)?;
        writeln!(to, "Bring the old one back: locule undo {}", self.batch)
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Corrected>()]
}
