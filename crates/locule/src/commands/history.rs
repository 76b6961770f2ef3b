//! `locule history`, `locule undo` and `locule redo`.

use super::records::{self, RecordTold, place};
use super::reference::{Shape, shape};
use super::{Failure, act, answer, batch};
use crate::answer::{Answer, Ending, Form};
use crate::arguments::{History, Redo, Undo};
use crate::columns::columns;
use house::doubts::{self, Happened, Happening};
use house::folder::House;
use house::history::{self, BatchInfo, BatchKind, BatchState, Counts, Resting};
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

pub(crate) fn run(house: &House, typed: &History, form: Form) -> Result<Ending, Failure> {
    match &typed.record {
        None => answer(&Batches { batches: history::batches(house)?.iter().map(told).collect() }, form),
        Some(record) => answer(&of_record(house, record)?, form),
    }
}

/// Every batch.
#[derive(Debug, Serialize, JsonSchema)]
struct Batches {
    /// Oldest first.
    batches: Vec<BatchTold>,
}

/// One batch.
#[derive(Debug, Serialize, JsonSchema)]
struct BatchTold {
    /// Its number.
    batch: u32,
    /// When, in UTC.
    at: String,
    /// Who.
    who: String,
    /// What it holds.
    kind: String,
    /// The file.
    file: Option<String>,
    /// The sheet of a workbook.
    sheet: Option<String>,
    /// Why, for what was done by hand.
    why: Option<String>,
    /// What it added.
    added: u64,
    /// Rows it put into the quarantine.
    quarantined: u64,
    /// Of these, how many still wait.
    waiting: u64,
    /// Whether it is undone.
    undone: bool,
}

fn told(info: &BatchInfo) -> BatchTold {
    let (source, added) = (&info.source, &info.added);
    let things =
        added.varieties + added.aliases + added.claims + added.grow_outs + added.plots + added.plants;
    let done = added.confirmed + added.withdrawn;
    BatchTold {
        batch: info.number.0,
        at: source.at.strftime("%Y-%m-%d %H:%M").to_string(),
        who: source.who.clone(),
        kind: kind(source.kind).to_owned(),
        file: source.file_name.clone(),
        sheet: source.sheet.clone(),
        why: source.why.clone().or_else(|| (source.kind == BatchKind::ByHand).then(|| deed(added))),
        added: things + added.notes() + done,
        quarantined: info.quarantined,
        waiting: info.waiting,
        undone: info.state != BatchState::Standing,
    }
}

/// What was done by hand, where nobody said why.
fn deed(added: &Counts) -> String {
    let what = match added {
        Counts { confirmed: 1.., .. } => "a record confirmed",
        Counts { withdrawn: 1.., .. } => "a record withdrawn",
        Counts { aliases: 1.., .. } => "a name accepted",
        _ => "a record corrected",
    };
    what.to_owned()
}

fn kind(kind: BatchKind) -> &'static str {
    match kind {
        BatchKind::Varieties => "varieties",
        BatchKind::GrowOut => "grow-out",
        BatchKind::FruitSamples => "fruit samples",
        BatchKind::Picks => "picks",
        BatchKind::Heights => "heights",
        BatchKind::Stages => "stages",
        BatchKind::Colours => "colours",
        BatchKind::Lots => "lots",
        BatchKind::SeedWeighings => "seed weighings",
        BatchKind::GerminationTests => "germination tests",
        BatchKind::ByHand => "by hand",
    }
}

impl Answer for Batches {
    const SHAPE: &'static str = "history/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        if self.batches.is_empty() {
            return writeln!(to, "Nothing was taken in yet.");
        }
        let rows: Vec<Vec<String>> = self.batches.iter().map(row).collect();
        columns(to, &rows)
    }
}

fn row(told: &BatchTold) -> Vec<String> {
    let from = match (&told.file, &told.sheet, &told.why) {
        (Some(file), Some(sheet), _) => format!("{file}, sheet {sheet:?}"),
        (Some(file), None, _) => file.clone(),
        (None, _, why) => why.clone().unwrap_or_default(),
    };
    let waiting =
        if told.waiting > 0 && !told.undone { format!("{} wait", told.waiting) } else { String::new() };
    let undone = if told.undone { "undone" } else { "" };
    vec![
        told.batch.to_string(),
        told.at.clone(),
        told.who.clone(),
        told.kind.clone(),
        told.added.to_string(),
        from,
        waiting,
        undone.to_owned(),
    ]
}

