//! A call in a few words with its rule of ink, for the rows of the list and the head of a variety's page.

use crate::page::drawn;
use drawing::gauge::{Gauge, VerdictShare, rule};
use drawing::scale::Pixels;
use house::calls::{self, CallSubject};
use house::kept::{KeptCall, chance};
use house::list::Listed;
use maud::{Markup, html};
use record::language::capitalised;
use record::share::Share;

/// Width of the rule under a verdict, in pixels.
const RULE: u16 = 132;

/// The three calls of a variety: habit, fruit class, colour.
pub(crate) fn calls(listed: &Listed) -> Markup {
    html! {
        dl.calls {
            @for about in [CallSubject::Habit, CallSubject::FruitClass, CallSubject::Colour] {
                div {
                    dt { (capitalised(calls::subject(about))) }
                    dd { (one(listed.calls().find(|(subject, _)| *subject == about).map(|(_, call)| call))) }
                }
            }
        }
    }
}

/// One call in a few words.
pub(crate) fn one(call: Option<&KeptCall>) -> Markup {
    let Some(call) = call else { return html! { span.silent { "not called" } } };
    if !call.measured {
        return html! { span.silent { "no evidence" } };
    }
    html! {
        span.verdict { (call.verdict.as_deref().unwrap_or("between")) }
        " " span.chance { (chance(call.probability)) }
        @if let Some(rule) = ink(call) { (drawn(&rule)) }
        @if call.contested { em.contested { "contested" (runner_up(call)) } }
    }
}

/// A runner-up less likely than this is not told. A choice of the telling.
const WORTH_TELLING: f64 = 0.1;

fn runner_up(call: &KeptCall) -> String {
    let second = if call.verdict.is_some() { 1 } else { 0 };
    let perhaps = call.shares.get(second).filter(|share| WORTH_TELLING <= share.share);
    perhaps.map(|share| format!(", perhaps {}", share.answer)).unwrap_or_default()
}

fn ink(call: &KeptCall) -> Option<drawing::svg::Svg> {
    let verdict = call.verdict.clone().unwrap_or_else(|| "between".to_owned());
    let share = Share::new(call.probability)?;
    let gauge = Gauge { verdicts: vec![VerdictShare { verdict, share }], contested: call.contested };
    Some(rule(&gauge, Pixels::from(RULE)))
}
