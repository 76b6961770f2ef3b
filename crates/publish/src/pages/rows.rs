//! The plain table of varieties: name, three calls with how sure, weight, and what they rest on.

use crate::catalogue::{Standing, Told};
use crate::chance;
use crate::pages::frame::count;
use crate::pages::places::Depth;
use crate::pages::{Folder, WebEntry};
use maud::{Markup, html};
use record::language::{self, counted};

/// The columns: what they are headed, and by what script sorts them.
const COLUMNS: [(&str, &str); 6] = [
    ("Variety", "name"),
    ("Fruit class", "class"),
    ("Habit", "habit"),
    ("Colour", "colour"),
    ("Weight", "weight"),
    ("Rests on", "fruits"),
];

/// The table of some of the list's varieties.
pub(super) fn table(folder: &Folder, depth: Depth, caption: &str, entries: &[usize]) -> Markup {
    html! {
        div.scrolling role="region" aria-label=(caption) tabindex="0" {
            table.list {
                caption.unseen { (caption) }
                thead {
                    tr { @for (heading, sorts) in COLUMNS { th scope="col" data-sorts=(sorts) { (heading) } } }
                }
                tbody {
                    @for index in entries {
                        @if let Some(entry) = folder.list.entries.get(*index) { (row(folder, depth, *index, entry)) }
                    }
                }
            }
        }
    }
}

fn row(folder: &Folder, depth: Depth, index: usize, entry: &WebEntry) -> Markup {
    let told = &entry.told;
    let weight = told.facts.weight.map(|weight| language::mass_briefly(weight.usual, folder.list.units));
    html! {
        tr {
            th scope="row" {
                a href=(depth.to(&folder.places.variety(index))) { bdi { (told.name) } }
                @if is_contradicted(entry) { " " em.mark { "claim contradicted" } }
            }
            td { (call(&told.fruit_class, class_word(folder, entry))) }
            td { (call(&told.habit, habit_word(folder, entry))) }
            td { (call(&told.colour, None)) }
            td { @match weight { Some(weight) => (weight), None => span.silent { "not weighed" } } }
            td { (rests_on(entry)) }
        }
    }
}

/// The class as a bare word, where a class takes it.
fn class_word<'a>(folder: &'a Folder, entry: &WebEntry) -> Option<&'a str> {
    folder.list.classes.get(entry.class?).map(|class| class.name.as_str())
}

fn habit_word<'a>(folder: &'a Folder, entry: &WebEntry) -> Option<&'a str> {
    folder.list.habits.get(entry.habit?).map(|habit| habit.name.as_str())
}

/// A call in a few words.
fn call(told: &Told, word: Option<&str>) -> Markup {
    html! {
        @match chance::likeliest(&told.verdicts) {
            None => span.silent { "no evidence" },
            Some((verdict, share)) => {
                span.verdict { (word.unwrap_or(verdict)) }
                " " span.chance { (language::chance(*share)) }
                @if told.contested { " " em.mark { "contested" } }
            }
        }
    }
}

fn rests_on(entry: &WebEntry) -> String {
    match entry.told.evidence.fruit_count {
        0 => "no fruit".to_owned(),
        fruits => counted(fruits, "fruit", "fruits"),
    }
}

/// Whether any claim is contradicted by the evidence.
pub(super) fn is_contradicted(entry: &WebEntry) -> bool {
    entry.told.claims.iter().any(|claim| matches!(claim.standing, Standing::Contradicted(_)))
}

/// Whether any call is contested.
pub(super) fn is_contested(entry: &WebEntry) -> bool {
    [&entry.told.habit, &entry.told.fruit_class, &entry.told.colour].into_iter().any(|told| told.contested)
}

/// `12 varieties, 3 with a contested call`.
pub(super) fn counted_varieties(folder: &Folder, entries: &[usize]) -> String {
    let own = entries.iter().filter_map(|index| folder.list.entries.get(*index));
    let contested = own.filter(|entry| is_contested(entry)).count();
    let varieties = counted(count(entries.len()), "variety", "varieties");
    match contested {
        0 => varieties,
        some => format!("{varieties}, {} with a contested call", language::grouped(count(some))),
    }
}
