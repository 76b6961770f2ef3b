//! Advice: a garden and a kitchen asked about in plain questions, and the plan that answers, so that one answer can be changed
//! and the plan seen to move.
//!
//! `form` asks, `answer` shows what came of it.

use crate::desk::Desk;
use crate::fields::Fields;
use crate::page::{self, Place};
use crate::trouble::{Trouble, nothing_told};
use axum::extract::{Query, State};
use house::advise::request::form::Fields as Asked;
use house::advise::request::{self, form as text};
use house::advise::{self, Advice};
use house::fault::{HouseFault, Mender};
use house::folder::House;
use house::forecast::place::stations;
use house::list;
use house::list::filter::{Filter, Showing};
use jiff::ZonedDateTime;
use maud::{Markup, html};
use record::language::Units;

mod answer;
mod form;

/// What was found, or why there is nothing to show.
type Told = Result<Box<Advice>, (String, Option<String>)>;

/// What the page offers to choose from.
struct Offered {
    stations: Vec<String>,
    classes: Vec<String>,
}

/// Shows the questions, and the answer where they were sent.
pub(crate) async fn show(State(desk): State<Desk>, Query(sent): Query<Fields>) -> Result<Markup, Trouble> {
    let asked = sent.get("weather").is_some().then(|| form::read(&sent));
    let own = asked.clone();
    let (house, (offered, told)) =
        desk.ask(move |house| Ok((offered(house)?, told(house, own.as_ref())?))).await?;
    let units = house.settings.units;
    let shown = asked.unwrap_or_else(|| form::usual(&house));
    Ok(page::page(&house, Place::Advice, "Advice", body(&shown, &offered, told.as_ref(), units)))
}

fn offered(house: &House) -> Result<Offered, HouseFault> {
    let list = list::list(house, &Filter { showing: Showing::Page(1), ..Filter::default() })?;
    Ok(Offered { stations: stations(house)?, classes: list.classes })
}

fn told(house: &House, asked: Option<&Asked>) -> Result<Option<Told>, HouseFault> {
    let Some(asked) = asked else { return Ok(None) };
    // A page reads no files: a station is one that the house keeps or knows.
    if !stations(house)?.contains(&asked.weather) {
        return Ok(Some(Err((format!("no station {:?} is kept or known", asked.weather), None))));
    }
    let today = ZonedDateTime::now().date();
    let found = request::read("the questions", &text::write(asked))
        .and_then(|request| advise::advise(house, &request, today));
    match found {
        Ok(found) => Ok(Some(Ok(Box::new(found)))),
        Err(fault) if fault.mender() == Mender::User => Ok(Some(Err((fault.to_string(), fault.help())))),
        Err(fault) => Err(fault),
    }
}

fn body(asked: &Asked, offered: &Offered, told: Option<&Told>, units: Units) -> Markup {
    html! {
        (page::advice_ways("/advice"))
        h1 { "Advice" }
        p {
            "Which ones, how many and when, for one garden and one kitchen: the fewest plants that do it in as many years of ten as "
            "are asked, by the house's own plots and the garden's weather. What each variety would bring by itself is in the "
            a href="/forecast" { "forecast" } "; the same answer comes from a file by " code { "locule advise" } "."
        }
        @match told {
            None => {}
            Some(Err((why, help))) => (nothing_told(why, help.as_deref())),
            Some(Ok(found)) => (answer::shown(found, units)),
        }
        (form::questions(asked, offered))
    }
}
