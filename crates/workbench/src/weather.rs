//! Weather: the stations whose days the house keeps, and taking a record out of use or back.

use crate::desk::{Desk, act};
use crate::fields::Sent;
use crate::page::{self, Place, scrolling};
use crate::telling::{count, moment};
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Query, State};
use axum::response::Redirect;
use house::folder::House;
use house::weather::kept::{self, Counts, Holds, Listed, Station, normals_named};
use maud::{Markup, html};
use record::language::{capitalised, counted};
use serde::Deserialize;

/// What was just done, as the address tells it.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asked {
    did: Option<Did>,
}

/// What was just done.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Did {
    Withdrawn,
    Restored,
}

/// Lists the records.
pub(crate) async fn all(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let (house, records) = desk.ask(kept::list).await?;
    Ok(page::page(&house, Place::BringIn, "Weather", body(&asked, &records)))
}

fn body(asked: &Asked, records: &[Listed]) -> Markup {
    html! {
        (page::bring_in_ways("/weather"))
        h1 { "Weather" }
        @match asked.did {
            Some(Did::Withdrawn) => (page::notice(&html! { p { "Withdrawn. The record stays here and can be restored." } })),
            Some(Did::Restored) => (page::notice(&html! { p { "Restored." } })),
            None => {}
        }
        p {
            "Days of weather stations and their climate normals, as their files told them. Of each station the newest record of a kind "
            "counts: frosts and the warmth that ripening goes by come from its days; where none are kept, from years drawn by "
            "its monthly or daily normals, and from their freeze dates."
        }
        @if records.is_empty() {
            p { "No weather is kept yet. " a href="/bring-in" { "Bring a station's file in" } "." }
        } @else {
            p.count { (counted(count(records.len()), "record", "records")) }
            (scrolling("Weather records", &rows(records)))
        }
    }
}

fn rows(records: &[Listed]) -> Markup {
    html! {
        table.history {
            caption.unseen { "Weather records, by station and the newest first" }
            (page::heads(&["Station", "Days", "From", "When and who", "State", "Do"]))
            tbody {
                @for record in records {
                    tr.over[record.counts != Counts::Yes] {
                        th scope="row" { (station(&record.station)) }
                        td {
                            @match record.holds {
                                Holds::Days { first, last, whole } => {
                                    (first) " to " (last)
                                    span.help {
                                        (counted(record.holds.day_count(), "day", "days")) ", "
                                        (record.holds.day_count().saturating_sub(whole)) " missing a temperature"
                                    }
                                }
                                Holds::Normals(normals) => (capitalised(normals_named(normals))),
                            }
                        }
                        td { (record.file) }
                        td { time { (moment(record.at)) } br; (record.who) }
                        td { (state(record.counts)) }
                        td { (turn(record, records)) }
                    }
                }
            }
        }
    }
}

fn station(station: &Station) -> Markup {
    let place = &station.place;
    html! {
        (station.identifier)
        @if let Some(name) = &station.name { span.help { (name) } }
        @if let Some((north, east)) = place.latitude.zip(place.longitude) {
            span.help { "latitude " (north.get()) ", longitude " (east.get()) }
        }
        @if let Some(up) = place.elevation { span.help { (format!("{:.0} m up", up.get())) } }
    }
}

fn state(counts: Counts) -> &'static str {
    match counts {
        Counts::Yes => "counts",
        Counts::Replaced => "a newer one counts",
        Counts::Withdrawn => "withdrawn",
    }
}

/// Whether a record is the only one of its station that is withdrawn, so that restoring means no other.
fn is_only_withdrawn(record: &Listed, records: &[Listed]) -> bool {
    let withdrawn = records.iter().filter(|other| other.counts == Counts::Withdrawn);
    let own = withdrawn.filter(|other| other.station.identifier == record.station.identifier);
    record.counts == Counts::Withdrawn && own.count() == 1
}

/// The button that takes the record that counts out of use, or brings the one withdrawn record of a station back.
fn turn(record: &Listed, records: &[Listed]) -> Markup {
    let (word, label) = match record.counts {
        Counts::Yes => ("withdraw", "Withdraw"),
        Counts::Withdrawn if is_only_withdrawn(record, records) => ("restore", "Restore"),
        Counts::Withdrawn | Counts::Replaced => return html! {},
    };
    let name = &record.station.identifier;
    html! {
        form method="post" action="/weather" {
            input type="hidden" name="station" value=(name);
            button name="do" value=(word) aria-label=(format!("{label} the record of {name}")) { (label) }
        }
    }
}

/// Withdraws or restores a record.
pub(crate) async fn decide(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let named = sent.get("station").unwrap_or_default().to_owned();
    let restores = sent.get("do") == Some("restore");
    let story = move |house: &House| {
        let act = act(house, None);
        if restores { kept::restore(house, &named, &act) } else { kept::withdraw(house, &named, &act) }
    };
    desk.ask(story).await?;
    Ok(Redirect::to(if restores { "/weather?did=restored" } else { "/weather?did=withdrawn" }))
}
