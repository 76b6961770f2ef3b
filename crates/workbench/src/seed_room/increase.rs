//! Increase: how many plants and fruits so many packets take.

use super::ways;
use crate::desk::Desk;
use crate::fields::said;
use crate::page::{self, Place};
use crate::trouble::{Trouble, nothing_told};
use axum::extract::{Query, State};
use house::fault::{HouseFault, Mender};
use house::folder::House;
use house::increase::{self, Asked, Increase, Wanted};
use house::list;
use house::lots::typed;
use maud::{Markup, html};
use record::share::Share;
use record::variety::Variety;
use serde::Deserialize;

/// What the address asks.
#[derive(Clone, Debug, Default, Deserialize)]
pub(crate) struct Typed {
    variety: Option<String>,
    packets: Option<String>,
    seeds: Option<String>,
    besides: Option<String>,
    sure: Option<String>,
    between_plants: Option<String>,
    between_rows: Option<String>,
}

/// What was found, or why there is nothing to show.
type Found = Result<Increase, (String, Option<String>)>;

/// Shows the form, and what an increase takes where one was asked.
pub(crate) async fn show(State(desk): State<Desk>, Query(typed): Query<Typed>) -> Result<Markup, Trouble> {
    let asked = typed.clone();
    let (house, (varieties, found)) = desk.ask(move |house| gathered(house, &asked)).await?;
    let body = html! {
        (ways("/increase"))
        h1 { "Increase" }
        p {
            "How many plants to grow, and fruits to save, for so many packets: by the seed that your own lots gave a plant, else by "
            "your own fruit counts and what is usual."
        }
        (form(&typed, &varieties))
        @match &found {
            None => {}
            Some(Err((why, help))) => (nothing_told(why, help.as_deref())),
            Some(Ok(found)) => {
                section aria-labelledby="takes" {
                    h2 #takes { (found.variety) }
                    ul.words { @for sentence in increase::telling::words(found, house.settings.units) { li { (sentence) } } }
                }
            }
        }
    };
    Ok(page::page(&house, Place::SeedRoom, "Increase", body))
}

fn gathered(house: &House, typed: &Typed) -> Result<(Vec<Variety>, Option<Found>), HouseFault> {
    let varieties = list::names(house)?;
    let Some(variety) = said(typed.variety.as_ref()) else { return Ok((varieties, None)) };
    let asked = match asked(house, typed, variety) {
        Ok(asked) => asked,
        Err(why) => return Ok((varieties, Some(Err(why)))),
    };
    let found = match increase::of(house, &asked, super::asked(house)) {
        Ok(found) => Ok(found),
        Err(fault) if fault.mender() == Mender::User => Err((fault.to_string(), fault.help())),
        Err(fault) => return Err(fault),
    };
    Ok((varieties, Some(found)))
}

fn asked(house: &House, typed: &Typed, variety: &str) -> Result<Asked, (String, Option<String>)> {
    let number = |label: &str, typed: Option<&String>, usual: u32| {
        let told = |words: &str| {
            words.parse().map_err(|_| (format!("{label}: {words:?} is no number of them"), None))
        };
        said(typed).map_or(Ok(usual), told)
    };
    let (plants, rows) = usual_spacing(house);
    let length = |typed: Option<&String>, usual: &str| {
        typed::distance(said(typed).unwrap_or(usual))
            .map_err(|fault| (fault.to_string(), Some(fault.help().to_owned())))
    };
    let sure = number("How sure", typed.sure.as_ref(), SURE)?;
    Ok(Asked {
        variety: variety.to_owned(),
        wanted: Wanted {
            packets: number("Packets", typed.packets.as_ref(), PACKETS)?,
            seeds_each: number("Seeds of a packet", typed.seeds.as_ref(), SEEDS)?,
            seeds_besides: number("Seeds besides", typed.besides.as_ref(), BESIDES)?,
            sure: Share::of(sure.into(), 100)
                .ok_or_else(|| (format!("How sure: {sure} is more than 100 in 100"), None))?,
        },
        spacing: (length(typed.between_plants.as_ref(), plants)?, length(typed.between_rows.as_ref(), rows)?),
    })
}

/// What is taken where nobody says. A choice of the page, as the command's.
const PACKETS: u32 = 100;
const SEEDS: u32 = 30;
const BESIDES: u32 = 800;
const SURE: u32 = 90;

fn usual_spacing(house: &House) -> (&'static str, &'static str) {
    house.settings.units.either(("18 in", "48 in"), ("45 cm", "120 cm"))
}

fn form(typed: &Typed, varieties: &[Variety]) -> Markup {
    let field = |name: &str, label: &str, value: Option<&String>, usual: &str| {
        html! {
            label {
                span { (label) }
                input name=(name) value=[value] placeholder=(usual) maxlength="12" autocomplete="off";
            }
        }
    };
    html! {
        form.cells method="get" action="/increase" {
            label {
                span { "Variety" }
                select name="variety" {
                    @for variety in varieties {
                        option selected[typed.variety.as_ref() == Some(&variety.name)] { (variety.name) }
                    }
                }
            }
            (field("packets", "Packets", typed.packets.as_ref(), "100"))
            (field("seeds", "Seeds of a packet", typed.seeds.as_ref(), "30"))
            (field("besides", "Seeds besides: tests, file sample, the next increase", typed.besides.as_ref(), "800"))
            (field("sure", "How sure it is to suffice, in 100", typed.sure.as_ref(), "90"))
            (field("between_plants", "Between plants, with its unit", typed.between_plants.as_ref(), "18 in"))
            (field("between_rows", "Between rows, with its unit", typed.between_rows.as_ref(), "48 in"))
            div.acts { button.strong { "How many plants?" } }
        }
    }
}
