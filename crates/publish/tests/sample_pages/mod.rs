//! The invented house of `sample_house` as web pages.

#![expect(clippy::unwrap_used, reason = "the invented house is made of known measures")]

use crate::sample_house;
use drawing::look::FruitLook;
use drawing::strip::{Dot, Measured, Reading, Strip};
use publish::catalogue::{Entry, Section};
use publish::pages::finding::{Phrase, SearchWords};
use publish::pages::{Behind, Folder, Kind, StandIn, WebEntry, WebList};
use record::colour::{ColourSeen, TradeColour};
use record::language::Units;
use record::share::Share;

/// Habits of the house.
const HABITS: [&str; 5] = ["micro-dwarf", "dwarf", "determinate", "semi-determinate", "indeterminate"];

/// The house with so many varieties, named by their number.
pub(crate) fn web_list(varieties: usize) -> WebList {
    let catalogue = sample_house::house(varieties);
    let kind = |section: &Section| Kind {
        name: section.heading.to_lowercase(),
        what: section.about.clone().unwrap_or_default(),
        good_for: "Sauce & salads.".to_owned(),
        limits: vec!["weight from 1 oz to under 3 oz".to_owned()],
        ..Kind::default()
    };
    let classes = catalogue.sections.iter().map(kind).collect();
    let sections = catalogue.sections.into_iter().enumerate();
    let entries = sections
        .flat_map(|(class, section)| section.entries.into_iter().map(move |told| web_entry(class, told)));
    let mut entries: Vec<WebEntry> = entries.collect();
    entries.sort_by(|one, other| one.told.name.cmp(&other.told.name));
    WebList {
        house: catalogue.house,
        made_on: catalogue.printed_on,
        units: Units::US,
        seasons: catalogue.seasons,
        guides: catalogue.guides,
        site: None,
        classes,
        habits: HABITS.map(|name| Kind { name: name.to_owned(), ..Kind::default() }).to_vec(),
        entries,
        search: SearchWords {
            phrases: vec![Phrase { phrase: "red".into(), kind: "colour", answer: "red".into() }],
            ..SearchWords::default()
        },
    }
}

fn web_entry(class: usize, told: Entry) -> WebEntry {
    let is_measured = told.facts.weight.is_some();
    let look = FruitLook {
        weight: told.facts.weight.map(|own| own.usual),
        length: told.facts.length.map(|own| own.usual),
        width: told.facts.width.map(|own| own.usual),
        locules: told.facts.locules.map(|own| own.usual),
        exterior: Some(ColourSeen::Word(TradeColour::Red)),
        ..FruitLook::named(told.name.as_str())
    };
    let likeliest = told.habit.verdicts.iter().max_by(|one, other| one.1.get().total_cmp(&other.1.get()));
    let habit = likeliest.and_then(|(habit, _)| HABITS.iter().position(|own| own == habit));
    let told = if is_measured { told } else { Entry { fruit_class: Default::default(), ..told } };
    WebEntry {
        look: is_measured.then_some(look),
        class: is_measured.then_some(class),
        habit,
        uses: vec!["sauce".to_owned(), "picking all season".to_owned()],
        marks: vec![("heart".to_owned(), Share::new(0.82).unwrap())],
        pattern: Some("plain".to_owned()),
        stand_ins: vec![StandIn { entry: 0, why: "as heavy, of the same colour".to_owned() }],
        told,
    }
}

/// One strip of three fruits.
pub(crate) fn strips() -> Vec<Strip> {
    let dot = |grams| Dot { reading: Reading::new(grams).unwrap(), counted: true };
    vec![Strip {
        title: "Weight of one fruit".to_owned(),
        measured: Measured::Weight,
        dots: [52.0, 58.0, 66.0].map(dot).to_vec(),
        bands: Vec::new(),
        mean: None,
        units: Units::US,
    }]
}

/// Every file of the folder, in its order.
pub(crate) fn files(list: WebList) -> Vec<publish::pages::File> {
    let folder = Folder::of(list);
    let varieties = (0..folder.len()).flat_map(|index| folder.variety(index, &strips()).unwrap());
    let varieties: Vec<_> = varieties.collect();
    folder.common(&Behind::default()).unwrap().into_iter().chain(varieties).collect()
}
