//! The form of an unknown tomato: a group of fields for each fruit, and one for its plant.

use super::{FRUIT, MOST_FRUITS};
use crate::fields::Fields;
use maud::{Markup, html};
use record::colour::{Pattern, Skin, TradeColour};
use record::language::Units;

/// How a field is asked for: its name, its label, and an example in either units, or the words to choose from.
struct Asks {
    name: &'static str,
    label: &'static str,
    by: By,
}

enum By {
    Text { us: &'static str, metric: &'static str },
    Words(fn() -> Vec<&'static str>),
}

/// What most can tell of a fruit.
const FIRST: [Asks; 6] = [
    Asks { name: "weight", label: "Weight", by: By::Text { us: "2 oz", metric: "58 g" } },
    Asks {
        name: "length",
        label: "Length, stem to blossom end",
        by: By::Text { us: "2 3/8 in", metric: "61 mm" },
    },
    Asks { name: "width", label: "Greatest width", by: By::Text { us: "1 1/2 in", metric: "38 mm" } },
    Asks {
        name: "neck",
        label: "Width a quarter down from the stem",
        by: By::Text { us: "1 1/4 in", metric: "32 mm" },
    },
    Asks { name: "locules", label: "Seed chambers, when cut across", by: By::Text { us: "2", metric: "2" } },
    Asks { name: "colour", label: "Colour outside", by: By::Words(colours) },
];

/// What some can tell.
const MORE: [Asks; 7] = [
    Asks {
        name: "lobes",
        label: "Lobes, seen from the stem; 0 is smooth",
        by: By::Text { us: "0", metric: "0" },
    },
    Asks { name: "solids", label: "Soluble solids, °Brix", by: By::Text { us: "5.2", metric: "5.2" } },
    Asks { name: "dry_matter", label: "Dry matter, per cent", by: By::Text { us: "6", metric: "6" } },
    Asks { name: "flesh", label: "Colour of the flesh", by: By::Words(colours) },
    Asks { name: "skin", label: "Peeled skin", by: By::Words(skins) },
    Asks { name: "pattern", label: "Pattern", by: By::Words(patterns) },
    Asks {
        name: "plant",
        label: "Number of its plant, where several bore them",
        by: By::Text { us: "1", metric: "1" },
    },
];

/// What can be told of the plant.
const PLANT: [Asks; 8] = [
    Asks {
        name: "stem_ended",
        label: "Main stem ended in a truss, after so many trusses",
        by: By::Text { us: "4", metric: "4" },
    },
    Asks {
        name: "stem_growing",
        label: "Main stem still grows, after so many trusses",
        by: By::Text { us: "9", metric: "9" },
    },
    Asks { name: "leaves_between", label: "Leaves between trusses", by: By::Text { us: "3", metric: "3" } },
    Asks { name: "height", label: "Height", by: By::Text { us: "4 ft 7 in", metric: "140 cm" } },
    Asks { name: "levels_off", label: "Has its height levelled off?", by: By::Words(yes_or_no) },
    Asks {
        name: "ripe_within",
        label: "All fruit ripened within, days",
        by: By::Text { us: "21", metric: "21" },
    },
    Asks { name: "bears_for", label: "Still bore after, days", by: By::Text { us: "50", metric: "50" } },
    Asks { name: "dwarf_leaves", label: "Dark crinkled leaves, as a dwarf's?", by: By::Words(yes_or_no) },
];

fn colours() -> Vec<&'static str> {
    TradeColour::ALL.map(TradeColour::name).to_vec()
}

fn skins() -> Vec<&'static str> {
    Skin::ALL.map(Skin::name).to_vec()
}

fn patterns() -> Vec<&'static str> {
    Pattern::ALL.map(Pattern::name).to_vec()
}

fn yes_or_no() -> Vec<&'static str> {
    vec!["yes", "no"]
}

/// The form with what was typed in it. `Another fruit` asks for the same page with one group more.
pub(super) fn of(fields: &Fields, units: Units) -> Markup {
    let rows = rows(fields);
    html! {
        form.unknown method="get" action="/what" aria-label="An unknown tomato" {
            @for row in 0..rows { (fruit(fields, row, rows, units)) }
            fieldset {
                legend { "The plant that bore it" }
                div.cells { @for asks in &PLANT { (field(asks, fields.get(asks.name), units)) } }
            }
            div.acts {
                button.strong { "What is it?" }
                @if rows < MOST_FRUITS { button name="fruits" value=(rows + 1) { "Another fruit" } }
                a href="/what" { "Begin anew" }
            }
        }
    }
}

/// How many groups to show: as many as are filled, or asked for, and at least one.
fn rows(fields: &Fields) -> usize {
    let filled = |row: &usize| {
        FRUIT.iter().any(|(name, _)| fields.every(name).nth(*row).is_some_and(|text| !text.trim().is_empty()))
    };
    let filled = (0..MOST_FRUITS).rfind(filled).map_or(1, |last| last + 1);
    let wanted = fields.get("fruits").and_then(|rows| rows.parse().ok()).unwrap_or(1);
    filled.max(wanted).min(MOST_FRUITS)
}

fn fruit(fields: &Fields, row: usize, rows: usize, units: Units) -> Markup {
    let typed = |asks: &Asks| fields.every(asks.name).nth(row).map(str::trim).filter(|text| !text.is_empty());
    let more = MORE.iter().any(|asks| typed(asks).is_some());
    html! {
        fieldset {
            legend { @if rows == 1 { "The fruit" } @else { "Fruit " (row + 1) } }
            div.cells { @for asks in &FIRST { (field(asks, typed(asks), units)) } }
            details open[more] {
                summary { "More of this fruit" }
                div.cells { @for asks in &MORE { (field(asks, typed(asks), units)) } }
            }
        }
    }
}

fn field(asks: &Asks, typed: Option<&str>, units: Units) -> Markup {
    html! {
        label {
            span { (asks.label) }
            @match asks.by {
                By::Text { us, metric } => {
                    input name=(asks.name) value=[typed] maxlength="40" autocomplete="off"
                        placeholder=(units.either(us, metric));
                },
                By::Words(words) => {
                    select name=(asks.name) {
                        option value="" { "not seen" }
                        @for word in words() { option value=(word) selected[typed == Some(word)] { (word) } }
                    }
                },
            }
        }
    }
}
