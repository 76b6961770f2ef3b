//! One lot: what is held of it, what its tests say, where it comes from, and its entries with a form for each kind of note.

use super::forms;
use crate::desk::Desk;
use crate::page::{self, Place, scrolling};
use crate::print::cards_form;
use crate::seed_room::{asked, lot_address};
use crate::telling::{encoded, moment, variety_address};
use crate::trouble::Trouble;
use axum::extract::{Path, Query, State};
use house::folder::House;
use house::lots::isolation::{self, CrossingRisk, LotIsolation};
use house::lots::law::JudgedBy;
use house::lots::{self, EntryState, LotEntry, LotSeen, TestJudged, telling};
use house::rogues::{self, Suspect};
use jiff::civil::Date;
use maud::{Markup, html};
use record::language::Units;
use serde::Deserialize;

/// What was just done.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Did {
    did: Option<String>,
}

/// Shows a lot.
pub(crate) async fn show(
    State(desk): State<Desk>,
    Path(number): Path<String>,
    Query(did): Query<Did>,
) -> Result<Markup, Trouble> {
    let story = move |house: &House| {
        let (seen, by) = lots::one(house, &number, asked(house))?;
        let isolation = isolation::of(house, &seen)?;
        let misfits = rogues::of_lot(house, &seen.lot.number)?;
        Ok((seen, by, Plants { isolation, misfits }))
    };
    let (house, (seen, by, plants)) = desk.ask(story).await?;
    let title = format!("Lot {}", seen.lot.number);
    Ok(page::page(&house, Place::SeedRoom, &title, body(&house, &did, &seen, &by, &plants)))
}

/// What is known of the plants that a lot's seed was taken from, and of those grown from it.
struct Plants {
    isolation: Option<LotIsolation>,
    misfits: Vec<Suspect>,
}

fn body(house: &House, did: &Did, seen: &LotSeen, by: &JudgedBy, plants: &Plants) -> Markup {
    let (account, today, units) = (&seen.account, asked(house).today, house.settings.units);
    html! {
        p.trail { a href="/seed-room" { "Seed room" } }
        h1 { "Lot " (seen.lot.number) }
        @if did.did.is_some() { (page::notice(&html! { p { "Written in the books." } })) }
        p {
            a href=(variety_address(&seen.variety)) { (seen.variety) } ", harvest of " (seen.lot.season) ". "
            strong { (sentence(&telling::state(account.state))) "." }
        }
        (origin(seen, units))
        (stock(seen))
        (tests(seen, by, today, units))
        (keeping(seen))
        (trueness(seen))
        (parents(seen))
        (crossing(plants.isolation.as_ref(), units))
        (misfits(&plants.misfits))
        (kept_for_the_law(seen, today))
        (paper(seen))
        h2 { "Write in the books" }
        (forms::all(&seen.lot.number, account, today))
        (entries(seen, units))
        p.help { "Minimum " (by.minimum.get()) "%: " (by.rule) ". " (telling::NOTICE) }
    }
}

fn parents(seen: &LotSeen) -> Markup {
    html! {
        @if let Some(parentage) = &seen.account.parentage {
            h2 { "Parents" }
            p { (sentence(&telling::parentage(parentage))) "." }
        }
    }
}

/// Whether its seed may have crossed; a risk is told strongly.
fn crossing(isolation: Option<&LotIsolation>, units: Units) -> Markup {
    let words = isolation.map(|of| of.words(units)).unwrap_or_default();
    let is_risk = isolation
        .is_some_and(|of| matches!(of.isolation.risk, CrossingRisk::TooNear | CrossingRisk::NotTold));
    html! {
        @if let [risk, rest @ ..] = words.as_slice() {
            h2 { "Crossing" }
            p { @if is_risk { strong { (sentence(risk)) "." } } @else { (sentence(risk)) "." } }
            ul { @for line in rest { li { (sentence(line)) "." } } }
        }
    }
}

/// Plants of its plot, and plants grown from it, that do not fit.
fn misfits(found: &[Suspect]) -> Markup {
    html! {
        @if !found.is_empty() {
            h2 { "Plants that do not fit" }
            ul {
                @for suspect in found {
                    li {
                        (sentence(&rogues::telling::place(suspect))) ": " (rogues::telling::why(suspect))
                        @if let Some(lots) = rogues::telling::lots(suspect) { " (" (lots) ")" }
                        "."
                    }
                }
            }
            p.help { (rogues::telling::NOTICE) }
        }
    }
}

/// Its file sample and its record.
fn kept_for_the_law(seen: &LotSeen, today: Date) -> Markup {
    let keepsakes = &seen.account.keepsakes;
    html! {
        h2 { "Kept for the law" }
        p { (sentence(&telling::keepsakes::sample(&keepsakes.sample))) ". " (sentence(&telling::keepsakes::until(keepsakes, today))) "." }
        @if seen.lot.origin.treatment.is_some() {
            p.help { (telling::TREATED) }
        }
    }
}

