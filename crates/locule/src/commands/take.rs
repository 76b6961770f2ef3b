//! `locule take`: bring in files, or with `--dry-run` show how they would be read.

use super::reference::{Shape, shape};
use super::weather::{WeatherIn, tell_weather, weather_in};
use super::{Failure, bars, frost, reading, who};
use crate::answer::{Answer, Ending};
use crate::arguments::take::Take;
use house::asked::Asked;
use house::fault::{HouseFault, RecogniseFault};
use house::folder::House;
use house::history::Counts;
use house::opened::{Given, Unreadable};
use house::take::{self, KeepReading, Outcome, Request, TableTaken};
use jiff::{Timestamp, ZonedDateTime};
use record::language::counted;
use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// What became of the files.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct TakenIn {
    /// One a table, in the order they were taken.
    pub(crate) tables: Vec<TableIn>,
    /// One a weather file.
    pub(crate) weather: Vec<WeatherIn>,
    /// What could not be opened or recognised.
    pub(crate) unreadable: Vec<NotRead>,
}

/// What became of one table.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct TableIn {
    /// File and sheet.
    pub(crate) table: String,
    /// What it held.
    pub(crate) kind: String,
    /// What the file was read as.
    pub(crate) read_as: String,
    /// The batch it became; the batch that took it before, where `taken_before`.
    pub(crate) batch: u32,
    /// Whether this very file had been taken before, so that nothing was added.
    pub(crate) taken_before: bool,
    /// Varieties, plots, plants and notes that were added.
    pub(crate) added: u64,
    /// What an earlier version of the file had brought already.
    pub(crate) already_there: u64,
    /// What an earlier version held and this one does not; it still stands.
    pub(crate) gone: u64,
    /// Rows put into the quarantine; those that wait there still, where `taken_before`.
    pub(crate) quarantined: u64,
    /// Records with a doubt, set aside until confirmed.
    pub(crate) doubted: u64,
    /// Blank rows, totals and repeated headings passed over.
    pub(crate) passed_over: u64,
}

/// A file or table that could not be taken.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct NotRead {
    /// File and sheet.
    pub(crate) table: String,
    /// Why.
    pub(crate) reason: String,
    /// What to do.
    pub(crate) remedy: Option<String>,
}

pub(crate) fn take(house: &House, typed: &Take) -> Result<TakenIn, Failure> {
    let files: Vec<Given> = typed.files.iter().map(|file| Given::at(file)).collect();
    let taken = take::take(house, &files, &request(house, typed)?, &bars())?;
    Ok(told(&taken))
}

/// What became of the files, as it is told.
pub(crate) fn told(taken: &take::TakenIn) -> TakenIn {
    TakenIn {
        tables: taken.tables.iter().map(table_in).collect(),
        weather: taken.weather.iter().map(weather_in).collect(),
        unreadable: taken.unreadable.iter().map(not_read).collect(),
    }
}

pub(super) fn request(house: &House, typed: &Take) -> Result<Request, Failure> {
    Ok(Request {
        who: who(house, typed.by.as_ref()),
        at: Timestamp::now(),
        today: ZonedDateTime::now().date(),
        asked: Asked {
            scale: typed.scale.map(frost::scale),
            station: typed.station.clone(),
            ..reading::asked(&typed.reading)?
        },
        keep_reading: if typed.save_mapping { KeepReading::Always } else { KeepReading::Once },
        why: None,
    })
}

pub(super) fn not_read(unreadable: &Unreadable) -> NotRead {
    NotRead {
        table: unreadable.table.clone(),
        reason: unreadable.fault.to_string(),
        remedy: remedy(&unreadable.fault),
    }
}

/// What to do about it, with the option that says it.
fn remedy(fault: &HouseFault) -> Option<String> {
    let help = fault.help()?;
    let HouseFault::Recognise { fault, .. } = fault else { return Some(help) };
    Some(match fault {
        RecogniseFault::SeveralKinds { kinds } => {
            let kinds: Vec<String> = kinds.iter().map(|kind| format!("--kind {:?}", kind.name())).collect();
            format!("{help}: {}", kinds.join(" or "))
        }
        RecogniseFault::NoHeadings { .. } => {
            format!("{help}, or say what they hold: --kind KIND --column \"HEADING=USE\" --save-mapping")
        }
        RecogniseFault::Lacking { .. } => format!("{help}: --column \"HEADING=USE\""),
        _ => help,
    })
}

