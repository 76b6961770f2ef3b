//! Telling a note in one line, as a walk sheet would read it out. Start at [`note`].

use crate::colour::{ColourReading, ColourSeen, FruitPart, Pattern, Skin, TradeColour};
use crate::fruit::{FruitSample, Severity};
use crate::language::{self, Units};
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
        fruit.locules.map(|locules| counted(locules, "locule")),
        fruit.soluble_solids.map(|solids| format!("{:.1} % soluble solids", solids.get())),
        fruit.dry_matter.map(|dry| format!("{:.1} % dry matter", dry.get())),
        fruit.lobes.map(|lobes| counted(lobes, "lobe")),
        fruit.cracking.map(|severity| format!("cracks {}", severity_word(severity))),
        fruit.catfacing.map(|severity| format!("catfacing {}", severity_word(severity))),
        fruit.exterior.map(|colour| colour_word(colour).to_owned()),
        fruit.flesh.map(|colour| format!("{} flesh", colour_word(colour))),
        fruit.skin.map(|skin| format!("{} skin", skin_word(skin))),
    ]
}

fn pick_words(pick: &Pick, units: Units) -> Vec<Option<String>> {
    let mut words = vec![
        pick.fruit_count.map(|fruits| counted(fruits, "fruit")),
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
            format!("main stem ended after {}", trusses_counted(*trusses))
        }
        StageSeen::StemEnded { trusses: None } => "main stem ended in a truss".to_owned(),
        StageSeen::StemGrowing { trusses } => {
            format!("main stem still growing after {}", trusses_counted(*trusses))
        }
        StageSeen::LeavesBetweenTrusses(leaves) => format!("{:.1} leaves between trusses", leaves.get()),
        StageSeen::PlantCount(plants) => format!("{} standing", counted(*plants, "plant")),
        StageSeen::OffType { plants, words } => format!("{}: {words}", counted(*plants, "off-type plant")),
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
        ColourSeen::Word(colour) => colour_word(colour).to_owned(),
        ColourSeen::Measured(lab) => {
            format!("L* {:.1}, a* {:.1}, b* {:.1}", lab.lightness(), lab.a(), lab.b())
        }
    };
    vec![
        Some(format!("{part} {seen}")),
        reading.pattern.map(|pattern| pattern_word(pattern).to_owned()),
        reading.skin.map(|skin| format!("{} skin", skin_word(skin))),
    ]
}

/// The trade's word for a colour.
#[must_use]
pub fn colour_word(colour: TradeColour) -> &'static str {
    match colour {
        TradeColour::Red => "red",
        TradeColour::Pink => "pink",
        TradeColour::Orange => "orange",
        TradeColour::Yellow => "yellow",
        TradeColour::White => "white",
        TradeColour::Green => "green",
        TradeColour::Brown => "brown",
        TradeColour::Black => "black",
        TradeColour::Bicolour => "bicolour",
    }
}

fn skin_word(skin: Skin) -> &'static str {
    match skin {
        Skin::Clear => "clear",
        Skin::Yellow => "yellow",
    }
}

fn pattern_word(pattern: Pattern) -> &'static str {
    match pattern {
        Pattern::Plain => "plain",
        Pattern::Striped => "striped",
        Pattern::Marbled => "marbled",
        Pattern::DarkShouldered => "dark-shouldered",
    }
}

fn severity_word(severity: Severity) -> &'static str {
    match severity {
        Severity::Absent => "none",
        Severity::Slight => "slight",
        Severity::Moderate => "moderate",
        Severity::Severe => "severe",
    }
}

fn counted(count: u32, what: &str) -> String {
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}

fn trusses_counted(trusses: u32) -> String {
    if trusses == 1 { "1 truss".to_owned() } else { format!("{trusses} trusses") }
}

fn listed(words: Vec<Option<String>>) -> String {
    words.into_iter().flatten().collect::<Vec<_>>().join(", ")
}
