//! Grow-outs: which there are and what is due, one with its beds, and laying a new one out.

mod new;
pub(crate) mod next;
mod one;
pub(crate) mod results;

pub(crate) use new::{begin, decide};
pub(crate) use one::{moved, print, show};

use crate::desk::Desk;
use crate::page::{self, Place};
use crate::telling::{count, encoded};
use crate::trouble::Trouble;
use axum::extract::State;
use house::growouts::{self, Planted};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use maud::{Markup, html};
use record::language::counted;

/// Lists the grow-outs.
pub(crate) async fn all(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let day = today();
    let (house, grow_outs) = desk.ask(move |house| growouts::grow_outs(house, day)).await?;
    Ok(page::page(&house, Place::GrowOuts, "Grow-outs", body(&grow_outs)))
}

fn today() -> Date {
    ZonedDateTime::now().date()
}

/// The address of a grow-out's page. One that is called like another page has its first letter escaped.
pub(crate) fn grow_out_address(name: &str) -> String {
    let part = encoded(name);
    let first = part.chars().next().filter(|_| part == "new" || part == "next" || part.starts_with('.'));
    match first {
        Some(first) => format!("/grow-outs/%{:02X}{}", u32::from(first), part.get(1..).unwrap_or_default()),
        None => format!("/grow-outs/{part}"),
    }
}

fn body(grow_outs: &[Planted]) -> Markup {
    html! {
        h1 { "Grow-outs" }
        p {
            "What was planted, where and when."
        }
        p {
            a.begin href="/grow-outs/next" { "Choose what the next one should hold" } " "
            a.begin href="/grow-outs/new" { "Lay out a new grow-out" }
        }
        @if grow_outs.is_empty() {
            p { "No grow-out is known. Lay one out, or " a href="/bring-in" { "bring in" } " a table of plots." }
        }
        @for planted in grow_outs { (grow_out(planted)) }
    }
}

fn grow_out(planted: &Planted) -> Markup {
    let out = &planted.grow_out;
    html! {
        section.grow-out {
            h2 { a href=(grow_out_address(&out.name)) { (out.name) } }
            (told(planted))
        }
    }
}

/// What a grow-out amounts to, and what is due.
fn told(planted: &Planted) -> Markup {
    let plants: u64 = planted.plots.iter().filter_map(|(plot, _)| plot.plant_count).map(u64::from).sum();
    let out = &planted.grow_out;
    let is_out = planted.plots.iter().any(|(plot, _)| plot.transplanted.is_some());
    html! {
        p {
            "Season " (out.season) @if !out.garden.is_empty() { ", garden " (out.garden) } ": "
            (counted(count(planted.plots.len()), "plot", "plots")) " of "
            (counted(count(planted.variety_count), "variety", "varieties"))
            @if 0 < plants { ", " (counted(plants, "plant", "plants")) }
            "; " (counted(planted.notes, "note", "notes")) " so far."
        }
        @if !planted.due.is_empty() {
            p.due { strong { "Due today: " } (planted.due.join(", ")) "." }
        } @else if !is_out {
            p.due { "No day of transplanting is noted yet." }
        }
    }
}
