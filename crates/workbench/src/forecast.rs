//! The harvest to expect: every variety's season as a ribbon, or one variety week by week, in one garden's weather.

use crate::desk::Desk;
use crate::fields::said;
use crate::page::{self, Place, drawn, scrolling};
use crate::telling::{count, encoded, variety_address};
use crate::trouble::{Trouble, nothing_told};
use crate::warmth::Warmth;
use crate::whose::{self, Choices};
use axum::extract::{Query, State};
use drawing::ribbon::ribbon;
use drawing::scale::Pixels;
use house::fault::HouseFault;
use house::folder::House;
use house::forecast::place::{Climates, Source};
use house::forecast::told::{day_of, months_of, out, ribbon_of};
use house::forecast::{self, Expected, Harvest, Range};
use house::warmth::named;
use house::weather::Said;
use jiff::civil::Date;
use maud::{Markup, html};
use record::language::{self, Units, counted};
use record::mass::Grams;
use serde::Deserialize;

/// Width of a ribbon, in pixels.
const RIBBON: u16 = 420;
/// Kilograms a plant that are not worth telling. Common practice, no source.
const NOTHING: f64 = 0.005;
/// Part of the years from which a week of poor set, or of ripe fruit, is told.
const SELDOM: f64 = 0.01;

/// What the address asks.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// The station.
    weather: Option<String>,
    /// The day plants go out, of any year.
    out: Option<String>,
    /// One variety.
    variety: Option<String>,
    /// How warmth is counted.
    #[serde(flatten)]
    warmth: Warmth,
}

impl Asked {
    fn station(&self) -> Option<&str> {
        said(self.weather.as_ref())
    }

    fn variety(&self) -> Option<&str> {
        said(self.variety.as_ref())
    }

    fn day(&self) -> Option<Result<(i8, i8), String>> {
        Some(month_and_day(said(self.out.as_ref())?))
    }
}

/// A day of any year, as a form writes it or as month and day.
pub(crate) fn month_and_day(written: &str) -> Result<(i8, i8), String> {
    let whole = if written.len() < 6 { format!("2000-{written}") } else { written.to_owned() };
    let read = whole.parse::<Date>().map(|day| (day.month(), day.day()));
    read.map_err(|_| format!("{written:?} is no day"))
}

/// What was found, or why there is nothing to show.
type Told = Result<Harvest, (String, Option<String>)>;

/// Shows the harvest to expect.
pub(crate) async fn show(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let (house, (choices, told)) = whose::gathered(&desk, &asked, told).await?;
    Ok(page::page(
        &house,
        Place::Advice,
        "Forecast",
        body(&asked, &choices, told.as_ref(), house.settings.units),
    ))
}

fn told(house: &House, choices: &Choices, asked: &Asked) -> Result<Option<Told>, HouseFault> {
    let Some(station) = asked.station() else { return Ok(None) };
    let out = match asked.day().transpose() {
        Ok(out) => out,
        Err(why) => return Ok(Some(Err((why, Some("write month and day, such as 05-20".to_owned()))))),
    };
    let place = match choices.place(station) {
        Ok(place) => place,
        Err(why) => return Ok(Some(Err((why, None)))),
    };
    let clock = match asked.warmth.clock() {
        Ok(clock) => clock,
        Err(why) => return Ok(Some(Err(why))),
    };
    let asked = forecast::Asked {
        clock,
        varieties: asked.variety().map(str::to_owned).into_iter().collect(),
        place,
        home: None,
        said: Said::default(),
        out,
        risk: None,
    };
    match forecast::forecast(house, &asked) {
        Ok(found) => Ok(Some(Ok(found))),
        Err(
            fault @ (HouseFault::NoPicks { .. } | HouseFault::Place(_) | HouseFault::NoSuchVariety { .. }),
        ) => Ok(Some(Err((fault.to_string(), fault.help())))),
        Err(fault) => Err(fault),
    }
}

fn body(asked: &Asked, choices: &Choices, told: Option<&Told>, units: Units) -> Markup {
    html! {
        (page::advice_ways("/forecast"))
        @if asked.variety().is_some() { p.trail { a href=(whole(asked)) { "Every variety" } } }
        h1 { "The harvest to expect" }
        p {
            "What the house's plots say of each variety, put through every year of a garden's weather: warmth, flowers "
            "that set or fail, and the frost that ends it."
        }
        (form(asked, choices))
        p.quiet { "Without a day, plants go out by the garden's calendar: when frost has become rare and nights and soil have warmed. Weather of your own is taken under " a href="/bring-in" { "Bring in" } "." }
        @match told {
            None => {}
            Some(Err((why, help))) => (nothing_told(why, help.as_deref())),
            Some(Ok(found)) => {
                @match found.varieties.as_slice() {
                    [one] if asked.variety().is_some() => (weeks(found, one, units)),
                    _ => (ribbons(asked, found, units)),
                }
                (plantings(found, units))
                (poor_set(found))
                (sources(found))
                p { a href="/hindsight" { "Hindsight" } ": how such forecasts of the house's own past seasons came out." }
            }
        }
    }
}

