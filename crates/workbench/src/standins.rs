//! Instead of a variety: those of the list most like it, each with its portrait and the reason.

use crate::desk::Desk;
use crate::list::brief;
use crate::page::{self, Place, drawn};
use crate::telling::variety_address;
use crate::trouble::{Trouble, sentence};
use axum::extract::{Path, State};
use drawing::portrait::portrait;
use drawing::scale::Scale;
use house::standins::{self, Alternative, Instead, Known};
use maud::{Markup, html};
use record::language::{Units, counted};

/// Pixels a millimetre of the portraits, all to one scale. A choice of the page.
const SCALE: f64 = 0.72;

/// Shows what to offer instead of one variety.
pub(crate) async fn show(State(desk): State<Desk>, Path(name): Path<String>) -> Result<Markup, Trouble> {
    let (house, instead) = desk.ask(move |house| standins::of(house, &name)).await?;
    let title = format!("Instead of {}", instead.of.variety.name);
    Ok(page::page(&house, Place::List, &title, body(&instead, house.settings.units)))
}

fn body(instead: &Instead, units: Units) -> Markup {
    let name = &instead.of.variety.name;
    html! {
        p.trail { a href="/" { "The list" } " / " a href=(variety_address(name)) { (name) } }
        h1 { "Instead of " (name) }
        @if instead.nearest.is_empty() {
            p { "Nothing can stand in for it: nothing was measured that another variety has too." }
        } @else {
            p {
                "Those of the list that are most like it, nearest first, by weight, colour, habit, shape, days to "
                "ripe fruit, seed chambers, pattern and juice, as far as both were measured."
            }
            h2.unseen { "Nearest first" }
            (rows(&instead.nearest, units))
        }
    }
}

/// The nearest, a row each.
pub(crate) fn rows(nearest: &[Alternative], units: Units) -> Markup {
    html! {
        ul.rows.near {
            @for found in nearest {
                li {
                    div.portrait-room {
                        @if let Some(scale) = Scale::new(SCALE) {
                            (drawn(&portrait(&found.listed.look(), scale, units)))
                        }
                    }
                    div.who {
                        h3 { a href=(variety_address(&found.listed.variety.name)) { (found.listed.variety.name) } }
                        p { (sentence(&found.reason)) }
                        p.basis { (compared(found)) }
                    }
                    (brief::calls(&found.listed))
                }
            }
        }
    }
}

fn compared(found: &Alternative) -> String {
    let traits = counted(u64::try_from(found.compared).unwrap_or(u64::MAX), "trait", "traits");
    let hardly = if found.known == Known::Little { "; it was hardly measured" } else { "" };
    format!("{:.2} apart over {traits}{hardly}", found.distance)
}
