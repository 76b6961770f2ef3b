//! Print: the proof sheet, the catalogue, the type chart, season sheets, packet labels, lot cards and the web pages, each with what it is,
//! its paper and what was printed last.

mod card;
mod proof;
mod seed;
mod sheets;

use crate::calendar;
use crate::desk::Desk;
use crate::fields::Sent;
use crate::page::{self, Place};
use crate::telling::{count, encoded, moment};
use crate::trouble::Trouble;
use crate::whose::{self, Choices};
use axum::Form;
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Redirect, Response};
use house::folder::House;
use house::pages;
use house::printed::{self, Sheet};
use house::progress::Unwatched;
use house::proof::Proof;
use jiff::{Timestamp, ZonedDateTime};
use maud::{Markup, html};
use record::language::{Units, counted, grouped};
use seed::{CARDS_STEM, LABELS_STEM, Offered};
use serde::Deserialize;
use sheets::{CATALOGUE, CHART, Kind, PAGES, PROOF};

pub(crate) use card::print as print_card;
pub(crate) use proof::show as proof_page;
pub(crate) use seed::{cards_form, print_cards, print_labels};

/// What was just printed.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Did {
    printed: Option<String>,
    /// The file of packet labels or lot cards.
    file: Option<String>,
    /// What their printing came to.
    told: Option<String>,
    /// Packets to stand in the form of labels, such as `31-014=40`.
    packets: Option<String>,
}

/// What the page shows.
struct Shown {
    sheets: Vec<Sheet>,
    proof: Proof,
    pages: Option<Timestamp>,
    units: Units,
    seed: Offered,
    /// Whose season a sheet can be of.
    whose: Choices,
}

/// Shows what can be printed and what was.
pub(crate) async fn show(State(desk): State<Desk>, Query(did): Query<Did>) -> Result<Markup, Trouble> {
    let today = ZonedDateTime::now().date();
    let gathered = desk.ask(move |house| {
        Ok(Shown {
            sheets: printed::sheets(house)?,
            proof: house::proof::proof(house)?,
            pages: pages_written(house),
            units: house.settings.units,
            seed: seed::offered(house, today)?,
            whose: whose::choices(house)?,
        })
    });
    let (house, shown) = gathered.await?;
    Ok(page::page(&house, Place::Print, "Print", body(&did, &shown)))
}

/// Prints what the form names: a catalogue where it names nothing.
pub(crate) async fn print(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let wanted = sent.get("what").unwrap_or(CATALOGUE.word).to_owned();
    let paper = sent.get("paper").map(str::to_owned);
    let known = [PROOF, CATALOGUE, CHART, PAGES].into_iter().find(|kind| kind.word == wanted);
    let Some(kind) = known else {
        return Err(Trouble::user(
            "the form names nothing that can be printed",
            "choose one of the Print page",
        ));
    };
    let today = ZonedDateTime::now().date();
    if kind.word == PAGES.word {
        let write =
            move |house: &House| pages::write(house, &pages::default_folder(house), today, &Unwatched);
        desk.ask(write).await?;
    } else {
        let Some(paper) = kind.papers.iter().find(|known| Some(known.word) == paper.as_deref()) else {
            return Err(Trouble::user(
                "the form names no paper of this",
                format!("choose {}", kind.choices()),
            ));
        };
        let print = paper.print;
        desk.ask(move |house| print(house, today)).await?;
    }
    Ok(Redirect::to(&format!("/print?printed={wanted}#{wanted}")))
}

