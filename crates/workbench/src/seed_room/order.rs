//! Filling an order: what is wanted, the lots that it comes from, and booking it.

use super::{asked, lot_address, ways};
use crate::desk::{Desk, act};
use crate::fields::{Fields, Sent};
use crate::page::{self, Place, scrolling};
use crate::telling::{encoded, variety_address};
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Query, State};
use axum::response::Redirect;
use house::fault::HouseFault;
use house::folder::House;
use house::lots::fault::SeedRoomFault;
use house::lots::orders::{self, Booking, Doing, Order, Taken};
use house::lots::{packets, telling, typed};
use maud::{Markup, html};
use record::language::counted;
use serde::Deserialize;

/// What stands in the form, and what was just done.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asking {
    wanted: Option<String>,
    of: Option<String>,
    doing: Option<String>,
    whose: Option<String>,
    booked: Option<String>,
}

/// Shows the form, and under it which lots an order would be filled from.
pub(crate) async fn show(State(desk): State<Desk>, Query(asking): Query<Asking>) -> Result<Markup, Trouble> {
    let typed = asking.wanted.clone().filter(|wanted| !wanted.trim().is_empty());
    let (of, doing) = (asking.of.clone(), asking.doing.clone());
    let story = move |house: &House| {
        let Some(wanted) = &typed else { return Ok(None) };
        let told = order(wanted, of.as_deref(), doing.as_deref(), Booking::OnlyTold)
            .map_err(HouseFault::from)
            .and_then(|order| orders::fill(house, &order, asked(house), &act(house, None)));
        match told {
            Err(fault @ (HouseFault::SeedRoom(_) | HouseFault::NoSuchVariety { .. })) => {
                Ok(Some(Err((fault.to_string(), fault.help()))))
            }
            done => done.map(|taken| Some(Ok(taken))),
        }
    };
    let (house, found) = desk.ask(story).await?;
    Ok(page::page(&house, Place::SeedRoom, "Fill an order", body(&asking, found.as_ref())))
}

/// The lots that an order would be filled from, or what is wrong with it and what to do.
type Found = Result<Vec<Taken>, (String, Option<String>)>;

/// Books an order.
pub(crate) async fn fill(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let story = move |house: &House| {
        let order = sent_order(&sent)?;
        let whose = sent.get("whose").map(str::to_owned);
        let taken = orders::fill(house, &order, asked(house), &act(house, whose))?;
        Ok(done(&taken, order.doing))
    };
    let (_, told) = desk.ask(story).await?;
    Ok(Redirect::to(&format!("/seed-room/order?booked={}", encoded(&told))))
}

fn sent_order(sent: &Fields) -> Result<Order, SeedRoomFault> {
    order(sent.whole("wanted").unwrap_or_default(), sent.get("of"), sent.get("doing"), Booking::Booked)
}

fn order(
    wanted: &str,
    of: Option<&str>,
    doing: Option<&str>,
    booking: Booking,
) -> Result<Order, SeedRoomFault> {
    let lines = wanted.lines().map(str::trim).filter(|line| !line.is_empty());
    let of = of.map(str::trim).filter(|mass| !mass.is_empty());
    Ok(Order {
        wanted: lines.map(|line| packets::wanted(line, 1)).collect::<Result<_, _>>()?,
        of: of.map(|mass| typed::mass(mass).and_then(typed::fill)).transpose()?,
        doing: if doing == Some("pack") { Doing::Pack } else { Doing::Sell },
        booking,
    })
}

/// What was booked, in a sentence.
fn done(taken: &[Taken], doing: Doing) -> String {
    let packets = taken.iter().map(|taken| u64::from(taken.packets)).sum();
    let lots: Vec<String> = taken.iter().map(|taken| format!("{} of {}", taken.packets, taken.lot)).collect();
    let did = match doing {
        Doing::Sell => "sold",
        Doing::Pack => "filled out of the jar",
    };
    format!("{} {did}: {}.", counted(packets, "packet", "packets"), lots.join(", "))
}

fn body(asking: &Asking, found: Option<&Found>) -> Markup {
    html! {
        (ways("/seed-room/order"))
        h1 { "Fill an order" }
        @if let Some(booked) = &asking.booked { (page::notice(&html! { p { (booked) } })) }
        p {
            "Packets come from the lot whose test will first be too old, then from the next. Seed under the minimum, untested seed "
            "and seed whose test is too old is passed over. An order is filled whole or not at all."
        }
        (form(asking))
        @match found {
            None => {},
            Some(Err((fault, help))) => div.fault role="alert" { p { (fault) } @if let Some(help) = help { p.help { (help) } } },
            Some(Ok(taken)) => { (told(taken)) (book(asking)) },
        }
        (super::cautions())
    }
}

fn form(asking: &Asking) -> Markup {
    let doing = asking.doing.as_deref().unwrap_or("sell");
    html! {
        form.cells method="get" action="/seed-room/order" {
            label {
                span { "Varieties or lots, one a line, each with its packets" }
                textarea name="wanted" rows="4" maxlength="4000" placeholder="Drip Stone=12" { (asking.wanted.as_deref().unwrap_or_default()) }
            }
            label {
                span { "Seed in each packet; the one size on the shelf if nothing is written" }
                input name="of" value=(asking.of.as_deref().unwrap_or_default()) placeholder="100 mg" autocomplete="off" maxlength="40";
            }
            label {
                span { "What is done" }
                select name="doing" {
                    option value="sell" selected[doing == "sell"] { "Packets on the shelf are sold" }
                    option value="pack" selected[doing == "pack"] { "Packets are filled out of the jar, and stay here" }
                }
            }
            label {
                span { "Whose order, if it should stand with the entries" }
                input name="whose" value=(asking.whose.as_deref().unwrap_or_default()) placeholder="order 118" autocomplete="off" maxlength="200";
            }
            div.acts { button.strong { "Show the lots" } }
        }
    }
}

fn told(taken: &[Taken]) -> Markup {
    let table = html! {
        table {
            caption.unseen { "Where the packets come from" }
            (page::heads(&["Lot", "Variety", "Packets", "Where", "State"]))
            tbody {
                @for one in taken {
                    tr {
                        th scope="row" { a href=(lot_address(&one.lot)) { (one.lot) } }
                        td { a href=(variety_address(&one.variety)) { (one.variety) } }
                        td { (one.packets) " of " (telling::mass(one.fill.each())) }
                        td { (one.location.as_deref().unwrap_or_default()) }
                        td { (one.state) }
                    }
                }
            }
        }
    };
    html! { h2 { "Where the packets come from" } (scrolling("Where the packets come from", &table)) }
}

fn book(asking: &Asking) -> Markup {
    let said = |part: &Option<String>| part.clone().unwrap_or_default();
    html! {
        form.decide method="post" action="/seed-room/order" {
            input type="hidden" name="wanted" value=(said(&asking.wanted));
            input type="hidden" name="of" value=(said(&asking.of));
            input type="hidden" name="doing" value=(said(&asking.doing));
            input type="hidden" name="whose" value=(said(&asking.whose));
            button.strong { "Book it" }
        }
    }
}
