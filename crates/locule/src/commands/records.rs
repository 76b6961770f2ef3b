//! Records as answers show them, and reading a record's identifier as it was typed.

use super::Failure;
use house::doubts::{self, RecordState, Recorded};
use record::id::Id;
use record::language::Units;
use record::note::Note;
use record::telling;
use schemars::JsonSchema;
use serde::Serialize;

/// One record with where it came from.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct RecordTold {
    /// Its identifier.
    pub(super) record: String,
    /// `fruit`, `pick`, `height`, `stage` or `colour`.
    pub(super) kind: String,
    /// The season.
    pub(super) season: i16,
    /// The plant's number within its plot.
    pub(super) plant: Option<u32>,
    /// The day, as year-month-day.
    pub(super) day: Option<String>,
    /// What it says.
    pub(super) says: String,
    /// `counts`, `confirmed`, `set aside`, `withdrawn`, `replaced` or `undone`.
    pub(super) state: String,
    /// Why it is doubted.
    pub(super) doubts: Vec<String>,
    /// The batch it came in with.
    pub(super) batch: u32,
    /// Who brought it in.
    pub(super) who: String,
    /// The file it came from.
    pub(super) file: Option<String>,
    /// The row of that file.
    pub(super) row: u64,
}

/// A record as it is told.
pub(super) fn told(recorded: &Recorded, units: Units) -> RecordTold {
    let (note, from) = (&recorded.note, &recorded.from);
    let subject = doubts::subject(note);
    RecordTold {
        record: recorded.id.to_string(),
        kind: telling::kind(note).to_owned(),
        season: subject.season.year(),
        plant: subject.plant.map(|plant| plant.0),
        day: telling::day(note).map(|day| day.to_string()),
        says: telling::note(note, units),
        state: state(recorded.state).to_owned(),
        doubts: recorded.doubts.iter().map(|doubt| doubt.words.clone()).collect(),
        batch: from.batch.0,
        who: from.who.clone(),
        file: from.file_name.clone(),
        row: from.row,
    }
}

/// Where a record came from, in words.
pub(super) fn place(record: &RecordTold) -> String {
    match &record.file {
        Some(file) => format!("{file}, row {}", record.row),
        None => format!("by hand, {}", record.who),
    }
}

fn state(state: RecordState) -> &'static str {
    match state {
        RecordState::Standing => "counts",
        RecordState::Confirmed(_) => "confirmed",
        RecordState::SetAside => "set aside",
        RecordState::Withdrawn(_) => "withdrawn",
        RecordState::Replaced(_) => "replaced",
        RecordState::Undone => "undone",
    }
}

/// Reads a record's identifier as it was typed.
///
/// # Errors
/// [`Failure::Typed`] where it is none.
pub(super) fn id(typed: &str) -> Result<Id<Note>, Failure> {
    typed.trim().parse().map(Id::from_uuid).map_err(|_| Failure::Typed {
        message: format!("{typed:?} is no record"),
        help: "copy the identifier from locule doubts or locule show --records".to_owned(),
    })
}
