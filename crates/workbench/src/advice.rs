//! Advice: a garden and a kitchen asked about in plain questions, and the plan that answers, so that one answer can be changed
//! and the plan seen to move.
//!
//! `form` asks all at once and `one_by_one` one after the other, `running` looks for the plan, `answer` shows what came of it, `taken` sends it along.

use crate::desk::Desk;
use crate::fields::{Fields, Sent};
use crate::page::{self, Place};
use crate::trouble::{Trouble, nothing_told};
use crate::whose::{self, Choices};
use axum::Form;
use axum::extract::{Query, RawQuery, State};
use axum::http::header::REFRESH;
use axum::response::{IntoResponse, Redirect, Response};
use house::advise::request::form::Fields as Asked;
use house::advise::request::{self, Request, form as text};
use house::advise::{self, Advice, Watch};
use house::fault::{HouseFault, Mender};
use house::folder::House;
use house::forecast::Place as Whose;
use house::forecast::place::{PlaceFault, stations};
use house::list;
use house::list::filter::{Filter, Showing};
use jiff::ZonedDateTime;
use maud::{Markup, html};
use record::language::Units;

mod answer;
mod form;
pub(crate) mod one_by_one;
mod running;
mod said;
pub(crate) mod taken;

/// What was found, or why there is nothing to show.
type Told = Result<Box<Advice>, (String, Option<String>)>;

/// What a page of advice needs: what is offered, and the answer.
type Gathered = (Offered, Option<Told>);

/// Plans that are being looked for, by the address that asks.
pub(crate) type Plans = running::Running<Gathered>;

/// Seconds after which a page whose plan is still looked for asks again.
const AGAIN: &str = "1";

/// What the page offers to choose from.
#[derive(Debug)]
pub(crate) struct Offered {
    places: Choices,
    classes: Vec<String>,
}

/// Shows the questions, and the answer where they were sent.
pub(crate) async fn show(
    State(desk): State<Desk>,
    Query(sent): Query<Fields>,
    RawQuery(words): RawQuery,
) -> Result<Response, Trouble> {
    let asked = sent.get("weather").is_some().then(|| said::read(&sent));
    let own = asked.clone();
    let words = words.unwrap_or_default();
    let gathered =
        move |house: &House, seen: &running::Seen| Ok((offered(house)?, told(house, own.as_ref(), seen)?));
    let (house, (offered, told)) = match desk.plans.ask(&desk, &words, gathered).await {
        running::Asked::Came(gathered) => gathered?,
        running::Asked::StillLooking(fewest, at_least) => {
            let page = page::page(
                &desk.house().await?,
                Place::Advice,
                "Advice",
                answer::still_looking(&words, fewest, at_least),
            );
            return Ok(([(REFRESH, AGAIN)], page).into_response());
        }
    };
    let units = house.settings.units;
    let shown = asked.unwrap_or_else(|| said::usual(&house));
    let body = body(&shown, &words, &offered, told.as_ref(), units);
    Ok(page::page(&house, Place::Advice, "Advice", body).into_response())
}

/// Takes the best plan so far, and goes back to the page that waits for it.
pub(crate) async fn stop(State(desk): State<Desk>, Form(sent): Sent) -> Redirect {
    let asked = sent.get("asked").unwrap_or_default();
    // Only an address that a page has asked by is gone back to.
    if desk.plans.stop(asked) { Redirect::to(&format!("/advice?{asked}")) } else { Redirect::to("/advice") }
}

fn offered(house: &House) -> Result<Offered, HouseFault> {
    let list = list::list(house, &Filter { showing: Showing::Page(1), ..Filter::default() })?;
    Ok(Offered { places: whose::choices(house)?, classes: list.classes })
}

fn told(house: &House, asked: Option<&Asked>, watch: &dyn Watch) -> Result<Option<Told>, HouseFault> {
    let Some(asked) = asked else { return Ok(None) };
    match answered(house, asked, watch) {
        Ok((_, found)) => Ok(Some(Ok(Box::new(found)))),
        Err(fault) if fault.mender() == Mender::User => Ok(Some(Err((fault.to_string(), fault.help())))),
        Err(fault) => Err(fault),
    }
}

/// The request that the questions make, and its answer.
fn answered(house: &House, asked: &Asked, watch: &dyn Watch) -> Result<(Request, Advice), HouseFault> {
    let request = request::read("the questions", &text::write(&placed(house, asked)?))?;
    let found = advise::advise(house, &request, ZonedDateTime::now().date(), watch)?;
    Ok((request, found))
}

/// The questions with a garden or a station that the house has; a page reads no files.
fn placed(house: &House, asked: &Asked) -> Result<Asked, HouseFault> {
    match whose::choices(house)?.place(&asked.weather) {
        Ok(Whose::Garden(garden)) => Ok(Asked { garden, weather: String::new(), ..asked.clone() }),
        Ok(Whose::Station(_)) => Ok(asked.clone()),
        Err(_) => {
            let name = whose::named(&asked.weather).to_owned();
            Err(PlaceFault::NotKnown { name, known: stations(house)?.join(", ") }.into())
        }
    }
}

fn body(asked: &Asked, words: &str, offered: &Offered, told: Option<&Told>, units: Units) -> Markup {
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
            Some(Ok(found)) => (answer::shown(found, words, units)),
        }
        (form::questions(asked, offered, words))
    }
}