fn form(asked: &Asked, choices: &Choices) -> Markup {
    html! {
        form.filter method="get" action="/forecast" {
            (choices.select(asked.station()))
            label {
                span { "Plants out on, month-day" }
                input type="text" name="out" value=[asked.out.as_deref()] placeholder="05-20" maxlength="10" autocomplete="off";
            }
            @if let Some(variety) = asked.variety() { input type="hidden" name="variety" value=(variety); }
            (asked.warmth.form())
            button type="submit" { "Show" }
        }
    }
}

fn whole(asked: &Asked) -> String {
    let out = asked.out.as_deref().map(|out| format!("&out={}", encoded(out))).unwrap_or_default();
    format!(
        "/forecast?weather={}{out}{}",
        encoded(asked.station().unwrap_or_default()),
        asked.warmth.onward()
    )
}

fn mass(kilograms: f64, units: Units) -> String {
    let grams = Grams::new(kilograms * 1000.0).filter(|_| NOTHING <= kilograms);
    grams.map_or_else(|| "-".to_owned(), |grams| language::mass_briefly(grams, units))
}

fn day(found: &Harvest, days: Option<i32>) -> String {
    day_of(found, days).map_or_else(|| "never".to_owned(), |day| day.strftime("%-d %b").to_string())
}

fn heading(found: &Harvest) -> Markup {
    html! {
        p.quiet {
            "Plants out on " (out(found).strftime("%-d %B")) ", " (counted(count(found.years.len()), "year", "years"))
            " of " (found.weather.name) ". Poor: 1 season in 10 brings less. Good: 1 in 10 brings more."
        }
    }
}

/// The line of months above a ribbon.
fn calendar(found: &Harvest) -> Markup {
    drawn(&months_of(found, Pixels::from(RIBBON)))
}

fn ribbons(asked: &Asked, found: &Harvest, units: Units) -> Markup {
    let width = Pixels::from(RIBBON);
    let table = html! {
        table.list.ribbons {
            caption.unseen { "Every variety's season in this garden" }
            thead {
                tr {
                    th scope="col" { "Variety" }
                    th scope="col" { (calendar(found)) span.unseen { "Ripe fruit by week" } }
                    @for head in ["First ripe", "Last", "A plant, poor", "Middling", "Good"] { th scope="col" { (head) } }
                }
            }
            tbody {
                @for one in &found.varieties {
                    tr {
                        th scope="row" { a href=(format!("{}&variety={}", whole(asked), encoded(&one.name))) { (one.name) } }
                        td { (drawn(&ribbon(&ribbon_of(found, one), width))) }
                        td { (day(found, one.forecast.first[1])) }
                        td { (day(found, one.forecast.last[1])) }
                        @for kilograms in one.forecast.total { td.number { (mass(kilograms, units)) } }
                    }
                }
            }
        }
    };
    html! {
        section aria-labelledby="ribbons" {
            h2 #ribbons { "Every variety, the earliest first" }
            (heading(found))
            p.quiet {
                "The deeper the ink, the likelier a plant has ripe fruit that week. The line at the left is planting, the one at "
                "the right the killing frost of half the years."
            }
            (scrolling("Every variety's season, as a table", &table))
        }
    }
}

fn weeks(found: &Harvest, one: &Expected, units: Units) -> Markup {
    let rows = (0_i64..).zip(one.forecast.weeks.iter().zip(&one.forecast.chance));
    let rows: Vec<_> = rows.filter(|(_, (_, chance))| SELDOM <= **chance).collect();
    let table = html! {
        table.list {
            caption.unseen { "The harvest of a plant, week by week" }
            (page::heads(&["Week of", "A plant, poor", "Middling", "Good", "Fruit, poor/middling/good", "Ripe fruit, years of 100"]))
            tbody {
                @for (week, (kilograms, chance)) in rows {
                    tr {
                        th scope="row" { (day(found, i32::try_from(7 * week).ok())) }
                        @for kilograms in kilograms { td.number { (mass(*kilograms, units)) } }
                        td.number { (fruits(one, *kilograms)) }
                        td.number { (format!("{:.0}", 100.0 * chance)) }
                    }
                }
                tr {
                    th scope="row" { "Season" }
                    @for kilograms in one.forecast.total { td.number { strong { (mass(kilograms, units)) } } }
                    td.number { (fruits(one, one.forecast.total)) }
                    td {}
                }
            }
        }
    };
    html! {
        section aria-labelledby="weeks" {
            h2 #weeks { a href=(variety_address(&one.name)) { (one.name) } ", week by week" }
            (heading(found))
            (calendar(found))
            (drawn(&ribbon(&ribbon_of(found, one), Pixels::from(RIBBON))))
            (scrolling("The harvest of a plant week by week, as a table", &table))
            (about(found, one, units))
        }
    }
}

