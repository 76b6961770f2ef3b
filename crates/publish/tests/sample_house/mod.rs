//! An invented house to print: its names, measures and fruit come from a counter, so that every run is alike.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "the invented house is made of known measures"
)]

use drawing::look::FruitLook;
use drawing::scale::Scale;
use jiff::civil::date;
use publish::catalogue::{
    Catalogue, ClaimBeside, Entry, Evidence, Facts, Measured, Portrait, Section, Standing, Together, Told,
};
use record::colour::{ColourSeen, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::mass::Grams;
use record::season::Season;
use record::share::{Percent, Share};

const FIRST: [&str; 13] = [
    "Marl",
    "Tallow",
    "Kittiwake",
    "Bargeman",
    "Halfpenny",
    "Quarry",
    "Inkle",
    "Sandpiper",
    "Candle",
    "Anvil",
    "Weir",
    "Greenfinch",
    "Old Ferryman's",
];
const SECOND: [&str; 10] =
    ["", " Lamp", " Street", " Dusk", " Half", " Rose", " Gold", " Acre", " Hill Keeper", " Émigré"];

/// Class heading, what the guide says of it, the verdict in a sentence, and the fruit's size in millimetres.
const CLASSES: [(&str, &str, &str, f64, f64); 11] = [
    ("Currants", "about 6 to 12 mm across", "a currant", 10.0, 10.0),
    ("Cherries", "round, 13 to 25 mm, under 1 oz", "a cherry", 24.0, 25.0),
    ("Pears", "under 1 oz, with a neck", "a pear", 42.0, 25.0),
    ("Grapes", "elongated, 1 to 2 oz", "a grape", 45.0, 31.0),
    ("Plums", "50 to 75 mm long, 1 to 3 oz, low moisture", "a plum", 62.0, 42.0),
    ("Pastes", "75 to 125 mm long, 3 to 5 oz, driest, little gel", "a paste", 98.0, 44.0),
    ("Saladettes", "round, between a cherry and a slicer", "a saladette", 48.0, 52.0),
    ("Slicers", "5 to 8 oz, juicy, clear wedges", "a slicer", 62.0, 76.0),
    ("Ribbed", "deeply lobed, of any size", "a ribbed slicer", 55.0, 88.0),
    ("Oxhearts", "heart-shaped, of any size", "an oxheart", 92.0, 84.0),
    ("Beefsteaks", "8 oz to 2 lb, many small locules", "a beefsteak", 84.0, 112.0),
];

const COLOURS: [(&str, TradeColour); 7] = [
    ("red", TradeColour::Red),
    ("yellow", TradeColour::Yellow),
    ("orange", TradeColour::Orange),
    ("pink", TradeColour::Pink),
    ("black", TradeColour::Black),
    ("green when ripe", TradeColour::Green),
    ("white", TradeColour::White),
];

fn share(share: f64) -> Share {
    Share::new(share).unwrap()
}

fn grams(grams: f64) -> Grams {
    Grams::new(grams).unwrap()
}

fn millimetres(millimetres: f64) -> Millimetres {
    Millimetres::new(millimetres).unwrap()
}

/// A house with so many varieties, spread over its classes as they come.
pub(crate) fn house(varieties: usize) -> Catalogue {
    let section = |class: usize| {
        let (heading, about, ..) = CLASSES[class];
        let numbers = (0..varieties).filter(|number| number % CLASSES.len() == class);
        Section {
            of: Together::Class,
            heading: heading.to_owned(),
            about: Some(about.to_owned()),
            entries: numbers.map(|number| entry(number, class)).collect(),
        }
    };
    Catalogue {
        house: "Long Furrow Seed".to_owned(),
        seasons: Season::new(2029).zip(Season::new(2031)),
        printed_on: date(2031, 12, 4),
        units: Units::US,
        guides: vec!["fruit guide 3".to_owned(), "habit guide 2".to_owned(), "colour guide 1".to_owned()],
        sections: (0..CLASSES.len()).map(section).collect(),
        house_fonts: Vec::new(),
    }
}

/// The name of one variety; no two numbers share one.
pub(crate) fn name(number: usize) -> String {
    let (first, second) = (number % FIRST.len(), number / FIRST.len());
    let again = number / (FIRST.len() * SECOND.len());
    let name = format!("{}{}", FIRST[first], SECOND[second % SECOND.len()]);
    if again == 0 { name } else { format!("{name} No. {}", again + 1) }
}

fn entry(number: usize, class: usize) -> Entry {
    let (_, _, verdict, length, width) = CLASSES[class];
    let (_, _, next, ..) = CLASSES[(class + 1) % CLASSES.len()];
    let (colour, ..) = COLOURS[number % COLOURS.len()];
    let grown = 0.85 + 0.3 * ((number * 7 % 11) as f64 / 10.0);
    let (length, width) = (length * grown, width * grown);
    let contested = number.is_multiple_of(6);
    let unmeasured = number % 23 == 22;
    let told = |verdict: &str, likely: f64, other: &str| Told {
        verdicts: vec![(other.to_owned(), share(1.0 - likely)), (verdict.to_owned(), share(likely))],
        contested: likely < 0.8,
        rule: None,
    };
    let facts = if unmeasured { Facts::default() } else { facts(length, width, number) };
    Entry {
        name: name(number),
        aliases: (0..number % 4)
            .map(|alias| format!("{} {}", ["Early", "Pride of", "Grand"][alias], name(number)))
            .collect(),
        portrait: portrait(&facts, number),
        habit: if unmeasured {
            Told::default()
        } else {
            told(["determinate", "indeterminate", "semi-determinate"][number % 3], 0.98, "dwarf")
        },
        fruit_class: told(verdict, if contested { 0.62 } else { 0.93 }, next),
        colour: told(colour, 0.99, "brown"),
        facts,
        evidence: Evidence {
            fruit_count: if unmeasured { 0 } else { 8 + number as u64 % 40 },
            plant_count: 6,
            season_count: 1 + number as u64 % 3,
        },
        claims: claims(number),
        trials: vec!["2 trials of 2031, 8 plots: 0.90 kg (2.0 lb) a plant more than Hop Pole (95% interval 0.30 kg to 1.50 kg)".to_owned()],
        settle: if contested {
            vec!["weigh 6 more fruits".into(), "cut 4 more fruits across".into()]
        } else {
            vec![]
        },
    }
}

fn facts(length: f64, width: f64, number: usize) -> Facts {
    let weight = 1.06e-3 * std::f64::consts::PI / 6.0 * width * width * length;
    let range = |usual: f64| (usual * 0.84, usual * 1.19);
    Facts {
        weight: Some(Measured {
            usual: grams(weight),
            most: Some((grams(range(weight).0), grams(range(weight).1))),
        }),
        length: Some(Measured { usual: millimetres(length), most: None }),
        width: Some(Measured { usual: millimetres(width), most: None }),
        locules: (number % 5 != 4)
            .then(|| Measured { usual: 2 + width as u32 / 25, most: Some((2, 3 + width as u32 / 20)) }),
        soluble_solids: (number.is_multiple_of(2))
            .then(|| Measured { usual: Percent::new(5.4).unwrap(), most: None }),
        dry_matter: None,
        plant_height: None,
        days_to_ripe: (number % 3 == 1).then_some(Measured { usual: 68, most: Some((64, 73)) }),
    }
}

fn claims(number: usize) -> Vec<ClaimBeside> {
    let claim = |words: &str, standing| ClaimBeside { words: words.to_owned(), standing };
    match number % 9 {
        2 => vec![claim("semi-determinate, 4 to 6 oz", Standing::Upheld)],
        5 => vec![
            claim(
                "bush to 2 ft",
                Standing::Contradicted(
                    "The stem never ended in a truss on 14 plants over 2 seasons.".to_owned(),
                ),
            ),
            claim("fine for bottling", Standing::Unmeasured),
        ],
        _ => vec![],
    }
}

/// The portrait that the house's own drawing gives of these measures.
fn portrait(facts: &Facts, number: usize) -> Option<Portrait> {
    let look = FruitLook {
        length: Some(facts.length?.usual),
        width: Some(facts.width?.usual),
        locules: facts.locules.map(|locules| locules.usual),
        exterior: Some(ColourSeen::Word(COLOURS[number % COLOURS.len()].1)),
        ..FruitLook::named(name(number))
    };
    Portrait::drawn(&drawing::portrait::portrait(&look, Scale::LIFE_SIZE, Units::US), Scale::LIFE_SIZE)
}
