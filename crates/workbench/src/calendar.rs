//! A garden's calendar: when to sow, pot on, harden off and plant out, on the page and as a file for other calendars.

use crate::desk::Desk;
use crate::download;
use crate::fields::Sent;
use crate::fields::said;
use crate::forecast::month_and_day;
use crate::page::{self, Place, scrolling};
use crate::telling::encoded;
use crate::trouble::{Trouble, nothing_told};
use crate::whose::{self, Choices};
use axum::Form;
use axum::extract::{Query, State};
use axum::response::{Redirect, Response};
use house::calendar::{self, Asked as Wanted, GardenCalendar, doing_named, risk_named};
use house::fault::HouseFault;
use house::folder::House;
use house::forecast::Risk;
use house::forecast::place::Source;
use house::print::Paper;
use house::season_sheet;
use house::weather::Said;
use jiff::ZonedDateTime;
use maud::{Markup, html};
use record::language::Units;
use serde::Deserialize;

/// The media type of the file. Source: RFC 5545, section 8.1.
const MEDIA: &str = "text/calendar; charset=utf-8";
/// Frost that can be risked, as a form has it.
const RISKS: [(&str, Risk); 3] = [("1", Risk::OneInTen), ("5", Risk::FiveInTen), ("9", Risk::NineInTen)];
/// Years that a calendar is made for, as the command line takes them.
const YEARS: std::ops::RangeInclusive<i16> = 1900..=2199;

/// What the address asks.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// Whose weather.
    weather: Option<String>,
    /// Years of ten in which frost may still come; the garden's own, or 1, unless told.
    risk: Option<String>,
    /// The day plants go out, of any year.
    out: Option<String>,
    /// The year of planting.
    year: Option<String>,
}

impl Asked {
    fn weather(&self) -> Option<&str> {
        said(self.weather.as_ref())
    }

    /// The same question at another address.
    fn address(&self, path: &str) -> String {
        let fields =
            [("weather", &self.weather), ("risk", &self.risk), ("out", &self.out), ("year", &self.year)];
        let said = fields.iter().filter_map(|(name, field)| Some((name, said(field.as_ref())?)));
        let said: Vec<String> = said.map(|(name, words)| format!("{name}={}", encoded(words))).collect();
        format!("{path}?{}", said.join("&"))
    }

    /// What the house is asked.
    fn wanted(&self, choices: &Choices, weather: &str) -> Result<Wanted, (String, Option<String>)> {
        let help = |words: &str| Some(words.to_owned());
        let place = choices.place(weather).map_err(|why| (why, None))?;
        let out = said(self.out.as_ref()).map(month_and_day).transpose();
        let out = out.map_err(|why| (why, help("write month and day, such as 05-20")))?;
        let risk = said(self.risk.as_ref()).map(|word| {
            let known = RISKS.iter().find(|(known, _)| *known == word).map(|(_, risk)| *risk);
            known.ok_or_else(|| (format!("{word:?} is no frost risk"), help("choose 1, 5 or 9 years of ten")))
        });
        let year = said(self.year.as_ref()).map(|word| {
            let year = word.parse().ok().filter(|year| YEARS.contains(year));
            year.ok_or_else(|| (format!("{word:?} is no year of planting"), help("write one such as 2031")))
        });
        let (risk, year) = (risk.transpose()?, year.transpose()?);
        Ok(Wanted { place, said: Said::default(), risk, out, cover: None, year })
    }
}

/// Prints the season sheet and hands it out.
pub(crate) async fn print(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let said = |name: &str| sent.get(name).map(str::to_owned);
    let asked = Asked { weather: said("weather"), risk: said("risk"), out: said("out"), year: said("year") };
    let names = sent.get("varieties").unwrap_or_default().split(',').map(str::trim);
    let varieties: Vec<String> = names.filter(|name| !name.is_empty()).map(str::to_owned).collect();
    let paper = if sent.get("paper") == Some("a4") { Paper::A4 } else { Paper::UsLetter };
    let weather = said("weather").unwrap_or_default();
    let printed = desk.ask(move |house| {
        let choices = whose::choices(house)?;
        let calendar = match asked.wanted(&choices, &weather) {
            Ok(calendar) => calendar,
            Err(fault) => return Ok(Err(fault)),
        };
        let asked = season_sheet::Asked { calendar, garden: whose::named(&weather).to_owned(), varieties };
        let today = ZonedDateTime::now().date();
        Ok(Ok(season_sheet::print(house, &asked, paper, today, None)?.file))
    });
    match printed.await?.1 {
        Ok(file) => {
            let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
            Ok(Redirect::to(&format!("/print/{}", encoded(&name))))
        }
        Err((why, help)) => Err(Trouble::user(why, help.unwrap_or_default())),
    }
}

/// What was found, or why there is nothing to show.
type Found = Result<GardenCalendar, (String, Option<String>)>;

/// Shows a garden's calendar.
pub(crate) async fn show(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let (house, (choices, found)) = whose::gathered(&desk, &asked, found).await?;
    let body = body(&asked, &choices, found.as_ref(), house.settings.units);
    Ok(page::page(&house, Place::Advice, "Calendar", body))
}

