//! Settings: the house's name, its units, who keeps the notes, and whose law its seed falls under.

use crate::desk::Desk;
use crate::fields::Sent;
use crate::law;
use crate::page::{self, Place};
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Query, State};
use axum::response::Redirect;
use house::folder::{self, House};
use house::lots::law::Law;
use house::pages;
use house::settings::{Settings, system_from_word, system_to_word, written_from_word, written_to_word};
use maud::{Markup, html};
use record::language::{System, Units, Written};
use record::share::WholePercent;
use serde::Deserialize;

/// What was just done.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Did {
    saved: Option<String>,
}

/// Shows the settings.
pub(crate) async fn show(State(desk): State<Desk>, Query(did): Query<Did>) -> Result<Markup, Trouble> {
    let house = desk.house().await?;
    Ok(page::page(&house, Place::Settings, "Settings", body(&did, &house)))
}

/// Changes the settings.
pub(crate) async fn change(State(desk): State<Desk>, Form(sent): Sent) -> Result<Redirect, Trouble> {
    let unknown = || Trouble::user("the form names no units", "choose ounces or grams");
    let first = sent.get("units").and_then(system_from_word).ok_or_else(unknown)?;
    let written = sent.get("units-written").and_then(written_from_word).unwrap_or_default();
    let units = Units { first, written };
    let name = sent.get("name").unwrap_or_default().to_owned();
    let keeper = sent.get("keeper").unwrap_or_default().to_owned();
    let address = sent.get("address").map(str::to_owned);
    let site = sent.get("site").map(str::to_owned);
    let law = sent.get("law").and_then(Law::of_word).unwrap_or_default();
    let minimum = sent.get("minimum").map(minimum).transpose()?;
    let sells_to = sent.get("sells-to").map(|typed| typed.lines().map(|line| line.trim().to_owned()));
    let sells_to: Option<Vec<String>> = sells_to.map(|lines| lines.filter(|line| !line.is_empty()).collect());
    let write = move |house: &House| {
        let settings =
            Settings { name, units, keeper, address, site, law, minimum, sells_to, ..house.settings.clone() };
        let changed = House { settings, ..house.clone() };
        pages::refuse_unknown_regions(&changed)?;
        folder::change_settings(&changed)
    };
    desk.ask(write).await?;
    Ok(Redirect::to("/settings?saved=yes"))
}

fn minimum(typed: &str) -> Result<WholePercent, Trouble> {
    let percent = typed.trim_end_matches('%').trim().parse().ok().filter(|percent| 0 < *percent);
    let none = || {
        Trouble::user(
            format!("{typed:?} is no germination"),
            "write a whole per cent from 1 to 100, or nothing",
        )
    };
    percent.and_then(WholePercent::new).ok_or_else(none)
}

fn body(did: &Did, house: &House) -> Markup {
    let settings = &house.settings;
    let systems = [
        (System::Us, "Ounces, inches, Fahrenheit first"),
        (System::Metric, "Grams, millimetres, Celsius first"),
    ];
    let ways = [(Written::Signs, "As signs: 14.5 oz"), (Written::Words, "As words: 14.5 ounces")];
    html! {
        h1 { "Settings" }
        @if did.saved.is_some() { (page::notice(&html! { p { "Saved." } })) }
        form.cells method="post" action="/settings" {
            label {
                span { "Name of the house, on the list and the catalogue" }
                input name="name" value=(settings.name) maxlength="200" autocomplete="off";
            }
            label {
                span { "Who keeps the notes" }
                input name="keeper" value=(settings.keeper) maxlength="200" autocomplete="off";
            }
            label {
                span { "Address that packets are sent from, on their labels" }
                input name="address" value=(settings.address.as_deref().unwrap_or_default()) maxlength="200" autocomplete="off";
            }
            label {
                span { "Where your web pages stand; the code on a packet then leads to its variety's page" }
                input name="site" value=(settings.site.as_deref().unwrap_or_default()) maxlength="200" placeholder="https://example.org/list/" autocomplete="off";
            }
            label {
                span { "Stations in whose weather your buyers garden, one a line, for the web pages; empty for all that are known" }
                textarea name="sells-to" rows="3" { (settings.sells_to.as_deref().unwrap_or_default().join("\n")) }
            }
            (law::choice("Whose law your seed is judged and labelled by", settings.law))
            label {
                span { "Your own least germination in per cent, where you ask for more than the law" }
                input name="minimum" value=[settings.minimum.map(WholePercent::get)] inputmode="numeric" maxlength="4" placeholder="80" autocomplete="off";
            }
            (chosen("Units", "units", settings.units.first, &systems, system_to_word))
            (chosen("Units in sentences", "units-written", settings.units.written, &ways, written_to_word))
            div.acts { button.strong { "Save" } }
        }
        p { "Words that are kept with a call, such as its rule, change to the new units at the next call." }
    }
}

/// One of several answers, each told in words, that which stands marked.
fn chosen<T: Copy + PartialEq>(
    legend: &str,
    name: &str,
    stands: T,
    choices: &[(T, &str)],
    word: fn(T) -> &'static str,
) -> Markup {
    html! {
        fieldset {
            legend { (legend) }
            @for (choice, words) in choices {
                label.tick {
                    input type="radio" name=(name) value=(word(*choice)) checked[stands == *choice];
                    span { (words) }
                }
            }
        }
    }
}
