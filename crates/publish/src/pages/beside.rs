//! Side by side: up to four varieties of the list in the columns of one table.
//!
//! The list's data tells all of it; `assets/script/side_by_side.js` lays it out.

use crate::pages::frame::{Page, Place, scripts};
use crate::pages::places::Depth;
use crate::pages::{File, Folder};
use maud::html;

/// Varieties that stand beside each other at most: what a phone held sideways and a sheet of paper still show.
pub(super) const MOST: usize = 4;

const SCRIPTS: [&str; 5] = [
    "script/telling.js",
    "script/elements.js",
    "script/finding.js",
    "data/list.js",
    "script/side_by_side.js",
];

/// The page.
pub(super) fn page(folder: &Folder) -> File {
    let page = Page {
        path: "side-by-side.html".to_owned(),
        title: "Side by side",
        about: "Up to four varieties beside each other, portraits to one scale.",
        place: Place::Beside,
        head: scripts(Depth::Top, &SCRIPTS),
        body: html! {
            h1 { "Side by side" }
            p.lead { "Up to four varieties in one table, their portraits to one scale." }
            form.needs-script #beside {
                div.measures {
                    @for place in 1..=MOST {
                        label {
                            span { "Variety " (place) }
                            input name="variety" list="names" autocomplete="off" maxlength="120";
                        }
                    }
                }
                datalist #names {}
            }
            div.needs-script #laid-out role="status" {}
            noscript {
                p { "This page lays out with a script, which your browser does not run. Every variety has "
                    a href="names.html" { "a page of its own" } "." }
            }
        },
    };
    page.framed(folder)
}
