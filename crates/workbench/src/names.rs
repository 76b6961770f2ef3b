//! Names that no variety has: how many rows wait for each, and accepting one as another name of a variety.

use crate::desk::Desk;
use crate::fields::Sent;
use crate::page::{self, Place};
use crate::quarantine;
use crate::telling::count;
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Query, State};
use axum::response::Redirect;
use house::list;
use house::names::{self, UnknownName};
use maud::{Markup, html};
use record::language::counted;
use record::variety::Variety;
use serde::Deserialize;

/// What was just done.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Did {
    taken: Option<u64>,
}

/// Lists the unknown names.
pub(crate) async fn all(State(desk): State<Desk>, Query(did): Query<Did>) -> Result<Markup, Trouble> {
    let (house, (unknown, varieties)) =
        desk.ask(|house| Ok((names::unknown(house)?, list::names(house)?))).await?;
    Ok(page::page(&house, Place::BringIn, "Unknown names", body(&did, &unknown, &varieties)))
}

/// Accepts a name as another name of a variety, and takes the rows that waited for it.
pub(crate) async fn accept(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let wanted = |name| sent.get(name).map(str::to_owned);
    let (Some(name), Some(variety)) = (wanted("name"), wanted("variety")) else {
        return Err(Trouble::user(
            "the form names no variety",
            "write the name of the variety that is meant",
        ));
    };
    let accepted = move |house: &_| names::accept(house, &name, &variety, &quarantine::now(house));
    let (_, taken) = desk.ask(accepted).await?;
    Ok(Redirect::to(&format!("/names?taken={}", taken.solved)))
}

fn body(did: &Did, unknown: &[UnknownName], varieties: &[Variety]) -> Markup {
    html! {
        (page::bring_in_ways("/names"))
        h1 { "Unknown names" }
        @if let Some(taken) = did.taken {
            (page::notice(&html! {
                p {
                    "The name is accepted, and "
                    (counted(taken, "row that waited for it was", "rows that waited for it were")) " taken."
                }
            }))
        }
        p {
            "Rows wait for these names. Likeness alone never merges two names: say which variety is meant, or "
            "bring in a table that adds the variety."
        }
        @if unknown.is_empty() {
            p { "Every name is known." }
        } @else {
            p.count { (counted(count(unknown.len()), "name", "names")) }
            datalist #varieties { @for variety in varieties { option value=(variety.name) {} } }
            ul.names { @for one in unknown { li { (form(one)) } } }
        }
    }
}

fn form(unknown: &UnknownName) -> Markup {
    html! {
        form method="post" action="/names" {
            input type="hidden" name="name" value=(unknown.name);
            p.unknown { b { (unknown.name) } span { (counted(unknown.rows, "row", "rows")) } }
            label {
                span { "is another name of" @if unknown.nearest.is_some() { " (the nearest spelling)" } }
                input name="variety" list="varieties" value=[unknown.nearest.as_deref()] required maxlength="200"
                    autocomplete="off" aria-label=(format!("{} is another name of", unknown.name));
            }
            button aria-label=(format!("Accept {} as another name", unknown.name)) { "Accept" }
        }
    }
}
