//! Single records: confirming, withdrawing and correcting them, and all that happened to one.

use crate::desk::{Desk, act};
use crate::fields::{Fields, Sent};
use crate::page::{self, Place};
use crate::telling::{count, moment, variety_address};
use crate::trouble::{Trouble, sentence};
use axum::Form;
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use house::correct::{self, Value};
use house::doubts::{self, Happened, Happening, RecordState, Recorded};
use house::folder::House;
use house::list;
use house::quarantine::{Mending, NewValue};
use jiff::{Timestamp, ZonedDateTime};
use maud::{Markup, html};
use record::id::Id;
use record::language::counted;
use record::note::Note;
use record::telling;
use serde::Deserialize;

pub(crate) mod table;

/// What was just done to a record.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Did {
    did: Option<String>,
}

/// Tells what was just done to records.
pub(crate) fn done(did: Option<&str>) -> Markup {
    let words = match did {
        Some("confirmed") => "Confirmed: the records count from now on.",
        Some("withdrawn") => "Withdrawn: the records no longer count. The history can undo it.",
        Some("corrected") => "Corrected: this record stands in the old one's place. The history can undo it.",
        Some("nothing") => "No record was ticked, so nothing was done.",
        _ => return html! {},
    };
    page::notice(&html! { p { (words) } })
}

/// Confirms or withdraws the records that were ticked.
pub(crate) async fn decide(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let records: Vec<Id<Note>> = sent.every("record").map(id).collect::<Result<_, _>>()?;
    let back = sent.get("back").filter(|back| is_own(back)).unwrap_or("/doubts").to_owned();
    if records.is_empty() {
        return Ok(Redirect::to(&with_did(&back, "nothing")));
    }
    let why = sent.get("why").map(str::to_owned);
    let did = match sent.get("do") {
        Some("confirm") => {
            desk.ask(move |house| doubts::confirm(house, &act(house, why), &records)).await?;
            "confirmed"
        }
        Some("withdraw") => {
            desk.ask(move |house| doubts::withdraw(house, &act(house, why), &records)).await?;
            "withdrawn"
        }
        _ => {
            return Err(Trouble::user(
                "the form says neither confirm nor withdraw",
                "go back and press a button",
            ));
        }
    };
    Ok(Redirect::to(&with_did(&back, did)))
}

/// Whether a way back leads to a page of the workbench.
fn is_own(back: &str) -> bool {
    back.starts_with('/') && !back.starts_with("//") && !back.contains(['\\', '\r', '\n'])
}

fn with_did(back: &str, did: &str) -> String {
    let (path, place) =
        back.split_once('#').map_or((back, String::new()), |(path, place)| (path, format!("#{place}")));
    let (page, asked) = path.split_once('?').unwrap_or((path, ""));
    let kept = asked.split('&').filter(|part| !part.is_empty() && !part.starts_with("did="));
    let asked: Vec<&str> = kept.collect();
    let and = if asked.is_empty() { "" } else { "&" };
    // What was done is told at the top of the page, so the way back leads there.
    let _ = place;
    format!("{page}?{}{and}did={did}", asked.join("&"))
}

fn id(typed: &str) -> Result<Id<Note>, Trouble> {
    typed.trim().parse().map(Id::from_uuid).map_err(|_| Trouble::missing("there is no such record"))
}

/// Shows one record with its history and the form that corrects it.
pub(crate) async fn one(
    State(desk): State<Desk>,
    Path(record): Path<String>,
    Query(did): Query<Did>,
) -> Result<Markup, Trouble> {
    let record = id(&record)?;
    let (house, seen) = desk.ask(move |house| See::of(house, record)).await?;
    Ok(page::page(&house, Place::List, "A record", body(&house, &seen, did.did.as_deref(), None)))
}

/// A record with everything that its page tells.
struct See {
    recorded: Recorded,
    happenings: Vec<Happening>,
    values: Vec<Value>,
    variety: String,
}

impl See {
    fn of(house: &House, record: Id<Note>) -> Result<Self, house::fault::HouseFault> {
        let (recorded, happenings) = doubts::happenings(house, record)?;
        let of = doubts::subject(&recorded.note).variety;
        let variety = list::names(house)?.into_iter().find(|variety| variety.id == of);
        let values = correct::values(house, record).unwrap_or_default();
        Ok(Self {
            recorded,
            happenings,
            values,
            variety: variety.map(|variety| variety.name).unwrap_or_default(),
        })
    }
}

/// Corrects a record with the values that differ from its own.
pub(crate) async fn correct(
    State(desk): State<Desk>,
    Path(record): Path<String>,
    Form(sent): Sent,
) -> Result<Response, Trouble> {
    let record = id(&record)?;
    let (house, seen) = desk.ask(move |house| See::of(house, record)).await?;
    let values = changed(&seen.values, &sent);
    let why = sent.get("why").unwrap_or("corrected on the workbench").to_owned();
    let mending = Mending {
        who: house.settings.keeper.clone(),
        at: Timestamp::now(),
        today: ZonedDateTime::now().date(),
    };
    let corrected = desk.ask(move |house| correct::correct(house, record, &values, &why, &mending)).await;
    match corrected {
        Ok((_, corrected)) => {
            Ok(Redirect::to(&format!("/record/{}?did=corrected", corrected.id)).into_response())
        }
        Err(trouble) if trouble.status == StatusCode::BAD_REQUEST => {
            let body = body(&house, &seen, None, Some((&trouble, &sent)));
            Ok((trouble.status, page::page(&house, Place::List, "A record", body)).into_response())
        }
        Err(trouble) => Err(trouble),
    }
}