/// Hands a printed sheet out.
pub(crate) async fn sheet(State(desk): State<Desk>, Path(name): Path<String>) -> Result<Response, Trouble> {
    let wanted = name.clone();
    let (_, pdf) = desk.ask(move |house| printed::sheet(house, &wanted)).await?;
    let headers = [
        (header::CONTENT_TYPE, "application/pdf".to_owned()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename*=UTF-8''{}", encoded(&name))),
    ];
    Ok((headers, pdf).into_response())
}

/// When the web pages were last written, where they were.
fn pages_written(house: &House) -> Option<Timestamp> {
    let folder = pages::default_folder(house);
    folder.metadata().ok()?.modified().ok().and_then(|at| Timestamp::try_from(at).ok())
}

fn body(did: &Did, shown: &Shown) -> Markup {
    let (proof, units) = (&shown.proof, shown.units);
    html! {
        h1 { "Print" }
        section.sheet aria-labelledby=(PROOF.word) {
            h2 #(PROOF.word) { "Proof sheet" }
            (done(did, PROOF, "The proof sheet is printed."))
            p { "What is contested, contradicted, open or missing, and the cheapest thing to do about each. Read it before the catalogue." }
            p { strong { (proof.summary()) } " " a href="/print/proof" { "Read it here" } "." }
            (counts(proof))
            (chooser(PROOF, units, "Print the proof sheet"))
            (last(PROOF, &shown.sheets))
        }
        section.sheet aria-labelledby=(CATALOGUE.word) {
            h2 #(CATALOGUE.word) { "The catalogue" }
            (done(did, CATALOGUE, "The catalogue is printed."))
            p { "An entry a variety, by class from small to large, from the calls as they stand." }
            @if 0 < proof.marks() {
                p { "It will carry " (counted(count(proof.marks()), "mark", "marks")) " of the proof sheet." }
            }
            (chooser(CATALOGUE, units, "Print the catalogue"))
            (last(CATALOGUE, &shown.sheets))
        }
        section.sheet aria-labelledby=(CHART.word) {
            h2 #(CHART.word) { "Type chart" }
            (done(did, CHART, "The type chart is printed."))
            p {
                "Every class and habit of your guides, drawn to scale, with its limits, what it is good for and what "
                "it is taken for: a poster for the wall or a booklet. " a href="/types" { "See it here" } "."
            }
            (chooser(CHART, units, "Print the type chart"))
            (last(CHART, &shown.sheets))
        }
        (season(shown))
        (seed_room(did, shown))
        (scale_card(did, shown))
        section.sheet aria-labelledby=(PAGES.word) {
            h2 #(PAGES.word) { "Web pages" }
            (done(did, PAGES, "The web pages are written."))
            p { "The whole list as a folder of pages that needs no network, for any web server or a stick." }
            form.decide method="post" action="/print" {
                input type="hidden" name="what" value=(PAGES.word);
                button.strong { "Write the web pages" }
            }
            p.last {
                @match shown.pages {
                    Some(at) => { "Last written " (moment(at)) ", in the house's folder " code { "printed/pages" } "." }
                    None => { "Not written yet; they go to the house's folder " code { "printed/pages" } "." }
                }
            }
        }
    }
}

/// How the names of season sheets begin.
const SEASON_STEM: &str = "season-";

fn season(shown: &Shown) -> Markup {
    let year = html! {
        (shown.whose.select(None))
        label {
            span { "Year of planting" }
            input type="text" name="year" placeholder="the next" inputmode="numeric" maxlength="4" autocomplete="off";
        }
    };
    html! {
        section.sheet aria-labelledby="season" {
            h2 #season { "Season sheet" }
            p {
                "A garden's year for the shed wall: its frosts, when to sow, pot on, harden off and plant out, and the harvest of a "
                "few varieties week by week. Risk and planting day are chosen on its " a href="/calendar" { "Calendar" } "."
            }
            (calendar::sheet_form(&year, shown.units))
            (last_of(SEASON_STEM, &shown.sheets))
        }
    }
}

fn scale_card(did: &Did, shown: &Shown) -> Markup {
    html! {
        section.sheet aria-labelledby="card" {
            h2 #card { "Scale card" }
            @if did.printed.as_deref() == Some("card") {
                (seed::done(did.file.as_deref(), None, "The card is printed. Print it at full size and hold a rule to its line of 70 mm:"))
            }
            p {
                "Lies beside fruit on photographs, so that they can be measured: " a href="/photo" { "Photo" } ". A card that is "
                "printed for a plot says so in its strip, and the photograph files itself."
            }
            (card::form())
            (last_of(card::STEM, &shown.sheets))
        }
    }
}

fn seed_room(did: &Did, shown: &Shown) -> Markup {
    let (seed, today) = (&shown.seed, ZonedDateTime::now().date());
    let is = |what: &str| did.printed.as_deref() == Some(what);
    html! {
        section.sheet aria-labelledby="labels" {
            h2 #labels { "Packet labels" }
            @if is("labels") { (seed::done(did.file.as_deref(), did.told.as_deref(), "The labels are printed. Print them at full size:")) }
            p {
                "A label a packet: portrait, what the evidence backs, lot, test, contents both ways, when to sow, and what "
                "the law asks. Or the whole packing run: packets booked out of their jars, with their labels."
            }
            @if seed.lots.is_empty() {
                p.last { "No lot holds seed yet: " a href="/seed-room/new" { "found one" } "." }
            } @else {
                (seed::labels_form(seed, did.packets.as_deref().unwrap_or_default(), today))
            }
            (last_of(LABELS_STEM, &shown.sheets))
        }
        section.sheet aria-labelledby="lots" {
            h2 #lots { "Lot cards" }
            @if is("lots") { (seed::done(did.file.as_deref(), did.told.as_deref(), "The lot cards are printed:")) }
            p { "A card for every jar: number, code, origin, what is held, tests, and lines for a pencil. Six a sheet." }
            @if !seed.lots.is_empty() { (cards_form(None, "Print cards of all lots with seed")) }
            (last_of(CARDS_STEM, &shown.sheets))
        }
    }
}

fn done(did: &Did, kind: Kind, words: &str) -> Markup {
    html! {
        @if did.printed.as_deref() == Some(kind.word) { (page::notice(&html! { p { (words) } })) }
    }
}

/// How many marks of each kind there are.
fn counts(proof: &Proof) -> Markup {
    html! {
        @if 0 < proof.marks() {
            ul.counts { @for count in proof.counts() { li { (count.kind.name()) ": " (count.told()) } } }
        }
    }
}

fn chooser(kind: Kind, units: Units, press: &str) -> Markup {
    html! {
        form.decide method="post" action="/print" {
            input type="hidden" name="what" value=(kind.word);
            fieldset {
                legend { "Paper" }
                @for paper in kind.papers {
                    label.tick {
                        input type="radio" name="paper" value=(paper.word) checked[paper.usual == Some(units)];
                        span { (paper.words) }
                    }
                }
            }
            button.strong { (press) }
        }
    }
}

/// What was printed of this kind, the latest first.
fn last(kind: Kind, sheets: &[Sheet]) -> Markup {
    last_of(kind.stem, sheets)
}

/// What was printed under names that begin so, the latest first.
fn last_of(stem: &str, sheets: &[Sheet]) -> Markup {
    let own: Vec<&Sheet> = sheets.iter().filter(|sheet| sheet.name.starts_with(stem)).collect();
    html! {
        @if own.is_empty() { p.last { "Not printed yet." } }
        ul.sheets {
            @for sheet in own {
                li {
                    a href=(format!("/print/{}", encoded(&sheet.name))) { (sheet.name) }
                    " " (grouped(sheet.bytes.div_ceil(1000))) " kB"
                    @if let Some(at) = sheet.printed { ", printed " (moment(at)) }
                }
            }
        }
    }
}
