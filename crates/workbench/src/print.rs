//! Print: the catalogue on A4 or Letter, and the sheets that were printed before.

use crate::desk::Desk;
use crate::fields::Sent;
use crate::page::{self, Place};
use crate::telling::{count, encoded, moment};
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Redirect, Response};
use house::print::{self, Paper};
use house::printed::{self, Sheet};
use house::progress::Unwatched;
use jiff::ZonedDateTime;
use maud::{Markup, html};
use record::language::{Units, counted, grouped};
use serde::Deserialize;

/// What was just printed.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Did {
    printed: Option<usize>,
}

/// Papers with the words for them and the name of their catalogue.
const PAPERS: [(Paper, &str, &str, &str); 2] = [
    (Paper::A4, "a4", "A4", "catalogue-a4.pdf"),
    (Paper::UsLetter, "letter", "US Letter", "catalogue-letter.pdf"),
];

/// Shows what can be printed and what was.
pub(crate) async fn show(State(desk): State<Desk>, Query(did): Query<Did>) -> Result<Markup, Trouble> {
    let (house, sheets) = desk.ask(printed::sheets).await?;
    Ok(page::page(&house, Place::Print, "Print", body(&did, &sheets, house.settings.units)))
}

/// Prints the catalogue.
pub(crate) async fn catalogue(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let wanted = PAPERS.into_iter().find(|(_, word, ..)| sent.get("paper") == Some(*word));
    let Some((paper, _, _, name)) = wanted else {
        return Err(Trouble::user("the form names no paper", "choose A4 or US Letter"));
    };
    let today = ZonedDateTime::now().date();
    let set = move |house: &house::folder::House| {
        print::catalogue(house, paper, today, &house.printed().join(name), &Unwatched)
    };
    let (_, printed) = desk.ask(set).await?;
    Ok(Redirect::to(&format!("/print?printed={}", printed.varieties)))
}

/// Hands a printed sheet out.
pub(crate) async fn sheet(State(desk): State<Desk>, Path(name): Path<String>) -> Result<Response, Trouble> {
    let wanted = name.clone();
    let (_, pdf) = desk.ask(move |house| printed::sheet(house, &wanted)).await?;
    let headers = [
        (header::CONTENT_TYPE, "application/pdf".to_owned()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename*=UTF-8''{}", encoded(&name))),
    ];
    Ok((headers, pdf).into_response())
}

fn body(did: &Did, sheets: &[Sheet], units: Units) -> Markup {
    let usual = if units == Units::Us { Paper::UsLetter } else { Paper::A4 };
    html! {
        h1 { "Print" }
        @if let Some(varieties) = did.printed {
            @let varieties = counted(count(varieties), "variety", "varieties");
            (page::notice(&html! { p { "The catalogue is printed, with " (varieties) ". Download it below." } }))
        }
        section aria-labelledby="catalogue" {
            h2 #catalogue { "The catalogue" }
            p { "An entry a variety, by class from small to large, from the calls as they stand." }
            form.decide method="post" action="/print" {
                fieldset {
                    legend { "Paper" }
                    @for (paper, word, words, _) in PAPERS {
                        label.tick {
                            input type="radio" name="paper" value=(word) checked[paper == usual];
                            span { (words) }
                        }
                    }
                }
                button.strong { "Print the catalogue" }
            }
        }
        section aria-labelledby="printed" {
            h2 #printed { "Printed" }
            @if sheets.is_empty() { p { "Nothing has been printed yet." } }
            ul.sheets {
                @for sheet in sheets {
                    li {
                        a href=(format!("/print/{}", encoded(&sheet.name))) { (sheet.name) }
                        " " (grouped(sheet.bytes.div_ceil(1000))) " kB"
                        @if let Some(at) = sheet.printed { ", " (moment(at)) }
                    }
                }
            }
        }
    }
}
