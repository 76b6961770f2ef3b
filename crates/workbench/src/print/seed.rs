//! The paper of the seed room: packet labels with their packing run, and lot cards.

use crate::desk::{Desk, act};
use crate::fields::{Fields, Sent};
use crate::law;
use crate::page;
use crate::telling::encoded;
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::State;
use axum::response::Redirect;
use house::fault::HouseFault;
use house::folder::House;
use house::forecast::Place;
use house::labels::{self, LabelStock};
use house::lots::cards;
use house::lots::fault::SeedRoomFault;
use house::lots::law::{Asked, Law};
use house::lots::packets::{self, Book, Contents, Printed, Run, To};
use house::lots::{LotSeen, LotState, typed};
use house::print::Paper;
use jiff::ZonedDateTime;
use jiff::civil::Date;
use maud::{Markup, html};
use record::language::{System, counted};
use std::path::Path;

/// How the names of printed labels and cards begin.
pub(super) const LABELS_STEM: &str = "labels-";
pub(super) const CARDS_STEM: &str = "lot-card";

/// What the forms of the seed room's paper offer.
pub(super) struct Offered {
    /// Lots with seed in the house.
    pub(super) lots: Vec<LotSeen>,
    /// Label stock.
    pub(super) stock: Vec<LabelStock>,
    /// Gardens by name.
    pub(super) gardens: Vec<String>,
    /// The stock that is usual.
    usual: String,
    /// The house's own law.
    law: Law,
}

/// Gathers what the forms offer.
pub(super) fn offered(house: &House, today: Date) -> Result<Offered, HouseFault> {
    let mut lots = house::lots::all(house, Asked::of(house, today))?.lots;
    lots.retain(|seen| seen.account.state != LotState::Gone);
    let gardens = house::gardens::gardens(house)?.into_iter().map(|garden| garden.name).collect();
    let usual = labels::stock_named(house, None)?.name().to_owned();
    Ok(Offered { lots, stock: labels::stock(house)?, gardens, usual, law: house.settings.law })
}

/// The form of a packing run. `lots` is what stands in it at first.
pub(super) fn labels_form(offered: &Offered, lots: &str, today: Date) -> Markup {
    html! {
        p.help {
            "Packets of so many seeds are weighed out with enough over that 95 in 100 hold them; such lots must have been "
            "weighed. A label that leaves out what the law asks, or tells it too late, is not printed: then nothing is booked."
        }
        form.cells method="post" action="/print/labels" {
            label {
                span { "Lots or varieties, one a line, each with its packets" }
                textarea name="wanted" rows="4" maxlength="4000" placeholder="31-014=40" { (lots) }
            }
            label {
                span { "What each packet holds: seeds, or a weight" }
                input name="contents" value="30" placeholder="30, or 100 mg" autocomplete="off" maxlength="40";
            }
            label {
                span { "Labels, by size" }
                select name="stock" {
                    @for stock in &offered.stock {
                        option value=(stock.name()) selected[stock.name() == offered.usual] { (stock_words(stock)) }
                    }
                }
            }
            (law::choice("Whose law", offered.law))
            label {
                span { "Packed for the year" }
                input name="packed-for" value=(packets::packed_for(today)) inputmode="numeric" maxlength="4" autocomplete="off";
            }
            @if !offered.gardens.is_empty() {
                label {
                    span { "Garden whose calendar tells when to sow" }
                    select name="garden" {
                        option value="" { "What holds anywhere" }
                        @for garden in &offered.gardens { option { (garden) } }
                    }
                }
            }
            label.tick {
                input type="checkbox" name="pack" value="yes";
                span { "Fill the packets too: book them out of the jar" }
            }
            div.acts { button.strong { "Print packet labels" } }
        }
    }
}

fn stock_words(stock: &LabelStock) -> String {
    match stock {
        LabelStock::Roll(roll) => roll.name.clone(),
        LabelStock::Sheet(sheet) => {
            let paper = match sheet.paper {
                Paper::A4 => "A4",
                Paper::UsLetter => "US Letter",
            };
            format!("{}, {} by {} on {paper}", sheet.name, sheet.columns, sheet.rows)
        }
    }
}

