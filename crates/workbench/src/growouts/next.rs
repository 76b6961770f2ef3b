//! The next grow-out: what it should hold and why, and a way on to laying it out.

use super::today;
use crate::desk::Desk;
use crate::fields::said;
use crate::page::{self, Place, scrolling};
use crate::telling::{count, variety_address};
use crate::trouble::{Trouble, nothing_told};
use axum::extract::{Query, State};
use house::fault::HouseFault;
use house::folder::House;
use house::growouts::{self, Ground as Known};
use house::layout::file::form;
use house::lots;
use house::next::ground::Ground;
use house::next::told::{Next, Row};
use house::next::{self, Asked, telling};
use maud::{Markup, html};
use record::language::{Units, counted};
use record::season::Season;
use serde::Deserialize;

/// What the address asks.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Typed {
    /// A grow-out whose ground it takes.
    #[serde(rename = "as")]
    like: Option<String>,
    /// Or so many plots.
    plots: Option<String>,
    /// Plants of each of these.
    plants: Option<String>,
    season: Option<String>,
    /// Varieties that somebody asked for, one a line.
    wish: Option<String>,
    /// Varieties that must stand, one a line.
    must: Option<String>,
    /// Varieties to leave out, one a line.
    without: Option<String>,
    /// Varieties whose flowers cross readily, one a line.
    crossing: Option<String>,
    apart: Option<String>,
    most_plants: Option<String>,
    most_plots: Option<String>,
}

/// What was found, or why there is nothing to show.
type Found = Result<Box<Next>, (String, Option<String>)>;

/// Grow-outs whose ground can be taken.
type Grounds = Vec<String>;

/// Shows the form, and what the next grow-out should hold where that was asked.
pub(crate) async fn show(State(desk): State<Desk>, Query(typed): Query<Typed>) -> Result<Markup, Trouble> {
    let asked = typed.clone();
    let (house, (grounds, found)) = desk.ask(move |house| gathered(house, &asked)).await?;
    let body = body(&typed, &grounds, found.as_ref(), house.settings.units);
    Ok(page::page(&house, Place::GrowOuts, "The next grow-out", body))
}

fn gathered(house: &House, typed: &Typed) -> Result<(Grounds, Option<Found>), HouseFault> {
    let planted = growouts::grow_outs(house, today())?.into_iter();
    let grounds: Grounds =
        planted.filter(|own| own.ground == Known::LaidOut).map(|own| own.grow_out.name).collect();
    if said(typed.like.as_ref()).is_none() && said(typed.plots.as_ref()).is_none() {
        return Ok((grounds, None));
    }
    let asked = match asked(typed) {
        Ok(asked) => asked,
        Err(why) => return Ok((grounds, Some(Err((why, None))))),
    };
    let found = match next::of(house, &asked, lots::law::Asked::of(house, today())) {
        Ok(next) => Ok(Box::new(next)),
        Err(fault) if fault.mender() == house::fault::Mender::User => Err((fault.to_string(), fault.help())),
        Err(fault) => return Err(fault),
    };
    Ok((grounds, Some(found)))
}

fn asked(typed: &Typed) -> Result<Asked, String> {
    let year = match number::<i16>("Season", typed.season.as_ref())? {
        Some(year) => year,
        None => next::next_crop(today()),
    };
    let season = Season::new(year).ok_or_else(|| format!("{year} is no season"))?;
    let ground = match (said(typed.like.as_ref()), number("Plots", typed.plots.as_ref())?) {
        (Some(name), _) => Ground::As(name.to_owned()),
        (None, plots) => Ground::Plots {
            plots: plots.unwrap_or_default(),
            plants: number("Plants of a plot", typed.plants.as_ref())?.unwrap_or(PLANTS),
        },
    };
    let mut asked = Asked::of(season, ground);
    asked.wished = lines(typed.wish.as_ref());
    asked.must = lines(typed.must.as_ref());
    asked.without = lines(typed.without.as_ref());
    asked.crossing = lines(typed.crossing.as_ref());
    asked.most_plants = number("Most plants", typed.most_plants.as_ref())?;
    asked.apart = number("Kept apart", typed.apart.as_ref())?.unwrap_or(asked.apart);
    asked.most_plots =
        number("Most plots of one variety", typed.most_plots.as_ref())?.unwrap_or(asked.most_plots);
    Ok(asked)
}

