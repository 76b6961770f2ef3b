//! The list as a file for a spreadsheet or another program.

use super::filter::Asked;
use crate::desk::Desk;
use crate::download;
use crate::trouble::Trouble;
use axum::extract::{Path, Query, State};
use axum::response::Response;
use house::list;
use jiff::ZonedDateTime;
use maud::Markup;

/// What the files are called, before their endings.
const STEM: &str = "list";

/// The ways to the files, for the same varieties.
pub(super) fn ways(asked: &Asked) -> Markup {
    download::ways(STEM, |file| asked.address_with(&format!("/export/{file}"), &[]))
}

/// Sends every variety that fits, whichever page was shown.
pub(crate) async fn send(
    State(desk): State<Desk>,
    Path(file): Path<String>,
    Query(asked): Query<Asked>,
) -> Result<Response, Trouble> {
    let (form, media) = download::asked(STEM, &file)?;
    let (filter, today) = (asked.filter()?, ZonedDateTime::now().date());
    let (_, exported) = desk.ask(move |house| list::export(house, &filter, form, today)).await?;
    Ok(download::attached(&file, media, exported.bytes))
}