/// The form of lot cards: of one lot, or of all that hold seed.
pub(crate) fn cards_form(lot: Option<&str>, words: &str) -> Markup {
    html! {
        form.decide method="post" action="/print/lots" {
            @if let Some(lot) = lot { input type="hidden" name="lot" value=(lot); }
            button { (words) }
        }
    }
}

/// Prints packet labels, and books their packets where that is ticked.
pub(crate) async fn print_labels(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let today = ZonedDateTime::now().date();
    let story = move |house: &House| {
        let run = run(house, &sent, today)?;
        let printed = packets::print(house, &run, &To::OwnName, &act(house, None))?;
        Ok((told(&printed, run.book), printed.file))
    };
    let (_, (told, file)) = desk.ask(story).await?;
    Ok(led_to(&file, "labels", &told))
}

/// What a packing run came to, and by whose rules.
fn told(printed: &Printed, book: Book) -> String {
    let (labels, sheets) =
        (counted(printed.labels, "label", "labels"), counted(printed.sheets, "page", "pages"));
    let booked = match book {
        Book::OutOfTheJar => "The packets are booked out of their jars.",
        Book::LabelsOnly => "Labels only: nothing was booked.",
    };
    format!("{labels} on {sheets}. {booked} Checked by {}", printed.rules.join(" And by "))
}

/// Prints lot cards.
pub(crate) async fn print_cards(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let today = ZonedDateTime::now().date();
    let lots: Vec<String> = sent.get("lot").map(str::to_owned).into_iter().collect();
    let story = move |house: &House| {
        let paper = match house.settings.units.first {
            System::Us => Paper::UsLetter,
            System::Metric => Paper::A4,
        };
        Ok(cards::print(house, &lots, Asked::of(house, today), paper, &cards::file(house, &lots))?.file)
    };
    let (_, file) = desk.ask(story).await?;
    Ok(led_to(&file, "lots", ""))
}

pub(super) fn led_to(file: &Path, what: &str, told: &str) -> Redirect {
    let name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    Redirect::to(&format!("/print?printed={what}&file={}&told={}#{what}", encoded(&name), encoded(told)))
}

fn run(house: &House, sent: &Fields, today: Date) -> Result<Run, HouseFault> {
    let lines =
        sent.whole("wanted").unwrap_or_default().lines().map(str::trim).filter(|line| !line.is_empty());
    let book = if sent.get("pack").is_some() { Book::OutOfTheJar } else { Book::LabelsOnly };
    Ok(Run {
        wanted: lines.map(|line| packets::wanted(line, 1)).collect::<Result<_, _>>()?,
        contents: contents(sent.get("contents").unwrap_or_default())?,
        law: sent.get("law").and_then(Law::of_word).unwrap_or(house.settings.law),
        stock: labels::stock_named(house, sent.get("stock"))?,
        packed_for: packed_for(sent, today)?,
        sown_at: sent.get("garden").map(|garden| Place::Garden(garden.to_owned())),
        book,
        today,
    })
}

fn contents(typed: &str) -> Result<Contents, SeedRoomFault> {
    let count = typed.trim().trim_end_matches("seeds").trim().parse();
    count.map_or_else(|_| typed::mass(typed).map(Contents::Mass), |seeds| Ok(Contents::Seeds(seeds)))
}

fn packed_for(sent: &Fields, today: Date) -> Result<i16, SeedRoomFault> {
    let Some(typed) = sent.get("packed-for") else { return Ok(packets::packed_for(today)) };
    let year = typed.parse().ok().filter(|year| (1900..=2200).contains(year));
    year.ok_or_else(|| SeedRoomFault::NotRead {
        value: typed.to_owned(),
        reason: "no year".to_owned(),
        remedy: "write the year that the packets are packed for, such as 2032".to_owned(),
    })
}

/// What was just printed, with a way to it.
pub(super) fn done(file: Option<&str>, told: Option<&str>, words: &str) -> Markup {
    page::notice(&html! {
        p { (words) " " @if let Some(file) = file { a href=(format!("/print/{}", encoded(file))) { (file) } } }
        @if let Some(told) = told.filter(|told| !told.is_empty()) { p { (told) } }
    })
}
