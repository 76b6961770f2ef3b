//! Advice to take along: the plan on paper, its days for other calendars, and the request as a file.

use super::{answered, placed, said};
use crate::desk::Desk;
use crate::download;
use crate::fields::Fields;
use crate::trouble::Trouble;
use axum::extract::{Query, State};
use axum::response::Response;
use house::advise::request::form as text;
use house::advise::{Unwatched, paper};
use house::print::Paper;
use jiff::ZonedDateTime;

/// Media type of a PDF. Source: RFC 8118.
const PDF: &str = "application/pdf";
/// Media type of an iCalendar file. Source: RFC 5545, section 3.1.4.
const CALENDAR: &str = "text/calendar; charset=utf-8";
/// Media type of a TOML file. Source: the TOML specification, version 1.0.0.
const TOML: &str = "application/toml";

/// Sends the plan as a PDF.
pub(crate) async fn sheet(State(desk): State<Desk>, Query(sent): Query<Fields>) -> Result<Response, Trouble> {
    let asked = said::read(&sent);
    let (_, sheet) = desk
        .ask(move |house| {
            let (_, found) = answered(house, &asked, &Unwatched)?;
            let paper = house.settings.units.either(Paper::UsLetter, Paper::A4);
            paper::sheet(house, &found, paper, ZonedDateTime::now().date())
        })
        .await?;
    Ok(download::attached("plan.pdf", PDF, sheet))
}

/// Sends the plan's days.
pub(crate) async fn days(State(desk): State<Desk>, Query(sent): Query<Fields>) -> Result<Response, Trouble> {
    let asked = said::read(&sent);
    let (_, days) = desk
        .ask(move |house| {
            let (request, found) = answered(house, &asked, &Unwatched)?;
            let now = ZonedDateTime::now();
            paper::days(house, &request, &found, (now.date(), now.timestamp()))
        })
        .await?;
    Ok(download::attached("plan.ics", CALENDAR, days.into_bytes()))
}

/// Sends the request.
pub(crate) async fn request(
    State(desk): State<Desk>,
    Query(sent): Query<Fields>,
) -> Result<Response, Trouble> {
    let asked = said::read(&sent);
    let (_, fields) = desk.ask(move |house| placed(house, &asked)).await?;
    Ok(download::attached("request.toml", TOML, text::write(&fields).into_bytes()))
}
