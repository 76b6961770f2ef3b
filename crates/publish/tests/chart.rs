//! The type chart as a reader meets it: its words are taken from the PDF by poppler's tools.

#![expect(clippy::unwrap_used, reason = "a test stops at its first surprise")]

mod poppler;

use drawing::look::FruitLook;
use drawing::plant::{Build, PlantLook, StemTip};
use drawing::span::Span;
use drawing::strip::{Border, Measured, Reading};
use jiff::civil::date;
use publish::chart::{Chart, ClassType, HabitType, Limit, MarkType, Sheet, Tell, Types, chart};
use record::colour::{ColourSeen, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::purpose::Purpose;
use record::share::Share;

const SHEETS: [Sheet; 4] = [Sheet::A4, Sheet::UsLetter, Sheet::A3, Sheet::Tabloid];
/// Least distance of ink from the paper's edge, in points: 10 mm, in which every printer can print.
const EDGE: f64 = 28.0;

/// Class, length and width of its fruit in millimetres, and how much it may say.
const CLASSES: [(&str, f64, f64); 9] = [
    ("currant", 10.0, 11.0),
    ("cherry", 22.0, 24.0),
    ("pear", 34.0, 25.0),
    ("grape", 38.0, 23.0),
    ("saladette", 44.0, 50.0),
    ("plum", 66.0, 41.0),
    ("paste", 85.0, 48.0),
    ("slicer", 62.0, 74.0),
    ("beefsteak", 86.0, 100.0),
];
const HABITS: [(&str, f64, StemTip); 5] = [
    ("micro-dwarf", 270.0, StemTip::Truss),
    ("dwarf", 900.0, StemTip::GrowsOn),
    ("determinate", 1000.0, StemTip::Truss),
    ("semi-determinate", 1450.0, StemTip::Truss),
    ("indeterminate", 2000.0, StemTip::GrowsOn),
];

fn fruit(name: &str, length: f64, width: f64) -> FruitLook {
    FruitLook {
        length: Millimetres::new(length),
        width: Millimetres::new(width),
        locules: Some(3),
        exterior: Some(ColourSeen::Word(TradeColour::Red)),
        ..FruitLook::named(name)
    }
}

fn limit(about: &str, words: &str) -> Limit {
    let reading = |at| Reading::new(at).unwrap();
    let span = Span {
        words: words.to_owned(),
        measured: Measured::Weight,
        ends: (reading(1.0), reading(900.0)),
        borders: [28.0, 57.0, 142.0].map(reading).to_vec(),
        low: Some(Border { from: reading(26.0), to: reading(30.0) }),
        high: None,
    };
    Limit { about: about.to_owned(), words: words.to_owned(), span }
}

fn class((name, length, width): (&str, f64, f64)) -> ClassType {
    ClassType {
        name: name.to_owned(),
        look: Some(fruit(name, length, width)),
        what: format!("What a {name} is, in a sentence of a dozen words or so."),
        good_for: "Salads, quarters, grilling in halves; sold on the vine.".to_owned(),
        flesh: "Juicy, two to four chambers with plain walls.".to_owned(),
        mistaken_for: "A large neighbour or a small one. Measure the length and the width of ten.".to_owned(),
        limits: vec![
            limit("Weight", "1.0 oz to 5.0 oz (28 g to 142 g)"),
            limit("Length over width", "under 1.25"),
        ],
        ways: vec!["under 2 oz and 50 mm long".to_owned(), "2 oz to 3 oz".to_owned()],
        uses: vec![Purpose::FreshEating, Purpose::Salads],
    }
}

fn habit((name, height, tip): (&str, f64, StemTip)) -> HabitType {
    let look = PlantLook {
        words: name.to_owned(),
        height: Millimetres::new(height).unwrap(),
        tip,
        trusses: 6,
        leaves_between: (2.5, 1.5),
        build: Build::Slender,
        ripe: Share::new(0.4).unwrap(),
    };
    let tell = |about: &str, words: &str| Tell { about: about.to_owned(), words: words.to_owned() };
    HabitType {
        name: name.to_owned(),
        look: Some(look),
        what: "The main stem ends in a truss too, but late: a main crop first, then some more.".to_owned(),
        good_for: "Canning at once, as the crop comes together; little staking.".to_owned(),
        mistaken_for: "Another where the count stops early. Count the trusses to the end.".to_owned(),
        tells: vec![
            tell("Main stem", "ends in a truss after about 4 trusses, mostly 3 to 5"),
            tell("Leaves", "about 1.5 between two trusses"),
            tell("Height", "about 3.3 ft (1.0 m), mostly 2.2 ft to 4.8 ft; levels off in 90 of 100"),
            tell("Ripening", "most of the fruit within about 21 days, mostly 10 to 42"),
        ],
        uses: vec![Purpose::Canning, Purpose::AllAtOnce],
    }
}

fn sample() -> Chart {
    let mark = |name: &str| MarkType {
        name: name.to_owned(),
        look: Some(fruit(name, 70.0, 74.0)),
        what: "Lobed or pleated shoulders.".to_owned(),
        limits: vec!["4 lobes and more".to_owned()],
    };
    let swatch = |name: &str| fruit(name, 50.0, 54.0);
    Chart {
        house: "Long Furrow Seed".to_owned(),
        printed_on: date(2031, 12, 4),
        types: Types {
            guides: vec!["fruit guide, version 3".to_owned(), "habit guide, version 2".to_owned()],
            classes: CLASSES.map(class).to_vec(),
            habits: HABITS.map(habit).to_vec(),
            marks: ["heart", "hollow", "ribbed"].map(mark).to_vec(),
            colours: ["red", "pink", "orange", "yellow", "white", "green", "brown", "black", "bicolour"]
                .map(swatch)
                .to_vec(),
            patterns: ["striped", "marbled", "dark-shouldered"].map(swatch).to_vec(),
        },
        units: Units::US,
        house_fonts: Vec::new(),
    }
}

fn run_together(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace() && *letter != '\u{200b}').collect()
}

