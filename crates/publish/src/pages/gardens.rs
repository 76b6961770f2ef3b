//! Which for your garden? A page that tells a buyer which varieties, and how many plants of them, do what they want in
//! weather like theirs, without a program behind it.
//!
//! What every variety would bear in sampled years of each region is worked out when the pages are written ([`told`]). The sums
//! of the page are `assets/script/bearing.js`, which mirror crate `advice`, file `by_itself`.

mod data;
pub mod told;

use crate::pages::frame::{Page, Place, scripts};
use crate::pages::places::Depth;
use crate::pages::{File, Folder};
use maud::{Markup, html};
use record::language::capitalised;
use told::{Gardens, MOST_DAYS};

/// What the page runs, in the order that they need each other.
const SCRIPTS: [&str; 8] = [
    "script/telling.js",
    "script/elements.js",
    "script/finding.js",
    "script/bearing.js",
    "data/list.js",
    "data/gardens.js",
    "script/gardens_answer.js",
    "script/gardens_page.js",
];

/// The page and its data.
///
/// # Errors
/// What JSON cannot hold, which would be a fault in this program.
pub(super) fn files(folder: &Folder, gardens: &Gardens) -> Result<Vec<File>, serde_json::Error> {
    let is_told = !gardens.regions.is_empty();
    let page = Page {
        path: "for-your-garden.html".to_owned(),
        title: "For your garden",
        about: "Say where you garden and what the fruit is for, and see which varieties do it and how many plants they take.",
        place: Place::Garden,
        head: if is_told {
            scripts(Depth::Top, &SCRIPTS)
        } else {
            html! {}
        },
        body: body(folder, gardens),
    };
    Ok(std::iter::once(page.framed(folder)).chain(data::files(gardens)?).collect())
}

fn body(folder: &Folder, gardens: &Gardens) -> Markup {
    html! {
        h1 { "For your garden" }
        @if gardens.regions.is_empty() {
            p { "What a plant bears is told from the house's own picks, and none are told of yet." }
        } @else {
            p.lead {
                "Say where you garden and what the fruit is for. The answer is worked out from the house's own picks, put "
                "through sampled years of weather like yours. Nothing leaves this page."
            }
            (form(folder, gardens))
            div.needs-script.comes #answer role="status" {}
            noscript {
                p { "This page reckons with a script, which your browser does not run. Plants go out by each region's calendar:" }
                ul {
                    @for region in &gardens.regions {
                        li { (region.name) ": " (region.plants_out.strftime("%-d %B")) }
                    }
                }
            }
        }
    }
}

fn form(folder: &Folder, gardens: &Gardens) -> Markup {
    let words = |of: &str| capitalised(of);
    html! {
        form.unknown.needs-script #asked novalidate {
            fieldset {
                legend { "Your garden and what it is for" }
                div.measures {
                    (choice("region", "Weather like that of", None, gardens.regions.iter().map(|own| own.name.clone())))
                    (choice("purpose", "The fruit is for", None, gardens.purposes.iter().map(|own| words(&own.words))))
                    (choice("amount", "How much", None, first_amounts(gardens)))
                    (kitchen_days())
                    (choice("from", "From the week of", None, std::iter::empty()))
                    (choice("to", "To the week of", None, std::iter::empty()))
                    (choice("sure", "How sure", None, [7, 8, 9].map(|years| format!("in {years} years of 10")).into_iter()))
                }
            }
            fieldset {
                legend { "The tomato" }
                div.measures {
                    (choice("class", "Fruit class", Some("any that suits"), folder.list.classes.iter().map(|own| words(&own.name))))
                    (choice("habit", "Habit", Some("any"), folder.list.habits.iter().map(|own| words(&own.name))))
                    (choice("colour", "Colour", Some("any"), std::iter::empty()))
                }
            }
        }
    }
}

/// Hidden until something is put up, as the table is asked for first.
fn kitchen_days() -> Markup {
    html! {
        label hidden {
            span { "Kitchen days, no two in one week" }
            select name="days" { @for days in 1..=MOST_DAYS { option value=(days - 1) { (days) } } }
        }
    }
}

/// Amounts of the purpose that is asked for first.
fn first_amounts(gardens: &Gardens) -> impl Iterator<Item = String> {
    gardens
        .purposes
        .first()
        .into_iter()
        .flat_map(|purpose| &purpose.amounts)
        .map(|amount| amount.words.clone())
}

/// A question that is answered by choosing; an answer's value is its place.
fn choice(name: &str, label: &str, any: Option<&str>, answers: impl Iterator<Item = String>) -> Markup {
    html! {
        label {
            span { (label) }
            select name=(name) {
                @if let Some(any) = any { option value="" { (any) } }
                @for (place, words) in answers.enumerate() { option value=(place) { (words) } }
            }
        }
    }
}
