//! Bringing files in: choose them, see how each table is read and what would become of its rows, answer
//! what the file does not say, and only then take them.

use crate::desk::Desk;
use crate::fields::{Fields, Sent};
use crate::incoming::Stack;
use crate::page::{self, Place};
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Multipart, Path, State};
use axum::response::Redirect;
use house::asked::Asked;
use house::folder::House;
use house::look;
use house::progress::Unwatched;
use house::take::{self, KeepReading, Request};
use jiff::{Timestamp, ZonedDateTime};
use maud::{Markup, html};
use std::sync::Arc;

mod answers;
mod column;
mod days;
mod reading;
pub(crate) mod taken;
pub(crate) mod upload;

pub(crate) use upload::MOST_AT_ONCE;

/// Kinds of file that the browser offers first.
const ACCEPTED: &str = ".csv,.tsv,.dly,.txt,.tab,.xlsx,.xlsm,.ods,text/csv,text/plain";

/// Shows where files are chosen.
pub(crate) async fn choose(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let house = desk.house().await?;
    let body = html! {
        (page::bring_in_ways("/bring-in"))
        h1 { "Bring in" }
        p {
            "Tables as they are kept: varieties, plots and plants, fruit samples, picks, heights, walk notes, "
            "colours. Text with commas, semicolons or tabs, XLSX and ODS. Days and climate normals of weather stations too. "
            "Nothing is stored before you have seen how each is read."
        }
        p.quiet {
            "Weather is had free of charge from NOAA's National Centers for Environmental Information: days of a station near you "
            "(Global Historical Climatology Network - Daily), and its climate normals."
        }
        form.drop #drop method="post" action="/bring-in" enctype="multipart/form-data" {
            label for="files" { span { "Choose files" span.by-drag { ", or drop them here" } } }
            input #files type="file" name="files" multiple required accept=(ACCEPTED);
            p.help { "At most 64 MB a file and 256 MB in all; locule take in the terminal takes larger ones." }
            button.strong { "See how they are read" }
        }
    };
    Ok(page::page(&house, Place::BringIn, "Bring in", body))
}

/// Receives files and leads on to how they are read.
pub(crate) async fn receive(State(desk): State<Desk>, sent: Multipart) -> Result<Redirect, Trouble> {
    let (files, folder) = upload::receive(sent).await?;
    let stack = desk.incoming.keep(files, folder);
    Ok(Redirect::to(&address(&stack)))
}

fn address(stack: &Stack) -> String {
    format!("/bring-in/{}", stack.number)
}

fn find(desk: &Desk, number: i64) -> Result<Arc<Stack>, Trouble> {
    desk.incoming.find(number).ok_or_else(|| {
        let message =
            "these files are no longer held: the workbench was started anew, or newer ones took their place";
        Trouble { help: Some("choose them again under Bring in".to_owned()), ..Trouble::missing(message) }
    })
}

/// Shows how the files of a stack are read, or what became of them.
pub(crate) async fn look(State(desk): State<Desk>, Path(number): Path<i64>) -> Result<Markup, Trouble> {
    let stack = find(&desk, number)?;
    if let Some(outcome) = stack.outcome() {
        let house = desk.house().await?;
        return Ok(page::page(&house, Place::BringIn, "Taken in", taken::body(&outcome)));
    }
    let own = Arc::clone(&stack);
    let story =
        move |house: &House| look::look(house, &own.given(), &request(house, own.asked(), KeepReading::Once));
    let (house, looked) = desk.ask(story).await?;
    let body = reading::body(&address(&stack), &looked, &stack.asked());
    Ok(page::page(&house, Place::BringIn, "How the files are read", body))
}

/// Keeps the answers and looks again, takes the files, or lets them go.
pub(crate) async fn decide(
    State(desk): State<Desk>,
    Path(number): Path<i64>,
    Form(sent): Sent,
) -> Result<Redirect, Trouble> {
    let stack = find(&desk, number)?;
    if sent.get("do") == Some("leave") {
        desk.incoming.let_go(number);
        return Ok(Redirect::to("/bring-in"));
    }
    stack.ask(answers::read(&sent)?);
    if sent.get("do") == Some("take") && stack.outcome().is_none() {
        take_in(&desk, Arc::clone(&stack), keeping(&sent)).await?;
    }
    Ok(Redirect::to(&address(&stack)))
}

fn keeping(sent: &Fields) -> KeepReading {
    if sent.get("remember").is_some() { KeepReading::Always } else { KeepReading::Once }
}

async fn take_in(desk: &Desk, stack: Arc<Stack>, keeping: KeepReading) -> Result<(), Trouble> {
    let own = Arc::clone(&stack);
    let story = move |house: &House| {
        let taken = take::take(house, &own.given(), &request(house, own.asked(), keeping), &Unwatched)?;
        Ok(taken::told(&taken))
    };
    let (_, outcome) = desk.ask(story).await?;
    stack.end(outcome);
    Ok(())
}

fn request(house: &House, tables: Vec<house::asked::AskedTable>, keep_reading: KeepReading) -> Request {
    Request {
        who: house.settings.keeper.clone(),
        at: Timestamp::now(),
        today: ZonedDateTime::now().date(),
        asked: Asked { tables, ..Asked::default() },
        keep_reading,
        why: None,
    }
}
