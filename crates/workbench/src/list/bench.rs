//! The bench above the rows: the whole assortment to one scale, so that gaps and crowding are seen at once.
//! It is drawn twice, for a desk and for a phone; the style sheet shows the one that fits.

use crate::page::drawn;
use crate::telling::{count, counted, variety_address};
use drawing::bench::{Bench, BenchEntry, bench};
use drawing::scale::Pixels;
use house::list::{List, Listed};
use maud::{Markup, html};
use record::language::Units;
use record::share::Share;

/// Width of the bench on a desk, in pixels.
const WIDE: u16 = 1180;
/// Width of the bench on a phone, in pixels.
const NARROW: u16 = 328;

/// The bench of a list.
pub(crate) fn of(_address: &str, list: &List, units: Units) -> Markup {
    let shown = of_list(list, units);
    html! {
        details.bench-room open {
            summary { "The bench: all to one scale, by class and habit" }
            div.wide { (drawn(&bench(&shown, Pixels::from(WIDE)))) }
            div.narrow { (drawn(&bench(&shown, Pixels::from(NARROW)))) }
        }
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
        certainty: fruit.and_then(|call| Share::new(call.probability)),
        contested: fruit.is_some_and(|call| call.contested),
        link: Some(variety_address(&listed.variety.name)),
    }
}
