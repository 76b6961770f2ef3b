//! What is it? A page that calls one unknown tomato or a handful by the guides' rules, without a program behind it.
//!
//! The sums are `assets/script/what.js` (class), `plant.js` (habit), `colour.js`, `class_looks.js` (what one more look
//! would tell) and `likeness.js` (the nearest), which mirror the science; what they need arrives here as plain numbers
//! ([`rule`]) and is written into `data/`.

mod data;
mod form;
pub mod rule;

use crate::pages::frame::{Page, Place, scripts};
use crate::pages::places::Depth;
use crate::pages::{File, Folder};
pub use form::MOST_TRUSSES;
use maud::{Markup, html};
use record::language::capitalised;
use rule::WhatRule;

/// What the page runs, in the order that they need each other.
const SCRIPTS: [&str; 16] = [
    "script/tokens.js",
    "script/amounts.js",
    "script/reading.js",
    "script/telling.js",
    "script/elements.js",
    "script/finding.js",
    "script/what.js",
    "script/class_looks.js",
    "script/plant.js",
    "script/colour.js",
    "script/likeness.js",
    "data/list.js",
    "data/rule.js",
    "data/alike.js",
    "script/what_form.js",
    "script/what_page.js",
];

/// The page and its data.
///
/// # Errors
/// What JSON cannot hold, which would be a fault in this program.
pub(super) fn files(folder: &Folder, rule: &WhatRule) -> Result<Vec<File>, serde_json::Error> {
    let page = Page {
        path: "what-is-it.html".to_owned(),
        title: "What is it?",
        about: "Tell what you can measure or see of a tomato and its plant, and see what it may be, and how sure.",
        place: Place::What,
        head: scripts(Depth::Top, &SCRIPTS),
        body: body(folder, rule),
    };
    Ok(std::iter::once(page.framed(folder)).chain(data::files(folder, rule)?).collect())
}

fn body(folder: &Folder, rule: &WhatRule) -> Markup {
    html! {
        h1 { "What is it?" }
        p.lead {
            "Tell whatever you can measure or see of one ripe tomato, or of a handful, and of the plant that bore it. "
            "The more you give, the surer the answer; weight, length and width go a long way. Nothing leaves this page."
        }
        (form::form(&rule.colour, &rule.plant))
        div.needs-script #answer role="status" {}
        noscript { p { "This page reckons with a script, which your browser does not run. The guide's limits are below." } }
        section aria-labelledby="limits" {
            h2 #limits { "The guide's limits" }
            p { "The same guide calls the varieties of the list. A fruit that no class takes lies between classes." }
            @for shelf in folder.places.shelves.iter().filter(|shelf| shelf.class.is_some()) {
                @if let Some(class) = shelf.class.and_then(|class| folder.list.classes.get(class)) {
                    h3 { a href=(folder.places.shelf(shelf, 0)) { (capitalised(&class.name)) } }
                    @if !class.what.is_empty() { p { (class.what) } }
                    ul { @for limits in &class.limits { li { (limits) } } }
                }
            }
        }
    }
}