fn changed(values: &[Value], sent: &Fields) -> Vec<NewValue> {
    let differs = values.iter().filter_map(|value| {
        let new = sent.whole(value.heading)?.trim();
        (new != value.text).then(|| NewValue { heading: value.heading.to_owned(), value: new.to_owned() })
    });
    differs.collect()
}

fn body(house: &House, seen: &See, did: Option<&str>, failed: Option<(&Trouble, &Fields)>) -> Markup {
    let recorded = &seen.recorded;
    let stands =
        matches!(recorded.state, RecordState::Standing | RecordState::Confirmed(_) | RecordState::SetAside);
    html! {
        p.trail { a href="/" { "The list" } " › " a href=(variety_address(&seen.variety)) { (seen.variety) } }
        h1 { "A record of " (seen.variety) }
        (done(did))
        @if let Some((trouble, _)) = failed {
            div.fault role="alert" {
                p { (sentence(&trouble.message)) }
                @if let Some(help) = &trouble.help { p.help { (sentence(help)) } }
            }
        }
        p.says { (telling::note(&recorded.note, house.settings.units)) }
        (about(recorded))
        @if stands {
            (decide_form(recorded))
            (correct_form(&seen.values, failed.map(|(_, sent)| sent)))
        } @else {
            p { "It no longer stands, so nothing more can be done to it. The history below tells why." }
        }
        (history(&seen.happenings))
    }
}

fn about(recorded: &Recorded) -> Markup {
    let subject = doubts::subject(&recorded.note);
    html! {
        dl.about {
            div { dt { "State" } dd { (table::state(recorded.state)) } }
            div { dt { "Season" } dd { (subject.season) } }
            @if let Some(day) = telling::day(&recorded.note) { div { dt { "Day" } dd { (day) } } }
            @if let Some(plant) = subject.plant { div { dt { "Plant" } dd { (plant.0) } } }
            div { dt { "From" } dd { (table::from(&recorded.from)) } }
            @for doubt in &recorded.doubts { div { dt { "Doubt" } dd { (doubt.words) } } }
        }
    }
}

fn decide_form(recorded: &Recorded) -> Markup {
    let back = format!("/record/{}", recorded.id);
    html! {
        form.decide method="post" action="/records" {
            input type="hidden" name="record" value=(recorded.id);
            input type="hidden" name="back" value=(back);
            label { span { "Why" } input name="why" maxlength="500" autocomplete="off"; }
            @if recorded.state == RecordState::SetAside {
                button name="do" value="confirm" { "Confirm: it is right" }
            }
            button name="do" value="withdraw" { "Withdraw: it is wrong" }
        }
    }
}

fn correct_form(values: &[Value], sent: Option<&Fields>) -> Markup {
    html! {
        section aria-labelledby="correct" {
            h2 #correct { "Correct it" }
            p {
                "Change what is wrong. The old record stays in the history. A number without a unit is in the unit "
                "named."
            }
            form.cells method="post" {
                @for value in values {
                    @let told = sent.and_then(|sent| sent.whole(value.heading)).unwrap_or(&value.text);
                    label {
                        span { (value.heading) @if let Some(unit) = value.unit { " (" (unit) ")" } }
                        input name=(value.heading) value=(told) maxlength="1000" autocomplete="off";
                    }
                }
                label { span { "why it is corrected" } input name="why" maxlength="500" autocomplete="off"; }
                div.acts { button.strong { "Put the correction in its place" } }
            }
        }
    }
}

fn history(happenings: &[Happening]) -> Markup {
    html! {
        section aria-labelledby="happened" {
            h2 #happened { "What happened to it" }
            p.unseen { (counted(count(happenings.len()), "thing", "things")) }
            ol.happened {
                @for happening in happenings {
                    li.undone[!happening.stands] {
                        time { (moment(happening.act.at)) } " "
                        (happened(&happening.what))
                        " by " (happening.act.who) ", "
                        a href=(format!("/history/{}", happening.batch)) { "batch " (happening.batch) }
                        @if let Some(why) = &happening.act.why { ": " (why) }
                        @if !happening.stands { " (undone)" }
                    }
                }
            }
        }
    }
}

fn happened(what: &Happened) -> Markup {
    let link = |record: &Id<Note>| format!("/record/{record}");
    html! {
        @match what {
            Happened::Taken => "taken in",
            Happened::ReplacedAnother(old) => { "put in the place of " a href=(link(old)) { "another record" } }
            Happened::Confirmed => "confirmed",
            Happened::Withdrawn => "withdrawn",
            Happened::ReplacedBy(new) => { "replaced by " a href=(link(new)) { "another record" } }
            Happened::Undone => "its batch undone",
            Happened::Restored => "its batch restored",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_back_stays_in_the_house() {
        assert!(is_own("/variety/Marl?page=2"));
        for elsewhere in ["//example.org", "https://example.org", "/\\example.org", "x", "/a\r\nb"] {
            assert!(!is_own(elsewhere), "{elsewhere:?}");
        }
        assert_eq!(with_did("/doubts", "confirmed"), "/doubts?did=confirmed");
        assert_eq!(with_did("/v?page=2&did=x#records", "withdrawn"), "/v?page=2&did=withdrawn");
    }
}
