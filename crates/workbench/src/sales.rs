//! Sales: the files that the house keeps, taking one in, and what each variety is expected to sell.

use crate::bring_in::upload;
use crate::desk::{Desk, act};
use crate::fields::{Sent, said};
use crate::page::{self, Place, scrolling};
use crate::telling::{count, encoded, moment, variety_address};
use crate::trouble::{Trouble, nothing_told};
use axum::Form;
use axum::extract::{Multipart, Query, State};
use axum::response::{IntoResponse, Redirect, Response};
use house::asked::DateOrder;
use house::fault::HouseFault;
use house::folder::House;
use house::list;
use house::opened::{Content, Given};
use house::sales::{
    self, Expected, Intent, SHOP, SalesGiven, SalesInfo, SalesNumber, SalesOutcome, SalesState, SalesTaken,
    SaysOfSales, Turn,
};
use maud::{Markup, html};
use record::language::counted;
use record::variety::Variety;
use serde::Deserialize;

/// What was just done, as the address tells it.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asked {
    did: Option<String>,
}

/// Everything the page tells.
struct Known {
    files: Vec<SalesInfo>,
    /// What is expected, or why nothing is.
    expected: Result<Expected, (String, Option<String>)>,
    varieties: Vec<Variety>,
}

/// Shows the files and what is expected to sell.
pub(crate) async fn show(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let (house, known) = desk.ask(known).await?;
    Ok(page::page(&house, Place::BringIn, "Sales", body(&asked, &known)))
}

fn known(house: &House) -> Result<Known, HouseFault> {
    let expected = match sales::expected(house) {
        Ok(expected) => Ok(expected),
        Err(fault @ HouseFault::Next(_)) => Err((fault.to_string(), fault.help())),
        Err(fault) => return Err(fault),
    };
    Ok(Known { files: sales::records(house)?, expected, varieties: list::names(house)? })
}

/// Takes a file in, and tells how it was read.
pub(crate) async fn take(State(desk): State<Desk>, sent: Multipart) -> Result<Response, Trouble> {
    let form = upload::receive_form(sent).await?;
    let word =
        |name: &str| form.words.iter().find(|(field, _)| field == name).map(|(_, typed)| typed.clone());
    let dates = word("dates").as_deref().and_then(DateOrder::named);
    let (day, item, quantity) = (word("day"), word("item"), word("quantity"));
    let says = SaysOfSales { day, item, quantity, dates };
    let shop = word("shop");
    let files: Vec<Given> = form
        .files
        .iter()
        .map(|file| Given { name: file.name.clone(), content: Content::Path(file.path.clone()) })
        .collect();
    let (house, taken) = desk.ask(move |house| take_all(house, files, shop.as_deref(), &says)).await?;
    drop(form.folder);
    Ok(page::page(&house, Place::BringIn, "Sales", told(&taken)).into_response())
}

/// What became of a file, or why it was not taken.
type Taken = (String, Result<SalesTaken, (String, Option<String>)>);

fn take_all(
    house: &House,
    files: Vec<Given>,
    shop: Option<&str>,
    says: &SaysOfSales,
) -> Result<Vec<Taken>, HouseFault> {
    let mut all = Vec::new();
    for file in files {
        let name = file.name.clone();
        let shop = shop.map(str::to_owned);
        let given = SalesGiven { file, shop, says: says.clone(), covers: (None, None) };
        let taken = match sales::take(house, &given, Intent::Keep, &act(house, None)) {
            Ok(taken) => Ok(taken),
            Err(fault @ (HouseFault::Next(_) | HouseFault::Open { .. })) => {
                Err((fault.to_string(), fault.help()))
            }
            Err(fault) => return Err(fault),
        };
        all.push((name, taken));
    }
    Ok(all)
}

/// Withdraws a file, or restores it.
pub(crate) async fn turn(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let number = sent.get("number").and_then(|number| number.parse().ok()).map(SalesNumber);
    let number =
        number.ok_or_else(|| Trouble::user("no file was named", "press the button beside a file"))?;
    let turn = if sent.get("act") == Some("restore") { Turn::Restored } else { Turn::Withdrawn };
    desk.ask(move |house| sales::turn(house, number, turn, &act(house, None))).await?;
    let did = match turn {
        Turn::Restored => "Restored.",
        Turn::Withdrawn => "Withdrawn. The file stays here and can be restored.",
    };
    Ok(Redirect::to(&format!("/sales?did={}", encoded(did))))
}

fn body(asked: &Asked, known: &Known) -> Markup {
    html! {
        (page::bring_in_ways("/sales"))
        h1 { "Sales" }
        @if let Some(did) = said(asked.did.as_ref()) { (page::notice(&html! { p { (did) } })) }
        p {
            "Files of a shop, a till or a notebook: a day, what was sold, how many packets. No buyer and no price is kept. "
            "What sells is expected by them, and " a href="/grow-outs/next" { "the next grow-out" } " goes by that."
        }
        (form())
        @if !known.files.is_empty() { (scrolling("Sales that were taken in", &files(&known.files))) }
        @match &known.expected {
            Ok(expected) => (self::expected(expected, &known.varieties)),
            Err((why, help)) => @if !known.files.is_empty() { (nothing_told(why, help.as_deref())) },
        }
    }
}

