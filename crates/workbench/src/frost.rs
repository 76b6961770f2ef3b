//! When frost comes: the last of spring and the first of autumn by their chances, and every year drawn.

use crate::desk::Desk;
use crate::fields::said;
use crate::page::{self, Place, drawn, scrolling};
use crate::telling::count;
use crate::trouble::{Trouble, nothing_told};
use crate::whose::{self, Choices};
use axum::extract::{Query, State};
use drawing::frost_years::frost_years;
use drawing::scale::Pixels;
use house::fault::HouseFault;
use house::folder::House;
use house::forecast::place::Source;
use house::frost::{
    self, Asked as Wanted, Chance, ESTIMATOR, FEWEST_FOR_ONE_IN_TEN, Frost, Frosts, FrostsAt, Told,
    YearOfFrosts,
};
use maud::{Markup, html};
use record::language::{self, Units, capitalised, counted};
use serde::Deserialize;

/// Widths that the years are drawn at, for a desk and for a phone. A choice of the page.
const WIDTHS: [(&str, u16); 2] = [("wide", 760), ("narrow", 328)];
/// A freeze, in degrees Celsius: the temperature whose years are shown.
const FREEZE: f64 = 0.0;

/// What the address asks.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// Whose weather.
    weather: Option<String>,
    /// Years to go by, such as 1991-2020.
    years: Option<String>,
}

/// What was found, or why there is nothing to show.
type Found = Result<Frosts, (String, Option<String>)>;

/// Shows when frost comes.
pub(crate) async fn show(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let (house, (choices, found)) = whose::gathered(&desk, &asked, found).await?;
    let body = body(&asked, &choices, found.as_ref(), house.settings.units);
    Ok(page::page(&house, Place::Advice, "Frost", body))
}

fn found(house: &House, choices: &Choices, asked: &Asked) -> Result<Option<Found>, HouseFault> {
    let Some(word) = said(asked.weather.as_ref()) else { return Ok(None) };
    let place = match choices.place(word) {
        Ok(place) => place,
        Err(why) => return Ok(Some(Err((why, None)))),
    };
    let years = match said(asked.years.as_ref()).map(frost::years_named).transpose() {
        Ok(years) => years,
        Err(fault) => return Ok(Some(Err((fault.to_string(), fault.help())))),
    };
    match frost::told(Some(house), &Wanted { place, scale: None, years, hemisphere: None }) {
        Ok(Told::Worked(found)) => Ok(Some(Ok(found))),
        Ok(Told::Published(_)) => Ok(None),
        Err(fault @ (HouseFault::Weather(_) | HouseFault::Place(_))) => {
            Ok(Some(Err((fault.to_string(), fault.help()))))
        }
        Err(fault) => Err(fault),
    }
}

fn body(asked: &Asked, choices: &Choices, found: Option<&Found>, units: Units) -> Markup {
    html! {
        (page::advice_ways("/frost"))
        h1 { "When frost comes" }
        p {
            "The last frost of spring and the first of autumn, as the climate normals mean their chances: "
            "after the day of " b { "1 year in 10" } " frost still comes in one spring of ten, which is a careful gardener's day."
        }
        form.filter method="get" action="/frost" {
            (choices.select(said(asked.weather.as_ref())))
            label {
                span { "Years, all unless told" }
                input type="text" name="years" value=[asked.years.as_deref()] placeholder="1991-2020" maxlength="11" autocomplete="off";
            }
            button type="submit" { "Show" }
        }
        @match found {
            None => {}
            Some(Err((why, help))) => (nothing_told(why, help.as_deref())),
            Some(Ok(found)) => {
                section aria-labelledby="chances" {
                    h2 #chances { "The days, by how often frost comes after or before them" }
                    (source(found))
                    (chances(found, units))
                    (estimated(found))
                }
                (years(found, units))
            }
        }
    }
}

/// Where the days come from, and what was left out of them.
fn source(found: &Frosts) -> Markup {
    let name = found.weather.as_ref().map(|weather| weather.name.clone()).or_else(|| found.station.clone());
    let drawn = found.weather.as_ref().and_then(|weather| match weather.source {
        Source::Drawn { years } => Some(years),
        Source::Measured { .. } => None,
    });
    let lies = found.weather.as_ref().and_then(|weather| weather.lies);
    let out = found.taken_out;
    let taken_out = count(out.nights_above_days + out.cold_nights + out.hot_days + out.still_days);
    html! {
        p.quiet {
            @if let Some(name) = &name { (name) ": " }
            @match drawn {
                Some(years) => {
                    (years) " years drawn from its climate and numbered from " (found.days.0.year()) ", none of them measured: a station's own file, taken under "
                    a href="/bring-in" { "Bring in" } ", tells more."
                }
                None => {
                    "measured, " (found.days.0) " to " (found.days.1)
                    @if 0 < taken_out { "; " (counted(taken_out, "day", "days")) " that cannot be right left out of it" }
                    "."
                }
            }
            @if let Some(lies) = lies {
                " It lies " (format!("{:.0}", lies.kilometres)) " km from the garden"
                @if let Some(by) = lies.warmer_by { ", and its days are taken " (format!("{by:+.1}")) " °C for the garden's height" }
                "."
            }
        }
    }
}

