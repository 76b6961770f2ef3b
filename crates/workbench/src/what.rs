//! What is it? A form for an unknown tomato, as typed, and what it may be beside the list's own varieties.
//!
//! The form asks for the same page, so that an answer has an address; nothing that is asked is kept.

use crate::desk::Desk;
use crate::fields::Fields;
use crate::page::{self, Place};
use crate::trouble::{Trouble, sentence};
use axum::extract::{Query, State};
use axum::http::StatusCode;
use house::fault::HouseFault;
use house::folder::House;
use house::what::{self, Answer, Asked, FruitField, PlantField, TypedFruit, Unfit};
use jiff::ZonedDateTime;
use maud::{Markup, html};

mod answer;
mod form;

/// Fruits that one form may tell of. A choice of the page.
const MOST_FRUITS: usize = 24;

/// Fields of a fruit, by their names in the form.
const FRUIT: [(&str, FruitField); 13] = [
    ("weight", FruitField::Weight),
    ("length", FruitField::Length),
    ("width", FruitField::Width),
    ("neck", FruitField::Neck),
    ("locules", FruitField::Locules),
    ("colour", FruitField::Colour),
    ("lobes", FruitField::Lobes),
    ("solids", FruitField::SolubleSolids),
    ("dry_matter", FruitField::DryMatter),
    ("flesh", FruitField::Flesh),
    ("skin", FruitField::Skin),
    ("pattern", FruitField::Pattern),
    ("plant", FruitField::Plant),
];

/// Fields of its plant, by their names in the form.
const PLANT: [(&str, PlantField); 8] = [
    ("stem_ended", PlantField::StemEnded),
    ("stem_growing", PlantField::StemGrowing),
    ("leaves_between", PlantField::LeavesBetween),
    ("height", PlantField::Height),
    ("levels_off", PlantField::LevelsOff),
    ("ripe_within", PlantField::RipeWithin),
    ("bears_for", PlantField::BearsFor),
    ("dwarf_leaves", PlantField::DwarfLeaves),
];

/// Shows the form, and what the tomato may be where something was told.
pub(crate) async fn show(
    State(desk): State<Desk>,
    Query(fields): Query<Fields>,
) -> Result<(StatusCode, Markup), Trouble> {
    let asked = asked(&fields);
    let is_asked = !asked.fruits.is_empty() || !asked.plants.is_empty();
    let today = ZonedDateTime::now().date();
    let answer = move |house: &House| {
        is_asked.then(|| what::ask(Some(house), &asked, house.settings.units, today)).transpose()
    };
    let (house, found) = desk.ask(move |house| unfit_apart(answer(house))).await?;
    let status = if found.is_err() { StatusCode::BAD_REQUEST } else { StatusCode::OK };
    Ok((status, page::page(&house, Place::List, "What is it?", body(&house, &fields, &found))))
}

/// What the user can mend is told beside the form, which keeps what was typed.
fn unfit_apart(
    answer: Result<Option<Answer>, HouseFault>,
) -> Result<Result<Option<Answer>, Box<Unfit>>, HouseFault> {
    match answer {
        Err(HouseFault::Unfit(unfit)) => Ok(Err(unfit)),
        answer => answer.map(Ok),
    }
}

/// What was told: fruit by fruit, the fields that are not empty.
fn asked(fields: &Fields) -> Asked {
    let fruit = |row: usize| {
        let told = FRUIT.iter().filter_map(|(name, field)| {
            let text = fields.every(name).nth(row)?.trim();
            (!text.is_empty()).then(|| (*field, text.to_owned()))
        });
        told.collect::<Vec<_>>()
    };
    let fruits = (0..MOST_FRUITS).map(fruit).filter(|told| !told.is_empty()).map(TypedFruit::Fields);
    let plant = PLANT.iter().filter_map(|(name, field)| Some((*field, fields.get(name)?.to_owned())));
    let plant: Vec<(PlantField, String)> = plant.collect();
    let plants = Some(plant).filter(|told| !told.is_empty()).into_iter().collect();
    Asked { fruits: fruits.collect(), plants, tables: Vec::new() }
}

fn body(house: &House, fields: &Fields, found: &Result<Option<Answer>, Box<Unfit>>) -> Markup {
    html! {
        (page::list_ways("/what"))
        h1 { "What is it?" }
        @match found {
            Ok(None) => p {
                "Tell whatever you can measure or see of one tomato or a handful. It is called by the same "
                "rules as your own varieties, and nothing of it is kept. How classes and habits are told apart is drawn on "
                a href="/types" { "Tomato types" } "."
            },
            Ok(Some(answer)) => (answer::section(house, answer)),
            Err(unfit) => div.fault role="alert" {
                p { (sentence(&unfit.to_string())) }
                p.help { (sentence(&unfit.help())) }
            },
        }
        (form::of(fields, house.settings.units))
    }
}
