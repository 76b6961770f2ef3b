//! Photo: a photograph of fruit beside the scale card is measured, looked over, and its fruit taken as fruit samples.
//!
//! What the user says of a photograph stands in the page's address, so that nothing is kept until the fruit are taken.

mod asked;
mod shown;

use crate::bring_in::taken;
use crate::bring_in::upload;
use crate::desk::Desk;
use crate::fields::{Fields, Sent};
use crate::incoming::Stack;
use crate::page::{self, Place};
use crate::trouble::Trouble;
use asked::{Asked, read};
use axum::Form;
use axum::extract::{Multipart, Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Redirect, Response};
use house::folder::House;
use house::growouts;
use house::opened::Given;
use house::photo::{self, Seen, filed};
use house::take::TakenIn;
use jiff::{Timestamp, ZonedDateTime};
use maud::{Markup, html};
use std::sync::Arc;

/// Shows where a photograph is chosen.
pub(crate) async fn choose(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let house = desk.house().await?;
    let chooser = |id: &'static str, words: &str, camera: Option<&'static str>| {
        html! {
            label for=(id) { (words) }
            input id=(id) type="file" name="files" required accept="image/jpeg,image/png" capture=[camera];
            button.strong { "Measure" }
        }
    };
    let body = html! {
        (page::bring_in_ways("/photo"))
        h1 { "Photo" }
        p {
            "Fruit on a plain sheet beside the scale card, on their sides and none touching another, photographed from straight "
            "above: length, width, weight and colour of each are measured. Of fruit cut across, their faces up, the locules are "
            "counted. Nothing is stored before you have looked them over."
        }
        form.drop #drop method="post" action="/photo" enctype="multipart/form-data" {
            (chooser("files", "Choose a photograph, JPEG or PNG", None))
        }
        form.drop.by-camera method="post" action="/photo" enctype="multipart/form-data" {
            (chooser("camera", "Or take one with this phone", Some("environment")))
        }
        p {
            "No card yet? " a href="/print#card" { "Print one" } ", on stiff paper and at its true size. "
            "Weights are volumes times a usual density, so a scale is better where there is one."
        }
    };
    Ok(page::page(&house, Place::BringIn, "Photo", body))
}

/// Receives a photograph and leads on to what was measured.
pub(crate) async fn receive(State(desk): State<Desk>, sent: Multipart) -> Result<Redirect, Trouble> {
    let (files, folder) = upload::receive(sent).await?;
    let stack = desk.incoming.keep(files, folder);
    Ok(Redirect::to(&address(&stack)))
}

fn address(stack: &Stack) -> String {
    format!("/photo/{}", stack.number)
}

fn find(desk: &Desk, number: i64) -> Result<(Arc<Stack>, Given), Trouble> {
    let missing = || Trouble {
        help: Some("choose it again under Photo".to_owned()),
        ..Trouble::missing(
            "this photograph is no longer held: the workbench was started anew, or newer ones took its place",
        )
    };
    let stack = desk.incoming.find(number).ok_or_else(missing)?;
    let given = stack.given().into_iter().next().ok_or_else(missing)?;
    Ok((stack, given))
}

/// Shows what was measured, or what became of it.
pub(crate) async fn look(
    State(desk): State<Desk>,
    Path(number): Path<i64>,
    Query(sent): Query<Fields>,
) -> Result<Markup, Trouble> {
    let (stack, given) = find(&desk, number)?;
    if let Some(outcome) = stack.outcome() {
        let house = desk.house().await?;
        return Ok(page::page(&house, Place::BringIn, "Taken in", taken::body(&outcome)));
    }
    let asked = read(&sent)?;
    let (said, today) = (asked.said.clone(), ZonedDateTime::now().date());
    let story = move |house: &House| {
        let grow_outs = growouts::grow_outs(house, today)?;
        let names: Vec<String> = grow_outs.into_iter().map(|planted| planted.grow_out.name).collect();
        photo::look(house, &given, &said).map(|seen| (seen, names))
    };
    let (house, (seen, grow_outs)) = desk.ask(story).await?;
    let body = shown::body(&address(&stack), &seen, &asked, &grow_outs, house.settings.units);
    Ok(page::page(&house, Place::BringIn, "Measured", body))
}

/// The photograph as it was measured.
pub(crate) async fn picture(State(desk): State<Desk>, Path(number): Path<i64>) -> Result<Response, Trouble> {
    let (_, given) = find(&desk, number)?;
    let (_, jpeg) = desk.ask(move |_| photo::picture(&given)).await?;
    let headers = [(header::CONTENT_TYPE, "image/jpeg"), (header::CACHE_CONTROL, "private, max-age=3600")];
    Ok((headers, jpeg).into_response())
}

/// Takes the fruit, or lets the photograph go.
pub(crate) async fn take(
    State(desk): State<Desk>,
    Path(number): Path<i64>,
    Form(sent): Sent,
) -> Result<Redirect, Trouble> {
    let (stack, given) = find(&desk, number)?;
    if sent.get("do") == Some("leave") {
        desk.incoming.let_go(number);
        return Ok(Redirect::to("/photo"));
    }
    let Asked { said, filing, .. } = read(&sent)?;
    if stack.outcome().is_none() {
        let story = move |house: &House| {
            let seen: Seen = photo::look(house, &given, &said)?;
            let act = filed::Act {
                who: house.settings.keeper.clone(),
                at: Timestamp::now(),
                today: ZonedDateTime::now().date(),
            };
            let tables = filed::file_away(house, &seen, &filing, &act)?;
            Ok(taken::told(&TakenIn { tables, weather: Vec::new(), unreadable: Vec::new() }))
        };
        let (_, outcome) = desk.ask(story).await?;
        stack.end(outcome);
    }
    Ok(Redirect::to(&address(&stack)))
}
