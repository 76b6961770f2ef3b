//! Tables to take along: the ways to them on a page, and a file that the browser keeps.

use crate::trouble::Trouble;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use house::tables::Form;
use maud::{Markup, html};

/// The endings of the files, with their forms and media types. Source: RFC 7111 and the IANA registry of media types.
const FORMS: [(&str, Form, &str); 3] = [
    ("csv", Form::Csv, CSV),
    ("xlsx", Form::Xlsx, "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
    ("json", Form::Json, "application/json"),
];

/// The media type of comma-separated text.
pub(crate) const CSV: &str = "text/csv; charset=utf-8";

/// Ways to a table in every form; `address` is where the file of a name is.
pub(crate) fn ways(stem: &str, address: impl Fn(&str) -> String) -> Markup {
    html! {
        p.exports {
            "Take these with you: "
            @for (place, (ending, ..)) in FORMS.iter().enumerate() {
                @let file = format!("{stem}.{ending}");
                @if 0 < place { ", " }
                a href=(address(&file)) download { (file) }
            }
        }
    }
}

/// The form and media type of a file that [`ways`] leads to.
///
/// # Errors
/// No such page, for any other name.
pub(crate) fn asked(stem: &str, file: &str) -> Result<(Form, &'static str), Trouble> {
    let found = FORMS.iter().find(|(ending, ..)| file == format!("{stem}.{ending}"));
    let missing = || Trouble::missing("there is no such file to take along");
    found.map(|(_, form, media)| (*form, *media)).ok_or_else(missing)
}

/// A file that the browser keeps under this name.
pub(crate) fn attached(file: &str, media: &'static str, bytes: Vec<u8>) -> Response {
    let headers = [
        (header::CONTENT_TYPE, media.to_owned()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{file}\"")),
    ];
    (headers, bytes).into_response()
}
