//! Telling a note in one line, as a walk sheet would read it out. Start at [`note`].

use crate::colour::{ColourReading, ColourSeen, FruitPart};
use crate::fruit::FruitSample;
use crate::language::{self, Units, counted};
use crate::note::Note;
use crate::pick::{Cull, CullCause, Pick};
use crate::stage::StageSeen;
use jiff::civil::Date;

/// Tells what a note says, without its subject and day: `58 g (2.0 oz), 61 mm (2.4 in) long, 2 locules`.
#[must_use]
pub fn note(note: &Note, units: Units) -> String {
    match note {
        Note::Fruit(fruit) => listed(fruit_words(fruit, units)),
        Note::Pick(pick) => listed(pick_words(pick, units)),
        Note::Height(height) => format!("{} tall", language::length(height.height, units)),
        Note::Stage(stage) => stage_words(&stage.seen),
        Note::Colour(reading) => listed(colour_words(reading)),
    }
}

/// The day of a note, where it has one.
#[must_use]
pub fn day(note: &Note) -> Option<Date> {
    match note {
        Note::Fruit(fruit) => fruit.sampled_on,
        Note::Pick(pick) => Some(pick.picked_on),
        Note::Height(height) => Some(height.read_on),
        Note::Stage(stage) => stage.noted_on,
        Note::Colour(reading) => reading.read_on,
    }
}

/// What kind of note it is: `fruit`, `pick`, `height`, `stage`, `colour`.
#[must_use]
pub fn kind(note: &Note) -> &'static str {
    match note {
        Note::Fruit(_) => "fruit",
        Note::Pick(_) => "pick",
        Note::Height(_) => "height",
        Note::Stage(_) => "stage",
        Note::Colour(_) => "colour",
    }
}

fn fruit_words(fruit: &FruitSample, units: Units) -> Vec<Option<String>> {
    let length = |what: &'static str| move |value| format!("{} {what}", language::length(value, units));
    vec![
        (1 < fruit.fruit_count.get()).then(|| format!("mean of {} fruits", fruit.fruit_count)),
        fruit.weight.map(|weight| language::mass(weight, units)),
        fruit.length.map(length("long")),
        fruit.width.map(length("wide")),
        fruit.neck_width.map(length("at the neck")),
        fruit.locules.map(|locules| counted(locules.into(), "locule", "locules")),
        fruit.soluble_solids.map(|solids| format!("{:.1} % soluble solids", solids.get())),
        fruit.dry_matter.map(|dry| format!("{:.1} % dry matter", dry.get())),
        fruit.lobes.map(|lobes| counted(lobes.into(), "lobe", "lobes")),
        fruit.cracking.map(|severity| format!("cracks {}", severity.name())),
        fruit.catfacing.map(|severity| format!("catfacing {}", severity.name())),
        fruit.exterior.map(|colour| colour.name().to_owned()),
        fruit.flesh.map(|colour| format!("{} flesh", colour.name())),
        fruit.skin.map(|skin| format!("{} skin", skin.name())),
    ]
}

fn pick_words(pick: &Pick, units: Units) -> Vec<Option<String>> {
    let mut words = vec![
        pick.fruit_count.map(|fruits| counted(fruits.into(), "fruit", "fruits")),
        pick.weight.map(|weight| language::mass(weight, units)),
    ];
    words.extend(pick.culls.iter().map(|cull| Some(cull_words(cull, units))));
    words
}

fn cull_words(cull: &Cull, units: Units) -> String {
    let cause = match cull.cause {
        CullCause::Cracked => "cracked",
        CullCause::Catfaced => "catfaced",
        CullCause::BlossomEndRot => "with blossom-end rot",
        CullCause::Rotten => "rotten",
        CullCause::Sunscald => "with sunscald",
        CullCause::Eaten => "eaten",
        CullCause::Undersized => "undersized",
        CullCause::Other => "culled",
    };
    let weight = cull.weight.map(|weight| language::mass(weight, units));
    match (cull.fruit_count, weight) {
        (Some(fruits), Some(weight)) => format!("{fruits} ({weight}) {cause}"),
        (Some(fruits), None) => format!("{fruits} {cause}"),
        (None, Some(weight)) => format!("{weight} {cause}"),
        (None, None) => format!("some {cause}"),
    }
}

fn stage_words(seen: &StageSeen) -> String {
    match seen {
        StageSeen::FirstFlower => "first flower".to_owned(),
        StageSeen::FirstRipe => "first ripe fruit".to_owned(),
        StageSeen::StemEnded { trusses: Some(trusses) } => {
            format!("main stem ended after {}", counted((*trusses).into(), "truss", "trusses"))
        }
        StageSeen::StemEnded { trusses: None } => "main stem ended in a truss".to_owned(),
        StageSeen::StemGrowing { trusses } => {
            format!("main stem still growing after {}", counted((*trusses).into(), "truss", "trusses"))
        }
        StageSeen::LeavesBetweenTrusses(leaves) => format!("{:.1} leaves between trusses", leaves.get()),
        StageSeen::PlantCount(plants) => format!("{} standing", counted((*plants).into(), "plant", "plants")),
        StageSeen::OffType { plants, words } => {
            format!("{}: {words}", counted((*plants).into(), "off-type plant", "off-type plants"))
        }
        StageSeen::DwarfLeaves => "dwarf leaves".to_owned(),
    }
}

fn colour_words(reading: &ColourReading) -> Vec<Option<String>> {
    let part = match reading.part {
        FruitPart::Exterior => "outside",
        FruitPart::Flesh => "flesh",
        FruitPart::Gel => "gel",
    };
    let seen = match reading.seen {
        ColourSeen::Word(colour) => colour.name().to_owned(),
        ColourSeen::Measured(lab) => {
            format!("L* {:.1}, a* {:.1}, b* {:.1}", lab.lightness(), lab.a(), lab.b())
        }
    };
    vec![
        Some(format!("{part} {seen}")),
        reading.pattern.map(|pattern| pattern.name().to_owned()),
        reading.skin.map(|skin| format!("{} skin", skin.name())),
    ]
}

fn listed(words: Vec<Option<String>>) -> String {
    words.into_iter().flatten().collect::<Vec<_>>().join(", ")
}
