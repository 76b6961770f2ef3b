//! One call with its gauge, the rule that decided, each line of evidence, and what would settle it.

use crate::page::drawn;
use crate::trouble::sentence;
use drawing::gauge::{Gauge, VerdictShare, gauge};
use drawing::scale::Pixels;
use house::calls::{self, CallSubject};
use house::kept::{KeptCall, KeptColour, KeptFruit, KeptLine, KeptUnlike, KeptUsed, chance};
use house::show::PlotName;
use maud::{Markup, html};
use record::growout::Plot;
use record::id::Id;
use record::language::{capitalised, counted};
use record::share::Share;
use std::collections::HashMap;

/// Width of a gauge, in pixels: it must fit a phone.
const GAUGE: u16 = 328;
/// Most verdicts that a gauge shows. A choice of the page.
const MOST_VERDICTS: usize = 5;
/// A verdict less likely than this is left out of a gauge. A choice of the page.
const WORTH_SHOWING: f64 = 0.005;

/// The section of one call.
pub(crate) fn section(about: CallSubject, call: &KeptCall) -> Markup {
    let name = calls::subject(about);
    let id = name.replace(' ', "-");
    html! {
        section.call aria-labelledby=(id) {
            h2 id=(id) { (capitalised(name)) }
            @if !call.measured {
                p { "No evidence speaks of it yet." }
            } @else {
                (drawn(&shares(call)))
                @if call.contested { p.contested { "Contested: no answer stands at 80 in 100 or above." } }
            }
            @if !call.rule.is_empty() { p.rule { (sentence(&call.rule)) } }
            (lines(&call.lines))
            @if 0 < call.used.records { p.used { (used(&call.used)) } }
            (settle(call))
        }
    }
}

fn shares(call: &KeptCall) -> drawing::svg::Svg {
    let mut verdicts: Vec<(&str, f64)> =
        call.shares.iter().map(|kept| (kept.answer.as_str(), kept.share)).collect();
    if WORTH_SHOWING <= call.between {
        verdicts.push(("between", call.between));
        verdicts.sort_by(|(_, one), (_, other)| other.total_cmp(one));
    }
    let worth = verdicts.into_iter().filter(|(_, share)| WORTH_SHOWING <= *share).take(MOST_VERDICTS);
    let verdicts = worth.filter_map(|(answer, share)| {
        Some(VerdictShare { verdict: answer.to_owned(), share: Share::new(share)? })
    });
    gauge(&Gauge { verdicts: verdicts.collect(), contested: call.contested }, Pixels::from(GAUGE))
}

fn lines(lines: &[KeptLine]) -> Markup {
    html! {
        @if !lines.is_empty() {
            ul.evidence {
                @for line in lines {
                    li.missing[line.missing] {
                        b { (capitalised(&line.about)) } " " (beyond(line))
                        @if let Some(pull) = pull(line) { span.pull { (pull) } }
                    }
                }
            }
        }
    }
}

/// The words of a line without what it is about, where they begin with that.
fn beyond(line: &KeptLine) -> &str {
    line.words.strip_prefix(&line.about).map_or(line.words.as_str(), str::trim_start)
}

fn pull(line: &KeptLine) -> Option<String> {
    if line.missing {
        return Some("looked for and missing".to_owned());
    }
    match (line.log_odds, line.without_it) {
        (Some(odds), _) => Some(times(odds)),
        (None, Some(share)) => Some(format!("without it {}", chance(share))),
        (None, None) => None,
    }
}

/// How many times likelier a line makes the verdict, in words.
fn times(log_odds: f64) -> String {
    match log_odds.exp() {
        huge if 1000.0 <= huge => "more than 1000 times likelier".to_owned(),
        many if 10.0 <= many => format!("{many:.0} times likelier"),
        more if 1.05 <= more => format!("{more:.1} times likelier"),
        even if 0.95 <= even => "says neither".to_owned(),
        less if less < 0.001 => "more than 1000 times less likely".to_owned(),
        less => format!("{:.1} times less likely", less.recip()),
    }
}

fn used(used: &KeptUsed) -> String {
    let mut parts = vec![counted(used.records, "record", "records")];
    let mut add = |count: u64, one: &str, many: &str| {
        if 0 < count {
            parts.push(counted(count, one, many));
        }
    };
    add(used.fruits, "fruit", "fruits");
    add(used.plants, "plant", "plants");
    add(used.seasons, "season", "seasons");
    let aside = match used.set_aside {
        0 => String::new(),
        aside => format!("; {} set aside", counted(aside, "record", "records")),
    };
    format!("Rests on {}{aside}.", parts.join(", "))
}

fn settle(call: &KeptCall) -> Markup {
    html! {
        @if call.contested && !call.settle.is_empty() {
            div.settle {
                h3 { "What would settle it" }
                ol {
                    @for step in &call.settle {
                        li { (step.words) span.pull { "then about " (chance(step.expected)) } }
                    }
                }
            }
        }
    }
}

/// Pattern, flesh and skin, which stand behind the colour outside.
pub(super) fn colour_parts(colour: Option<&KeptColour>) -> Markup {
    let Some(colour) = colour else { return html! {} };
    let parts = [("Pattern", &colour.pattern), ("Flesh", &colour.flesh), ("Skin", &colour.skin)];
    html! {
        section.call aria-labelledby="colour-parts" {
            h2 #colour-parts { "Colour, part by part" }
            @if let Some(whole) = &colour.verdict { p.rule { "In the trade's words: " (whole) "." } }
            dl.parts {
                @for (name, call) in parts {
                    div { dt { (name) } dd { (crate::list::brief::one(Some(call))) } }
                }
            }
            @if let Some(clash) = &colour.clash { p.odd { (clash) } }
        }
    }
}

/// Shape marks, and plants or plots whose fruit does not fit the variety.
pub(super) fn marks_and_unlike(fruit: Option<&KeptFruit>, plots: &HashMap<Id<Plot>, PlotName>) -> Markup {
    let Some(fruit) = fruit else { return html! {} };
    html! {
        @if !fruit.unlike.is_empty() {
            section.odd aria-labelledby="unlike" {
                h2 #unlike { "What does not fit" }
                p { "Set aside from the calls. Look at the plant, the stake or the notes." }
                ul {
                    @for odd in &fruit.unlike { li { b { (place(odd, plots)) } " " (odd.words) } }
                }
            }
        }
        @if !fruit.marks.is_empty() {
            section aria-labelledby="marks" {
                h2 #marks { "Shape marks" }
                ul.marks {
                    @for mark in &fruit.marks {
                        li {
                            b { (capitalised(&mark.mark)) } " "
                            span.chance { (mark.share.map_or_else(|| "not measured".to_owned(), chance)) }
                            " " (mark.words)
                        }
                    }
                }
            }
        }
    }
}

fn place(odd: &KeptUnlike, plots: &HashMap<Id<Plot>, PlotName>) -> String {
    let plot = odd.plot.as_deref().and_then(|plot| plot.parse().ok()).map(Id::from_uuid);
    let named =
        plot.and_then(|plot| plots.get(&plot)).map(|plot| format!("{}, plot {}", plot.grow_out, plot.label));
    let place = named.unwrap_or_else(|| format!("season {}", odd.season));
    match odd.plant {
        Some(plant) => format!("{place}, plant {plant}:"),
        None => format!("{place}:"),
    }
}