/// Sends the days as a file for other calendars.
pub(crate) async fn file(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Response, Trouble> {
    let now = ZonedDateTime::now();
    let garden = whose::named(asked.weather().unwrap_or_default()).to_owned();
    let gathered = desk.ask(move |house| found(house, &whose::choices(house)?, &asked));
    match gathered.await?.1 {
        Some(Ok(found)) => {
            let text = calendar::text(&found, &garden, now.timestamp());
            Ok(download::attached("calendar.ics", MEDIA, text.into_bytes()))
        }
        Some(Err((why, help))) => Err(Trouble::user(why, help.unwrap_or_default())),
        None => Err(Trouble::user("nobody said whose weather", "choose a garden on the Calendar page")),
    }
}

fn found(house: &House, choices: &Choices, asked: &Asked) -> Result<Option<Found>, HouseFault> {
    let Some(weather) = asked.weather() else { return Ok(None) };
    let wanted = match asked.wanted(choices, weather) {
        Ok(wanted) => wanted,
        Err(fault) => return Ok(Some(Err(fault))),
    };
    match calendar::calendar(house, &wanted, ZonedDateTime::now().date()) {
        Ok(found) => Ok(Some(Ok(found))),
        Err(fault @ (HouseFault::Weather(_) | HouseFault::Place(_))) => {
            Ok(Some(Err((fault.to_string(), fault.help()))))
        }
        Err(fault) => Err(fault),
    }
}

fn body(asked: &Asked, choices: &Choices, found: Option<&Found>, units: Units) -> Markup {
    html! {
        (page::advice_ways("/calendar"))
        h1 { "A garden's calendar" }
        p {
            "When to sow, pot on, harden off and plant out. Plants go out on the latest of three days: when frost has become as rare "
            "as you accept, when the nights of a week have warmed, and when the soil has."
        }
        (form(asked, choices))
        @match found {
            None => {}
            Some(Err((why, help))) => (nothing_told(why, help.as_deref())),
            Some(Ok(found)) => { (days(asked, found, units)) (sheet(asked, units)) }
        }
    }
}

fn form(asked: &Asked, choices: &Choices) -> Markup {
    let risk = said(asked.risk.as_ref());
    html! {
        form.filter method="get" action="/calendar" {
            (choices.select(asked.weather()))
            label {
                span { "Frost after planting, in" }
                select name="risk" {
                    option value="" { "garden's own, or 1 in 10" }
                    @for (word, known) in RISKS { option value=(word) selected[risk == Some(word)] { (risk_named(known)) } }
                }
            }
            label {
                span { "Or plants out on, month-day" }
                input type="text" name="out" value=[asked.out.as_deref()] placeholder="05-20" maxlength="10" autocomplete="off";
            }
            label {
                span { "Year of planting" }
                input type="text" name="year" value=[asked.year.as_deref()] placeholder="the next" inputmode="numeric" maxlength="4" autocomplete="off";
            }
            button type="submit" { "Show" }
        }
    }
}

/// The season sheet of the same garden.
fn sheet(asked: &Asked, units: Units) -> Markup {
    let fields =
        [("weather", &asked.weather), ("risk", &asked.risk), ("out", &asked.out), ("year", &asked.year)];
    let hidden = html! {
        @for (name, field) in fields {
            @if let Some(words) = said(field.as_ref()) { input type="hidden" name=(name) value=(words); }
        }
    };
    html! {
        section aria-labelledby="sheet" {
            h2 #sheet { "The season sheet" }
            p { "These days, the frosts of the garden and the harvest of a few varieties week by week, on paper for the shed wall." }
            (sheet_form(&hidden, units))
        }
    }
}

/// The form that prints a season sheet; `whose` asks or tells whose weather it is.
pub(crate) fn sheet_form(whose: &Markup, units: Units) -> Markup {
    let papers = [("letter", "US Letter", Units::US), ("a4", "A4", Units::METRIC)];
    html! {
        form.decide method="post" action="/calendar/print" {
            (whose)
            label {
                span { "Varieties, with commas between; else the few with the most plots" }
                input type="text" name="varieties" maxlength="400" autocomplete="off";
            }
            fieldset {
                legend { "Paper" }
                @for (word, words, usual) in papers {
                    label.tick {
                        input type="radio" name="paper" value=(word) checked[usual == units];
                        span { (words) }
                    }
                }
            }
            button.strong { "Print the season sheet" }
        }
    }
}

fn days(asked: &Asked, found: &GardenCalendar, units: Units) -> Markup {
    let word = asked.weather().unwrap_or_default();
    let year = found.calendar.planted().map(|day| day.year().to_string()).unwrap_or_default();
    let table = html! {
        table.list.season {
            caption.unseen { "What to do, in order" }
            (page::heads(&["Day", "What"]))
            tbody {
                @for (on, doing) in &found.calendar.days {
                    tr {
                        th scope="row" { time datetime=(on) { (on.strftime("%a %-d %B %Y")) } }
                        td { (doing_named(*doing)) }
                    }
                }
            }
        }
    };
    html! {
        section aria-labelledby="days" {
            h2 #days { (whose::named(word)) ", " (year) }
            (scrolling("What to do and when, as a table", &table))
            p { (calendar::why(found, units)) }
            p.exports {
                "Take these days with you: " a href=(asked.address("/calendar.ics")) download="calendar.ics" { "calendar.ics" }
                ", for any calendar; a newer file of the same garden and year changes its days and doubles none."
            }
            p.quiet { (source(found)) " These are chances worked out of past years, not promises: watch the forecast of the week." }
        }
    }
}

fn source(found: &GardenCalendar) -> String {
    let name = &found.weather.name;
    let days = match found.weather.source {
        Source::Measured { from, to, .. } => format!("By the days of {name}, measured {from} to {to}."),
        Source::Drawn { years, from } => {
            format!("By {years} years drawn for {name} from {}, none of them measured.", from.named())
        }
    };
    found.weather.frosts.told().map_or_else(|| days.clone(), |frosts| format!("{days} {frosts}"))
}