/// What happened to one record.
#[derive(Debug, Serialize, JsonSchema)]
struct RecordHistory {
    /// The record as it stands.
    record: RecordTold,
    /// Oldest first.
    happenings: Vec<HappeningTold>,
}

/// One thing that happened to a record.
#[derive(Debug, Serialize, JsonSchema)]
struct HappeningTold {
    /// The batch.
    batch: u32,
    /// When, in UTC.
    at: String,
    /// Who.
    who: String,
    /// What.
    what: String,
    /// Why.
    why: Option<String>,
    /// Whether it stands, or was itself undone.
    stands: bool,
}

fn of_record(house: &House, typed: &str) -> Result<RecordHistory, Failure> {
    let (recorded, happenings) = doubts::happenings(house, records::id(typed)?)?;
    Ok(RecordHistory {
        record: records::told(&recorded, house.settings.units),
        happenings: happenings.iter().map(happening).collect(),
    })
}

fn happening(happening: &Happening) -> HappeningTold {
    let what = match happening.what {
        Happened::Taken => "came in".to_owned(),
        Happened::ReplacedAnother(old) => format!("replaced {old}"),
        Happened::Confirmed => "confirmed".to_owned(),
        Happened::Withdrawn => "withdrawn".to_owned(),
        Happened::ReplacedBy(new) => format!("replaced by {new}"),
        Happened::Undone => "its batch undone".to_owned(),
        Happened::Restored => "its batch restored".to_owned(),
    };
    HappeningTold {
        batch: happening.batch.0,
        at: happening.act.at.strftime("%Y-%m-%d %H:%M").to_string(),
        who: happening.act.who.clone(),
        what,
        why: happening.act.why.clone(),
        stands: happening.stands,
    }
}

impl Answer for RecordHistory {
    const SHAPE: &'static str = "history-record/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        writeln!(to, "{} ({}), {}", self.record.says, place(&self.record), self.record.state)?;
        let row = |told: &HappeningTold| {
            let stands = if told.stands { "" } else { "undone since" };
            let why = told.why.clone().unwrap_or_default();
            let batch = format!("batch {}", told.batch);
            vec![told.at.clone(), told.who.clone(), told.what.clone(), batch, why, stands.to_owned()]
        };
        columns(to, &self.happenings.iter().map(row).collect::<Vec<_>>())
    }
}

/// Batches that were undone or brought back.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Turned {
    /// Their numbers.
    batches: Vec<u32>,
    /// Whether they stand now.
    stand: bool,
}

pub(crate) fn undo(house: &House, typed: &Undo) -> Result<Turned, Failure> {
    let resting = if typed.with_dependents { Resting::UndoToo } else { Resting::Refuse };
    let undone = history::undo(house, batch(&typed.batch)?, &act(house, typed.by.as_ref(), None), resting)?;
    Ok(Turned { batches: undone.iter().map(|batch| batch.0).collect(), stand: false })
}

pub(crate) fn redo(house: &House, typed: &Redo) -> Result<Turned, Failure> {
    let numbers: Vec<_> = typed.batches.iter().map(|typed| batch(typed)).collect::<Result<_, _>>()?;
    for number in &numbers {
        history::redo(house, *number, &act(house, typed.by.as_ref(), None))?;
    }
    Ok(Turned { batches: numbers.iter().map(|number| number.0).collect(), stand: true })
}

impl Answer for Turned {
    const SHAPE: &'static str = "undo/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        // What rests on a batch is undone before it, and can only come back after it.
        let mut oldest_first = self.batches.clone();
        oldest_first.sort_unstable();
        let listed: Vec<String> = oldest_first.iter().map(u32::to_string).collect();
        match listed.as_slice() {
            [batch] if self.stand => writeln!(to, "Batch {batch} counts again."),
            [batch] => writeln!(to, "Batch {batch} is undone. Bring it back: locule redo {batch}"),
            several if self.stand => writeln!(to, "Batches {} count again.", several.join(", ")),
            several => {
                let (listed, typed) = (several.join(", "), several.join(" "));
                writeln!(to, "Batches {listed} are undone. Bring them back: locule redo {typed}")
            }
        }
    }
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<Batches>(), shape::<RecordHistory>(), shape::<Turned>()]
}
