//! The quarantine: rows that could not be taken, why, and mending them in place.

use crate::desk::Desk;
use crate::download;
use crate::fields::{Fields, Sent};
use crate::page::{self, Place, scrolling};
use crate::pager::Pager;
use crate::telling::count;
use crate::trouble::{Trouble, sentence};
use axum::Form;
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use house::folder::House;
use house::quarantine::{self, Mending, NewValue, QuarantineNumber, Quarantined};
use jiff::{Timestamp, ZonedDateTime};
use maud::{Markup, html};
use record::language::counted;
use serde::Deserialize;
use std::collections::BTreeMap;

/// What the address asks for.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asked {
    page: Option<usize>,
    file: Option<String>,
    mended: Option<u32>,
    batch: Option<u32>,
}

/// Lists the rows that wait.
pub(crate) async fn all(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let (house, waiting) = desk.ask(quarantine::waiting).await?;
    Ok(page::page(&house, Place::BringIn, "Quarantine", list(&asked, &waiting)))
}

/// All rows that wait as a CSV.
pub(crate) async fn export(State(desk): State<Desk>) -> Result<Response, Trouble> {
    let (_, csv) = desk.ask(quarantine::export_csv).await?;
    Ok(download::attached("quarantine.csv", download::CSV, csv))
}

fn list(asked: &Asked, waiting: &[Quarantined]) -> Markup {
    let wanted = asked.file.as_deref().filter(|file| !file.is_empty());
    let fits = |row: &&Quarantined| wanted.is_none_or(|wanted| row.file_name.as_deref() == Some(wanted));
    let own: Vec<&Quarantined> = waiting.iter().filter(fits).collect();
    let pager = Pager::of(asked.page, own.len());
    let file = wanted.map(|file| format!("file={}&", crate::telling::encoded(file))).unwrap_or_default();
    html! {
        (page::bring_in_ways("/quarantine"))
        h1 { "Quarantine" }
        (mended(asked))
        p {
            "These rows could not be taken as they stand. Mend a row here, accept its name under "
            a href="/names" { "Unknown names" } ", or "
            a href="/quarantine.csv" { "export them all" } ", correct the file and bring it in again."
        }
        @if waiting.is_empty() {
            p { "Nothing waits." }
        } @else {
            (files(waiting, wanted))
            p.count { (counted(count(own.len()), "row waits", "rows wait")) }
            (scrolling("Rows in quarantine", &rows(pager.rows(&own))))
            (pager.links("the quarantine", |page| format!("/quarantine?{file}page={page}")))
        }
    }
}

fn mended(asked: &Asked) -> Markup {
    html! {
        @if let Some((number, batch)) = asked.mended.zip(asked.batch) {
            (page::notice(&html! {
                p {
                    "Row " (number) " of the quarantine is mended and taken, as "
                    a href=(format!("/history/{batch}")) { "batch " (batch) } "."
                }
            }))
        }
    }
}

fn files(waiting: &[Quarantined], wanted: Option<&str>) -> Markup {
    let mut files: BTreeMap<&str, usize> = BTreeMap::new();
    for row in waiting {
        *files.entry(row.file_name.as_deref().unwrap_or_default()).or_default() += 1;
    }
    html! {
        form.filter method="get" action="/quarantine" {
            label {
                span { "File" }
                select name="file" {
                    option value="" { "all files" }
                    @for (file, rows) in files.iter().filter(|(file, _)| !file.is_empty()) {
                        option value=(file) selected[wanted == Some(*file)] { (file) " (" (rows) ")" }
                    }
                }
            }
            button { "Show" }
        }
    }
}

fn rows(rows: &[&Quarantined]) -> Markup {
    html! {
        table.quarantine {
            caption.unseen { "Rows in quarantine" }
            (page::heads(&["Mend", "Value", "Why, and what to do", "From"]))
            tbody { @for row in rows { (line(row)) } }
        }
    }
}

fn line(row: &Quarantined) -> Markup {
    let rejected = &row.rejected;
    html! {
        tr {
            th scope="row" {
                a href=(format!("/quarantine/{}", row.number)) { "Mend " (row.number) }
            }
            td.value {
                @if let Some(column) = &rejected.column { span.column { (column) } }
                code { (rejected.value) }
            }
            td { (sentence(&rejected.reason)) span.help { (sentence(&rejected.remedy)) } }
            td { (place(row)) }
        }
    }
}

fn place(row: &Quarantined) -> Markup {
    html! {
        @if let Some(file) = &row.file_name { (file) }
        @if let Some(sheet) = &row.sheet { ", sheet " (sheet) }
        ", row " (row.rejected.row)
    }
}

