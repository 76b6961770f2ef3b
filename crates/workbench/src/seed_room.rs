//! The seed room: what is known that bears on saving seed, and what lots would need.

use crate::desk::Desk;
use crate::page::{self, Place};
use crate::telling::{count, variety_address};
use crate::trouble::Trouble;
use axum::extract::State;
use house::list::filter::Filter;
use house::list::{self, Listed};
use maud::{Markup, html};
use record::language::counted;

/// Shows the seed room.
pub(crate) async fn show(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, list) = desk.ask(|house| list::list(house, &Filter::default())).await?;
    Ok(page::page(&house, Place::SeedRoom, "Seed room", body(&list.varieties)))
}

fn body(varieties: &[Listed]) -> Markup {
    let unlike: Vec<&Listed> = varieties.iter().filter(|listed| does_not_fit(listed)).collect();
    html! {
        h1 { "Seed room" }
        p {
            "This house keeps no lots of seed in its ledger. A lot needs the grow-out and plants that it was saved "
            "from, the day it was harvested, its weight or count, and each germination test with its seeds and "
            "sprouts; from these follow its age, its judgement against the law's minimum, and what a packet may say."
        }
        h2 { "What the notes say to whoever saves seed" }
        @if unlike.is_empty() {
            @let all = counted(count(varieties.len()), "variety", "varieties");
            p { "No plant's fruit was found unlike its variety in " (all) "." }
        } @else {
            p { "Do not save seed from these before the plant, the stake and the notes have been looked at:" }
            ul {
                @for listed in unlike {
                    li {
                        a href=(format!("{}#unlike", variety_address(&listed.variety.name))) { (listed.variety.name) }
                        ": " (places(listed)) " with fruit that does not fit"
                    }
                }
            }
        }
    }
}

fn does_not_fit(listed: &Listed) -> bool {
    listed.fruit.as_ref().is_some_and(|fruit| !fruit.unlike.is_empty())
}

fn places(listed: &Listed) -> String {
    let unlike = listed.fruit.as_ref().map(|fruit| fruit.unlike.len()).unwrap_or_default();
    counted(count(unlike), "plant or plot", "plants or plots")
}
