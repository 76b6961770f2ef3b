//! Doubts: records that are set aside until somebody has looked at them.

use crate::desk::Desk;
use crate::page::{self, Place, scrolling};
use crate::pager::Pager;
use crate::records::{self, table};
use crate::telling::{count, variety_address};
use crate::trouble::Trouble;
use axum::extract::{Query, State};
use house::doubts::{self, Recorded};
use house::folder::House;
use maud::{Markup, html};
use record::language::counted;
use record::telling;
use serde::Deserialize;

/// What the address asks for.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asked {
    page: Option<usize>,
    did: Option<String>,
}

/// Lists the doubted records.
pub(crate) async fn all(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let (house, doubted) = desk.ask(doubts::doubted).await?;
    Ok(page::page(&house, Place::BringIn, "Doubts", body(&house, &asked, &doubted)))
}

fn body(house: &House, asked: &Asked, doubted: &[(String, Recorded)]) -> Markup {
    let pager = Pager::of(asked.page, doubted.len());
    let back = format!("/doubts?page={}", asked.page.unwrap_or(1));
    html! {
        (page::bring_in_ways("/doubts"))
        h1 { "Doubts" }
        (records::done(asked.did.as_deref()))
        p {
            "These records were taken in and look wrong, so no call rests on them. Confirm those that are right; "
            "withdraw those that are wrong, or open one to correct it."
        }
        @if doubted.is_empty() {
            p { "Nothing is in doubt." }
        } @else {
            p.count { (counted(count(doubted.len()), "record", "records")) " set aside" }
            form method="post" action="/records" {
                input type="hidden" name="back" value=(back);
                (scrolling("Doubted records", &rows(house, pager.rows(doubted))))
                (table::buttons())
            }
            (pager.links("doubted records", |page| format!("/doubts?page={page}")))
        }
    }
}

fn rows(house: &House, doubted: &[(String, Recorded)]) -> Markup {
    html! {
        table.records {
            caption.unseen { "Doubted records" }
            (page::heads(&["Tick", "Variety", "What it says", "Why it is doubted", "Day", "From"]))
            tbody {
                @for (name, recorded) in doubted {
                    @let says = telling::note(&recorded.note, house.settings.units);
                    tr {
                        td { (table::tick(recorded, &format!("{name}, {says}"))) }
                        th scope="row" { a href=(variety_address(name)) { (name) } }
                        td { a href=(format!("/record/{}", recorded.id)) { (says) } }
                        td { @for doubt in &recorded.doubts { span.doubt { (doubt.words) } } }
                        td.day { (table::day(recorded)) }
                        td { (table::from(&recorded.from)) }
                    }
                }
            }
        }
    }
}
