//! The seed room: the lots, which of them to test next, a new one, and what the notes say to whoever saves seed.

mod books;
mod forms;
mod how_many;
pub(crate) mod increase;
mod kept;
mod lot;
mod order;
mod rogues;

pub(crate) use books::{found, write};
pub(crate) use how_many::show as how_many;
pub(crate) use kept::show as kept;
pub(crate) use lot::show as lot;
pub(crate) use order::{fill, show as order};
pub(crate) use rogues::show as rogues;

use crate::desk::Desk;
use crate::page::{self, Place, scrolling};
use crate::telling::{count, encoded, variety_address};
use crate::trouble::Trouble;
use axum::extract::State;
use house::folder::House;
use house::list::filter::Filter;
use house::list::{self, Listed};
use house::lots::law::Asked;
use house::lots::{self, LotSeen, LotState, Lots, telling};
use jiff::ZonedDateTime;
use maud::{Markup, html};
use record::language::counted;

/// Lots as they stand today, by the house's own law.
fn asked(house: &House) -> Asked {
    Asked::of(house, ZonedDateTime::now().date())
}

/// The address of a lot's page. A number of only full stops would lead elsewhere, so its first is escaped.
fn lot_address(number: &str) -> String {
    let part = encoded(number.trim());
    match part.strip_prefix('.') {
        Some(rest) => format!("/lot/%2E{rest}"),
        None => format!("/lot/{part}"),
    }
}

/// Shows the lots.
pub(crate) async fn show(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let gathered =
        desk.ask(|house| Ok((lots::all(house, asked(house))?, list::list(house, &Filter::default())?)));
    let (house, (lots, list)) = gathered.await?;
    Ok(page::page(&house, Place::SeedRoom, "Seed room", body(&lots, &list.varieties)))
}

/// Shows which lots to test next.
pub(crate) async fn to_test(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, queue) = desk.ask(|house| lots::to_test(house, asked(house))).await?;
    let body = html! {
        (ways("/seed-room/tests"))
        h1 { "Tests due" }
        p { "Lots with seed in the house, the most urgent first: never tested, then to be tested again, then by the day." }
        (table(&queue, "Lots to test"))
    };
    Ok(page::page(&house, Place::SeedRoom, "Tests due", body))
}

/// Shows the form of a new lot.
pub(crate) async fn begin(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, list) = desk.ask(|house| list::list(house, &Filter::default())).await?;
    let today = ZonedDateTime::now().date();
    let body = html! {
        (ways("/seed-room/new"))
        h1 { "A new lot" }
        p { "Seed of one harvest with one history, told by one number from the drying screen to the packet." }
        form.cells method="post" action="/seed-room/new" {
            (forms::field("Its number, as it stands on the jar", "number", "", "31-014"))
            label {
                span { "Variety" }
                select name="variety" { @for listed in &list.varieties { option { (listed.variety.name) } } }
            }
            (forms::field("Season of its harvest", "season", &today.year().to_string(), "2031"))
            (forms::field("Clean seed that came in", "weight", "", "42.5 g"))
            (forms::day("It came in on", "on", Some(today)))
            (forms::day("Last seed taken from fruit on", "harvested", None))
            (forms::field("Grow-out", "grow-out", "", ""))
            (forms::field("Label on the plot's stake", "plot", "", ""))
            (forms::field("Lot that its parents were sown from", "sown-from", "", ""))
            (forms::field("Plants that its fruit was taken from", "parents", "", "20"))
            (forms::field("Distance to the nearest other variety", "isolation", "", "30 m or 100 ft"))
            (forms::field("How its seed was taken out of the fruit", "extraction", "", "fermented two days"))
            (forms::field("How it was dried", "drying", "", "on screens, with a fan"))
            (forms::field("What it was treated with, if anything", "treatment", "", ""))
            div.acts { button.strong { "Found the lot" } }
        }
        (cautions())
    };
    Ok(page::page(&house, Place::SeedRoom, "A new lot", body))
}

/// What is said where seed is treated, sold or sent.
fn cautions() -> Markup {
    html! {
        details.note {
            summary { "Before seed is sold or sent" }
            ul { @for caution in telling::CAUTIONS { li { (caution) } } }
            p { (telling::TREATED) }
        }
    }
}