fn form() -> Markup {
    html! {
        form.drop method="post" action="/sales" enctype="multipart/form-data" {
            label for="files" { span { "Files of sales" } }
            input #files type="file" name="files" multiple required accept=".csv,.tsv,.txt,.tab,.xlsx,.xlsm,.ods";
            div.cells {
                label { span { "Whose sales they tell" } input name="shop" placeholder=(SHOP) maxlength="80" autocomplete="off"; }
                label {
                    span { "Dates such as 3/4/2031" }
                    select name="dates" {
                        option value="" { "as the file tells" }
                        option value=(DateOrder::DayFirst.name()) { "day first" }
                        option value=(DateOrder::MonthFirst.name()) { "month first" }
                    }
                }
            }
            details {
                summary { "Headings that are not read" }
                div.cells {
                    label { span { "Heading over the days" } input name="day" maxlength="80" autocomplete="off"; }
                    label { span { "Heading over what was sold" } input name="item" maxlength="80" autocomplete="off"; }
                    label { span { "Heading over the packets" } input name="quantity" maxlength="80" autocomplete="off"; }
                }
            }
            button.strong { "Take them in" }
        }
    }
}

fn files(files: &[SalesInfo]) -> Markup {
    html! {
        table.history {
            caption.unseen { "Files of sales, oldest first" }
            (page::heads(&["File", "Of", "Days", "Packets", "When and who", "Do"]))
            tbody {
                @for one in files {
                    @let stands = one.state == SalesState::Standing;
                    tr.over[!stands] {
                        th scope="row" { (one.file.name) span.help { "number " (one.number) } }
                        td { (one.file.shop) }
                        td { (one.file.first) " to " (one.file.last) }
                        td {
                            (one.packets)
                            @if 0 < one.file.left_out {
                                span.help { (counted(one.file.left_out.into(), "row", "rows")) " left out" }
                            }
                        }
                        td { time { (moment(one.brought.at)) } br; (one.brought.who) }
                        td {
                            form method="post" action="/sales/turn" {
                                input type="hidden" name="number" value=(one.number);
                                @if stands { button name="act" value="withdraw" { "Withdraw" } }
                                @else { button name="act" value="restore" { "Restore" } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Varieties in the order of what they are expected to sell.
fn expected(found: &Expected, varieties: &[Variety]) -> Markup {
    let mut each = found.a_year_of_each();
    each.sort_by(|one, other| other.a_year.total_cmp(&one.a_year));
    let name =
        |one: &sales::YearOf| varieties.iter().find(|own| own.id == one.variety).map(|own| own.name.as_str());
    let years = html! {
        table {
            caption.unseen { "Selling years" }
            (page::heads(&["Year, from July on", "Packets", "Covered", "Level"]))
            tbody {
                @for level in &found.demand.levels {
                    tr {
                        th scope="row" { (level.year) "/" (format!("{:02}", (level.year + 1) % 100)) }
                        td { (level.packets) }
                        td { (format!("{:.0}", 100.0 * level.covered)) " in 100" }
                        td { (format!("{:.2}", level.level)) }
                    }
                }
            }
        }
    };
    let rows = html! {
        table {
            caption.unseen { "What each variety is expected to sell in a year" }
            (page::heads(&["Variety", "Sold so far", "Expected", "8 years in 10"]))
            tbody {
                @for one in &each {
                    @if let Some(name) = name(one) {
                        @let [low, _, high] = one.next_year;
                        tr {
                            th scope="row" { a href=(variety_address(name)) { (name) } }
                            td { (one.sold) }
                            td { (format!("{:.0}", one.a_year)) }
                            td { (low) " to " (high) }
                        }
                    }
                }
            }
        }
    };
    html! {
        h2 { "Selling years" }
        p {
            "A year's level is how good it was for the whole house beside the last whole one; a part of a year is held against the "
            "same months of whole years."
        }
        (scrolling("Selling years", &years))
        h2 { "Packets expected in a year" }
        p {
            "A variety sold for one winter is drawn towards the others; one with many sales speaks for itself. Sales that an empty "
            "shelf lost are not seen."
        }
        (scrolling("Packets expected in a year", &rows))
    }
}

fn told(all: &[Taken]) -> Markup {
    html! {
        (page::bring_in_ways("/sales"))
        h1 { "Sales" }
        @for (name, taken) in all {
            section.taken {
                h2 { (name) }
                @match taken {
                    Err((why, help)) => (nothing_told(why, help.as_deref())),
                    Ok(taken) => (one(taken)),
                }
            }
        }
        p { a href="/sales" { "All sales, and what is expected to sell" } }
    }
}

/// Rows at fault and other things that the page tells. A choice of the page.
const TOLD: usize = 20;

fn one(taken: &SalesTaken) -> Markup {
    html! {
        p {
            @match taken.outcome {
                SalesOutcome::Kept(number) => { "Taken as number " (number) ", sales of " (taken.shop) ": " }
                SalesOutcome::TakenBefore(number) => { "This very file was taken before, as number " (number) "; nothing was added. It holds " }
                SalesOutcome::Looked => { "Not kept: " }
            }
            (taken.packets) " packets of " (counted(count(taken.varieties), "variety", "varieties")) ", from "
            (taken.days.0) " to " (taken.days.1) "."
        }
        @if !taken.read.faults.is_empty() {
            p { (counted(count(taken.read.faults.len()), "row", "rows")) " could not be read and were left out:" }
            ul {
                @for fault in taken.read.faults.iter().take(TOLD) {
                    li {
                        "Row " (fault.row) @if let Some(column) = &fault.column { ", column " (column) } ": " (fault.fault)
                        span.help { (fault.remedy) }
                    }
                }
            }
        }
        @if !taken.read.others.is_empty() {
            p { "No variety of this house, and left out:" }
            ul {
                @for other in taken.read.others.iter().take(TOLD) {
                    li {
                        (other.item) ": " (counted(other.rows.into(), "row", "rows"))
                        @if let Some(near) = &other.suggestion { "; nearest: " (near.nearest) }
                    }
                }
            }
        }
    }
}
