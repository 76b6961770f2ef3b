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
use house::forecast::place::{Climates, Source};
use house::frost::{
    self, Asked as Wanted, Chance, ESTIMATOR, FEWEST_FOR_ONE_IN_TEN, Frost, Frosts, FrostsAt, Published,
    Told, YearOfFrosts,
};
use house::weather::Said;
use maud::{Markup, html};
use record::language::{self, Units, capitalised, counted};
use record::temperature::Celsius;
use serde::Deserialize;

/// Widths that the years are drawn at, for a desk and for a phone. A choice of the page.
const WIDTHS: [(&str, u16); 2] = [("wide", 760), ("narrow", 328)];
/// Temperatures whose years can be drawn, as an address has them, the warmest first; the second is meant where none is said.
const DRAWN_AT: [&str; 4] = ["36F", "32F", "-2C", "28F"];
const FREEZE: &str = "32F";

/// What the address asks.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// Whose weather.
    weather: Option<String>,
    /// Years to go by, such as 1991-2020.
    years: Option<String>,
    /// The temperature whose years are drawn, such as 28F.
    at: Option<String>,
}

/// What was found, or why there is nothing to show.
type Found = Result<Shown, (String, Option<String>)>;

/// What was found, and the temperature whose years are drawn.
struct Shown {
    told: Told,
    at: Celsius,
}

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
    let at = match frost::temperature_named(said(asked.at.as_ref()).unwrap_or(FREEZE)) {
        Ok(at) => at,
        Err(fault) => return Ok(Some(Err((fault.to_string(), fault.help())))),
    };
    match frost::told(Some(house), &Wanted { place, said: Said::default(), years, hemisphere: None }) {
        Ok(told) => Ok(Some(Ok(Shown { told, at }))),
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
            label {
                span { "Draw the years at" }
                select name="at" {
                    @for word in DRAWN_AT {
                        option value=(word) selected[said(asked.at.as_ref()).unwrap_or(FREEZE) == word] { (drawn_at(word, units)) }
                    }
                }
            }
            button type="submit" { "Show" }
        }
        @match found {
            None => {}
            Some(Err((why, help))) => (nothing_told(why, help.as_deref())),
            Some(Ok(Shown { told: Told::Worked(found), at })) => {
                section aria-labelledby="chances" {
                    h2 #chances { "The days, by how often frost comes after or before them" }
                    (source(found))
                    (chances(&worked(found), units))
                    (estimated(found))
                }
                (years(found, *at, units))
            }
            Some(Ok(Shown { told: Told::Published(found), .. })) => {
                section aria-labelledby="chances" {
                    h2 #chances { "The days, by how often frost comes after or before them" }
                    p.quiet { (found.freezes.name) ": freeze dates as its climate normals publish them (NOAA)." (lies(found.weather.as_ref())) }
                    (chances(&published(found), units))
                    p.quiet { "Published dates tell no single years, and no range beside each day." }
                }
            }
        }
    }
}

/// Where the days come from, and what was left out of them.
fn source(found: &Frosts) -> Markup {
    let name = found.weather.as_ref().map(|weather| weather.name.clone()).or_else(|| found.station.clone());
    let drawn = found.weather.as_ref().and_then(|weather| match weather.source {
        Source::Drawn { years, .. } => Some(years),
        Source::Measured { .. } => None,
    });
    let measured = found.weather.as_ref().and_then(|weather| weather.frosts.told());
    let out = found.taken_out;
    let taken_out = count(out.nights_above_days + out.cold_nights + out.hot_days + out.still_days);
    html! {
        p.quiet {
            @if let Some(name) = &name { (name) ": " }
            @match (measured, drawn) {
                (Some(measured), _) => (measured),
                (None, Some(years)) => {
                    (years) " years drawn from its climate and numbered from " (found.days.0.year()) ", none of them measured: a station's own file, taken under "
                    a href="/bring-in" { "Bring in" } ", tells more."
                }
                (None, None) => {
                    "measured, " (found.days.0) " to " (found.days.1)
                    @if 0 < taken_out { "; " (counted(taken_out, "day", "days")) " that cannot be right left out of it" }
                    "."
                }
            }
            (lies(found.weather.as_ref()))
        }
    }
}

