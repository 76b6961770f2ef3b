//! What the page asks: the measures of each fruit, its colours, and the plant that bore it.

use super::rule::{ColourRule, PlantRule};
use maud::{Markup, html};

/// A thing to measure: name, words, how to take it, and an example.
type Measure = (&'static str, &'static str, &'static str, &'static str);

const MEASURES: [Measure; 8] = [
    ("weight", "Weight", "", "58 g or 2 oz"),
    ("length", "Length", "from stem end to blossom end", "61 mm or 2.4 in"),
    ("width", "Width", "where it is greatest", "38 mm or 1.5 in"),
    ("neck", "Width at the neck", "a quarter of the way down from the stem", "28 mm or 1.1 in"),
    ("locules", "Locules", "seed chambers, when it is cut across", "2"),
    ("lobes", "Lobes", "seen from the stem; 0 is smooth", "0"),
    ("solids", "Soluble solids, per cent", "degrees Brix, by refractometer", "5.2"),
    ("dry", "Dry matter, per cent", "weight after drying", "6.5"),
];

/// Trusses that can be chosen; a stem with more is told as having so many.
pub const MOST_TRUSSES: usize = 24;

pub(super) fn form(colour: &ColourRule, plant: &PlantRule) -> Markup {
    html! {
        form.unknown.needs-script #unknown novalidate {
            div #fruits { (fruit()) }
            p { button #another type="button" { "Another fruit" } }
            p #borne hidden {
                label for="plants" { "These fruits come from" }
                select #plants name="plants" {
                    option value="one" { "one plant" }
                    option value="each" { "a plant each" }
                }
            }
            fieldset {
                legend { "Its colours" }
                div.measures {
                    (choice("outside", "Colour outside, ripe", &words(&colour.colours)))
                    (choice("pattern", "Pattern", &words(&colour.patterns)))
                    (choice("flesh", "Colour of the flesh", &words(&colour.colours)))
                    (choice("skin", "Peeled skin, held to the light", &words(&colour.skins)))
                }
            }
            fieldset {
                legend { "The plant that bore it" }
                div.measures {
                    (stem())
                    @for question in &plant.questions {
                        (choice(question.of, question.label, &question.answers.iter()
                            .map(|answer| (answer.key.clone(), answer.words.clone())).collect::<Vec<_>>()))
                    }
                }
            }
            p { button.strong type="submit" { "What is it?" } " " button type="reset" { "Begin anew" } }
        }
    }
}

/// The group of one fruit; the script copies it for another.
fn fruit() -> Markup {
    html! {
        fieldset.fruit {
            legend { "The fruit" }
            div.measures {
                @for (name, words, how, such) in MEASURES {
                    label {
                        span { (words) @if !how.is_empty() { span.how { ", " (how) } } }
                        input name=(name) autocomplete="off" maxlength="40" placeholder=(such) data-such=(such);
                    }
                }
            }
        }
    }
}

fn stem() -> Markup {
    html! {
        label {
            span { "Its main stem" }
            select name="stem" {
                option value="" { "not seen" }
                option value="ended" { "has ended in a truss" }
                option value="growing" { "still grows" }
            }
        }
        label {
            span { "After how many trusses" }
            select name="trusses" {
                option value="" { "not counted" }
                @for count in 1..=MOST_TRUSSES { option value=(count) { (count) } }
            }
        }
    }
}

fn choice(name: &str, label: &str, answers: &[(String, String)]) -> Markup {
    html! {
        label {
            span { (label) }
            select name=(name) {
                option value="" { "not seen" }
                @for (key, words) in answers { option value=(key) { (words) } }
            }
        }
    }
}

/// Words by their places.
fn words(names: &[&'static str]) -> Vec<(String, String)> {
    names.iter().enumerate().map(|(place, name)| (place.to_string(), (*name).to_owned())).collect()
}
