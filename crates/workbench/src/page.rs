//! The frame of every page: head, the ways through the house by the job, and what was just done.

use crate::assets::ADDRESSES;
use crate::telling::house_name;
use house::folder::House;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// Where in the house a page belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Place {
    /// The list and its varieties.
    List,
    /// Grow-outs.
    GrowOuts,
    /// Lots of seed.
    SeedRoom,
    /// Advice.
    Advice,
    /// Files, quarantine, doubts, history.
    BringIn,
    /// Catalogue.
    Print,
    /// The house's rules.
    Guides,
    /// Its settings.
    Settings,
    /// None of these.
    Elsewhere,
}

/// The ways through the house, by the job.
const JOBS: [(Place, &str, &str); 6] = [
    (Place::List, "/", "The list"),
    (Place::GrowOuts, "/grow-outs", "Grow-outs"),
    (Place::SeedRoom, "/seed-room", "Seed room"),
    (Place::Advice, "/advice", "Advice"),
    (Place::BringIn, "/bring-in", "Bring in"),
    (Place::Print, "/print", "Print"),
];

/// What the house goes by.
const RULES: [(Place, &str, &str); 2] =
    [(Place::Guides, "/guides", "Guides"), (Place::Settings, "/settings", "Settings")];

/// A page of the house.
pub(crate) fn page(house: &House, place: Place, title: &str, body: Markup) -> Markup {
    framed(Some(house), place, title, body)
}

/// A page where the house is not at hand.
pub(crate) fn bare(place: Place, title: &str, body: Markup) -> Markup {
    framed(None, place, title, body)
}

fn framed(house: Option<&House>, place: Place, title: &str, body: Markup) -> Markup {
    let [style, script, mark] = &*ADDRESSES;
    let name = house.map_or("locule", house_name);
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                title { (title) " · " (name) }
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                link rel="icon" type="image/svg+xml" href=(mark);
                link rel="stylesheet" href=(style);
                script src=(script) defer {}
            }
            body {
                a.skip href="#content" { "Skip to the content" }
                header.house {
                    p.name { a href="/" { (name) } }
                    nav aria-label="The house" { (links(&JOBS, place)) }
                    nav.rules aria-label="What the house goes by" { (links(&RULES, place)) }
                }
                main #content tabindex="-1" { (body) }
                footer.house { p { "locule, on this machine only. Nothing here is sent anywhere." } }
            }
        }
    }
}

fn links(ways: &[(Place, &str, &str)], here: Place) -> Markup {
    html! {
        ul {
            @for (place, address, words) in ways {
                li { a href=(address) aria-current=[(*place == here).then_some("true")] { (words) } }
            }
        }
    }
}

/// The ways within the list.
pub(crate) fn list_ways(here: &str) -> Markup {
    let ways = [("/", "Varieties"), ("/what", "What is it?"), ("/gaps", "Gaps")];
    html! {
        nav.within aria-label="The list" {
            ul {
                @for (address, words) in ways {
                    li { a href=(address) aria-current=[(address == here).then_some("page")] { (words) } }
                }
            }
        }
    }
}

/// The ways within Advice.
pub(crate) fn advice_ways(here: &str) -> Markup {
    let ways = [
        ("/advice", "Advice"),
        ("/forecast", "Forecast"),
        ("/hindsight", "Hindsight"),
        ("/frost", "Frost"),
        ("/calendar", "Calendar"),
        ("/emergence", "Emergence"),
    ];
    html! {
        nav.within aria-label="Advice" {
            ul {
                @for (address, words) in ways {
                    li { a href=(address) aria-current=[(address == here).then_some("page")] { (words) } }
                }
            }
        }
    }
}

/// The ways within Bring in.
pub(crate) fn bring_in_ways(here: &str) -> Markup {
    let ways = [
        ("/bring-in", "Files"),
        ("/photo", "Photo"),
        ("/quarantine", "Quarantine"),
        ("/names", "Unknown names"),
        ("/doubts", "Doubts"),
        ("/weather", "Weather"),
        ("/sales", "Sales"),
        ("/history", "History"),
    ];
    html! {
        nav.within aria-label="Bring in" {
            ul {
                @for (address, words) in ways {
                    li { a href=(address) aria-current=[(address == here).then_some("page")] { (words) } }
                }
            }
        }
    }
}

/// What was just done, told on the page that follows it.
pub(crate) fn notice(words: &Markup) -> Markup {
    html! { div.notice role="status" { (words) } }
}

/// A region that scrolls sideways by itself, so that the page does not.
pub(crate) fn scrolling(label: &str, table: &Markup) -> Markup {
    html! { div.scrolling role="region" aria-label=(label) tabindex="0" { (table) } }
}

/// The headings of a table's columns.
pub(crate) fn heads(words: &[&str]) -> Markup {
    html! { thead { tr { @for word in words { th scope="col" { (word) } } } } }
}

/// A drawing, set in the page as it is: the only markup that is not written here.
pub(crate) fn drawn(svg: &drawing::svg::Svg) -> Markup {
    PreEscaped(svg.markup().to_owned())
}
