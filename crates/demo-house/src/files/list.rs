//! The list and the old packets: names, other names, and what has been claimed.
//!
//! Start at [`the_list`].

use crate::chance::{happens, one_of};
use crate::faults::Slips;
use crate::files::LIST;
use crate::files::pen::{Meant, Pen};
use crate::house::House;
use crate::paper::{Format, Letters, Page, Sheaf};
use crate::roll::{Build, Habit};
use crate::truth::TrueVariety;

const LIST_HEADINGS: [&str; 9] =
    ["Variety", "Also known as", "Habit", "Type", "Color", "Fruit weight", "Days", "Good for", "Notes"];
const PACKET_HEADINGS: [&str; 8] = [
    "Name",
    "Plant habit",
    "Fruit type",
    "Colour",
    "Size of fruit",
    "Days to maturity",
    "Use",
    "Description",
];

/// The house's list: UTF-8 behind a byte-order mark, a title, several aliases in one cell.
#[must_use]
pub fn the_list(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{LIST}/list.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&["Crookstile Seed House - the list, winter 2026"]);
    page.blank();
    page.words(&LIST_HEADINGS);
    for variety in &house.truth {
        let claims = Claims::of(&mut pen, &page, variety, &["Habit", "Type", "Color", "Fruit weight"]);
        page.record(vec![
            variety.entry.name.as_str().into(),
            variety.entry.aliases.join("; ").into(),
            claims.habit.into(),
            claims.class.into(),
            claims.colour.into(),
            claims.weight.into(),
            claims.days.into(),
            good_for(variety).into(),
            "".into(),
        ]);
    }
    let format = Format::Text { delimiter: ',', letters: Letters::Utf8Marked, line_end: "\r\n" };
    Sheaf {
        path,
        about: "the list with other names and claims; UTF-8 with byte-order mark, title row, blank row, several aliases in a cell, missing claims, some false claims",
        format,
        pages: vec![page],
    }
}

/// Old packets: Windows-1252, line breaks inside quotes, names by alias, claims gone stale.
#[must_use]
pub fn old_packets(house: &House, slips: &mut Slips) -> Sheaf {
    let path = format!("{LIST}/old-packets.csv");
    let mut pen = Pen::new(house, slips, &path);
    let mut page = Page::default();
    page.words(&PACKET_HEADINGS);
    for variety in &house.truth {
        if happens(pen.draws(), 0.25) {
            continue;
        }
        let claims =
            Claims::of(&mut pen, &page, variety, &["Plant habit", "Fruit type", "Colour", "Size of fruit"]);
        let alias = variety.entry.aliases.first().filter(|_| happens(pen.draws(), 0.5));
        let name = alias.unwrap_or(&variety.entry.name);
        page.record(vec![
            name.as_str().into(),
            claims.habit.into(),
            claims.class.into(),
            claims.colour.into(),
            claims.weight.into(),
            claims.days.into(),
            good_for(variety).into(),
            packet_words(&mut pen, variety).into(),
        ]);
    }
    let format = Format::Text { delimiter: ',', letters: Letters::Windows1252, line_end: "\r\n" };
    Sheaf {
        path,
        about: "what old packets say; Windows-1252 with fraction and degree signs, line breaks inside quotes, names by alias, stale and false claims",
        format,
        pages: vec![page],
    }
}

/// What is claimed of one variety: the truth in a packet's words, but for the roll's false claim.
struct Claims {
    habit: String,
    class: String,
    colour: String,
    weight: String,
    days: String,
}

impl Claims {
    fn of(pen: &mut Pen, page: &Page, variety: &TrueVariety, columns: &[&str; 4]) -> Self {
        let entry = &variety.entry;
        let weight = if happens(pen.draws(), 0.2) { String::new() } else { weight_band(variety) };
        let days = if happens(pen.draws(), 0.1) {
            "n/a".to_owned()
        } else {
            format!("{:.0}", variety.vine.days_to_ripe)
        };
        let mut claims = Self {
            habit: habit_words(pen, variety).to_owned(),
            class: entry.class.sold_as().word().to_owned(),
            colour: entry.colour.name().to_owned(),
            weight,
            days,
        };
        if let Some((about, words)) = &entry.false_claim {
            claims.falsify(pen, page, variety, (about, words), columns);
        }
        claims
    }

