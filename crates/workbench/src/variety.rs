//! A variety's page: what it is, how sure that is and why, and every record behind it.

use crate::desk::Desk;
use crate::growouts::grow_out_address;
use crate::list::{brief, call_button};
use crate::page::{self, Place};
use crate::pager::Pager;
use crate::records::table::{self, Plots};
use crate::telling::{count, instead_address, ripening_address, variety_address};
use crate::trouble::Trouble;
use axum::extract::{Path, Query, State};
use drawing::portrait::fitted;
use drawing::scale::Pixels;
use house::doubts::Recorded;
use house::folder::House;
use house::list::{Freshness, Listed};
use house::show::{self, Shown};
use maud::{Markup, html};
use record::language::counted;
use record::telling::kind;
use serde::Deserialize;

pub(crate) mod call;
mod claims;
mod codings;
mod measures;
pub(crate) mod strips;

/// What the address asks for beside the name.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    records: Option<String>,
    page: Option<usize>,
    did: Option<String>,
}

/// Shows one variety.
pub(crate) async fn show(
    State(desk): State<Desk>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Result<Markup, Trouble> {
    let (house, shown) = desk.ask(move |house| show::show(house, &name)).await?;
    let title = shown.listed.variety.name.clone();
    Ok(page::page(&house, Place::List, &title, body(&house, &asked, &shown)))
}

fn body(house: &House, asked: &Asked, shown: &Shown) -> Markup {
    let (listed, units) = (&shown.listed, house.settings.units);
    html! {
        p.trail { a href="/" { "The list" } }
        (crate::records::done(asked.did.as_deref()))
        (old(listed))
        article.variety {
            (head(house, listed))
            div.why {
                @for (about, kept) in listed.calls() { (call::section(about, kept)) }
                (call::colour_parts(listed.colour.as_ref()))
            }
            (call::marks_and_unlike(listed.fruit.as_ref(), &shown.plots))
            (measures::section(listed.fruit.as_ref(), units))
            (strips::section(&shown.strips))
            (claims::section(shown, units))
            (trials(&shown.trials, &shown.bore))
            (codings::section(&shown.codings))
            (records(house, asked, shown))
        }
    }
}

/// Where it was compared with others.
fn trials(trials: &[String], bore: &[String]) -> Markup {
    html! {
        @if !trials.is_empty() {
            section aria-labelledby="trials" {
                h2 #trials { "How it bore" }
                @if bore.is_empty() {
                    p { "It was not told from the check in what a plant yields." }
                } @else {
                    ul { @for words in bore { li { (words) } } }
                }
                p {
                    "Compared with others, plot by plot: "
                    @for (place, trial) in trials.iter().enumerate() {
                        @if 0 < place { ", " }
                        a href={ (grow_out_address(trial)) "/results" } { (trial) }
                    }
                    "."
                }
            }
        }
    }
}

fn head(house: &House, listed: &Listed) -> Markup {
    let (wide, high) = (Pixels::from(320), Pixels::from(230));
    html! {
        header.variety-head {
            div {
                h1 { (listed.variety.name) }
                @if !listed.variety.aliases.is_empty() { p.also { "also " (listed.variety.aliases.join(", ")) } }
                (brief::calls(listed))
                p { a href=(instead_address(&listed.variety.name)) { "Instead of it: what is most like it" } }
                p { a href=(ripening_address(&listed.variety.name)) { "When it ripens" } }
            }
            figure.portrait-large {
                (page::drawn(&fitted(&listed.look(), wide, high, house.settings.units)))
            }
        }
    }
}

fn old(listed: &Listed) -> Markup {
    html! {
        @match listed.freshness {
            Freshness::Fresh => {},
            Freshness::Old => div.notice {
                p { "These calls were made before the evidence or a guide last changed." }
                (call_button())
            },
            Freshness::NotCalled => div.notice {
                p { "This variety has not been called yet." }
                (call_button())
            },
        }
    }
}

/// Kinds of record, with the words for them and what rests on them.
const KINDS: [(&str, &str, &str); 5] = [
    ("fruit", "Fruit", "Fruit class rests on these, and colour on the words in them."),
    ("pick", "Picks", "Habit rests on these: they tell how long the ripening was spread."),
    ("height", "Heights", "Habit rests on these: they tell whether the plant levelled off."),
    ("stage", "Walk notes", "Habit rests on these: they tell what the main stem did."),
    ("colour", "Colours", "Colour rests on these."),
];

fn records(house: &House, asked: &Asked, shown: &Shown) -> Markup {
    let wanted = asked.records.as_deref().filter(|wanted| KINDS.iter().any(|(name, ..)| name == wanted));
    let fits = |recorded: &&Recorded| wanted.is_none_or(|wanted| kind(&recorded.note) == wanted);
    let own: Vec<_> = shown.records.iter().filter(fits).collect();
    let address = variety_address(&shown.listed.variety.name);
    let here = |page: usize| {
        let records = wanted.map(|wanted| format!("records={wanted}&")).unwrap_or_default();
        format!("{address}?{records}page={page}#records")
    };
    let pager = Pager::of(asked.page, own.len());
    let plots = Plots(&shown.plots);
    html! {
        section aria-labelledby="records" {
            h2 #records { "The records behind it" }
            (kinds(shown, &address, wanted))
            @for (_, _, rests) in KINDS.iter().filter(|(name, ..)| Some(*name) == wanted) { p { (rests) } }
            @if own.is_empty() {
                p { "There are none." }
            } @else {
                (table::form(pager.rows(&own), &plots, house.settings.units, &here(asked.page.unwrap_or(1))))
                (pager.links("records", here))
            }
        }
    }
}

fn kinds(shown: &Shown, address: &str, wanted: Option<&str>) -> Markup {
    let of = |name: &str| count(shown.records.iter().filter(|recorded| kind(&recorded.note) == name).count());
    html! {
        nav.within aria-label="Kinds of record" {
            ul {
                li {
                    a href=(format!("{address}#records")) aria-current=[wanted.is_none().then_some("true")] {
                        (counted(count(shown.records.len()), "record", "records"))
                    }
                }
                @for (name, words, _) in KINDS.iter().filter(|(name, ..)| 0 < of(name)) {
                    li {
                        a href=(format!("{address}?records={name}#records"))
                            aria-current=[(wanted == Some(*name)).then_some("true")] { (words) " " (of(name)) }
                    }
                }
            }
        }
    }
}