pub(super) fn table_in(taken: &TableTaken) -> TableIn {
    let (table, kind, read_as) = (taken.table.clone(), taken.kind.name().to_owned(), taken.read_as.clone());
    let nothing = TableIn {
        table,
        kind,
        read_as,
        batch: 0,
        taken_before: false,
        added: 0,
        already_there: 0,
        gone: 0,
        quarantined: 0,
        doubted: 0,
        passed_over: 0,
    };
    match &taken.outcome {
        Outcome::TakenBefore(before) => {
            TableIn { batch: before.number.0, taken_before: true, quarantined: before.waiting, ..nothing }
        }
        Outcome::Answered(again) => TableIn {
            batch: again.batches.first().map_or(0, |summary| summary.batch.0),
            added: again.batches.iter().map(|summary| things(&summary.added)).sum(),
            quarantined: again.waiting,
            doubted: again.batches.iter().map(|summary| summary.added.doubted).sum(),
            ..nothing
        },
        Outcome::Added { summary, tally } => {
            let added = &summary.added;
            TableIn {
                batch: summary.batch.0,
                added: things(added),
                already_there: summary.already_there,
                gone: summary.gone,
                quarantined: summary.quarantined,
                doubted: added.doubted,
                passed_over: tally.blank + tally.totals + tally.repeated_headings,
                ..nothing
            }
        }
    }
}

/// Varieties, plots, plants and notes.
pub(super) fn things(added: &Counts) -> u64 {
    added.varieties + added.plots + added.plants + added.notes() + added.lots + added.lot_entries
}

impl Answer for TakenIn {
    const SHAPE: &'static str = "take/1";

    fn tell(&self, to: &mut dyn Write) -> io::Result<()> {
        for table in &self.tables {
            writeln!(to, "{}: {}", table.table, table_words(table))?;
        }
        tell_weather(to, &self.weather)?;
        tell_unreadable(to, &self.unreadable)?;
        if self.tables.iter().any(|table| 0 < table.quarantined) {
            writeln!(to, "See and mend the quarantined rows: locule quarantine")?;
        }
        Ok(())
    }

    fn ending(&self) -> Ending {
        if self.unreadable.is_empty() { Ending::Done } else { Ending::BadInput }
    }
}

pub(super) fn table_words(table: &TableIn) -> String {
    let waiting = counted(table.quarantined, "row waits", "rows wait");
    if table.taken_before {
        let still =
            if table.quarantined == 0 { String::new() } else { format!(", {waiting} in the quarantine") };
        return format!("this very file was taken before, as batch {}; nothing added{still}", table.batch);
    }
    match (table.batch, table.quarantined) {
        (0, 0) => return format!("its rows of {} were taken already; nothing added", table.kind),
        (0, _) => return format!("nothing added as {}, {waiting} in the quarantine", table.kind),
        _ => {}
    }
    let mut words = vec![format!("batch {}, {} added as {}", table.batch, table.added, table.kind)];
    let mut also = |count: u64, what: &str| {
        if 0 < count {
            words.push(format!("{count} {what}"));
        }
    };
    also(table.already_there, "there already");
    also(table.gone, "of an earlier version no longer in the file (kept)");
    also(table.doubted, "doubted and set aside");
    also(table.quarantined, "quarantined");
    also(table.passed_over, "blank, total or heading rows passed over");
    words.join(", ")
}

pub(super) fn tell_unreadable(to: &mut dyn Write, unreadable: &[NotRead]) -> io::Result<()> {
    for not_read in unreadable {
        writeln!(to, "Not taken: {}", not_read.reason)?;
        if let Some(remedy) = &not_read.remedy {
            writeln!(to, "  help: {remedy}")?;
        }
    }
    Ok(())
}

/// The shapes of these answers.
pub(super) fn shapes() -> Vec<Shape> {
    vec![shape::<TakenIn>()]
}