/// The ways to its card and to labels of its packets.
fn paper(seen: &LotSeen) -> Markup {
    let number = &seen.lot.number;
    html! {
        h2 { "Paper" }
        p { a href=(format!("/print?packets={}#labels", encoded(&format!("{number}=40")))) { "Fill packets and print their labels" } "." }
        (cards_form(Some(number), "Print its card"))
    }
}

fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

fn origin(seen: &LotSeen, units: Units) -> Markup {
    let origin = telling::origin(seen, units);
    html! {
        @if !origin.is_empty() { p { (sentence(&origin.join("; "))) "." } }
    }
}

fn stock(seen: &LotSeen) -> Markup {
    let account = &seen.account;
    let gone = account.gone.iter();
    html! {
        h2 { "Held" }
        @if account.held.is_empty() {
            p { "Nothing of it is in the house." }
        } @else {
            ul { @for (place, mass) in &account.held { li { (telling::held(*place, *mass)) } } }
        }
        @if !account.gone.is_empty() {
            p { "Gone: " (gone.map(|(place, mass)| format!("{} {}", telling::mass(*mass), telling::place(*place))).collect::<Vec<_>>().join(", ")) "." }
        }
        @if let Some(seeds) = account.seeds { p { (sentence(&telling::seeds(seeds))) "." } }
        @if let Some(weight) = telling::seed_weight(account) { p { (sentence(&weight)) "." } }
        @if let Some(reading) = account.moisture {
            p { "Moisture " (reading.moisture.get()) "%, read on " (reading.on) "." }
        }
    }
}

fn tests(seen: &LotSeen, by: &JudgedBy, today: Date, units: Units) -> Markup {
    let account = &seen.account;
    html! {
        h2 { "Germination" }
        @if let Some(due) = account.test_due { p { (sentence(&telling::due(due, today))) "." } }
        @if account.tests.is_empty() { p { "It was never tested." } }
        @for judged in account.tests.iter().rev() { (test(judged, by)) }
        @if let Some(ageing) = &account.ageing { p { (sentence(&telling::ageing(ageing, units))) "." } }
    }
}

fn test(judged: &TestJudged, by: &JudgedBy) -> Markup {
    html! {
        h3 { (telling::germination(judged)) }
        ul {
            li { (sentence(&telling::standing(judged, by.minimum))) "." }
            li { (sentence(&telling::promise(judged, by.minimum))) "." }
            li { (sentence(&telling::replicates(judged))) "." }
            @if let Some(beside) = telling::beside_last(judged) { li { (sentence(&beside)) "." } }
            @for shortfall in &judged.shortfalls { li { (sentence(&telling::shortfall(*shortfall))) "." } }
        }
    }
}

fn keeping(seen: &LotSeen) -> Markup {
    let account = &seen.account;
    html! {
        @if !account.sealing_faults.is_empty() {
            h2 { "Hermetically sealed" }
            p { "It is said to be sealed, and does not count as that (7 CFR 201.36c):" }
            ul { @for fault in &account.sealing_faults { li { (sentence(telling::sealing_fault(*fault))) "." } } }
        }
    }
}

fn trueness(seen: &LotSeen) -> Markup {
    html! {
        @if let Some(found) = &seen.account.true_to_type {
            h2 { "True to type" }
            p { (sentence(&telling::true_to_type(found))) "." }
            ul {
                @for kind in &found.off_types { li { (kind.kind) ": " (kind.plants) } }
                @for (class, faults) in &found.classes { li { (sentence(&telling::class(*class, faults))) "." } }
            }
        }
    }
}

fn entries(seen: &LotSeen, units: Units) -> Markup {
    let table = html! {
        table.history {
            caption.unseen { "What was written of this lot, the newest first" }
            (page::heads(&["Entry", "What", "When and who", "Do"]))
            tbody {
                @for entry in seen.entries.iter().rev() {
                    tr.over[entry.state != EntryState::Standing] {
                        th scope="row" { (entry.number) }
                        td {
                            (telling::note(entry.note.as_ref(), units))
                            @if let Some(act) = lots::withdrawn(entry) {
                                span.help { "withdrawn by " (act.who) @if let Some(why) = &act.why { ": " (why) } }
                            }
                        }
                        td { time { (moment(entry.act.at)) } br; (entry.act.who) }
                        td { (turn(seen, entry)) }
                    }
                }
            }
        }
    };
    html! { h2 { "Entries" } (scrolling("Entries", &table)) }
}

fn turn(seen: &LotSeen, entry: &LotEntry) -> Markup {
    let (word, label) = match entry.state {
        EntryState::Standing => ("withdraw", "Withdraw"),
        EntryState::Withdrawn(_) => ("restore", "Restore"),
    };
    html! {
        form method="post" action=(lot_address(&seen.lot.number)) {
            input type="hidden" name="entry" value=(entry.number);
            button name="do" value=(word) aria-label=(format!("{label} entry {}", entry.number)) { (label) }
        }
    }
}
