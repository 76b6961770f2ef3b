//! The first walk through the house: a few steps above an empty list, each with the place where it is done.

use crate::desk::Desk;
use crate::list::call_button;
use crate::trouble::Trouble;
use axum::extract::State;
use axum::response::Redirect;
use house::first_steps::{self, FirstStep, FirstSteps};
use maud::{Markup, html};

/// Puts the walk away.
pub(crate) async fn put_away(State(desk): State<Desk>) -> Result<Redirect, Trouble> {
    desk.ask(first_steps::put_away).await?;
    Ok(Redirect::to("/"))
}

/// The steps: those that are done in a line each, the next with how it is done.
pub(crate) fn walk(steps: &FirstSteps) -> Markup {
    html! {
        section.first-steps aria-labelledby="first-steps" {
            h2 #first-steps { "First steps" }
            p { "A new house begins here. Its name and its units are under " a href="/settings" { "Settings" } "." }
            ol {
                @for step in FirstStep::ALL {
                    @if steps.is_done(step) {
                        li.done { (step.what()) ": " strong { "done" } }
                    } @else if steps.next() == Some(step) {
                        li.next aria-current="step" {
                            strong { (step.what()) }
                            p { (step.how()) }
                            (way(step))
                        }
                    } @else {
                        li { (step.what()) }
                    }
                }
            }
            form method="post" action="/first-steps/put-away" { button { "Put these steps away" } }
        }
    }
}

/// Where a step is done.
fn way(step: FirstStep) -> Markup {
    let bring_in = html! { a href="/bring-in" { "Bring in" } };
    html! {
        @match step {
            FirstStep::Names | FirstStep::Fruit | FirstStep::Plants => p { (bring_in) },
            FirstStep::Beds => p { a href="/grow-outs/new" { "Lay out a grow-out" } ", or " (bring_in) " a table of beds" },
            FirstStep::Calls => (call_button()),
            FirstStep::Catalogue => p { a href="/print/proof" { "Read the proof sheet" } ", then " a href="/print" { "print" } },
        }
    }
}
