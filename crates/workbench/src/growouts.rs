//! Grow-outs: every season's planting as it was brought in, with its plots.

use crate::desk::Desk;
use crate::page::{self, Place, scrolling};
use crate::telling::{count, variety_address};
use crate::trouble::Trouble;
use axum::extract::State;
use house::growouts::{self, Planted};
use maud::{Markup, html};
use record::language::counted;

/// Lists the grow-outs.
pub(crate) async fn all(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, grow_outs) = desk.ask(growouts::grow_outs).await?;
    Ok(page::page(&house, Place::GrowOuts, "Grow-outs", body(&grow_outs)))
}

fn body(grow_outs: &[Planted]) -> Markup {
    html! {
        h1 { "Grow-outs" }
        p {
            "What was planted, where and when, from the tables of plots that were brought in. To choose what "
            "the next one should hold, look on " a href="/?contested=only" { "the list" } " for contested calls: "
            "each says what would settle it. To lay the next one out so that varieties can be compared fairly, "
            "three things must be known that no table here holds: the check variety, the ground to be planted, "
            "and the plants to hand. Stakes and walk sheets follow from such a layout."
        }
        @if grow_outs.is_empty() {
            p { "No grow-out is known. " a href="/bring-in" { "Bring in" } " a table of plots." }
        }
        @for planted in grow_outs { (grow_out(planted)) }
    }
}

fn grow_out(planted: &Planted) -> Markup {
    let plants: u64 = planted.plots.iter().filter_map(|(plot, _)| plot.plant_count).map(u64::from).sum();
    let out = &planted.grow_out;
    html! {
        section.grow-out {
            h2 { (out.name) }
            p {
                "Season " (out.season) ", garden " (out.garden) ": "
                (counted(count(planted.plots.len()), "plot", "plots")) " of "
                (counted(count(planted.variety_count), "variety", "varieties"))
                @if 0 < plants { ", " (counted(plants, "plant", "plants")) " set out" } "."
            }
            details {
                summary { "Its plots" }
                (scrolling(&format!("Plots of {}", out.name), &plots(planted)))
            }
        }
    }
}

fn plots(planted: &Planted) -> Markup {
    let told = |count: Option<u32>| count.map_or_else(String::new, |count| count.to_string());
    html! {
        table {
            caption.unseen { "Plots of " (planted.grow_out.name) }
            (page::heads(&["Plot", "Variety", "Block", "Row", "Place", "Set out", "Plants"]))
            tbody {
                @for (plot, variety) in &planted.plots {
                    tr {
                        th scope="row" { (plot.label) }
                        td { a href=(variety_address(variety)) { (variety) } }
                        td.number { (told(plot.block)) }
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
