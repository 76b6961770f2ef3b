//! The bench: the whole assortment to one scale, so that gaps and crowding are seen at once. A desk's bench
//! has a column a class; a phone's has its shelves stacked, and the style sheet shows the way to the one
//! that fits.

use super::filter::Asked;
use crate::page::drawn;
use crate::telling::{count, variety_address};
use drawing::bench::{Bench, BenchEntry, bench};
use drawing::scale::Pixels;
use house::list::{List, Listed};
use maud::{Markup, html};
use record::language::{Units, counted};
use record::share::Share;

/// Width of the bench on a desk, in pixels.
const WIDE: u16 = 1230;
/// Width of the bench on a phone, in pixels.
const NARROW: u16 = 328;

/// How the list is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum View {
    /// A row a variety, with its portrait.
    Rows,
    /// As a plain table.
    Table,
    /// On the bench.
    Bench,
}

/// The words of the way to the bench.
const TO_SCALE: &str = "On the bench, to one scale";

/// The ways between the rows, the table and the bench, for the same varieties.
pub(crate) fn ways(asked: &Asked, here: View) -> Markup {
    let on = |view| (here == view).then_some("true");
    let to = |path: &str, name, value: &str| asked.address_with(path, &[(name, value.to_owned())]);
    html! {
        nav.within aria-label="Ways to look at the list" {
            ul {
                li { a href=(to("/", "view", "")) aria-current=[on(View::Rows)] { "Row by row" } }
                li { a href=(to("/", "view", "table")) aria-current=[on(View::Table)] { "As a table" } }
                li.wide { a href=(to("/bench", "shelves", "")) aria-current=[on(View::Bench)] { (TO_SCALE) } }
                li.narrow {
                    a href=(to("/bench", "shelves", "stacked")) aria-current=[on(View::Bench)] { (TO_SCALE) }
                }
            }
        }
    }
}

/// The bench of a list.
pub(crate) fn of(asked: &Asked, list: &List, units: Units) -> Markup {
    let width = if asked.is_stacked() { NARROW } else { WIDE };
    html! {
        @if !asked.is_stacked() {
            p.narrow.help { "Drawn for a wide page; choose the bench again to stack its shelves." }
        }
        div.bench-room { (drawn(&bench(&of_list(list, units), Pixels::from(width)))) }
    }
}

fn of_list(list: &List, units: Units) -> Bench {
    let called = list.varieties.iter().filter(|listed| verdict(listed).is_some());
    let entries: Vec<BenchEntry> = called.map(|listed| entry(listed, list)).collect();
    Bench {
        title: format!(
            "{} of which fruit was measured",
            counted(count(entries.len()), "variety", "varieties")
        ),
        columns: list.classes.clone(),
        rows: list.habits.clone(),
        entries,
        units,
    }
}

fn verdict(listed: &Listed) -> Option<&str> {
    let fruit = listed.fruit.as_ref().filter(|fruit| 0 < fruit.call.used.fruits)?;
    Some(fruit.call.verdict.as_deref().unwrap_or_default())
}

fn entry(listed: &Listed, list: &List) -> BenchEntry {
    let habit = listed.habit.as_ref().and_then(|habit| habit.call.verdict.as_deref());
    let place = |words: &[String], verdict: Option<&str>| {
        words.iter().position(|word| Some(word.as_str()) == verdict)
    };
    let fruit = listed.fruit.as_ref().map(|fruit| &fruit.call);
    BenchEntry {
        look: listed.look(),
        column: place(&list.classes, verdict(listed)),
        row: place(&list.habits, habit),
        certainty: fruit.filter(|call| call.measured).and_then(|call| Share::new(call.probability)),
        contested: fruit.is_some_and(|call| call.contested && call.measured),
        link: Some(variety_address(&listed.variety.name)),
    }
}
