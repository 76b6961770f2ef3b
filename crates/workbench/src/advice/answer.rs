//! What came of a request for advice.

use crate::page::{self, drawn, scrolling};
use crate::telling::{count, encoded, instead_address, variety_address};
use drawing::harvest::harvest;
use drawing::planted_beds::planted_beds;
use house::advise::kitchen::Sheet;
use house::advise::paper::picture;
use house::advise::planned::{Alternative, HarvestOf, Line, Planned, Seed, Standing};
use house::advise::sketch::{self, letter};
use house::advise::telling::{self, DEFERS, NOTICE};
use house::advise::wishes::Wished;
use house::advise::{Advice, Found, SAMPLED};
use maud::{Markup, html};
use record::language::{self, Units, counted};

pub(super) fn shown(found: &Advice, asked: &str, units: Units) -> Markup {
    html! {
        section aria-labelledby="plan" {
            h2 #plan { "The plan" }
            p {
                "Take it with you: " a href=(format!("/advice.pdf?{asked}")) download="plan.pdf" { "plan.pdf" } " on paper, its days as "
                a href=(format!("/advice.ics?{asked}")) download="plan.ics" { "plan.ics" } ", the request as "
                a href=(format!("/advice.toml?{asked}")) download="request.toml" { "request.toml" } "."
            }
            p {
                "In the weather of " (found.weather.name) ", plants out on "
                (found.outs.iter().map(|out| telling::day(*out)).collect::<Vec<_>>().join(" and "))
                "; all is had in " (found.years_in_ten) " years of 10:"
            }
            ul { @for wish in &found.wishes { li { (telling::wish_with_days(wish, units)) } } }
            @match &found.found {
                Found::Planned(plan) => (planned(plan, &found.wishes, asked, units)),
                Found::Impossible(standing) => (in_the_way(standing, telling::NO_PLAN)),
                Found::Stopped => div.notice { p { strong { (telling::STOPPED) } } },
                Found::NotFound(standing) => (in_the_way(standing, telling::NONE_FOUND)),
            }
        }
        @if !found.sheets.is_empty() { (kitchen(found, units)) }
        section aria-labelledby="assumed" {
            h2 #assumed { "What was assumed" }
            ul.quiet { @for line in telling::assumed(found) { li { (line) } } }
            p.quiet { (NOTICE) }
        }
    }
}

/// How far the search is, with a way to end it.
pub(super) fn still_looking(asked: &str, fewest: Option<u32>, at_least: u32) -> Markup {
    html! {
        (page::advice_ways("/advice"))
        h1 { "Advice" }
        section aria-labelledby="looking" {
            h2 #looking { "Looking for the fewest plants" }
            p role="status" {
                @match fewest {
                    Some(plants) => { "A planting of " (counted(u64::from(plants), "plant", "plants")) " was found" }
                    None => "No planting was found yet",
                }
                "; no plan has fewer than " (at_least) ". This page asks again by itself."
            }
            form.decide method="post" action="/advice/stop" {
                input type="hidden" name="asked" value=(asked);
                button type="submit" { "Take the best so far" }
            }
        }
    }
}

fn in_the_way(standing: &[Standing], said: &str) -> Markup {
    html! {
        div.notice {
            p { strong { (said) } " These stand in each other's way; a change of one of them alone:" }
            ul { @for one in standing { li { (language::capitalised(&one.demand)) ": " (one.way) } } }
        }
    }
}

fn planned(plan: &Planned, wishes: &[Wished], asked: &str, units: Units) -> Markup {
    html! {
        p {
            strong { (telling::size(plan, units)) } "; every wish is met in " (plan.years_met) " of " (SAMPLED) " sampled years."
        }
        (lines(plan, units))
        (others(plan, asked))
        (for_seed(plan, units))
        h3 { "The beds" }
        (drawn(&planted_beds(&plan.sketch, units)))
        p.quiet { (sketch::BESIDE) }
        @for (wish, days) in wishes.iter().zip(&plan.kitchen_days).filter(|(_, days)| !days.is_empty()) {
            h3 { "Kitchen days for " (telling::wish(wish, units)) }
            ol { @for day in days { li { (telling::kitchen_day(*day, units)) } } }
        }
        @for own in &plan.harvests { (harvested(own, units)) }
    }
}

