//! The list as a plain table, sorted by its headings.

use super::filter::{Asked, SORTS};
use crate::page::scrolling;
use crate::telling::variety_address;
use house::kept::{KeptCall, chance};
use house::list::Listed;
use house::list::filter::{SortedBy, Way};
use maud::{Markup, html};
use record::language::{Units, length_briefly, mass_briefly};
use record::length::Millimetres;
use record::mass::Grams;

/// Columns: heading, and what sorts by it.
const COLUMNS: [(&str, Option<SortedBy>); 10] = [
    ("Variety", Some(SortedBy::Name)),
    ("Habit", Some(SortedBy::Habit)),
    ("Fruit class", Some(SortedBy::Class)),
    ("Colour", Some(SortedBy::Colour)),
    ("Weight", Some(SortedBy::Weight)),
    ("Length", None),
    ("Width", None),
    ("Days to ripe", Some(SortedBy::Days)),
    ("Least sure call", Some(SortedBy::Sureness)),
    ("Contested", None),
];

/// The table of a page's varieties.
pub(super) fn of(asked: &Asked, varieties: &[Listed], units: Units) -> Markup {
    let table = html! {
        table.list {
            caption.unseen { "Every variety that fits, sorted by the heading that says so" }
            thead { tr { @for (words, by) in COLUMNS { (heading(asked, words, by)) } } }
            tbody { @for listed in varieties { (row(listed, units)) } }
        }
    };
    scrolling("The list as a table", &table)
}

fn heading(asked: &Asked, words: &str, by: Option<SortedBy>) -> Markup {
    let Some(by) = by else { return html! { th scope="col" { (words) } } };
    let is_now = asked.sorted_by() == by;
    let sorted = is_now.then_some(if asked.way() == Way::Rising { "ascending" } else { "descending" });
    let way = if is_now && asked.way() == Way::Rising { "down" } else { "" };
    let word = SORTS.iter().find(|(.., one)| *one == by).map(|(word, ..)| *word).unwrap_or_default();
    let word = if by == SortedBy::Name { "" } else { word };
    let address = asked.address_with("/", &[("sort", word.to_owned()), ("way", way.to_owned())]);
    html! { th scope="col" aria-sort=[sorted] { a href=(address) { (words) } } }
}

fn row(listed: &Listed, units: Units) -> Markup {
    let facts = listed.fruit.as_ref().map(|fruit| fruit.facts).unwrap_or_default();
    let mass = facts.weight_g.and_then(|weight| Grams::new(weight.usual));
    let long = |measure: Option<house::kept::KeptMeasure>| {
        let length = measure.and_then(|measure| Millimetres::new(measure.usual));
        length.map(|length| length_briefly(length, units)).unwrap_or_default()
    };
    let calls = [
        listed.habit.as_ref().map(|habit| &habit.call),
        listed.fruit.as_ref().map(|fruit| &fruit.call),
        listed.colour.as_ref().map(|colour| &colour.exterior),
    ];
    let measured = calls.into_iter().flatten().filter(|call| call.measured);
    let contested = measured.clone().filter(|call| call.contested).count();
    let least = measured.map(|call| call.probability).min_by(f64::total_cmp);
    html! {
        tr {
            th scope="row" { a href=(variety_address(&listed.variety.name)) { (listed.variety.name) } }
            @for call in calls { td { (verdict(call)) } }
            td { (mass.map(|mass| mass_briefly(mass, units)).unwrap_or_default()) }
            td { (long(facts.length_mm)) }
            td { (long(facts.width_mm)) }
            td { (facts.days_to_ripe.map(|days| format!("{:.0}", days.usual)).unwrap_or_default()) }
            td { (least.map(chance).unwrap_or_default()) }
            td { @if 0 < contested { (contested) " of its calls" } }
        }
    }
}

fn verdict(call: Option<&KeptCall>) -> &str {
    match call {
        None => "not called",
        Some(call) if !call.measured => "no evidence",
        Some(call) => call.verdict.as_deref().unwrap_or("between"),
    }
}
