//! Trouble: what went wrong, as a page with its reason, what to do, and an honest status.

use crate::page::{self, Place};
use axum::extract::multipart::MultipartError;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use house::fault::{HouseFault, Mender};
use maud::{Markup, html};
use std::path::Path;

/// A request that cannot be answered as it was meant.
#[derive(Debug)]
pub(crate) struct Trouble {
    pub(crate) status: StatusCode,
    /// What is wrong.
    pub(crate) message: String,
    /// What to do about it.
    pub(crate) help: Option<String>,
}

impl Trouble {
    /// A fault of the house in words, with no path that leads beyond its folder.
    pub(crate) fn of(fault: &HouseFault, folder: &Path) -> Self {
        let status = match fault.mender() {
            Mender::User if fault.is_missing() => StatusCode::NOT_FOUND,
            Mender::User => StatusCode::BAD_REQUEST,
            Mender::Keeper | Mender::Us => StatusCode::INTERNAL_SERVER_ERROR,
        };
        let within = |words: String| without(&words, folder);
        Self { status, message: within(fault.to_string()), help: fault.help().map(within) }
    }

    /// Something that was asked for and is not there.
    pub(crate) fn missing(message: impl Into<String>) -> Self {
        Self { status: StatusCode::NOT_FOUND, message: message.into(), help: None }
    }

    /// Something that the user can mend.
    pub(crate) fn user(message: impl Into<String>, help: impl Into<String>) -> Self {
        Self { status: StatusCode::BAD_REQUEST, message: message.into(), help: Some(help.into()) }
    }

    /// A fault of this program.
    pub(crate) fn ours(message: impl Into<String>) -> Self {
        let help = "try again; if it stays, this is a bug of ours".to_owned();
        Self { status: StatusCode::INTERNAL_SERVER_ERROR, message: message.into(), help: Some(help) }
    }
}

/// The message without the house's folder or the folder that files are sent to.
fn without(words: &str, folder: &Path) -> String {
    let mut told = words.replace(&folder.display().to_string(), "the house");
    let sent = std::env::temp_dir().display().to_string();
    if 1 < sent.len() {
        told = told.replace(&sent, "the folder of sent files");
    }
    told
}

impl From<MultipartError> for Trouble {
    fn from(fault: MultipartError) -> Self {
        Self {
            status: fault.status(),
            message: "the files could not be received".to_owned(),
            help: Some(fault.body_text()),
        }
    }
}

impl IntoResponse for Trouble {
    fn into_response(self) -> Response {
        let title = match self.status {
            StatusCode::NOT_FOUND => "Not here",
            StatusCode::FORBIDDEN => "Not allowed",
            status if status.is_server_error() => "Something broke",
            _ => "That did not work",
        };
        let body = html! {
            h1 { (title) }
            div.fault role="alert" {
                p { (sentence(&self.message)) }
                @if let Some(help) = &self.help { p.help { (sentence(help)) } }
            }
            p { a href="/" { "To the list" } }
        };
        (self.status, page::bare(Place::Elsewhere, title, body)).into_response()
    }
}

/// Why a page has nothing to tell, and what to do about it.
pub(crate) fn nothing_told(why: &str, help: Option<&str>) -> Markup {
    html! {
        div.notice { p { (sentence(why)) } @if let Some(help) = help { p.help { (sentence(help)) } } }
    }
}

/// A fault or help as a sentence: a capital first, a full stop last.
pub(crate) fn sentence(words: &str) -> String {
    let mut letters = words.trim().chars();
    let mut told: String =
        letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default();
    if !told.ends_with(['.', '!', '?', ':']) && !told.is_empty() {
        told.push('.');
    }
    told
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faults_are_told_as_sentences() {
        assert_eq!(sentence("there is no batch 7"), "There is no batch 7.");
        assert_eq!(sentence("Already one."), "Already one.");
        assert_eq!(sentence(""), "");
    }

    #[test]
    fn no_path_beyond_the_house_is_told() {
        let told = without("/srv/barn/house/guides/fruit.toml: denied", Path::new("/srv/barn/house"));
        assert_eq!(told, "the house/guides/fruit.toml: denied");
    }
}
