//! When a variety ripens: days to maturity in the house's gardens and any other, the shares of its fruit day by day or by
//! warmth, how far plots and seasons move them, and every plot's picks and the warmth behind them.

use crate::desk::Desk;
use crate::fields::said;
use crate::forecast::month_and_day;
use crate::page::{self, Place, drawn, scrolling};
use crate::telling::{count, encoded, ripening_address, variety_address};
use crate::trouble::{Trouble, nothing_told};
use crate::warmth::Warmth;
use crate::whose::{self, Choices};
use axum::extract::{Path, Query, State};
use drawing::ripe_share::ripe_share;
use drawing::scale::Pixels;
use house::fault::HouseFault;
use house::folder::House;
use house::forecast::place::Source;
use house::ripen::{
    self, Asked as Wanted, ByWeather, ByYears, Counted, LastPick, PlotTold, PlotWarmth, Ripening, SHARES,
    Stood, law_named, share_named,
};
use house::warmth::named;
use house::weather::Said;
use jiff::civil::Date;
use maud::{Markup, html};
use record::language::{self, Units, capitalised, counted};
use record::temperature::Celsius;
use serde::Deserialize;

/// What the address asks.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// The garden or station by whose weather it is counted; days where none.
    weather: Option<String>,
    /// The day plants go out, of any year.
    out: Option<String>,
    /// How warmth is counted.
    #[serde(flatten)]
    warmth: Warmth,
}

/// What the picks say, or why they say nothing.
type Told = Result<Ripening, (String, Option<String>)>;

/// Shows one variety's ripening.
pub(crate) async fn show(
    State(desk): State<Desk>,
    Path(name): Path<String>,
    Query(asked): Query<Asked>,
) -> Result<Markup, Trouble> {
    let both = (asked.clone(), name.clone());
    let (house, (choices, told)) = whose::gathered(&desk, &both, told).await?;
    let name = told.as_ref().map_or(name, |found| found.variety.clone());
    let title = format!("When {name} ripens");
    let page = Page { name: &name, asked: &asked, choices: &choices, units: house.settings.units };
    Ok(page::page(&house, Place::List, &title, page.body(&told)))
}

fn told(house: &House, choices: &Choices, (asked, variety): &(Asked, String)) -> Result<Told, HouseFault> {
    let by = match asked.by(choices) {
        Ok(by) => by,
        Err(why) => return Ok(Err(why)),
    };
    match ripen::ripen(house, &Wanted { variety: variety.clone(), by }) {
        Ok(found) => Ok(Ok(found)),
        Err(fault @ (HouseFault::NoPicks { .. } | HouseFault::Place(_) | HouseFault::Weather(_))) => {
            Ok(Err((fault.to_string(), fault.help())))
        }
        Err(fault) => Err(fault),
    }
}

impl Asked {
    /// Whose weather is asked by, and how; `None` where days are.
    fn by(&self, choices: &Choices) -> Result<Option<ByWeather>, (String, Option<String>)> {
        let clock = self.warmth.clock()?;
        let Some(word) = said(self.weather.as_ref()) else { return Ok(None) };
        let place = choices.place(word).map_err(|why| (why, None))?;
        let out = said(self.out.as_ref()).map(month_and_day).transpose();
        let out = out.map_err(|why| (why, Some("write month and day, such as 05-20".to_owned())))?;
        Ok(Some(ByWeather { place, home: None, said: Said::default(), clock, out }))
    }
}

/// What one page is made of.
struct Page<'a> {
    name: &'a str,
    asked: &'a Asked,
    choices: &'a Choices,
    units: Units,
}

impl Page<'_> {
    fn body(&self, told: &Told) -> Markup {
        html! {
            p.trail { a href="/" { "The list" } " / " a href=(variety_address(self.name)) { (self.name) } }
            h1 { "When " (self.name) " ripens" }
            (self.form())
            @match told {
                Err((why, help)) => (nothing_told(why, help.as_deref())),
                Ok(found) => {
                    (maturity(found))
                    (days(found))
                    (curve(found))
                    (plots(&found.plots, self.units))
                    (warmth(found, self.units))
                    p {
                        a href=(format!("/forecast?weather=&variety={}", encoded(self.name))) { "The harvest to expect" }
                        " in a garden, week by week."
                    }
                }
            }
        }
    }

    fn form(&self) -> Markup {
        html! {
            form.filter method="get" action=(ripening_address(self.name)) {
                (self.choices.select_or("By the calendar, in days", said(self.asked.weather.as_ref())))
                label {
                    span { "Plants out on, month-day" }
                    input type="text" name="out" value=[self.asked.out.as_deref()] placeholder="05-20" maxlength="10" autocomplete="off";
                }
                (self.asked.warmth.form())
                button type="submit" { "Show" }
            }
        }
    }
}

