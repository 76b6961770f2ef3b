//! The page that shows how each table of the sent files is read, and what would become of its rows.

use super::{column, days};
use crate::page::{self, scrolling};
use crate::telling::count;
use crate::trouble::sentence;
use house::asked::{Answers, AskedTable};
use house::fault::HouseFault;
use house::look::{Alike, Layout, Looked, Question, Rejection, TableLook};
use house::opened::Unreadable;
use house::take::{Kind, Tally};
use maud::{Markup, html};
use record::language::{capitalised, counted};

/// The whole page; every table in one form.
pub(super) fn body(address: &str, looked: &Looked, asked: &[AskedTable]) -> Markup {
    let own = |table: &str| asked.iter().find(|own| own.table == table).map(|own| &own.answers);
    let tables = looked.tables.len();
    let all = tables + looked.weather.len();
    let (recognise, closed): (Vec<_>, Vec<_>) =
        looked.unreadable.iter().partition(|one| matches!(one.fault, HouseFault::Recognise { .. }));
    html! {
        (page::bring_in_ways("/bring-in"))
        h1 { "How the files are read" }
        p { "Nothing is stored yet. Look at each table, answer what it asks, then take them in." }
        form.reading method="post" action=(address) {
            @for (place, look) in looked.tables.iter().enumerate() { (table(place, look, own(&look.table))) }
            @for (place, one) in recognise.iter().enumerate() { (unrecognised(tables + place, one, own(&one.table))) }
            @for (place, one) in looked.weather.iter().enumerate() { (days::looked(place, one, asked)) }
            @for (place, one) in (looked.weather.len()..).zip(&closed) { (unreadable(place, one, asked)) }
            (acts(tables, all))
        }
    }
}

/// What may be done with the files, of which some are tables of notes.
fn acts(notes: usize, tables: usize) -> Markup {
    html! {
        div.acts {
            @if 0 < notes {
                label.tick {
                    input type="checkbox" name="remember" value="yes";
                    span { "Remember this reading for files with the same headings" }
                }
            }
            @if 0 < tables {
                button.strong name="do" value="take" {
                    "Take " @if tables == 1 { "it" } @else { "the " (tables) " tables" } " in"
                }
            }
            button name="do" value="look" { "Read again with these answers" }
            button name="do" value="leave" formnovalidate { "Leave them" }
        }
    }
}

fn table(place: usize, look: &TableLook, own: Option<&Answers>) -> Markup {
    let layout = &look.layout;
    let id = format!("t{place}");
    html! {
        section.table-read aria-labelledby=(id) {
            h2 id=(id) { (look.table) }
            p {
                (capitalised(layout.kind.name())) ", read as " (look.read_as)
                ", headings in row " (layout.heading_row) "."
            }
            @if let Some(before) = &look.taken_before {
                p.notice {
                    "This very file was taken before, as "
                    a href=(format!("/history/{}", before.number)) { "batch " (before.number) }
                    ". Taking it adds nothing."
                }
            }
            @if let Some(mapping) = &layout.mapping { p { "Read as remembered from " (mapping) "." } }
            @if !layout.titles.is_empty() { p { "Above the headings: " q { (layout.titles.join(" / ")) } } }
            @if !layout.notes.is_empty() { ul.notes { @for note in &layout.notes { li { (note) } } } }
            (questions(place, &layout.questions))
            (whole_table(place, &look.table, layout.columns.len(), own, Some(layout)))
            (scrolling(&format!("Columns of {}", look.table), &columns(place, layout, own)))
            (becomes(&look.tally))
            (rejections(&look.rejections))
            (doubts(&look.doubts))
        }
    }
}

fn questions(place: usize, questions: &[Question]) -> Markup {
    html! {
        @if !questions.is_empty() {
            div.asks role="group" aria-label="What it asks" {
                p { b { "It does not say, and it must not be guessed:" } }
                ul {
                    @for question in questions {
                        li { (sentence(&question.to_string())) " " a href=(answer_place(place, question)) { "Answer" } }
                    }
                }
                p.help { "Rows that hang on an answer that is not given go to the quarantine." }
            }
        }
    }
}