fn body(lots: &Lots, varieties: &[Listed]) -> Markup {
    html! {
        (ways("/seed-room"))
        h1 { "Seed room" }
        @if lots.lots.is_empty() {
            p {
                "No lot is in the books yet. " a href="/seed-room/new" { "Found one" } ": its number, its variety and the "
                "seed that came in; then note its tests, what was packed and what was sold."
            }
        } @else {
            p.count { (counted(count(lots.lots.len()), "lot", "lots")) (of_states(lots)) }
            (table(lots, "Lots"))
        }
        (unlike(varieties))
        (cautions())
    }
}

fn of_states(lots: &Lots) -> String {
    let many = |of: fn(LotState) -> bool| lots.lots.iter().filter(|seen| of(seen.account.state)).count();
    let told = [
        (many(|state| matches!(state, LotState::Fit { .. })), "may be shipped"),
        (many(|state| matches!(state, LotState::Below { .. })), "below the law's standard"),
        (many(|state| matches!(state, LotState::UnderHouse { .. })), "under the house's own minimum"),
        (many(|state| matches!(state, LotState::TooOld { .. })), "with a test that is too old"),
        (many(|state| state == LotState::TestAgain), "to be tested again"),
        (many(|state| state == LotState::Untested), "never tested"),
        (many(|state| state == LotState::Gone), "all gone"),
    ];
    let told: Vec<String> =
        told.iter().filter(|(many, _)| 0 < *many).map(|(many, words)| format!("{many} {words}")).collect();
    if told.is_empty() { ".".to_owned() } else { format!(": {}.", told.join(", ")) }
}

/// The ways within the seed room.
fn ways(here: &str) -> Markup {
    let ways = [
        ("/seed-room", "Lots"),
        ("/seed-room/tests", "Tests due"),
        ("/seed-room/order", "Fill an order"),
        ("/seed-room/rogues", "Rogue list"),
        ("/seed-room/kept", "Samples and records"),
        ("/seed-room/how-many", "How many"),
        ("/seed-room/new", "A new lot"),
        ("/increase", "Increase"),
    ];
    html! {
        nav.within aria-label="Seed room" {
            ul {
                @for (address, words) in ways {
                    li { a href=(address) aria-current=[(address == here).then_some("page")] { (words) } }
                }
            }
        }
    }
}

fn table(lots: &Lots, caption: &str) -> Markup {
    let rows = html! {
        table {
            caption.unseen { (caption) }
            (page::heads(&["Lot", "Variety", "Held", "Germination", "State", "Next test by"]))
            tbody { @for seen in &lots.lots { (row(seen)) } }
        }
    };
    html! {
        (scrolling(caption, &rows))
        p.help { "Minimum " (lots.by.minimum.get()) "%: " (lots.by.rule) ". " (telling::NOTICE) }
    }
}

fn row(seen: &LotSeen) -> Markup {
    let account = &seen.account;
    html! {
        tr {
            th scope="row" { a href=(lot_address(&seen.lot.number)) { (seen.lot.number) } }
            td { a href=(variety_address(&seen.variety)) { (seen.variety) } span.help { "harvest of " (seen.lot.season) } }
            td {
                (telling::mass(account.all_held()))
                @if let Some(seeds) = account.seeds { span.help { (telling::seeds_briefly(seeds)) } }
            }
            td {
                @match account.tests.last() {
                    Some(judged) => {
                        (judged.verdict.counted.germination().get()) "%"
                        span.help { (judged.test.counted_on.strftime("%B %Y")) ", " (judged.verdict.counted.sown) " seeds" }
                    }
                    None => "no test",
                }
            }
            td { (telling::state(account.state)) }
            td { @if let Some(due) = account.test_due { (due) } }
        }
    }
}

/// Plants that do not go with their variety, to look at before seed of it is saved.
fn unlike(varieties: &[Listed]) -> Markup {
    let unlike: Vec<&Listed> = varieties.iter().filter(|listed| does_not_fit(listed)).collect();
    html! {
        h2 { "What the notes say to whoever saves seed" }
        @if unlike.is_empty() {
            @let all = counted(count(varieties.len()), "variety", "varieties");
            p { "No plant's fruit was found unlike its variety in " (all) "." }
        } @else {
            p {
                "Do not save seed from these before the plant, the stake and the notes have been looked at; the "
                a href="/seed-room/rogues" { "rogue list" } " has the plants, and the lots that they concern:"
            }
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
