//! Days from sowing to emergence, by the warmth of the soil.

use crate::desk::Desk;
use crate::fields::said;
use crate::page::{self, Place, scrolling};
use crate::trouble::{Trouble, nothing_told};
use axum::extract::{Query, State};
use house::emergence::{Emerging, SOURCE, emergence};
use maud::{Markup, html};
use record::language::{self, Units};
use record::temperature::Celsius;
use serde::Deserialize;

/// What the address asks.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Asked {
    /// The soil's temperature with its scale.
    soil: Option<String>,
}

/// Shows when seedlings emerge.
pub(crate) async fn show(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let (house, ()) = desk.ask(|_| Ok(())).await?;
    Ok(page::page(&house, Place::Advice, "Emergence", body(&asked, house.settings.units)))
}

fn body(asked: &Asked, units: Units) -> Markup {
    let soil = said(asked.soil.as_ref()).map(|words| Celsius::written(words).ok_or(words));
    html! {
        (page::advice_ways("/emergence"))
        h1 { "When seedlings come up" }
        p { "Days from sowing, by the warmth of the soil where the seed lies. Soil lags behind the air: put a thermometer in it." }
        form.filter method="get" action="/emergence" {
            label {
                span { "The soil, with its scale" }
                input type="text" name="soil" value=[asked.soil.as_deref()] placeholder="15 C or 59 F" maxlength="12" autocomplete="off";
            }
            button type="submit" { "Show" }
        }
        @match soil {
            None => {}
            Some(Err(words)) => (nothing_told(
                &format!("{words:?} is no temperature with its scale"),
                Some("write a number and C or F, such as 15 C or 68 F"),
            )),
            Some(Ok(soil)) => { @for own in emergence(&[soil]) { p { strong { (told(&own, units)) } } } }
        }
        section aria-labelledby="table" {
            h2 #table { "The published table" }
            (scrolling("Days to emergence by the soil's warmth, as a table", &table(units)))
            p.quiet {
                "Tomato, seed 13 mm (half an inch) deep: " (SOURCE) ". Between its temperatures the rate is interpolated, not the "
                "days: halfway between 43 and 14 days lie 21, not 28."
            }
        }
    }
}

/// What is found for one temperature.
fn told(found: &Emerging, units: Units) -> String {
    let soil = language::temperature(found.soil, units);
    match found.days {
        Some(days) => format!("In soil of {soil} seedlings come up about {days:.0} days after sowing."),
        None => format!("In soil of {soil} none come up."),
    }
}

fn table(units: Units) -> Markup {
    html! {
        table.list {
            caption.unseen { "Days to emergence by the soil's warmth" }
            (page::heads(&["Soil", "Days to emergence"]))
            tbody {
                @for row in emergence(&[]) {
                    tr {
                        th scope="row" { (language::temperature(row.soil, units)) }
                        td.number { @match row.days { Some(days) => (format!("{days:.0}")), None => "none come up" } }
                    }
                }
            }
        }
    }
}
