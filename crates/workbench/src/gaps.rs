//! Gaps: how many varieties the list has of each habit, fruit class and colour, what it lacks, where it crowds.

use crate::desk::Desk;
use crate::page::{self, Place};
use crate::telling::{count, encoded, variety_address};
use crate::trouble::Trouble;
use axum::extract::State;
use house::gaps::{self, Crowd, Gap, Gaps, Kind};
use maud::{Markup, html};
use record::language::{capitalised, counted};

/// Gaps and crowds that the page tells. A choice of the page: the command tells all.
const MOST_TOLD: usize = 24;

/// Shows the list, counted.
pub(crate) async fn show(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, found) = desk.ask(gaps::of).await?;
    Ok(page::page(&house, Place::List, "Gaps", body(&found)))
}

fn body(found: &Gaps) -> Markup {
    html! {
        (page::list_ways("/gaps"))
        h1 { "Gaps" }
        p {
            (counted(count(found.counted), "variety", "varieties")) " counted"
            @if 0 < found.left_out {
                "; of " (found.left_out) " more, habit, fruit class or colour is not known"
            }
            ". A contested variety counts in parts."
        }
        @if found.counted == 0 {
            p { "There is nothing to count yet: bring in notes and call your varieties." }
        } @else {
            (page::scrolling("Varieties by habit and fruit class", &table(found)))
            (lacking(found))
            (crowded(found))
        }
    }
}

/// Habit by fruit class, with the colours of each.
fn table(found: &Gaps) -> Markup {
    html! {
        table.gaps {
            caption.unseen { "Varieties of each habit and fruit class, by colour" }
            thead { tr { th scope="col" { "Habit" } @for class in &found.classes { th scope="col" { (class) } } } }
            tbody {
                @for habit in &found.habits {
                    tr {
                        th scope="row" { (habit) }
                        @for class in &found.classes { td { (colours(found, habit, class)) } }
                    }
                }
            }
        }
    }
}

fn colours(found: &Gaps, habit: &str, class: &str) -> Markup {
    let own = found.filled.iter().filter(|cell| cell.kind.habit == habit && cell.kind.class == class);
    let own: Vec<_> = own.collect();
    html! {
        @if !own.is_empty() {
            ul {
                @for cell in own {
                    li { a href=(address(&cell.kind)) { (cell.kind.colour) } " " (told(cell.held)) }
                }
            }
        }
    }
}

/// The list, filtered to a place.
fn address(kind: &Kind) -> String {
    let Kind { habit, class, colour } = kind;
    format!("/?habit={}&class={}&colour={}", encoded(habit), encoded(class), encoded(colour))
}

fn lacking(found: &Gaps) -> Markup {
    html! {
        section aria-labelledby="lacking" {
            h2 #lacking { "Missing where all round it is filled" }
            @if found.gaps.is_empty() { p { "Nothing: where two of habit, class and colour go together, so do all three." } }
            ul.lacking { @for gap in found.gaps.iter().take(MOST_TOLD) { (one_gap(gap)) } }
            (more(found.gaps.len()))
        }
    }
}

fn one_gap(gap: &Gap) -> Markup {
    let Kind { habit, class, colour } = &gap.kind;
    html! {
        li {
            b { (capitalised(habit)) " " (colour) " " (class) } ": there are "
            (told(gap.habit_and_class)) " " (habit) " " (class) ", "
            (told(gap.habit_and_colour)) " " (habit) " " (colour) " and "
            (told(gap.class_and_colour)) " " (colour) " " (class) "."
        }
    }
}

fn crowded(found: &Gaps) -> Markup {
    html! {
        section aria-labelledby="crowded" {
            h2 #crowded { "Crowded" }
            @if found.crowds.is_empty() { p { "Nowhere." } }
            ul.crowded { @for crowd in found.crowds.iter().take(MOST_TOLD) { (one_crowd(crowd)) } }
            (more(found.crowds.len()))
        }
    }
}

fn one_crowd(crowd: &Crowd) -> Markup {
    let Kind { habit, class, colour } = &crowd.kind;
    html! {
        li {
            a href=(address(&crowd.kind)) { (capitalised(habit)) " " (colour) " " (class) } ": " (told(crowd.held))
            @if !crowd.pairs.is_empty() {
                ". Most alike: "
                @for (place, pair) in crowd.pairs.iter().enumerate() {
                    @if 0 < place { "; " }
                    a href=(variety_address(&pair.one)) { (pair.one) } " and "
                    a href=(variety_address(&pair.other)) { (pair.other) }
                }
            }
            "."
        }
    }
}

fn more(all: usize) -> Markup {
    html! {
        @if MOST_TOLD < all { p.basis { "And " (all - MOST_TOLD) " more: locule gaps --all tells them." } }
    }
}

/// A count of varieties in parts: `3`, `1.6`.
fn told(held: f64) -> String {
    match held {
        whole if (whole - whole.round()).abs() < 0.05 => format!("{whole:.0}"),
        parts => format!("{parts:.1}"),
    }
}
