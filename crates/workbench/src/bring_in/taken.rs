//! What became of the files: table by table, with the ways on from there.

use super::{days, reading};
use crate::history::counts;
use crate::list::call_button;
use crate::page;
use crate::trouble::sentence;
use house::take::{self, TableTaken, TakenIn};
use maud::{Markup, html};
use record::language::counted;

/// What became of the files, in words that outlive the work.
#[derive(Debug)]
pub(crate) struct Outcome {
    tables: Vec<Became>,
    weather: Vec<days::Became>,
    unreadable: Vec<(String, String, Option<String>)>,
}

/// What became of one table.
#[derive(Debug)]
struct Became {
    table: String,
    kind: &'static str,
    batch: u32,
    taken_before: bool,
    added: String,
    already_there: u64,
    gone: u64,
    doubted: u64,
    quarantined: u64,
}

/// Tells what became of the files.
pub(crate) fn told(taken: &TakenIn) -> Outcome {
    let unreadable =
        taken.unreadable.iter().map(|one| (one.table.clone(), reading::why(&one.fault), one.fault.help()));
    Outcome {
        tables: taken.tables.iter().map(became).collect(),
        weather: taken.weather.iter().map(days::became).collect(),
        unreadable: unreadable.collect(),
    }
}

fn became(taken: &TableTaken) -> Became {
    let (table, kind) = (taken.table.clone(), taken.kind.name());
    match &taken.outcome {
        take::Outcome::TakenBefore(before) => Became {
            table,
            kind,
            batch: before.number.0,
            taken_before: true,
            added: String::new(),
            already_there: 0,
            gone: 0,
            doubted: 0,
            quarantined: 0,
        },
        take::Outcome::Answered(again) => Became {
            table,
            kind,
            batch: again.batches.first().map_or(0, |summary| summary.batch.0),
            taken_before: false,
            added: counted(again.solved, "waiting row", "waiting rows"),
            already_there: 0,
            gone: 0,
            doubted: again.batches.iter().map(|summary| summary.added.doubted).sum(),
            quarantined: again.waiting,
        },
        take::Outcome::Added { summary, .. } => Became {
            table,
            kind,
            batch: summary.batch.0,
            taken_before: false,
            added: counts(&summary.added),
            already_there: summary.already_there,
            gone: summary.gone,
            doubted: summary.added.doubted,
            quarantined: summary.quarantined,
        },
    }
}

/// The page of an outcome.
pub(crate) fn body(outcome: &Outcome) -> Markup {
    let sum = |count: fn(&Became) -> u64| outcome.tables.iter().map(count).sum::<u64>();
    let (quarantined, doubted) = (sum(|table| table.quarantined), sum(|table| table.doubted));
    let has_notes = outcome.tables.iter().any(|table| !table.taken_before);
    let is_new = has_notes || outcome.weather.iter().any(|one| one.is_new);
    html! {
        (page::bring_in_ways("/bring-in"))
        h1 { @if is_new { "Taken in" } @else { "Nothing new" } }
        ul.became { @for table in &outcome.tables { li { (line(table)) } } @for one in &outcome.weather { li { (days::line(one)) } } }
        @for (table, reason, help) in &outcome.unreadable {
            div.fault {
                p { b { (table) } " was not taken. " (reason) }
                @if let Some(help) = help { p.help { (sentence(help)) } }
            }
        }
        h2 { "What to do now" }
        ul {
            @if 0 < quarantined {
                li { a href="/quarantine" { "Mend " (counted(quarantined, "quarantined row", "quarantined rows")) } }
            }
            @if 0 < doubted {
                li { a href="/doubts" { "Look at " (counted(doubted, "doubted record", "doubted records")) } }
            }
            @if !outcome.weather.is_empty() { (days::way_on()) }
            li { a href="/bring-in" { "Bring in more" } }
        }
        @if has_notes { p { "The list changes once it is called again:" } (call_button()) }
    }
}

fn line(table: &Became) -> Markup {
    html! {
        b { (table.table) } ": "
        @if table.taken_before {
            "this very file was taken before, so nothing was added ("
            a href=(format!("/history/{}", table.batch)) { "batch " (table.batch) } ")."
        } @else {
            (table.added) " as " a href=(format!("/history/{}", table.batch)) { "batch " (table.batch) }
            " of " (table.kind)
            @if 0 < table.already_there { "; " (table.already_there) " there already" }
            @if 0 < table.gone { "; " (table.gone) " of an earlier version are no longer in the file and are kept" }
            @if 0 < table.doubted { "; " (table.doubted) " in doubt and set aside" }
            @if 0 < table.quarantined { "; " (counted(table.quarantined, "row", "rows")) " quarantined" }
            "."
        }
    }
}
