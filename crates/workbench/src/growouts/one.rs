//! One grow-out: its beds and plots, moving a plot by hand, and its paper.

use super::{grow_out_address, today, told};
use crate::desk::{Desk, act};
use crate::fields::Sent;
use crate::page::{self, Place, notice, scrolling};
use crate::telling::{encoded, variety_address};
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Path, Query, State};
use axum::response::Redirect;
use house::fault::HouseFault;
use house::folder::House;
use house::growouts::{self, Laid, Planted, Shown};
use house::labels::{self, LabelSheet};
use house::layout::moving::{self, To};
use house::print::Paper;
use house::stakes::{self, Each};
use house::walks::{self, Parted};
use jiff::civil::Date;
use maud::{Markup, html};
use record::language::System;
use serde::Deserialize;
use std::path::Path as File;

/// What the address asks.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// The plot that is picked.
    plot: Option<String>,
    /// Where it would go.
    to: Option<String>,
    /// What was just done.
    did: Option<String>,
}

/// What the page shows.
struct Page {
    shown: Shown,
    /// What the move that is asked about would cost, or why it cannot be.
    cost: Option<Result<String, String>>,
    sheets: Vec<LabelSheet>,
}

/// Shows one grow-out.
pub(crate) async fn show(
    State(desk): State<Desk>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Result<Markup, Trouble> {
    let day = today();
    let wanted = asked.plot.clone().zip(asked.to.clone()).filter(|(_, to)| !to.is_empty());
    let gather = move |house: &House| {
        let shown = growouts::one(house, &name, day)?;
        let cost = wanted.map(|(plot, to)| cost(house, &shown.planted.grow_out.name, &plot, &to));
        Ok(Page { shown, cost, sheets: labels::sheets(house)? })
    };
    let (house, page) = desk.ask(gather).await?;
    let title = page.shown.planted.grow_out.name.clone();
    Ok(page::page(&house, Place::GrowOuts, &title, body(&house, &page, &asked, day)))
}

fn cost(house: &House, name: &str, plot: &str, to: &str) -> Result<String, String> {
    let place = to_place(to).ok_or_else(|| "that is no place".to_owned())?;
    match moving::cost(house, name, plot, &place) {
        Ok(moved) => Ok(moved.cost.told()),
        Err(fault) => Err(fault.to_string()),
    }
}

/// `plot LABEL` or `spare ROW POSITION`.
fn to_place(typed: &str) -> Option<To> {
    if let Some(label) = typed.strip_prefix("plot ") {
        return Some(To::Plot(label.to_owned()));
    }
    let (row, position) = typed.strip_prefix("spare ")?.split_once(' ')?;
    Some(To::Spare { row: row.parse().ok()?, position: position.parse().ok()? })
}

/// Moves a plot.
pub(crate) async fn moved(
    State(desk): State<Desk>,
    Path(name): Path<String>,
    Form(sent): Sent,
) -> Result<Redirect, Trouble> {
    let plot = sent.get("plot").map(str::to_owned);
    let to = sent.get("to").and_then(to_place);
    let (Some(plot), Some(to)) = (plot, to) else {
        return Err(Trouble::user("the form names no plot and place", "choose a plot and where it goes"));
    };
    let address = grow_out_address(&name);
    let told = plot.clone();
    let (_, moved) = desk.ask(move |house| moving::keep(house, &name, &plot, &to, &act(house, None))).await?;
    let batch = moved.batch.map_or_else(String::new, |batch| format!(", batch {batch}"));
    let did = format!("{told} was moved{batch}. {}", moved.cost.told());
    Ok(Redirect::to(&format!("{address}?did={}", encoded(&did))))
}

/// Prints stakes or walk sheets and leads to the paper.
pub(crate) async fn print(
    State(desk): State<Desk>,
    Path(name): Path<String>,
    Form(sent): Sent,
) -> Result<Redirect, Trouble> {
    let (_, file) = desk.ask(move |house| printed(house, &name, &Form(sent))).await?;
    Ok(Redirect::to(&format!("/print/{}", encoded(&file))))
}

fn printed(house: &House, name: &str, sent: &Sent) -> Result<String, HouseFault> {
    let file = match sent.get("what") {
        Some("walk-sheets") => {
            let day = sent.get("day").and_then(|day| day.parse::<Date>().ok()).unwrap_or_else(today);
            let names = sent.get("people").unwrap_or_default().split(',').map(str::trim);
            let people: Vec<String> = names.filter(|name| !name.is_empty()).map(str::to_owned).collect();
            let parted = if people.is_empty() { Parted::Whole } else { Parted::Among(people) };
            let paper = match sent.get("paper") {
                Some("a4") => Paper::A4,
                _ => Paper::UsLetter,
            };
            let file = walks::file(house, name, day);
            walks::print(house, name, day, &parted, paper, &file)?.file
        }
        _ => {
            let sheet = labels::sheet(house, sent.get("sheet"))?;
            let each = if sent.get("each") == Some("plant") { Each::Plant } else { Each::Plot };
            stakes::print(house, name, each, &sheet, today(), &stakes::file(house, name))?.file
        }
    };
    Ok(file_name(&file))
}

fn file_name(file: &File) -> String {
    file.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned())
}

