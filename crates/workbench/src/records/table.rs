//! A table of records, each with where it came from, its state and its doubts, and a box to tick.

use crate::page::{self, scrolling};
use house::doubts::{self, RecordState, Recorded};
use house::show::PlotName;
use maud::{Markup, html};
use record::growout::Plot;
use record::id::Id;
use record::language::Units;
use record::telling;
use std::collections::HashMap;

/// What plots are called.
pub(crate) struct Plots<'a>(pub(crate) &'a HashMap<Id<Plot>, PlotName>);

/// The table in a form whose buttons confirm or withdraw what is ticked.
pub(crate) fn form(records: &[&Recorded], plots: &Plots<'_>, units: Units, back: &str) -> Markup {
    let rows = html! {
        table.records {
            caption.unseen { "Records" }
            (page::heads(&["Tick", "What it says", "Day", "Where", "State", "From"]))
            tbody { @for recorded in records { (row(recorded, plots, units)) } }
        }
    };
    html! {
        form method="post" action="/records" {
            input type="hidden" name="back" value=(back);
            (scrolling("Records", &rows))
            (buttons())
        }
    }
}

/// The buttons under a table of records.
pub(crate) fn buttons() -> Markup {
    html! {
        div.decide {
            label { span { "Why" } input name="why" maxlength="500" autocomplete="off"; }
            button name="do" value="confirm" { "Confirm what is ticked" }
            button name="do" value="withdraw" { "Withdraw what is ticked" }
        }
    }
}

fn row(recorded: &Recorded, plots: &Plots<'_>, units: Units) -> Markup {
    let says = telling::note(&recorded.note, units);
    html! {
        tr.(class(recorded.state)) {
            td { (tick(recorded, &says)) }
            td {
                a href=(format!("/record/{}", recorded.id)) { (says) }
                @for doubt in &recorded.doubts { span.doubt { (doubt.words) } }
            }
            td.day { (day(recorded)) }
            td { (place(recorded, plots)) }
            td { (state(recorded.state)) }
            td { (from(&recorded.from)) }
        }
    }
}

/// The box to tick, for records that still stand.
pub(crate) fn tick(recorded: &Recorded, says: &str) -> Markup {
    let over =
        matches!(recorded.state, RecordState::Withdrawn(_) | RecordState::Replaced(_) | RecordState::Undone);
    html! {
        @if !over {
            input type="checkbox" name="record" value=(recorded.id) aria-label=(format!("Tick: {says}"));
        }
    }
}

fn class(state: RecordState) -> &'static str {
    match state {
        RecordState::Standing | RecordState::Confirmed(_) => "counts",
        RecordState::SetAside => "aside",
        RecordState::Withdrawn(_) | RecordState::Replaced(_) | RecordState::Undone => "over",
    }
}

/// The day of a record, or its season.
pub(crate) fn day(recorded: &Recorded) -> String {
    let season = doubts::subject(&recorded.note).season;
    telling::day(&recorded.note).map_or_else(|| season.to_string(), |day| day.to_string())
}

fn place(recorded: &Recorded, plots: &Plots<'_>) -> String {
    let subject = doubts::subject(&recorded.note);
    let plot = subject.plot.and_then(|plot| plots.0.get(&plot));
    let plot = plot.map(|plot| format!("{}, plot {}", plot.grow_out, plot.label));
    let plant = subject.plant.map(|plant| format!("plant {}", plant.0));
    [plot, plant].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Whether a record counts, in words.
pub(crate) fn state(state: RecordState) -> Markup {
    html! {
        @match state {
            RecordState::Standing => "counts",
            RecordState::Confirmed(batch) => {
                "confirmed in " a href=(format!("/history/{batch}")) { "batch " (batch) }
            }
            RecordState::SetAside => b { "set aside" },
            RecordState::Withdrawn(batch) => {
                "withdrawn in " a href=(format!("/history/{batch}")) { "batch " (batch) }
            }
            RecordState::Replaced(by) => { "replaced by " a href=(format!("/record/{by}")) { "another" } }
            RecordState::Undone => "undone with its batch",
        }
    }
}

/// Where a record came from.
pub(crate) fn from(from: &house::doubts::Provenance) -> Markup {
    html! {
        @if let Some(file) = &from.file_name {
            (file) @if let Some(sheet) = &from.sheet { ", sheet " (sheet) } ", row " (from.row)
        } @else { "by hand, " (from.who) }
        ", " a href=(format!("/history/{}", from.batch)) { "batch " (from.batch) }
    }
}