/// Fruits of a poor, a middling and a good season, whole ones.
fn fruits(one: &Expected, kilograms: Range) -> String {
    one.forecast.fruits(kilograms).map(|fruits| format!("{fruits:.0}")).join("/")
}

fn about(found: &Harvest, one: &Expected, units: Units) -> Markup {
    let days = |days: [Option<i32>; 3]| days.map(|own| day(found, own)).join(", ");
    let between = |range: Range| format!("{} to {}", mass(range[0], units), mass(range[2], units));
    let (plots, seasons) = one.rests_on;
    html! {
        p {
            "First ripe fruit on " (days(one.forecast.first)) " in an early, a middling and a late season; the last on "
            (days(one.forecast.last)) "."
            @if let Some(finished) = one.forecast.finished {
                " Nine tenths ripen before frost in " (format!("{:.0}", 100.0 * finished)) " seasons of 100."
            }
        }
        p.quiet {
            "It rests on " (counted(count(plots), "plot", "plots")) " in " (counted(count(seasons), "season", "seasons")) "; "
            (format!("{:.0}", 100.0 * one.borrowed)) " in 100 of its weight is borrowed from varieties of its kind."
            @if let Some([weather, variety, plants]) = one.alone {
                " If nothing else were unsure, the weather alone would make it " (between(weather)) " a plant, what this variety is "
                (between(variety)) ", how plots and seasons differ " (between(plants)) "."
            }
        }
    }
}

fn plantings(found: &Harvest, units: Units) -> Markup {
    let table = html! {
        table.list {
            caption.unseen { "Other planting days" }
            (page::heads(&["Plants out", "A plant, poor", "Middling", "Good", "Killed by frost within six weeks, years of 100", "Good day?"]))
            tbody {
                @for planting in &found.plantings {
                    tr {
                        th scope="row" { (Date::new(2001, planting.out.0, planting.out.1).map_or_else(|_| "29 Feb".to_owned(), |day| day.strftime("%-d %b").to_string())) }
                        @for kilograms in planting.total { td.number { (mass(kilograms, units)) } }
                        td.number { (format!("{:.0}", 100.0 * planting.killed)) }
                        td { @if planting.as_good { "as good as the best" } }
                    }
                }
            }
        }
    };
    html! {
        @if !found.plantings.is_empty() {
            section aria-labelledby="plantings" {
                h2 #plantings { "Planted on other days" }
                (scrolling("Other planting days, as a table", &table))
            }
        }
    }
}

fn poor_set(found: &Harvest) -> Markup {
    let told = |of: fn(&forecast::Flowering) -> f64| {
        let weeks = (0_i32..).zip(&found.flowering).filter(|(_, week)| 10.0 * SELDOM <= of(week));
        weeks
            .map(|(week, own)| format!("{} ({:.0})", day(found, Some(7 * week)), 100.0 * of(own)))
            .collect::<Vec<_>>()
            .join(", ")
    };
    let both = [("Cold", told(|week| week.cold)), ("Heat", told(|week| week.heat))];
    html! {
        section aria-labelledby="set" {
            h2 #set { "When flowers set poorly" }
            @for (why, weeks) in both {
                @if !weeks.is_empty() { p { (why) ", in the weeks of (years of 100): " (weeks) "." } }
                @else { p { (why) " seldom hinders set while the plants stand." } }
            }
        }
    }
}

fn sources(found: &Harvest) -> Markup {
    let source = |weather: &Climates| match weather.source {
        Source::Measured { from, to, .. } => format!("{}: measured, {from} to {to}.", weather.name),
        Source::Drawn { years, from } => format!(
            "{}: {years} years drawn from {}, none of them measured. A station's own file tells more: bring it in.",
            weather.name,
            from.named()
        ),
    };
    let (stood_in, plots) = found.stood_in;
    html! {
        p.quiet {
            (source(&found.weather))
            @if let Some(frosts) = found.weather.frosts.told() { " " (frosts) }
            " Counted in " (named(&found.clock)) "."
            @if 0 < stood_in {
                " Nobody has the weather of " (counted(count(stood_in), "plot", "plots")) " of " (plots)
                ": a middling season of this station stands in for it. In the terminal, " code { "locule forecast" } " with "
                code { "--home" } " takes the weather where the plots stood."
            }
        }
    }
}