fn body(house: &House, page: &Page, asked: &Asked, day: Date) -> Markup {
    let planted = &page.shown.planted;
    let name = &planted.grow_out.name;
    html! {
        p.back { a href="/grow-outs" { "All grow-outs" } }
        h1 { (name) }
        @if let Some(did) = &asked.did { (notice(&html! { (did) })) }
        (told(planted))
        p { a href={ (grow_out_address(name)) "/results" } { "Results: what its plots say" } }
        @if let Some(laid) = &page.shown.laid {
            section aria-labelledby="beds" {
                h2 #beds { "Beds" }
                (scrolling(&format!("Bed map of {name}"), &page::drawn(&drawing::bed_map::bed_map(&laid.map))))
                ul.words { @for sentence in &laid.words { li { (sentence) } } }
                (mover(page, laid, asked))
            }
        }
        (paper(house, planted, &page.sheets, day))
        section aria-labelledby="plots" {
            h2 #plots { "Plots" }
            (scrolling(&format!("Plots of {name}"), &plots(planted)))
        }
    }
}

/// Picking a plot and placing it: two fields that a keyboard fills, and what it costs before it is kept.
fn mover(page: &Page, laid: &Laid, asked: &Asked) -> Markup {
    let planted = &page.shown.planted;
    let address = grow_out_address(&planted.grow_out.name);
    let picked = |label: &str| asked.plot.as_deref() == Some(label);
    let placed = |to: &str| asked.to.as_deref() == Some(to);
    html! {
        h3 #move { "Move a plot" }
        p { "Choose a plot and where it goes, or pick it on the map and then the place. Nothing is kept until you say so." }
        @match &page.cost {
            Some(Ok(told)) => (notice(&html! { (told) })),
            Some(Err(fault)) => { div.fault role="alert" { p { (fault) } } }
            None => {}
        }
        form.decide.mover method="get" action={ (address) "#move" } {
            label { span { "Plot" }
                select name="plot" {
                    @for (plot, variety) in &planted.plots {
                        option value=(plot.label) selected[picked(&plot.label)] { (plot.label) " " (variety) }
                    }
                }
            }
            label { span { "Goes to" }
                select name="to" {
                    @for (row, position) in &laid.spare {
                        @let to = format!("spare {row} {position}");
                        option value=(to) selected[placed(&to)] { "spare: row " (row) ", position " (position) }
                    }
                    @for (plot, variety) in &planted.plots {
                        @let to = format!("plot {}", plot.label);
                        option value=(to) selected[placed(&to)] { "change with " (plot.label) " " (variety) }
                    }
                }
            }
            button { "What would it cost?" }
            button.strong formmethod="post" formaction={ (address) "/move" } { "Move it" }
        }
    }
}

fn paper(house: &House, planted: &Planted, sheets: &[LabelSheet], day: Date) -> Markup {
    let action = format!("{}/print", grow_out_address(&planted.grow_out.name));
    let metric = house.settings.units.first == System::Metric;
    let usual = if metric { Paper::A4 } else { Paper::UsLetter };
    let first = sheets.iter().find(|sheet| sheet.paper == usual).map(|sheet| sheet.name.clone());
    html! {
        section aria-labelledby="paper" {
            h2 #paper { "Paper" }
            form.decide method="post" action=(action) {
                input type="hidden" name="what" value="stakes";
                label { span { "Label sheet, by size" }
                    select name="sheet" {
                        @for sheet in sheets {
                            option value=(sheet.name) selected[first.as_ref() == Some(&sheet.name)] {
                                (sheet.name) ", " (sheet.columns) " by " (sheet.rows) " on "
                                (match sheet.paper { Paper::A4 => "A4", Paper::UsLetter => "US Letter" })
                            }
                        }
                    }
                }
                label.tick { input type="checkbox" name="each" value="plant"; span { "A stake for every plant" } }
                button { "Print stakes" }
            }
            form.decide method="post" action=(action) {
                input type="hidden" name="what" value="walk-sheets";
                label { span { "Day of the walk" } input type="date" name="day" value=(day); }
                label { span { "Who walks, parted by commas" } input name="people" autocomplete="off"; }
                label { span { "Paper" }
                    select name="paper" {
                        option value="letter" selected[!metric] { "US Letter" }
                        option value="a4" selected[metric] { "A4" }
                    }
                }
                button { "Print walk sheets" }
            }
        }
    }
}

fn plots(planted: &Planted) -> Markup {
    let told = |count: Option<u32>| count.map_or_else(String::new, |count| count.to_string());
    let heads = ["Plot", "Variety", "Replicate", "Block", "Bed", "Row", "Place", "Set out", "Plants"];
    html! {
        table {
            caption.unseen { "Plots of " (planted.grow_out.name) }
            (page::heads(&heads))
            tbody {
                @for (plot, variety) in &planted.plots {
                    tr {
                        th scope="row" { (plot.label) }
                        td { a href=(variety_address(variety)) { (variety) } }
                        td.number { (told(plot.layout.replicate)) }
                        td.number { (told(plot.block)) }
                        td { @if let Some(bed) = &plot.layout.bed { (bed) } }
                        td.number { (told(plot.row)) }
                        td.number { (told(plot.position)) }
                        td.day { @if let Some(day) = plot.transplanted { (day) } }
                        td.number { (told(plot.plant_count)) }
                    }
                }
            }
        }
    }
}