/// Days to maturity: what stands on a packet, for a garden that is named.
fn maturity(found: &Ripening) -> Markup {
    html! {
        section aria-labelledby="maturity" {
            h2 #maturity { "Days to maturity, from transplanting" }
            @if found.years.is_empty() {
                p {
                    "Nobody has told the weather of the gardens where its plots stood, so it is known for their summers only: the "
                    "table below. Choose a station above for the days in its weather."
                }
            }
            @for place in &found.years { (of_years(place)) }
            @if let Some(place) = found.years.first() {
                p.quiet {
                    "Every year of the weather is asked on what day so many degree-days have come together, plants out on "
                    (out(place.out)) ". The tenth is what a packet's days should mean. Counted in " (named(&place.clock)) "."
                }
            }
        }
    }
}

/// Month and day in words.
fn out((month, day): (i8, i8)) -> String {
    Date::new(2000, month, day).map_or_else(|_| String::new(), |out| out.strftime("%-d %B").to_string())
}

/// The days in one place's years.
fn of_years(place: &ByYears) -> Markup {
    let name = &place.weather.name;
    let source = match place.weather.source {
        Source::Measured { from, to, .. } => format!("measured, {from} to {to}"),
        Source::Drawn { years, .. } => format!("{years} years drawn from its climate, none of them measured"),
    };
    let day = |days: Option<i32>| days.map_or_else(|| "never".to_owned(), |days| days.to_string());
    let asked = |share: usize| place.years.days.get(share).map_or(0, Vec::len);
    let table = html! {
        table.list {
            caption.unseen { "Days to maturity in the weather of " (name) }
            (page::heads(&["Ripe", "1 year in 10 by day", "5 in 10", "9 in 10", "Years", "Too cold"]))
            tbody {
                @for (share, part) in SHARES.iter().enumerate() {
                    tr {
                        th scope="row" { (capitalised(share_named(*part))) }
                        @for of_years in SHARES { td.number { (day(place.years.within(share, of_years))) } }
                        td.number { (asked(share)) }
                        td.number { (place.years.days.get(share).map_or(0, |days| days.iter().filter(|(_, day)| day.is_none()).count())) }
                    }
                }
            }
        }
    };
    let left_out: Vec<String> = place.years.left_out.iter().map(i16::to_string).collect();
    html! {
        @if asked(0) == 0 {
            p { (name) " (" (source) "): no year is known to the end of a season." }
        } @else {
            h3 { (name) ": " (source) }
            (scrolling(&format!("Days to maturity in the weather of {name}, as a table"), &table))
            @if !left_out.is_empty() { p.quiet { "Left out, as some day up to the end of the season is not known: " (left_out.join(", ")) "." } }
        }
    }
}

/// The warmth behind the curve, plot by plot.
fn warmth(found: &Ripening, units: Units) -> Markup {
    let degrees =
        |celsius| Celsius::new(celsius).map(|own| language::temperature(own, units)).unwrap_or_default();
    let sum = |sum: Option<f64>| sum.map_or_else(|| "-".to_owned(), |sum| format!("{sum:.0}"));
    let rows: Vec<(&PlotTold, &PlotWarmth)> =
        found.plots.iter().filter_map(|plot| Some((plot, plot.warmth.as_ref()?))).collect();
    let stood_in = rows.iter().filter(|(_, warmth)| warmth.stood == Stood::StoodIn).count();
    let table = html! {
        table.list {
            caption.unseen { "The warmth of each plot's season" }
            (page::heads(&["Plot", "Season", "Weather of", "Nights", "Days", "Degree-days to first pick", "To last"]))
            tbody {
                @for (plot, warmth) in &rows {
                    tr {
                        th scope="row" { (plot.label) }
                        td { (plot.season) }
                        td { (warmth.weather) @if warmth.stood == Stood::StoodIn { ", a middling season" } }
                        td { @match warmth.summer { Some(summer) => (degrees(summer.lowest)), None => "-" } }
                        td { @match warmth.summer { Some(summer) => (degrees(summer.highest)), None => "-" } }
                        td.number { (sum(warmth.first)) }
                        td.number { (sum(warmth.last)) }
                    }
                }
            }
        }
    };
    html! {
        @if !rows.is_empty() {
            section aria-labelledby="warmth" {
                h2 #warmth { "The warmth behind it" }
                (scrolling("The warmth of each plot's season, as a table", &table))
                p.quiet {
                    "Mean temperatures of nights and days from transplanting to the last pick, and degree-days since transplanting."
                    @if 0 < stood_in {
                        " Nobody measured the season of " (counted(count(stood_in), "plot", "plots"))
                        ": a middling season of the same weather stands in, so that its summer moves nothing."
                    }
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
    let (heading, column) = match found.curves.counted {
        Counted::InDays => ("Days from transplanting in the summers that its plots had".to_owned(), "Day"),
        Counted::InWarmth(clock) => (format!("From transplanting, in {}", named(&clock)), "Degree-days"),
    };
    let table = html! {
        table.list {
            caption.unseen { (heading) ", to each share ripe" }
            (page::heads(&["Ripe", column, "90 of 100 other plots", "In other seasons"]))
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
            h2 #days { (heading) }
            (scrolling("The time to each share ripe, as a table", &table))
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
