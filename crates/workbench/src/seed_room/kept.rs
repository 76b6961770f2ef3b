//! Samples and records: which file samples and records are kept, and from when they may go.

use super::{asked, lot_address, ways};
use crate::desk::Desk;
use crate::page::{self, Place};
use crate::telling::variety_address;
use crate::trouble::Trouble;
use axum::extract::State;
use house::lots::telling::keepsakes;
use house::lots::{LotSeen, kept};
use jiff::civil::Date;
use maud::{Markup, html};
use record::language::capitalised;

/// Shows what is kept.
pub(crate) async fn show(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, found) = desk.ask(|house| kept::kept(house, asked(house))).await?;
    let today = asked(&house).today;
    let body = html! {
        (ways("/seed-room/kept"))
        h1 { "Samples and records" }
        p {
            "The law has the record of a lot kept for 3 years, and its file sample until a year after the last of the lot is gone "
            "(7 CFR 201.4, edition of 2015; your state may ask for more). Seed is moved into the file sample, and out of it to "
            "be thrown away, on the lot's own page."
        }
        @if found.lots.is_empty() {
            p { "No file sample is kept, and no lot is gone." }
        } @else {
            (list(&found.lots, today))
        }
    };
    Ok(page::page(&house, Place::SeedRoom, "Samples and records", body))
}

fn list(lots: &[LotSeen], today: Date) -> Markup {
    html! {
        ul {
            @for seen in lots {
                li {
                    strong { a href=(lot_address(&seen.lot.number)) { (seen.lot.number) } }
                    " " a href=(variety_address(&seen.variety)) { (seen.variety) }
                    ul {
                        li { (capitalised(&keepsakes::sample(&seen.account.keepsakes.sample))) "." }
                        li { (capitalised(&keepsakes::until(&seen.account.keepsakes, today))) "." }
                    }
                }
            }
        }
    }
}