/// Plants of a plot where nobody says. A choice of the page.
const PLANTS: u32 = 6;

fn number<N: std::str::FromStr>(label: &str, typed: Option<&String>) -> Result<Option<N>, String> {
    let told = |words: &str| words.parse().map_err(|_| format!("{label}: {words:?} is no number of them"));
    said(typed).map(told).transpose()
}

fn lines(typed: Option<&String>) -> Vec<String> {
    let lines = typed.map(|text| text.lines()).into_iter().flatten();
    lines.map(str::trim).filter(|line| !line.is_empty()).map(str::to_owned).collect()
}

fn body(typed: &Typed, grounds: &[String], found: Option<&Found>, units: Units) -> Markup {
    html! {
        p.back { a href="/grow-outs" { "All grow-outs" } }
        h1 { "The next grow-out" }
        p {
            "Every variety is weighed in packets: those that would be missing for want of seed, what a contested call or thin "
            "evidence is worth to settle, what was asked for. Then the best use of the ground is found. What is expected to sell "
            "comes from " a href="/sales" { "sales" } "."
        }
        (form_of(typed, grounds))
        @match found {
            None => {}
            Some(Err((why, help))) => (nothing_told(why, help.as_deref())),
            Some(Ok(next)) => (answer(next, units)),
        }
    }
}

fn form_of(typed: &Typed, grounds: &[String]) -> Markup {
    let number = |name: &str, label: &str, value: Option<&String>, usual: &str| {
        html! {
            label {
                span { (label) }
                input name=(name) value=[value] placeholder=(usual) inputmode="numeric" maxlength="6" autocomplete="off";
            }
        }
    };
    let names = |name: &str, label: &str, value: Option<&String>| {
        html! { label { span { (label) } textarea name=(name) rows="3" { (value.map(String::as_str).unwrap_or_default()) } } }
    };
    html! {
        form.lay-out method="get" action="/grow-outs/next" {
            fieldset {
                legend { "The ground" }
                div.cells {
                    @if !grounds.is_empty() {
                        label {
                            span { "As it was laid out for" }
                            select name="as" {
                                option value="" { "so many plots instead" }
                                @for ground in grounds {
                                    option value=(ground) selected[typed.like.as_ref() == Some(ground)] { (ground) }
                                }
                            }
                        }
                    }
                    (number("plots", "Plots", typed.plots.as_ref(), "40"))
                    (number("plants", "Plants of a plot", typed.plants.as_ref(), "6"))
                    (number("season", "Season, the year of harvest", typed.season.as_ref(), &next::next_crop(today()).to_string()))
                }
            }
            details open[typed.wish.is_some() || typed.must.is_some()] {
                summary { "Wishes and limits" }
                div.cells {
                    (names("wish", "Asked for, one a line", typed.wish.as_ref()))
                    (names("must", "Must stand, one a line", typed.must.as_ref()))
                    (names("without", "Left out, one a line", typed.without.as_ref()))
                    (names("crossing", "Flowers that cross readily, one a line", typed.crossing.as_ref()))
                    (number("apart", "Of these, kept apart or bagged for seed", typed.apart.as_ref(), "1"))
                    (number("most_plants", "Most plants raised", typed.most_plants.as_ref(), ""))
                    (number("most_plots", "Most plots of one variety", typed.most_plots.as_ref(), "4"))
                }
            }
            p.acts { button.strong { "Choose" } }
        }
    }
}

fn answer(next: &Next, units: Units) -> Markup {
    let taken: u32 = next.grown.iter().map(|row| row.plots).sum();
    html! {
        section aria-labelledby="grown" {
            h2 #grown { "Season " (next.season) ": what to grow" }
            p {
                (counted(count(next.grown.len()), "variety", "varieties")) " on " (taken) " of "
                (counted(next.stand.plots.into(), "plot", "plots")) ", " (next.stand.plants_each) " plants each. "
                "Its seed is wanted from " (next.horizon.soon.first) " to " (next.horizon.soon.last) ". "
                (telling::proof(next))
            }
            (scrolling("What to grow", &grown(&next.grown)))
            (apart(next, units))
            p { (telling::more(&next.more)) }
            (lay_out(next))
        }
        (left_out(next))
        p.basis {
            (counted(count(next.wanting_nothing), "variety has", "varieties have"))
            " seed enough, sure calls and evidence enough. Sales from " (next.covered.first) " to " (next.covered.last)
            "; germination by " (next.minimum.rule) "."
        }
    }
}