/// Asserts that nothing runs over the paper and that every text is there, on every sheet.
#[track_caller]
fn agrees(of: &Chart, texts: &[&str]) {
    for sheet in SHEETS {
        let pdf = chart(of, sheet).unwrap();
        for (number, page) in poppler::words(&pdf).unwrap_or_default().iter().enumerate() {
            let outside = page.words.iter().find(|word| {
                word.left < EDGE
                    || word.top < EDGE
                    || page.width - EDGE < word.right
                    || page.height - EDGE < word.bottom
            });
            assert!(
                outside.is_none(),
                "{sheet:?}, page {}: {:?} runs over",
                number + 1,
                outside.map(|word| &word.word)
            );
        }
        let Some(printed) = poppler::text(&pdf) else { return };
        let printed = run_together(&printed);
        let lost: Vec<_> = texts.iter().filter(|text| !printed.contains(&run_together(text))).collect();
        assert!(lost.is_empty(), "lost on {sheet:?}: {lost:?}");
    }
}

#[test]
fn every_class_habit_and_limit_is_printed_on_every_sheet() {
    let chart = sample();
    let types = &chart.types;
    let classes = types
        .classes
        .iter()
        .flat_map(|class| [&class.what, &class.mistaken_for, &class.good_for, &class.flesh]);
    let habits = types.habits.iter().flat_map(|habit| habit.tells.iter().map(|tell| &tell.words));
    let texts: Vec<&str> = classes.chain(habits).map(String::as_str).collect();
    agrees(&chart, &texts);
    agrees(
        &chart,
        &[
            "1.0 oz to 5.0 oz (28 g to 142 g)",
            "Long Furrow Seed",
            "habit guide, version 2",
            "dark-shouldered",
            "Lobed or pleated shoulders. The guide's limit: 4 lobes and more.",
            "picking all at once",
        ],
    );
}

#[test]
fn a_poster_is_one_sheet_of_its_size() {
    for (sheet, size) in [(Sheet::A3, "1190.55 x 841.89 pts (A3)"), (Sheet::Tabloid, "1224 x 792 pts")] {
        let Some(facts) = poppler::facts(&chart(&sample(), sheet).unwrap()) else { return };
        for fact in [size, "Pages:           1", "Tomato types: Long Furrow Seed", "Tagged:          yes"] {
            assert!(facts.contains(fact), "{fact:?} is not in {facts}");
        }
    }
}

#[test]
fn a_guide_of_one_class_or_of_thirty_is_printed_too() {
    let mut few = sample();
    few.types.classes.truncate(1);
    few.types.habits.truncate(1);
    (few.types.marks, few.types.colours, few.types.patterns) = (Vec::new(), Vec::new(), Vec::new());
    agrees(&few, &["What a currant is"]);
    few.types.classes.clear();
    few.types.habits.clear();
    agrees(&few, &["Tomato types"]);
    let mut many = sample();
    many.types.classes = (0..30)
        .map(|number| ClassType { name: format!("class {number}"), ..class(CLASSES[number % 9]) })
        .collect();
    agrees(&many, &["Class 29"]);
}

#[test]
fn markup_in_a_guide_is_only_words() {
    let mut hostile = sample();
    hostile.house = "#pagebreak() *x* $y$".to_owned();
    hostile.types.classes[0].name = "#panic(\"no\")".to_owned();
    hostile.types.classes[1].what = "= Heading @v0 <v0> [link](x) \u{202e}turned".to_owned();
    hostile.types.habits[0].tells[0].words = "番茄 \u{1f345}".to_owned();
    agrees(
        &hostile,
        &["#pagebreak() *x* $y$", "#panic(\"no\")", "= Heading @v0 <v0> [link](x) turned", "[U+756A]"],
    );
}

#[test]
fn the_same_chart_prints_the_same_bytes() {
    assert!(chart(&sample(), Sheet::A3).unwrap() == chart(&sample(), Sheet::A3).unwrap());
}