/// A row with the headings of its table.
type Row = (Quarantined, Vec<String>);

/// Shows one row with its cells to mend.
pub(crate) async fn one(State(desk): State<Desk>, Path(number): Path<u32>) -> Result<Markup, Trouble> {
    let (house, row) = desk.ask(move |house| quarantine::one(house, QuarantineNumber(number))).await?;
    Ok(mending_page(&house, &row, None))
}

/// Mends a row, or shows it again with what is still wrong.
pub(crate) async fn mend(
    State(desk): State<Desk>,
    Path(number): Path<u32>,
    Form(sent): Sent,
) -> Result<Response, Trouble> {
    let number = QuarantineNumber(number);
    let (house, row) = desk.ask(move |house| quarantine::one(house, number)).await?;
    let values = new_values(&row, &sent);
    let mending = now(&house);
    let mended = desk.ask(move |house| quarantine::mend(house, number, &values, &mending)).await;
    match mended {
        Ok((_, summary)) => {
            let to = format!("/quarantine?mended={number}&batch={}", summary.batch);
            Ok(Redirect::to(&to).into_response())
        }
        Err(trouble) if trouble.status == StatusCode::BAD_REQUEST => {
            let page = mending_page(&house, &row, Some((&trouble, &sent)));
            Ok((trouble.status, page).into_response())
        }
        Err(trouble) => Err(trouble),
    }
}

/// Who mends, now.
pub(crate) fn now(house: &House) -> Mending {
    Mending { who: house.settings.keeper.clone(), at: Timestamp::now(), today: ZonedDateTime::now().date() }
}

/// The cells that were changed.
fn new_values((row, headings): &Row, sent: &Fields) -> Vec<NewValue> {
    let changed = headings.iter().enumerate().filter_map(|(place, heading)| {
        let old = row.rejected.cells.get(place).map(String::as_str).unwrap_or_default();
        let new = sent.whole(&cell_name(place))?;
        (new != one_line(old)).then(|| NewValue { heading: heading.clone(), value: new.to_owned() })
    });
    changed.collect()
}

fn cell_name(place: usize) -> String {
    format!("cell{place}")
}

/// A cell as a text box of one line holds it.
fn one_line(cell: &str) -> String {
    cell.replace(['\r', '\n'], "")
}

fn mending_page(house: &House, row: &Row, failed: Option<(&Trouble, &Fields)>) -> Markup {
    let title = format!("Row {} of the quarantine", row.0.number);
    let body = html! {
        (page::bring_in_ways("/quarantine"))
        p.trail { a href="/quarantine" { "Quarantine" } }
        h1 { (title) }
        p { (place(&row.0)) }
        div.fault #fault role=[failed.map(|_| "alert")] {
            @match failed {
                Some((trouble, _)) => {
                    p { (sentence(&trouble.message)) }
                    @if let Some(help) = &trouble.help { p.help { (sentence(help)) } }
                }
                None => {
                    p { (sentence(&row.0.rejected.reason)) }
                    p.help { (sentence(&row.0.rejected.remedy)) }
                }
            }
        }
        @if row.0.solved_by.is_some() {
            p { "It was mended already and is taken." }
        } @else {
            (cells(row, failed.map(|(_, sent)| sent)))
        }
    };
    page::page(house, Place::BringIn, &title, body)
}

fn cells((row, headings): &Row, sent: Option<&Fields>) -> Markup {
    let rejected = &row.rejected;
    let beyond = rejected.cells.get(headings.len()..).unwrap_or_default();
    html! {
        form.cells method="post" {
            @for (place, heading) in headings.iter().enumerate() {
                @let old = rejected.cells.get(place).map(String::as_str).unwrap_or_default();
                @let name = cell_name(place);
                @let told = sent.and_then(|sent| sent.whole(&name)).unwrap_or(old);
                @let at_fault = rejected.column.as_deref() == Some(heading.as_str());
                label.at-fault[at_fault] {
                    span {
                        @if heading.trim().is_empty() { "column " (place + 1) } @else { (heading) }
                        @if at_fault { " (here)" }
                    }
                    input name=(name) value=(one_line(told)) maxlength="10000" autocomplete="off"
                        aria-invalid=[at_fault.then_some("true")] aria-describedby=[at_fault.then_some("fault")];
                }
            }
            @if !beyond.is_empty() { p { "Beyond the headings: " (beyond.join(" | ")) } }
            div.acts { button.strong { "Take the row" } " " a href="/quarantine" { "Leave it" } }
        }
    }
}
