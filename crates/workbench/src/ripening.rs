//! When a variety ripens: the shares of its fruit day by day, how far plots and seasons move them, and every plot's picks.

use crate::desk::Desk;
use crate::page::{self, Place, drawn, scrolling};
use crate::telling::{count, encoded, variety_address};
use crate::trouble::{Trouble, nothing_told};
use axum::extract::{Path, State};
use drawing::ripe_share::ripe_share;
use drawing::scale::Pixels;
use house::fault::HouseFault;
use house::folder::House;
use house::ripen::{self, Asked, LastPick, PlotTold, Ripening, SHARES, law_named, share_named};
use maud::{Markup, html};
use record::language::{self, Units, capitalised, counted};

/// What the picks say, or why they say nothing.
type Told = Result<Ripening, (String, Option<String>)>;

/// Shows one variety's ripening.
pub(crate) async fn show(State(desk): State<Desk>, Path(name): Path<String>) -> Result<Markup, Trouble> {
    let asked = name.clone();
    let (house, told) = desk.ask(move |house| told(house, asked)).await?;
    let name = told.as_ref().map_or(name, |found| found.variety.clone());
    let title = format!("When {name} ripens");
    Ok(page::page(&house, Place::List, &title, body(&name, &told, house.settings.units)))
}

fn told(house: &House, variety: String) -> Result<Told, HouseFault> {
    match ripen::ripen(house, &Asked { variety, by: None }) {
        Ok(found) => Ok(Ok(found)),
        Err(fault @ HouseFault::NoPicks { .. }) => Ok(Err((fault.to_string(), fault.help()))),
        Err(fault) => Err(fault),
    }
}

fn body(name: &str, told: &Told, units: Units) -> Markup {
    html! {
        p.trail { a href="/" { "The list" } " / " a href=(variety_address(name)) { (name) } }
        h1 { "When " (name) " ripens" }
        @match told {
            Err((why, help)) => (nothing_told(why, help.as_deref())),
            Ok(found) => {
                (days(found))
                (curve(found))
                (plots(&found.plots, units))
                p {
                    a href=(format!("/forecast?weather=&variety={}", encoded(name))) { "The harvest to expect" }
                    " in a garden, week by week."
                }
                p.quiet {
                    "These days hold for the summers that the plots had. In the terminal, " code { "locule ripen" }
                    " with " code { "--weather" } " and a station's record counts warmth instead, and says what each of "
                    "its years would have made of it."
                }
            }
        }
    }
}

/// Widths that the curve is drawn at, for a desk and for a phone. A choice of the page.
const WIDTHS: [(&str, u16); 2] = [("wide", 640), ("narrow", 328)];

/// The curve, drawn; the tables beside it say the same.
fn curve(found: &Ripening) -> Markup {
    let of = ripen::drawn(found);
    html! {
        section aria-labelledby="curve" {
            h2 #curve { "The curve, and the picks that it is fitted to" }
            @for (class, width) in WIDTHS {
                div.(class) { (drawn(&ripe_share(&of, Pixels::from(width)))) }
            }
            p.quiet {
                "The heavy line is the share ripe, each thin stair what was taken of one plot, pick by pick: a pick comes after its "
                "fruit ripened, so stairs stand to the right of the line. At a tenth, half and nine tenths, the thick bar holds 90 "
                "of 100 other plots, the thin one 90 of 100 in other seasons."
            }
        }
    }
}

/// The shares and their ranges.
fn days(found: &Ripening) -> Markup {
    let range = |range: Option<(f64, f64)>| match range {
        Some((low, high)) => format!("{low:.0} to {high:.0}"),
        None => "not known".to_owned(),
    };
    let table = html! {
        table.list {
            caption.unseen { "Days from transplanting to each share ripe" }
            (page::heads(&["Ripe", "Day", "90 of 100 other plots", "In other seasons"]))
            tbody {
                @for (share, point) in SHARES.iter().zip(&found.points) {
                    @if let Some(point) = point {
                        tr {
                            th scope="row" { (capitalised(share_named(*share))) }
                            td.number { (format!("{:.0}", point.time)) }
                            td { (range(point.another_plot)) }
                            td { (range(point.another_season)) }
                        }
                    }
                }
            }
        }
    };
    let known = found.points.iter().flatten().any(|point| point.another_season.is_some());
    html! {
        section aria-labelledby="days" {
            h2 #days { "Days from transplanting" }
            (scrolling("Days to each share ripe, as a table", &table))
            p.quiet {
                "From " (counted(count(found.curves.plots.len()), "plot", "plots")) ", each fitted to when its picks were "
                "taken (" (law_named(found.curves.law)) "): a fruit ripened at some moment since the pick before. How far "
                "another plot or season would move it comes from " (counted(count(found.varieties), "variety", "varieties"))
                " in " (counted(count(found.seasons), "season", "seasons")) " of the house."
                @if !known { " No variety has plots in two seasons, so how far another would move it is not known." }
            }
        }
    }
}

fn plots(plots: &[PlotTold], units: Units) -> Markup {
    let mass = |grams| language::mass_briefly(grams, units);
    let day = |day: Option<i32>| day.map_or_else(|| "-".to_owned(), |day| day.to_string());
    let table = html! {
        table.list {
            caption.unseen { "Each plot's picks" }
            (page::heads(&["Plot", "Season", "Plants out", "Picks", "First, day", "A tenth", "Half", "Nine tenths",
                "A plant", "A fruit early", "Late"]))
            tbody {
                @for plot in plots {
                    tr {
                        th scope="row" { (plot.label) }
                        td { (plot.season) }
                        td { (plot.transplanted.strftime("%-d %b")) }
                        td.number { (plot.picks) }
                        td.number { (day(plot.first)) }
                        @for taken in plot.taken_by { td.number { (day(taken)) } }
                        td.number { @if let Some(grams) = plot.a_plant { (mass(grams)) } }
                        td.number { @if let Some((early, _)) = plot.fruit { (mass(early)) } }
                        td.number { @if let Some((_, late)) = plot.fruit { (mass(late)) } }
                    }
                }
            }
        }
    };
    let cleared: Vec<&str> = plots
        .iter()
        .filter(|plot| plot.last_pick == LastPick::ClearOut)
        .map(|plot| plot.label.as_str())
        .collect();
    html! {
        section aria-labelledby="plots" {
            h2 #plots { "Plot by plot" }
            (scrolling("Each plot's picks, as a table", &table))
            p.quiet {
                "Days with which a tenth, half and nine tenths of all that was picked had been taken, sound fruit a plant, and "
                "the mean fruit of the first and second half."
                @if !cleared.is_empty() {
                    " Cleared at the end, so that its last fruit may have been green: " (cleared.join(", ")) "."
                }
            }
        }
    }
}