    fn falsify(
        &mut self,
        pen: &mut Pen,
        page: &Page,
        variety: &TrueVariety,
        (about, words): (&str, &str),
        [habit, class, colour, weight]: &[&str; 4],
    ) {
        let (cell, column, truth) = match about {
            "habit" => (&mut self.habit, habit, variety.entry.habit.word().to_owned()),
            "class" => (&mut self.class, class, variety.entry.class.sold_as().word().to_owned()),
            "colour" => (&mut self.colour, colour, variety.entry.colour.name().to_owned()),
            _ => (&mut self.weight, weight, weight_band(variety)),
        };
        words.clone_into(cell);
        pen.slip(page, column, words, Meant::misleading("false claim", truth));
    }
}

fn habit_words(pen: &mut Pen, variety: &TrueVariety) -> &'static str {
    let words: &[&'static str] = match (variety.entry.build, variety.entry.habit) {
        (Build::MicroDwarf, _) => &["micro-dwarf"],
        (Build::Dwarf, _) => &["dwarf"],
        (_, Habit::Determinate) => &["determinate", "Det.", "determinate", "bush"],
        (_, Habit::SemiDeterminate) => &["semi-determinate", "Semi-det.", "semi"],
        (_, Habit::Indeterminate) => &["indeterminate", "Indet.", "indeterminate", "vine"],
    };
    one_of(pen.draws(), words).copied().unwrap_or_default()
}

fn small_weight(grams: f64) -> String {
    if grams < 1.0 { "pea-sized".to_owned() } else { format!("{grams:.0} g") }
}

/// `4 to 6 oz`: about a fifth to either side of the typical fruit.
fn weight_band(variety: &TrueVariety) -> String {
    let ounces = variety.shape.weight.to_ounces();
    let (low, high) = (ounces * 0.8, ounces * 1.25);
    match ounces {
        small if small < 1.0 => small_weight(variety.shape.weight.get()),
        middle if middle < 3.0 => format!("{low:.1} to {high:.1} oz"),
        _ => format!("{low:.0} to {high:.0} oz"),
    }
}

fn good_for(variety: &TrueVariety) -> &'static str {
    use crate::class::FruitClass;
    match variety.entry.class {
        FruitClass::Currant | FruitClass::Cherry | FruitClass::Pear => "snacking, salads",
        FruitClass::SmallElongated | FruitClass::Grape => "salads, lunch boxes",
        FruitClass::Plum => "bottling, drying",
        FruitClass::Paste => "sauce, paste",
        FruitClass::Saladette => "salads, roasting",
        FruitClass::Slicer | FruitClass::Beefsteak => "slicing, sandwiches",
    }
}

/// Sentences that packets carry; `½`, `é` and `°` are bytes of their own in Windows-1252.
const PACKET_WORDS: [&str; 5] = [
    "Sow ½ inch deep at 21 °C.\nPot on when the first true leaves show.",
    "A favourite at the house café.",
    "Sow indoors, \"as early as you dare\".\nHarden off for a week.",
    "Set out when nights stay above 50 °F.",
    "Space 18 inches; stake, cage or let sprawl.",
];

/// A description as old packets carry it, every claim of the variety in one breath.
fn description(pen: &mut Pen, variety: &TrueVariety) -> String {
    let (colour, class) = (variety.entry.colour.name(), variety.entry.class.sold_as().word());
    let (habit, weight) = (habit_in_prose(variety), weight_band(variety));
    let (days, uses) = (variety.vine.days_to_ripe, good_for(variety));
    let forms = [
        format!("Fine {colour} {class}, {weight}. {habit}, {days:.0} days. Great for {uses}."),
        format!(
            "Our {colour} {class}, {weight}, {habit}; about {days:.0} days from transplanting, for {uses}."
        ),
        format!(
            "Grandmother's {class}, {colour}, {days:.0} days.\n{habit}, {weight} fruit, good for {uses}."
        ),
    ];
    one_of(pen.draws(), &forms).cloned().unwrap_or_default()
}

fn habit_in_prose(variety: &TrueVariety) -> &'static str {
    match (variety.entry.build, variety.entry.habit) {
        (Build::MicroDwarf, _) => "micro-dwarf",
        (Build::Dwarf, _) => "dwarf",
        (_, Habit::Determinate) => "bush",
        (_, Habit::SemiDeterminate) => "semi-determinate",
        (_, Habit::Indeterminate) => "vine",
    }
}

/// Share of the packets that carry a description instead of advice. A choice of the demo.
const DESCRIBED: f64 = 0.35;

fn packet_words(pen: &mut Pen, variety: &TrueVariety) -> String {
    if happens(pen.draws(), DESCRIBED) {
        return description(pen, variety);
    }
    let words = one_of(pen.draws(), &PACKET_WORDS).copied().unwrap_or_default();
    if happens(pen.draws(), 0.4) { format!("{}. {words}", variety.entry.name) } else { words.to_owned() }
}
