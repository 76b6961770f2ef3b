//! The rogue list: plants that do not fit their variety, with the lots of seed that they concern.

use super::{lot_address, ways};
use crate::desk::Desk;
use crate::page::{self, Place};
use crate::telling::{count, variety_address};
use crate::trouble::Trouble;
use axum::extract::State;
use house::rogues::{self, Suspect, telling};
use maud::{Markup, html};
use record::language::{capitalised, counted};

/// Shows the list.
pub(crate) async fn show(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, found) = desk.ask(rogues::list).await?;
    let body = html! {
        (ways("/seed-room/rogues"))
        h1 { "Rogue list" }
        p {
            "Plants with an off-type noted on a walk, with fruit unlike their variety's or unlike the plants beside them, and plants "
            "of a grow-out that fall into two kinds."
        }
        @if found.is_empty() {
            p { "No plant was seen or measured that does not fit its variety." }
        } @else {
            p.count { (counted(count(found.len()), "place to look at", "places to look at")) }
            (list(&found))
        }
        p.help { (telling::NOTICE) }
    };
    Ok(page::page(&house, Place::SeedRoom, "Rogue list", body))
}

/// The list by season and variety: a line a place, so that it reads on a phone beside the bed.
fn list(found: &[Suspect]) -> Markup {
    html! {
        @for season in found.chunk_by(|one, next| one.season == next.season) {
            @if let Some(first) = season.first() { h2 { "Season " (first.season) } }
            ul { @for variety in season.chunk_by(|one, next| one.variety == next.variety) { (of_variety(variety)) } }
        }
    }
}

fn of_variety(found: &[Suspect]) -> Markup {
    html! {
        @if let Some(first) = found.first() {
            li {
                strong { a href=(variety_address(&first.variety)) { (first.variety) } }
                ul {
                    @for suspect in found {
                        li {
                            (capitalised(&telling::place(suspect))) ": " (telling::why(suspect)) "."
                            (lots("Seed taken there", &suspect.gave)) (lots("Sown there", &suspect.grew_from))
                        }
                    }
                }
            }
        }
    }
}

fn lots(words: &str, numbers: &[String]) -> Markup {
    html! {
        @if !numbers.is_empty() {
            span.help { (words) ": lot " @for number in numbers { a href=(lot_address(number)) { (number) } " " } }
        }
    }
}
