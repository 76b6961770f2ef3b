//! The rogue list: plants that do not fit their variety, with the lots of seed that they concern.

use super::{lot_address, ways};
use crate::desk::Desk;
use crate::page::{self, Place, scrolling};
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
            (scrolling("Rogue list", &table(&found)))
        }
        p.help { (telling::NOTICE) }
    };
    Ok(page::page(&house, Place::SeedRoom, "Rogue list", body))
}

fn table(found: &[Suspect]) -> Markup {
    html! {
        table {
            caption.unseen { "Rogue list" }
            (page::heads(&["Variety", "Where", "Why", "Lots"]))
            tbody {
                @for suspect in found {
                    tr {
                        th scope="row" { a href=(variety_address(&suspect.variety)) { (suspect.variety) } }
                        td { (capitalised(&telling::place(suspect))) }
                        td { (capitalised(&telling::why(suspect))) "." }
                        td { (lots("Taken there", &suspect.gave)) (lots("Sown there", &suspect.grew_from)) }
                    }
                }
            }
        }
    }
}

fn lots(words: &str, numbers: &[String]) -> Markup {
    html! {
        @if !numbers.is_empty() {
            span.help { (words) ": " @for number in numbers { a href=(lot_address(number)) { (number) } " " } }
        }
    }
}