/// The three chances of both frosts and of the season, at every temperature.
fn chances(found: &Frosts, units: Units) -> Markup {
    let day =
        |counted: f64| frost::day(counted).map_or_else(String::new, |day| day.strftime("%-d %b").to_string());
    let days = |counted: f64| format!("{counted:.0}");
    let table = html! {
        table.list.frosts {
            caption.unseen { "Days of frost by temperature and chance, with the days between which 90 of 100 samples lie" }
            thead {
                tr {
                    th scope="col" { "So cold, or colder" }
                    th scope="col" { "What" }
                    @for head in ["1 year in 10", "5 in 10", "9 in 10"] { th scope="col" { (head) } }
                }
            }
            @for at in &found.at {
                tbody {
                    @for (place, (what, chances, told)) in rows(at, &day, &days).into_iter().enumerate() {
                        tr {
                            @if place == 0 { th scope="rowgroup" rowspan="3" { (language::temperature_to_tenths(at.celsius, units)) (left_out(at)) } }
                            th scope="row" { (what) }
                            @for chance in chances { td { (cell(chance, told)) } }
                        }
                    }
                }
            }
        }
    };
    scrolling("Days of frost, as a table", &table)
}

/// A kind of row: what it tells, its chances, and how a number of it is told.
type Row<'a> = (&'static str, &'a [Chance; 3], &'a dyn Fn(f64) -> String);

fn rows<'a>(
    at: &'a FrostsAt,
    day: &'a dyn Fn(f64) -> String,
    days: &'a dyn Fn(f64) -> String,
) -> [Row<'a>; 3] {
    [
        ("last of spring, or later", &at.chances.last, day),
        ("first of autumn, or earlier", &at.chances.first, day),
        ("days between, or more", &at.chances.season, days),
    ]
}

fn cell(chance: &Chance, told: &dyn Fn(f64) -> String) -> Markup {
    html! {
        @match (chance.day, chance.sampled) {
            (Some(day), sampled) => {
                b { (told(day)) }
                @if let Some((low, high)) = sampled { " " span.quiet { (told(low)) " to " (told(high)) } }
            }
            (None, _) => "rarer",
        }
    }
}

/// How many years a temperature goes by, and which it leaves out.
fn left_out(at: &FrostsAt) -> Markup {
    let left_out: Vec<String> = at.chances.left_out.iter().map(i16::to_string).collect();
    html! {
        br;
        span.quiet {
            (counted(count(at.chances.years.len()), "year", "years"))
            @if !left_out.is_empty() { ", without " (left_out.join(", ")) }
        }
    }
}

fn estimated(found: &Frosts) -> Markup {
    let is_few = found.at.iter().any(|at| at.chances.years.len() < FEWEST_FOR_ONE_IN_TEN);
    html! {
        p.quiet { "Days by " (ESTIMATOR) ", the range beside each day." }
        @if is_few { p { "So few years cannot show what comes in one year of ten: bring a longer record." } }
    }
}

/// Every year, drawn and as a table.
fn years(found: &Frosts, units: Units) -> Markup {
    let freeze = found.at.iter().find(|at| at.celsius.get() == FREEZE);
    html! {
        @if let Some((all, at)) = frost::drawn(found, units).zip(freeze) {
            section aria-labelledby="years" {
                h2 #years { "Every year at " (language::temperature_to_tenths(at.celsius, units)) }
                @for (class, width) in WIDTHS {
                    div.(class) { (drawn(&frost_years(&all, Pixels::from(width)))) }
                }
                p.quiet {
                    "A bar is the time between the last frost of spring and the first of autumn, a dot a frost; without a dot there "
                    "was none. Upright lines: frost comes beyond the whole line in 1 year of 10, beyond the dashed one in 5, "
                    "beyond the dotted one in 9. A dotted row is a year with more than ten nights missing in a half."
                }
                details {
                    summary { "The years as a table" }
                    (scrolling("Frosts of every year, as a table", &year_table(&at.years)))
                }
            }
        }
    }
}

fn year_table(years: &[YearOfFrosts]) -> Markup {
    let told = |frost| match frost {
        Frost::On(date) => date.strftime("%-d %b").to_string(),
        Frost::None => "none".to_owned(),
        Frost::NotKnown { missing } => format!("not known, {missing} nights missing"),
    };
    html! {
        table.list {
            caption.unseen { "Frosts of every year" }
            (page::heads(&["Year", "Last of spring", "First of autumn"]))
            tbody {
                @for year in years {
                    tr { th scope="row" { (year.year) } td { (capitalised(&told(year.last))) } td { (capitalised(&told(year.first))) } }
                }
            }
        }
    }
}