/// How the station lies to the garden, where both places are known.
fn lies(weather: Option<&Climates>) -> Markup {
    html! {
        @if let Some(lies) = weather.and_then(|weather| weather.lies) {
            " It lies " (format!("{:.0}", lies.kilometres)) " km from the garden"
            @if let Some(by) = lies.warmer_by { ", and its days are taken " (format!("{by:+.1}")) " °C for the garden's height" }
            "."
        }
    }
}

/// A temperature to choose, in the house's units.
fn drawn_at(word: &str, units: Units) -> String {
    let celsius = Celsius::written(word);
    celsius.map_or_else(|| word.to_owned(), |celsius| language::temperature_to_tenths(celsius, units))
}

/// The chances of one temperature, and what years they go by.
struct RowsAt {
    celsius: Option<Celsius>,
    beneath: String,
    chances: [(&'static str, [Chance; 3], Counted); 3],
}

/// What a number counts.
#[derive(Clone, Copy)]
enum Counted {
    /// A day, from 1 January.
    Day,
    /// How many days.
    Days,
}

impl RowsAt {
    fn new(celsius: Option<Celsius>, beneath: String, [last, first, season]: [[Chance; 3]; 3]) -> Self {
        let chances = [
            ("last of spring, or later", last, Counted::Day),
            ("first of autumn, or earlier", first, Counted::Day),
            ("days between, or more", season, Counted::Days),
        ];
        Self { celsius, beneath, chances }
    }
}

fn worked(found: &Frosts) -> Vec<RowsAt> {
    let rows = found.at.iter().map(|at| {
        let chances = [at.chances.last, at.chances.first, at.chances.season];
        RowsAt::new(Some(at.celsius), left_out(at), chances)
    });
    rows.collect()
}

fn published(found: &Published) -> Vec<RowsAt> {
    let chances = |days: [Option<f64>; 3]| days.map(|day| Chance { in_100: 0.0, day, sampled: None });
    let rows = found.freezes.at.iter().map(|at| {
        let years = at.years.map(|years| counted(u64::from(years), "year", "years"));
        let all = [chances(at.last), chances(at.first), chances(at.season)];
        RowsAt::new(Celsius::new(at.celsius()), years.unwrap_or_default(), all)
    });
    rows.collect()
}

/// The three chances of both frosts and of the season, at every temperature.
fn chances(all: &[RowsAt], units: Units) -> Markup {
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
            @for at in all {
                tbody {
                    @for (place, (what, chances, counts)) in at.chances.iter().enumerate() {
                        tr {
                            @if place == 0 {
                                th scope="rowgroup" rowspan="3" {
                                    @if let Some(celsius) = at.celsius { (language::temperature_to_tenths(celsius, units)) }
                                    br;
                                    span.quiet { (at.beneath) }
                                }
                            }
                            th scope="row" { (what) }
                            @for chance in chances { td { (cell(chance, *counts)) } }
                        }
                    }
                }
            }
        }
    };
    scrolling("Days of frost, as a table", &table)
}

fn cell(chance: &Chance, counts: Counted) -> Markup {
    let told = |number: f64| match counts {
        Counted::Day => frost::day(number).map_or_else(String::new, |day| day.strftime("%-d %b").to_string()),
        Counted::Days => format!("{number:.0}"),
    };
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
fn left_out(at: &FrostsAt) -> String {
    let years = counted(count(at.chances.years.len()), "year", "years");
    let left_out: Vec<String> = at.chances.left_out.iter().map(i16::to_string).collect();
    if left_out.is_empty() { years } else { format!("{years}, without {}", left_out.join(", ")) }
}

fn estimated(found: &Frosts) -> Markup {
    let is_few = found.at.iter().any(|at| at.chances.years.len() < FEWEST_FOR_ONE_IN_TEN);
    html! {
        p.quiet { "Days by " (ESTIMATOR) ", the range beside each day." }
        @if is_few { p { "So few years cannot show what comes in one year of ten: bring a longer record." } }
    }
}

/// Every year, drawn and as a table.
fn years(found: &Frosts, celsius: Celsius, units: Units) -> Markup {
    let of = frost::at(found, Some(celsius));
    html! {
        @if let Some((all, at)) = frost::drawn(found, Some(celsius), units).zip(of) {
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
