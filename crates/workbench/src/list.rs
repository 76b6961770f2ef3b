//! The list: asked in plain words or by filters; row by row, as a table or on the bench.

use crate::desk::Desk;
use crate::first_steps;
use crate::page::{self, Place};
use crate::pager;
use crate::telling::variety_address;
use crate::trouble::Trouble;
use axum::extract::{Query, State};
use axum::response::Redirect;
use bench::View;
use house::calls;
use house::folder::House;
use house::list::filter::{Filter, Showing};
use house::list::{List, Listed};
use house::progress::Unwatched;
use maud::{Markup, html};
use record::language::{Units, counted, grouped, mass_briefly};
use record::mass::Grams;

pub(crate) mod bench;
pub(crate) mod brief;
mod counts;
pub(crate) mod exports;
pub(crate) mod filter;
pub(crate) mod portraits;
mod table;

use filter::Asked;

/// Shows the list as it was asked for.
pub(crate) async fn show(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let filter = asked.filter()?;
    let (house, list) = desk.list(filter).await?;
    Ok(page::page(&house, Place::List, "The list", body(&house, &asked, &list)))
}

/// Shows the same varieties on the bench.
pub(crate) async fn on_the_bench(
    State(desk): State<Desk>,
    Query(asked): Query<Asked>,
) -> Result<Markup, Trouble> {
    let filter = Filter { showing: Showing::Bench, ..asked.filter()? };
    let (house, list) = desk.list(filter).await?;
    let body = html! {
        (page::list_ways("/"))
        h1 { "The list" }
        (filter::form(&asked, &list))
        p.count { (shown(&list)) }
        @if list.fitting == 0 {
            (nothing(&list))
        } @else {
            (bench::ways(&asked, View::Bench))
            @if list.cells.is_empty() {
                (bench::of(&asked, &list, house.settings.units))
            } @else {
                (counts::of(&asked, &list))
            }
        }
    };
    Ok(page::page(&house, Place::List, "The bench", body))
}

/// Calls every variety again, by the evidence and guides as they stand.
pub(crate) async fn call_again(State(desk): State<Desk>) -> Result<Redirect, Trouble> {
    let (_, calls) = desk.ask(|house| calls::call_all(house, &Unwatched)).await?;
    Ok(Redirect::to(&format!("/?called={}", calls.len())))
}

fn body(house: &House, asked: &Asked, list: &List) -> Markup {
    let units = house.settings.units;
    html! {
        (page::list_ways("/"))
        h1 { "The list" }
        @if let Some(called) = asked.called {
            (page::notice(&html! { p { (counted(called, "variety", "varieties")) " called." } }))
        }
        @if let Some(steps) = &list.first_steps { (first_steps::walk(steps)) }
        (old_calls(list))
        (filter::form(asked, list))
        p.count aria-live="polite" { (shown(list)) }
        @if list.fitting == 0 {
            (nothing(list))
        } @else {
            @let view = if asked.is_table() { View::Table } else { View::Rows };
            (bench::ways(asked, view))
            @match view {
                View::Table => (table::of(asked, &list.varieties, units)),
                _ => (rows(&list.varieties, units)),
            }
            (pager::links("the list", list.page as usize, list.pages as usize, |page| {
                asked.address_with("/", &[("page", page.to_string())])
            }))
            (exports::ways(asked))
        }
    }
}

fn shown(list: &List) -> String {
    let contested = match list.contested {
        0 => String::new(),
        all if all == list.fitting => ", each with a contested call".to_owned(),
        some => format!(", {} with a contested call", grouped(some)),
    };
    if list.fitting == list.of {
        format!("{}{contested}", counted(list.of, "variety", "varieties"))
    } else {
        format!("{} of {}{contested}", grouped(list.fitting), counted(list.of, "variety", "varieties"))
    }
}

fn nothing(list: &List) -> Markup {
    html! {
        @if list.of == 0 {
            p { "The house has no varieties yet. " a href="/bring-in" { "Bring in" } " a table of names to begin." }
        } @else {
            p { "No variety fits. " a href="/" { "Show the whole list" } "." }
            @if !list.to_drop.is_empty() {
                p { "Leave one of these out to find something:" }
                ul.to-drop {
                    @for drop in &list.to_drop {
                        li { b { (drop.want) } ": then " (counted(drop.fitting, "variety fits", "varieties fit")) }
                    }
                }
            }
        }
    }
}

/// Says when calls rest on evidence or guides that have changed since.
fn old_calls(list: &List) -> Markup {
    let (old, never) = (list.old, list.not_called);
    html! {
        @if 0 < old + never || !list.edited_guides.is_empty() {
            div.notice {
                @if 0 < old {
                    p {
                        "The calls of " (counted(old, "variety", "varieties"))
                        " were made before the evidence or a guide last changed."
                    }
                }
                @if 0 < never { p { (counted(never, "variety has", "varieties have")) " not been called yet." } }
                @if 0 < old + never { (call_button()) }
                @for guide in &list.edited_guides {
                    p {
                        "guides/" (guide) " was edited and is not accepted: "
                        a href=(format!("/guides/{}", guide.trim_end_matches(".toml"))) { "see what would move" } "."
                    }
                }
            }
        }
    }
}

/// The button that calls again.
pub(crate) fn call_button() -> Markup {
    html! { form method="post" action="/call" { button.strong { "Call again" } } }
}

fn rows(varieties: &[Listed], units: Units) -> Markup {
    html! {
        h2.unseen { "Every variety" }
        div.heads aria-hidden="true" { span {} span {} span { i { "Habit" } i { "Fruit class" } i { "Colour" } } }
        ul.rows {
            @for listed in varieties {
                li {
                    div.portrait-room { (portraits::small(listed, units)) }
                    div.who {
                        h3 { a href=(variety_address(&listed.variety.name)) { (listed.variety.name) } }
                        @if !listed.variety.aliases.is_empty() {
                            p.also { "also " (listed.variety.aliases.join(", ")) }
                        }
                        @if let Some(weight) = usual_weight(listed, units) { p.weight { (weight) " a fruit" } }
                    }
                    (brief::calls(listed))
                }
            }
        }
    }
}

fn usual_weight(listed: &Listed, units: Units) -> Option<String> {
    let weight = listed.fruit.as_ref()?.facts.weight_g?;
    Grams::new(weight.usual).map(|grams| mass_briefly(grams, units))
}
