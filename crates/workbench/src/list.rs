//! The list: the bench, the filters, and a row for every variety with its three calls.

use crate::desk::Desk;
use crate::page::{self, Place};
use crate::telling::{count, variety_address};
use crate::trouble::Trouble;
use axum::extract::{Query, State};
use axum::response::Redirect;
use house::calls;
use house::folder::House;
use house::list::{self, Freshness, List, Listed};
use house::progress::Unwatched;
use maud::{Markup, html};
use record::language::{Units, counted, mass_briefly};
use record::mass::Grams;

pub(crate) mod bench;
pub(crate) mod brief;
pub(crate) mod filter;
pub(crate) mod portraits;

use filter::Asked;

/// Shows the list as it was asked for.
pub(crate) async fn show(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let filter = asked.filter();
    let (house, list) = desk.ask(move |house| list::list(house, &filter)).await?;
    Ok(page::page(&house, Place::List, "The list", body(&house, &asked, &list)))
}

/// Shows the same varieties on the bench.
pub(crate) async fn on_the_bench(
    State(desk): State<Desk>,
    Query(asked): Query<Asked>,
) -> Result<Markup, Trouble> {
    let filter = asked.filter();
    let (house, list) = desk.ask(move |house| list::list(house, &filter)).await?;
    let body = html! {
        h1 { "The list" }
        (filter::form(&asked, &list))
        p.count { (shown(&list)) }
        @if list.varieties.is_empty() { (nothing(&list)) } @else { (bench::of(&asked, &list, house.settings.units)) }
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
        h1 { "The list" }
        @if let Some(called) = asked.called {
            (page::notice(&html! { p { (counted(called, "variety", "varieties")) " called." } }))
        }
        (old_calls(list))
        (filter::form(asked, list))
        p.count aria-live="polite" { (shown(list)) }
        @if list.varieties.is_empty() {
            (nothing(list))
        } @else {
            (bench::ways(&asked.address(), bench::View::Rows))
            (rows(&list.varieties, units))
        }
    }
}

fn shown(list: &List) -> String {
    let (shown, of) = (count(list.varieties.len()), count(list.of));
    let contested = count(list.varieties.iter().filter(|listed| listed.is_contested()).count());
    let contested = match contested {
        0 => String::new(),
        all if all == shown => ", each with a contested call".to_owned(),
        some => format!(", {some} with a contested call"),
    };
    if shown == of {
        format!("{}{contested}", counted(shown, "variety", "varieties"))
    } else {
        format!("{shown} of {}{contested}", counted(of, "variety", "varieties"))
    }
}

fn nothing(list: &List) -> Markup {
    html! {
        @if list.of == 0 {
            p { "The house has no varieties yet. " a href="/bring-in" { "Bring in" } " a table of names to begin." }
        } @else {
            p { "No variety fits. " a href="/" { "Show the whole list" } "." }
        }
    }
}

/// Says when calls rest on evidence or guides that have changed since.
fn old_calls(list: &List) -> Markup {
    let has = |freshness| list.varieties.iter().filter(|listed| listed.freshness == freshness).count();
    let (old, never) = (count(has(Freshness::Old)), count(has(Freshness::NotCalled)));
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