fn apart(next: &Next, units: Units) -> Markup {
    let isolations = telling::isolations(next, units);
    html! {
        @if !isolations.is_empty() {
            p { "How far from other tomatoes seed is saved:" }
            ul.reasons { @for told in &isolations { li { (told) } } }
        }
    }
}

fn grown(rows: &[Row]) -> Markup {
    html! {
        table.next {
            caption.unseen { "What to grow, what is worth most first" }
            (page::heads(&["Variety", "Plots", "Sells, 8 times in 10", "In the house", "Worth", "Why"]))
            tbody { @for row in rows { (one(row)) } }
        }
    }
}

fn one(row: &Row) -> Markup {
    let (low, _, high) = row.soon;
    html! {
        tr {
            th scope="row" { a href=(variety_address(&row.variety)) { (row.variety) } }
            td {
                (row.plots)
                span.help {
                    (counted(row.plants.into(), "plant", "plants")) ", "
                    @if 0.0 < row.seed { "for about " (telling::packets(row.seed)) } @else { "for notes alone" }
                    @if row.plots < row.best_plots { "; " (row.best_plots) " plots would be better still" }
                }
            }
            td { (low) " to " (high) @if !row.was_sold { span.help { "never sold: as the others do" } } }
            td {
                (row.packets)
                @if row.lasting < row.packets { span.help { (row.lasting) " of them lasting" } }
            }
            td { (telling::packets(row.worth)) }
            td {
                ul.reasons {
                    @for reason in &row.reasons { li { (telling::reason(reason)) } }
                    @for lot in row.lots.iter().filter(|lot| lot.lasts != next::told::Lasts::Yes) { li { (telling::lot(lot)) } }
                    @for step in &row.settles { li { "settles it: " (step) } }
                }
            }
        }
    }
}

/// Varieties left out that the page tells. A choice of the page: the command tells all.
const MOST_TOLD: usize = 24;

fn left_out(next: &Next) -> Markup {
    let rows = html! {
        table.next {
            caption.unseen { "What is left out, what is worth most first" }
            (page::heads(&["Variety", "Plots it would have", "Worth", "Because"]))
            tbody {
                @for row in next.left_out.iter().take(MOST_TOLD) {
                    tr {
                        th scope="row" { a href=(variety_address(&row.variety)) { (row.variety) } }
                        td { (row.plots) }
                        td { (telling::packets(row.worth)) }
                        td {
                            @if let Some(left) = row.left_for { (telling::left_for(left)) }
                            @if let Some(reason) = row.reasons.first() { span.help { (telling::reason(reason)) } }
                        }
                    }
                }
            }
        }
    };
    html! {
        @if !next.left_out.is_empty() {
            section aria-labelledby="left-out" {
                h2 #left-out { "Left out" }
                (scrolling("Varieties that are left out, as a table", &rows))
                @if MOST_TOLD < next.left_out.len() {
                    p.basis { "And " (next.left_out.len() - MOST_TOLD) " more: locule next --all tells them." }
                }
            }
        }
        @if !next.gaps.is_empty() {
            p {
                "The list has no "
                @for (place, gap) in next.gaps.iter().enumerate() {
                    @if 0 < place { ", no " }
                    (gap.habit) " " (gap.colour) " " (gap.class)
                }
                ", and all round it is filled: " a href="/gaps" { "the gaps" } " tell more."
            }
        }
    }
}

/// The way on: the same varieties and ground in the form that lays grow-outs out.
fn lay_out(next: &Next) -> Markup {
    let fields = next.wanted.as_ref().map(form::of);
    html! {
        @match fields {
            Some(fields) => {
                form method="post" action="/grow-outs/new" {
                    @for (name, value) in form::sent(&fields) { input type="hidden" name=(name) value=(value); }
                    p.acts { button.strong name="act" value="preview" { "Lay it out on this ground" } }
                }
            }
            None => {
                p.help { "Choose a ground that was laid out before to lay this out, or give locule next a layout file." }
            }
        }
    }
}
