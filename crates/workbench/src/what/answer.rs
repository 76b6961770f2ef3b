//! What an unknown tomato may be: its portrait, its calls, what one more look would tell, and the nearest
//! varieties of the list.

use crate::page::drawn;
use crate::standins;
use crate::trouble::sentence;
use crate::variety::{call, strips};
use drawing::portrait::fitted;
use drawing::scale::Pixels;
use house::calls::{self, CallSubject};
use house::folder::House;
use house::kept::{KeptCall, KeptMark, KeptStep, chance};
use house::what::Answer;
use maud::{Markup, html};
use record::language::capitalised;

/// A shape mark less likely than this is not told. A choice of the page.
const MARKED: f64 = 0.2;

/// The whole answer.
pub(super) fn section(house: &House, answer: &Answer) -> Markup {
    let units = house.settings.units;
    let (wide, high) = (Pixels::from(320), Pixels::from(230));
    let calls = &answer.calls;
    html! {
        @if !answer.doubts.is_empty() {
            div.notice role="status" {
                @for doubt in &answer.doubts { p { "Look again: " (sentence(doubt)) } }
            }
        }
        article.variety {
            header.variety-head {
                div {
                    p.says { (in_short(answer)) }
                    @if let Some(how_far) = &answer.how_far { p.basis { (how_far) } }
                    (marks(&calls.fruit.marks))
                }
                figure.portrait-large { (drawn(&fitted(&answer.look, wide, high, units))) }
            }
            div.why {
                (one(CallSubject::FruitClass, &calls.fruit.call, &answer.looks.class))
                (one(CallSubject::Habit, &calls.habit.call, &answer.looks.habit))
                (one(CallSubject::Colour, &calls.colour.exterior, &answer.looks.colour))
            }
            @if let Some(clash) = &calls.colour.clash { p.odd { (clash) } }
            (strips::section(&answer.strips))
            (nearest(house, answer))
        }
    }
}

/// The answer in a line: `Probably a red plum; habit not told.`
fn in_short(answer: &Answer) -> String {
    let calls = &answer.calls;
    let told = |about: CallSubject, call: &KeptCall| {
        let name = calls::subject(about);
        match (&call.verdict, call.measured) {
            (_, false) => format!("{name} not told"),
            (None, true) => format!("{name} between answers ({})", chance(call.probability)),
            (Some(verdict), true) => format!("{name} {verdict} ({})", chance(call.probability)),
        }
    };
    let each = [
        told(CallSubject::FruitClass, &calls.fruit.call),
        told(CallSubject::Habit, &calls.habit.call),
        told(CallSubject::Colour, &calls.colour.exterior),
    ];
    sentence(&each.join("; "))
}

/// A call as on a variety's page, with the looks that would lift it instead of what would settle a variety.
fn one(about: CallSubject, kept: &KeptCall, looks: &[KeptStep]) -> Markup {
    let own = KeptCall { settle: Vec::new(), ..kept.clone() };
    html! {
        div {
            @if kept.measured {
                (call::section(about, &own))
            } @else {
                section.call {
                    h2 { (capitalised(calls::subject(about))) }
                    p { "Nothing was told that speaks of it." }
                }
            }
            @if !looks.is_empty() {
                div.settle {
                    h3 { "What one more look would tell" }
                    ol {
                        @for look in looks { li { (look.words) span.pull { "then about " (chance(look.expected)) } } }
                    }
                }
            }
        }
    }
}

fn marks(marks: &[KeptMark]) -> Markup {
    let told = marks.iter().filter_map(|mark| Some((mark, mark.share.filter(|share| MARKED <= *share)?)));
    let told: Vec<_> = told.collect();
    html! {
        @if !told.is_empty() {
            ul.marks {
                @for (mark, share) in told {
                    li { b { (capitalised(&mark.mark)) } " " span.chance { (chance(share)) } " " (mark.words) }
                }
            }
        }
    }
}

fn nearest(house: &House, answer: &Answer) -> Markup {
    html! {
        section aria-labelledby="nearest" {
            h2 #nearest { "Nearest on the list" }
            @match answer.nearest.as_deref() {
                None | Some([]) => p { "No variety of the list was measured in anything that was told of it." },
                Some(nearest) => (standins::rows(nearest, house.settings.units)),
            }
        }
    }
}
