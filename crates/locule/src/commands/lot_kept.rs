//! `locule lot kept`: which file samples and records are kept, and from when they may go.

use super::reference::{Shape, shape};
use super::{Failure, answer};
use crate::answer::{Answer, Ending, Form};
use house::folder::House;
use house::lots::law::Asked;
use house::lots::telling::keepsakes;
use house::lots::{LotSeen, kept as what_is_kept};
use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// Tells what is kept.
pub(super) fn kept(house: &House, asked: Asked, form: Form) -> Result<Ending, Failure> {
    let found = what_is_kept::kept(house, asked)?;
    answer(&Kept { lots: found.lots.iter().map(|seen| kept_told(seen, asked.today)).collect() }, form)
}

fn kept_told(seen: &LotSeen, today: Date) -> KeptTold {
    let of = &seen.account.keepsakes;
    KeptTold {
        number: seen.lot.number.clone(),
        variety: seen.variety.clone(),
        sample: keepsakes::sample(&of.sample),
        until: keepsakes::until(of, today),
        gone_on: of.since.map(|(on, _)| on.to_string()),
        sample_may_go: of.since.map(|(_, kept)| kept.sample_may_go.to_string()),
        record_may_go: of.since.map(|(_, kept)| kept.record_may_go.to_string()),
    }
}

/// File samples and records that are kept.
#[derive(Debug, Serialize, JsonSchema)]
struct Kept {
    /// Those that may go first first, then those of which seed is held.
    lots: Vec<KeptTold>,
}

/// What is kept of one lot.
#[derive(Debug, Serialize, JsonSchema)]
struct KeptTold {
    /// Its number.
    number: String,
    /// Its variety.
    variety: String,
    /// Its file sample.
    sample: String,
    /// Until when sample and record are kept.
    until: String,
    /// The day on which the last of it was gone.
    gone_on: Option<String>,
    /// The first day on which its file sample may go.
    sample_may_go: Option<String>,
    /// The first day on which its record may go.
    record_may_go: Option<String>,
}

impl Answer for Kept {
    const SHAPE: &'static str = "lot-kept/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.lots.is_empty() {
            return writeln!(
                to,
                "No file sample is kept. Keep one: locule lot move NUMBER \"1.2 g\" --from jar --to file-sample"
            );
        }
        self.lots.iter().try_for_each(|lot| {
            writeln!(to, "{} {}: {}", lot.number, lot.variety, lot.sample)?;
            writeln!(to, "  {}", lot.until)
        })
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Kept>()]
}