/// What seed is saved of, and how far from the others it would stand.
fn for_seed(plan: &Planned, units: Units) -> Markup {
    html! {
        @if !plan.for_seed.is_empty() {
            h3 { "For seed" }
            ul { @for own in &plan.for_seed { li { (telling::for_seed(own, units)) } } }
        }
    }
}

/// What could stand in the place of what is planted, each with the way to plan so.
fn others(plan: &Planned, asked: &str) -> Markup {
    let changed = |other: &Alternative| {
        format!("/advice?{asked}&wanted={}&barred={}", encoded(&other.variety), encoded(&other.instead_of))
    };
    html! {
        @if !plan.alternatives.is_empty() {
            h3 { "For at most a twentieth more plants" }
            ul {
                @for other in &plan.alternatives {
                    li { (telling::alternative(other)) " (" a href=(changed(other)) { "plan so" } ")" }
                }
            }
        }
    }
}

fn lines(plan: &Planned, units: Units) -> Markup {
    let table = html! {
        table.list {
            caption.unseen { "What is planted" }
            (page::heads(&["Letter", "Variety", "Out", "Plants", "Class", "Habit", "Colour", "A plant, poor to good year", "A plan without it", "Seed"]))
            tbody { @for (place, line) in plan.lines.iter().enumerate() { (row(&letter(place), line, units)) } }
        }
    };
    html! {
        (scrolling("What is planted, as a table", &table))
        p.quiet {
            "A poor year brings less 1 time in 10, a good one more 1 time in 10. To do without a variety, write its name under "
            "barred and plan again."
        }
    }
}

fn row(letter: &str, line: &Line, units: Units) -> Markup {
    let [poor, _, good] = line.kilograms;
    html! {
        tr {
            td { (letter) }
            th scope="row" { a href=(variety_address(&line.variety)) { (line.variety) } }
            td { (telling::day(line.out)) }
            td.number { (telling::plants(line)) }
            td { (line.classes) }
            td { (line.habit.as_deref().unwrap_or("-")) }
            td { (line.colour.as_deref().unwrap_or("-")) }
            td.number { (telling::kilograms(poor, units)) " to " (telling::kilograms(good, units)) }
            td { (telling::without(line.without)) }
            td { (seed(line)) }
        }
    }
}

fn seed(line: &Line) -> Markup {
    html! {
        @match &line.seed {
            Seed::SoldOut { instead: Some((other, _)) } => {
                "none; " a href=(instead_address(&line.variety)) { "like it" } ": " a href=(variety_address(other)) { (other) }
            }
            other => (telling::seed(other)),
        }
    }
}

fn harvested(own: &HarvestOf, units: Units) -> Markup {
    let table = html! {
        table.list {
            caption.unseen { "Harvest of " (own.classes) " week by week" }
            (page::heads(&["Week of", "Poor year", "Middling", "Good year", "Eaten"]))
            tbody {
                @for ((week, range), eaten) in own.weeks.iter().zip(&own.eaten) {
                    tr {
                        th scope="row" { (telling::day(*week)) }
                        @for kilograms in range { td.number { (telling::kilograms(*kilograms, units)) } }
                        td.number { @if 0.0 < *eaten { (telling::kilograms(*eaten, units)) } @else { "-" } }
                    }
                }
            }
        }
    };
    html! {
        h3 { "Harvest of " (own.classes) ", week by week" }
        (drawn(&harvest(&picture(own), units)))
        details { summary { (counted(count(own.weeks.len()), "week", "weeks")) " as a table" } (scrolling("Harvest week by week, as a table", &table)) }
    }
}

fn kitchen(found: &Advice, units: Units) -> Markup {
    html! {
        section aria-labelledby="kitchen" {
            h2 #kitchen { "In the kitchen" }
            @for sheet in &found.sheets { (put_up(sheet, units)) }
            h3 { "Cautions" }
            ul { @for caution in &found.cautions { li { (caution.words) } } }
            p { strong { (DEFERS) } }
        }
    }
}

fn put_up(sheet: &Sheet, units: Units) -> Markup {
    html! {
        h3 { (language::capitalised(&sheet.title())) }
        ul {
            @for line in sheet.told(units).iter().chain(&sheet.process) { li { (language::capitalised(line)) } }
        }
        @if !sheet.acid.is_empty() {
            p { "Acid, one of these, whatever the variety and its colour:" }
            ul { @for acid in &sheet.acid { li { (acid) } } }
        }
    }
}
