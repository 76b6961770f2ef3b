//! The proof sheet as a page: by kind, then by variety, each mark with what to do.

use crate::desk::Desk;
use crate::page::{self, Place};
use crate::telling::{count, variety_address};
use crate::trouble::Trouble;
use axum::extract::State;
use house::proof::{Count, Mark, Proof, Proofed};
use maud::{Markup, html};
use record::language::{capitalised, counted};

/// Most varieties that the page lists; the printed sheet lists all. A choice of the page, which stays light.
const MOST_LISTED: usize = 200;

/// Shows the proof sheet.
pub(crate) async fn show(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, proof) = desk.ask(house::proof::proof).await?;
    Ok(page::page(&house, Place::Print, "Proof sheet", body(&proof)))
}

fn body(proof: &Proof) -> Markup {
    let more = proof.varieties.len().saturating_sub(MOST_LISTED);
    html! {
        h1 { "Proof sheet" }
        p { "What to look at before the catalogue is printed. " strong { (proof.summary()) } }
        p { a href="/print#proof" { "Print it, or print the catalogue" } "." }
        @if !proof.varieties.is_empty() {
            h2 { "By kind" }
            (kinds(proof))
            h2 { "By variety" }
            dl.proof {
                @for variety in proof.varieties.iter().take(MOST_LISTED) { (one(variety)) }
            }
            @if 0 < more {
                p { (counted(count(more), "more variety is", "more varieties are")) " on the printed sheet." }
            }
        }
    }
}

fn kinds(proof: &Proof) -> Markup {
    let row = |count: &Count| {
        html! {
            tr {
                th scope="row" { (capitalised(count.kind.name())) }
                td { (count.told()) }
                td { (count.kind.means()) }
                td { (capitalised(count.kind.remedy())) }
            }
        }
    };
    let table = html! {
        table {
            (page::heads(&["Kind", "How many", "What it means", "What to do"]))
            tbody { @for count in proof.counts() { (row(&count)) } }
        }
    };
    page::scrolling("Marks by kind", &table)
}

fn one(variety: &Proofed) -> Markup {
    html! {
        div {
            dt { a href=(variety_address(&variety.name)) { (variety.name) } }
            @for mark in &variety.marks { dd { (told(mark)) } }
        }
    }
}

fn told(mark: &Mark) -> Markup {
    html! {
        span.kind { (capitalised(mark.kind.name())) } ": " (mark.words) "."
        @if let Some(step) = &mark.step { " " strong { (step) } }
        @if !mark.records.is_empty() { " " span.records { "Records: " (mark.records.join("; ")) "." } }
    }
}
