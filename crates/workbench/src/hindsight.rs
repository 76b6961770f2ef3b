//! Hindsight: forecasts of the house's own past seasons beside what was picked.

use crate::desk::Desk;
use crate::page::{self, Place, scrolling};
use crate::telling::count;
use crate::trouble::{Trouble, nothing_told};
use crate::warmth::Warmth;
use axum::extract::{Query, State};
use house::fault::HouseFault;
use house::folder::House;
use house::forecast::hindsight::{Asked, Held, Hindsight, hindsight};
use house::warmth::named;
use maud::{Markup, html};
use record::language::counted;

/// What was found, or why there is nothing to show.
type Found = Result<Hindsight, (String, Option<String>)>;

/// Shows how forecasts of past seasons came out.
pub(crate) async fn show(State(desk): State<Desk>, Query(warmth): Query<Warmth>) -> Result<Markup, Trouble> {
    let asked = warmth.clone();
    let (house, found) = desk.ask(move |house| found(house, &asked)).await?;
    Ok(page::page(&house, Place::Advice, "Hindsight", body(&warmth, &found)))
}

fn found(house: &House, warmth: &Warmth) -> Result<Found, HouseFault> {
    let clock = match warmth.clock() {
        Ok(clock) => clock,
        Err(why) => return Ok(Err(why)),
    };
    match hindsight(house, &Asked { home: None, scale: None, clock }) {
        Ok(found) => Ok(Ok(found)),
        Err(fault @ (HouseFault::NoPicks { .. } | HouseFault::Place(_))) => {
            Ok(Err((fault.to_string(), fault.help())))
        }
        Err(fault) => Err(fault),
    }
}

fn body(warmth: &Warmth, found: &Found) -> Markup {
    html! {
        (page::advice_ways("/hindsight"))
        p.trail { a href="/forecast" { "Forecast" } }
        h1 { "Hindsight" }
        p {
            "Every season of the house is forecast from its other seasons, with that season's own weather, and held to what was "
            "picked. Of 100 plots 80 should lie between the poor and the good season told."
        }
        form.filter method="get" action="/hindsight" {
            (warmth.form())
            button type="submit" { "Show" }
        }
        @match found {
            Err((why, help)) => (nothing_told(why, help.as_deref())),
            Ok(found) => {
                (by_crop(found))
                (by_season(found))
                (left_out(found))
            }
        }
    }
}

const HEADS: [&str; 6] = [
    "Plots",
    "Weight within the range, of 100",
    "Came for each kg told",
    "First fruits",
    "First within, of 100",
    "Days late",
];

/// The figures of one row.
fn figures(held: &Held) -> Markup {
    let in_100 =
        |part: Option<f64>| part.map_or_else(|| "-".to_owned(), |part| format!("{:.0}", 100.0 * part));
    html! {
        td.number { (held.plots()) }
        td.number { (in_100(held.within())) }
        td.number { (held.came_for_one().map_or_else(|| "-".to_owned(), |came| format!("{came:.2} kg"))) }
        td.number { (held.firsts()) }
        td.number { (in_100(held.first_within())) }
        td.number { (held.days_late().map_or_else(|| "-".to_owned(), |days| format!("{days:+.1}"))) }
    }
}

fn by_crop(found: &Hindsight) -> Markup {
    let rows = [
        ("One crop", found.one_crop),
        ("Until frost", found.until_frost),
        ("In no other season", found.strangers),
        ("All", found.all()),
    ];
    let table = html! {
        table.list {
            caption.unseen { "Forecasts of past seasons by how crops go on" }
            thead { tr { th scope="col" { "Varieties" } @for head in HEADS { th scope="col" { (head) } } } }
            tbody { @for (name, held) in rows { tr { th scope="row" { (name) } (figures(&held)) } } }
        }
    };
    html! {
        section aria-labelledby="crops" {
            h2 #crops { "By how the crop goes on" }
            (scrolling("Forecasts of past seasons by how crops go on, as a table", &table))
            p.quiet {
                "Varieties that stood in no other season were forecast as their kind is. A first fruit is held to the day halfway "
                "back from the first pick to the one that would have come before it. Counted in " (named(&found.clock)) "."
            }
        }
    }
}

fn by_season(found: &Hindsight) -> Markup {
    let table = html! {
        table.list {
            caption.unseen { "Forecasts of past seasons, season by season" }
            thead { tr { @for head in ["Season", "Garden", "Weather of"].into_iter().chain(HEADS) { th scope="col" { (head) } } } }
            tbody {
                @for season in &found.seasons {
                    tr {
                        th scope="row" { (season.season) }
                        td { (season.garden) }
                        td { (season.weather) }
                        (figures(&season.held))
                    }
                }
            }
        }
    };
    html! {
        section aria-labelledby="seasons" {
            h2 #seasons { "Season by season" }
            (scrolling("Forecasts of past seasons season by season, as a table", &table))
        }
    }
}

fn left_out(found: &Hindsight) -> Markup {
    html! {
        @if 0 < found.not_measured {
            p.quiet { "Left out, for nobody measured the weather of their season: " (counted(count(found.not_measured), "plot", "plots")) "." }
        }
        @if 0 < found.alone {
            p.quiet { "Left out, for there is no other season to forecast them from: " (counted(count(found.alone), "plot", "plots")) "." }
        }
    }
}