fn answer_place(table: usize, question: &Question) -> String {
    match question {
        Question::Season { .. } => format!("#t{table}-season"),
        Question::Unit { place, .. } => format!("#t{table}-c{place}-unit"),
        Question::DateOrder { place, .. } => format!("#t{table}-c{place}-dates"),
        Question::DecimalMark { place, .. } => format!("#t{table}-c{place}-mark"),
    }
}

/// What may be said of a table as a whole.
fn whole_table(
    place: usize,
    table: &str,
    columns: usize,
    own: Option<&Answers>,
    layout: Option<&Layout>,
) -> Markup {
    let kind = own.and_then(|own| own.kind);
    let season = own.and_then(|own| own.season);
    let grow_out = own.and_then(|own| own.grow_out.as_deref());
    let read_season = layout.and_then(|layout| layout.season).map(|season| season.to_string());
    html! {
        div.whole-table {
            input type="hidden" name=(format!("t{place}.table")) value=(table);
            input type="hidden" name=(format!("t{place}.columns")) value=(columns);
            label {
                span { "It is a table of" }
                select name=(format!("t{place}.kind")) {
                    option value="" {
                        @match layout { Some(layout) => { "as read: " (layout.kind.name()) } None => "not known" }
                    }
                    @for one in Kind::ALL {
                        option value=(one.name()) selected[kind == Some(one)] { (one.name()) }
                    }
                }
            }
            label {
                span { "Season of rows that name none" }
                input id=(format!("t{place}-season")) name=(format!("t{place}.season")) type="number"
                    min="1900" max="2199" value=[season] placeholder=[read_season];
            }
            label {
                span { "Grow-out of rows that name none" }
                input name=(format!("t{place}.grow_out")) value=[grow_out] maxlength="200" autocomplete="off"
                    placeholder=[layout.and_then(|layout| layout.grow_out.as_deref())];
            }
            label {
                span { "Row of the headings" }
                input type="number" min="1" name=(format!("t{place}.heading_row"))
                    value=[own.and_then(|own| own.heading_row)]
                    placeholder=[layout.map(|layout| layout.heading_row)];
            }
        }
    }
}

fn columns(place: usize, layout: &Layout, own: Option<&Answers>) -> Markup {
    html! {
        table.columns {
            caption.unseen { "What each column is read as" }
            (page::heads(&["Heading", "Read as", "Cells", "Decided from"]))
            tbody {
                @for one in &layout.columns {
                    @let answer = own.and_then(|own| own.columns.iter().find(|answer| answer.place == one.place));
                    (column::row(place, one, answer, &layout.questions))
                }
            }
        }
    }
}

fn becomes(tally: &Tally) -> Markup {
    let passed = tally.blank + tally.totals + tally.repeated_headings + tally.unfilled;
    html! {
        p.becomes {
            b { "What would become of it: " }
            (counted(tally.rows, "row gives", "rows give")) " " (counted(tally.entries, "entry", "entries"))
            @if 0 < tally.doubted { ", of which " (tally.doubted) " in doubt" }
            @if 0 < tally.rejected { "; " (counted(tally.rejected, "row", "rows")) " would be quarantined" }
            @if 0 < passed {
                "; " (counted(passed, "blank, total or heading row is", "blank, total or heading rows are"))
                " passed over"
            }
            "."
        }
    }
}

fn rejections(rejections: &[Alike<Rejection>]) -> Markup {
    html! {
        @if !rejections.is_empty() {
            details.reasons {
                @let reasons = counted(count(rejections.len()), "reason", "reasons");
                summary { "Why rows would be quarantined (" (reasons) ")" }
                ul {
                    @for alike in rejections {
                        @let first = &alike.first;
                        li {
                            b { (counted(alike.count, "row", "rows")) } ", the first row " (first.row)
                            @if let Some(column) = &first.column { ", column " q { (column) } } ": "
                            (sentence(&first.fault.to_string())) span.help { (sentence(&first.remedy)) }
                        }
                    }
                }
            }
        }
    }
}

