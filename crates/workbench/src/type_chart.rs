//! The type chart as a page: every class and habit of the house's guides, drawn, to learn from.

use crate::desk::Desk;
use crate::page::{self, Place, drawn};
use crate::trouble::Trouble;
use axum::extract::State;
use drawing::look::FruitLook;
use drawing::plant::plant;
use drawing::portrait::portrait;
use drawing::scale::{Pixels, Scale};
use drawing::span::span;
use house::chart::{self, ClassType, HabitType, Limit, MarkType, Types};
use maud::{Markup, html};
use record::language::{Units, capitalised};
use record::purpose::Purpose;

/// Pixels a millimetre of fruit: a 100 mm beefsteak with its cut face takes 250. A choice of the page.
const FRUIT: f64 = 1.2;
/// Pixels a millimetre of plant: two metres take 320. A choice of the page.
const PLANT: f64 = 0.16;
/// Pixels a millimetre of the small fruit that colours are shown on. A choice of the page.
const SWATCH: f64 = 0.9;
/// Pixels that a bar is wide, on the narrowest screen too.
const BAR: u16 = 280;

/// Shows the chart.
pub(crate) async fn show(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, types) = desk.ask(chart::types).await?;
    Ok(page::page(&house, Place::Guides, "Tomato types", body(&types, house.settings.units)))
}

fn body(types: &Types, units: Units) -> Markup {
    html! {
        h1 { "Tomato types, and how to tell them apart" }
        p {
            "Drawn from your own " a href="/guides" { "guides" } " alone: fruit in the middle of each class's limits and "
            "plants by each habit's numbers, all fruit to one scale and all plants to another. Change a guide and this "
            "page changes. To hang it up, " a href="/print#chart" { "print it" } ". For a tomato in the hand, ask "
            a href="/what" { "What is it?" }
        }
        h2 { "Fruit classes" }
        p.quiet { "A bar runs between the limits of its class; the ticks are all limits of the guide, and a faded end is a soft one." }
        div.types { @for class in &types.classes { (class_panel(class, units)) } }
        h2 { "Habits, and how the plant grows" }
        p.quiet {
            "Two weeks after the first ripe fruit. A ring marks a stem that ends in a truss, an arrow one that grows on."
        }
        div.types { @for habit in &types.habits { (habit_panel(habit)) } }
        @if !types.marks.is_empty() {
            h2 { "Shape marks" }
            p.quiet { "Fruit of any class may carry them." }
            div.types { @for mark in &types.marks { (mark_panel(mark, units)) } }
        }
        h2 { "Colours and patterns" }
        ul.swatches {
            @for look in types.colours.iter().chain(&types.patterns) {
                li { (fruit(look, SWATCH, units)) span { (look.name) } }
            }
        }
        p.quiet { "Drawn from " (types.guides.join("; ")) "." }
    }
}

fn fruit(look: &FruitLook, scale: f64, units: Units) -> Markup {
    html! { @if let Some(scale) = Scale::new(scale) { (drawn(&portrait(look, scale, units))) } }
}

fn class_panel(class: &ClassType, units: Units) -> Markup {
    html! {
        section.type {
            div.picture { @if let Some(look) = &class.look { (fruit(look, FRUIT, units)) } @else { p { "No fruit fits this guide." } } }
            div.words {
                h3 { (capitalised(&class.name)) }
                p.what { (class.what) }
                @if !class.limits.is_empty() { dl.limits { @for one in &class.limits { (limit(one)) } } }
                @if !class.ways.is_empty() { p.quiet { "Either " (class.ways.join("; or ")) "." } }
                (said("Good for", &class.good_for))
                (said("Flesh", &class.flesh))
                (said("Taken for", &class.mistaken_for))
                (uses(&class.uses))
            }
        }
    }
}

fn limit(limit: &Limit) -> Markup {
    html! {
        div {
            dt { (limit.about) }
            dd { (limit.words) (drawn(&span(&limit.span, Pixels::from(BAR)))) }
        }
    }
}

fn said(lead: &str, words: &str) -> Markup {
    html! { @if !words.is_empty() { p { strong { (lead) ":" } " " (words) } } }
}

fn uses(uses: &[Purpose]) -> Markup {
    let words: Vec<&str> = uses.iter().map(|purpose| purpose.name()).collect();
    html! { @if !words.is_empty() { p.uses { (words.join(" · ")) } } }
}

fn habit_panel(habit: &HabitType) -> Markup {
    let picture = habit.look.as_ref().zip(Scale::new(PLANT)).map(|(look, scale)| plant(look, scale));
    html! {
        section.type {
            div.picture { @if let Some(picture) = &picture { (drawn(picture)) } }
            div.words {
                h3 { (capitalised(&habit.name)) }
                p.what { (habit.what) }
                dl.limits {
                    @for tell in &habit.tells { div { dt { (tell.about) } dd { (tell.words) } } }
                }
                (said("Good for", &habit.good_for))
                (said("Taken for", &habit.mistaken_for))
                (uses(&habit.uses))
            }
        }
    }
}

fn mark_panel(mark: &MarkType, units: Units) -> Markup {
    html! {
        section.type {
            div.picture { @if let Some(look) = &mark.look { (fruit(look, SWATCH, units)) } }
            div.words {
                h3 { (capitalised(&mark.name)) }
                p.what { (mark.what) }
                p { strong { "The guide's limit:" } " " (mark.limits.join("; or ")) }
            }
        }
    }
}
