//! The list as a file for a spreadsheet or another program.

use super::filter::Asked;
use crate::desk::Desk;
use crate::trouble::Trouble;
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use house::list::{self, Form};
use jiff::ZonedDateTime;
use maud::{Markup, html};

/// Files that the list is sent as, with their media types. Source: RFC 7111 and the IANA registry of media types.
const FILES: [(&str, &str, Form); 3] = [
    ("list.csv", "text/csv; charset=utf-8", Form::Csv),
    ("list.xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", Form::Xlsx),
    ("list.json", "application/json", Form::Json),
];

/// The ways to the files, for the same varieties.
pub(super) fn ways(asked: &Asked) -> Markup {
    html! {
        p.exports {
            "Take these with you: "
            @for (place, (file, ..)) in FILES.iter().enumerate() {
                @if 0 < place { ", " }
                a href=(asked.address_with(&format!("/export/{file}"), &[])) download { (file) }
            }
        }
    }
}

/// Sends every variety that fits, whichever page was shown.
pub(crate) async fn send(
    State(desk): State<Desk>,
    Path(file): Path<String>,
    Query(asked): Query<Asked>,
) -> Result<Response, Trouble> {
    let found = FILES.iter().find(|(name, ..)| *name == file);
    let (name, media, form) = found.ok_or_else(|| Trouble::missing("the list is not sent as such a file"))?;
    let (filter, today) = (asked.filter()?, ZonedDateTime::now().date());
    let (_, exported) = desk.ask(move |house| list::export(house, &filter, *form, today)).await?;
    let headers = [
        (header::CONTENT_TYPE, (*media).to_owned()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{name}\"")),
    ];
    Ok((headers, exported.bytes).into_response())
}