fn doubts(doubts: &[Alike<String>]) -> Markup {
    html! {
        @if !doubts.is_empty() {
            details.reasons {
                @let reasons = counted(count(doubts.len()), "reason", "reasons");
                summary { "Why entries would be doubted (" (reasons) ")" }
                ul { @for alike in doubts { li { b { (alike.count) } ", such as: " (sentence(&alike.first)) } } }
            }
        }
    }
}

/// A table that was opened and not recognised: it can be said what it and its columns are.
fn unrecognised(place: usize, one: &Unreadable, own: Option<&Answers>) -> Markup {
    let columns = one.top.iter().map(Vec::len).max().unwrap_or(0).min(MOST_SHOWN);
    html! {
        section.table-read {
            h2 { (one.table) }
            (fault(one, "Unless that is answered it is left out; the others are taken."))
            (whole_table(place, &one.table, columns, own, None))
            @if 0 < columns {
                (scrolling(&format!("Columns of {}", one.table), &bare_columns(place, one, columns, own)))
            }
        }
    }
}

/// Most columns shown of a table that was not recognised. A choice of the page.
const MOST_SHOWN: usize = 60;

fn bare_columns(place: usize, one: &Unreadable, columns: usize, own: Option<&Answers>) -> Markup {
    html! {
        table.columns {
            caption.unseen { "What each column holds" }
            (page::heads(&["Column", "It holds", "Its first cells"]))
            tbody {
                @for at in 0..columns {
                    @let answer = own.and_then(|own| own.columns.iter().find(|answer| answer.place == at));
                    @let of = one.top.iter().filter_map(|row| row.get(at));
                    @let cells: Vec<&str> = of.map(String::as_str).collect();
                    (column::bare_row(place, at, &cells, answer))
                }
            }
        }
    }
}

fn unreadable(place: usize, one: &Unreadable, asked: &[AskedTable]) -> Markup {
    html! {
        section.table-read {
            h2 { (one.table) }
            (fault(one, "It is left out; the others are taken."))
            @if asks_scale(&one.fault) { (days::scale_asked(place, &one.table, asked)) }
            @if asks_station(&one.fault) { (days::station_asked(place, &one.table, asked)) }
        }
    }
}

fn fault(one: &Unreadable, then: &str) -> Markup {
    html! {
        div.fault {
            p { (why(&one.fault)) }
            @if let Some(help) = help(&one.fault) { p.help { (sentence(&help)) } }
            p { (then) }
        }
    }
}

fn asks_scale(fault: &HouseFault) -> bool {
    matches!(fault, HouseFault::Weather(fault) if fault.asks_scale())
}

fn asks_station(fault: &HouseFault) -> bool {
    matches!(fault, HouseFault::Weather(fault) if fault.asks_station())
}

/// What to do about it on this page.
fn help(fault: &HouseFault) -> Option<String> {
    if asks_station(fault) {
        return Some(
            "say below which station is meant, by its identifier, or bring one station a file".to_owned(),
        );
    }
    if asks_scale(fault) {
        return Some(
            "say below which degrees it is in; leave a cell empty where nobody read the thermometer"
                .to_owned(),
        );
    }
    fault.help()
}

/// The reason without the table's name, which stands above it.
pub(super) fn why(fault: &HouseFault) -> String {
    match fault {
        HouseFault::Recognise { fault, .. } => sentence(&fault.to_string()),
        HouseFault::Open { fault, .. } => format!("It {fault}."),
        HouseFault::Read { fault, .. } => sentence(&fault.to_string()),
        HouseFault::Weather(fault) => {
            let words = fault.to_string();
            sentence(words.split_once(": ").map_or(words.as_str(), |(_, reason)| reason))
        }
        other => sentence(&other.to_string()),
    }
}
