//! A variety's page: its portrait, what it is and how sure, what was measured, and what that rests on.

use crate::catalogue::{ClaimBeside, Entry, Standing, Told, evidence_words};
use crate::pages::frame::{Page, Place, drawn};
use crate::pages::places::Depth;
use crate::pages::{File, Folder, WebEntry, beside, linked, rows};
use crate::{chance, facts};
use drawing::gauge::{Gauge, VerdictShare, rule};
use drawing::portrait::fitted;
use drawing::scale::Pixels;
use drawing::strip::{Strip, strip};
use drawing::svg::Svg;
use maud::{Markup, html};
use record::language::{self, capitalised};

/// Room for the portrait, in pixels.
const PORTRAIT: (u16, u16) = (420, 300);
/// Width of the rule under a call, in pixels.
const RULE: u16 = 160;
/// Width of an evidence strip, in pixels: it must fit a phone.
const STRIP: u16 = 326;

/// The page and the portrait that it shows.
///
/// # Errors
/// What JSON cannot hold, which would be a fault in this program.
pub(super) fn page(
    folder: &Folder,
    index: usize,
    entry: &WebEntry,
    strips: &[Strip],
) -> Result<(File, Option<Svg>), serde_json::Error> {
    let (wide, high) = (Pixels::from(PORTRAIT.0), Pixels::from(PORTRAIT.1));
    let svg = entry.look.as_ref().map(|look| fitted(look, wide, high, folder.list.units));
    let about = format!("{}: {}", entry.told.name, calls_briefly(&entry.told));
    let page = Page {
        path: folder.places.variety(index),
        title: &entry.told.name,
        about: &about,
        place: Place::Elsewhere,
        head: linked::variety(folder, index, entry)?,
        body: body(folder, index, entry, svg.as_ref(), strips),
    };
    Ok((page.framed(folder), svg))
}

fn calls_briefly(told: &Entry) -> String {
    let calls = [&told.fruit_class, &told.habit, &told.colour].map(|told| chance::told(&told.verdicts));
    let calls: Vec<String> = calls.into_iter().flatten().collect();
    if calls.is_empty() { "not yet measured".to_owned() } else { calls.join("; ") }
}

fn body(folder: &Folder, index: usize, entry: &WebEntry, svg: Option<&Svg>, strips: &[Strip]) -> Markup {
    let told = &entry.told;
    html! {
        (trail(folder, index))
        article.variety {
            header.variety-head {
                div {
                    h1 { bdi { (told.name) } }
                    @if !told.aliases.is_empty() {
                        p.also { "also " @for (place, alias) in told.aliases.iter().enumerate() {
                            @if 0 < place { ", " } bdi { (alias) }
                        } }
                    }
                    (marks(entry))
                    dl.calls {
                        (call("Fruit class", &told.fruit_class))
                        (call("Habit", &told.habit))
                        (call("Colour", &told.colour))
                    }
                }
                (portrait(folder, index, svg))
            }
            (measured(folder, told))
            (good_for(folder, entry))
            (evidence(told, strips))
            (claims(&told.claims))
            (trials(&told.trials))
            (settle(&told.settle))
            (stand_ins(folder, entry))
            p { a href=(beside_others(folder, index, entry)) { "Side by side with others" } }
        }
    }
}

/// The page on which it stands beside others: what may stand in for it, or whichever are chosen there.
fn beside_others(folder: &Folder, index: usize, entry: &WebEntry) -> String {
    let others = entry.stand_ins.iter().map(|stand_in| stand_in.entry);
    let files =
        std::iter::once(index).chain(others).take(beside::MOST).map(|own| folder.places.file_name(own));
    Depth::Inner.to(&format!("side-by-side.html#of={}", files.collect::<Vec<_>>().join(",")))
}

fn trail(folder: &Folder, index: usize) -> Markup {
    html! {
        p.trail {
            a href="../index.html" { "The list" }
            @if let Some(shelf) = folder.places.shelf_of(index) {
                " › " a href=(Depth::Inner.to(&folder.places.shelf(shelf, 0))) { (capitalised(&shelf.name)) }
            }
        }
    }
}

fn marks(entry: &WebEntry) -> Markup {
    let calls = [&entry.told.habit, &entry.told.fruit_class, &entry.told.colour];
    let marks = [
        (rows::is_contested(entry), "contested"),
        (calls.iter().any(|told| told.verdicts.is_empty()), "unmeasured"),
        (rows::is_contradicted(entry), "claim contradicted"),
    ];
    html! {
        @if marks.iter().any(|(holds, _)| *holds) {
            p.marks { @for (_, mark) in marks.iter().filter(|(holds, _)| *holds) { em.mark { (mark) } " " } }
        }
    }
}

fn call(about: &str, told: &Told) -> Markup {
    html! {
        div {
            dt { (about) }
            @match chance::told(&told.verdicts) {
                None => dd.silent { "not yet measured" },
                Some(words) => {
                    dd {
                        span.verdict { (words) }
                        @if let Some(svg) = ink(told) { (drawn(&svg)) }
                        @if told.contested { em.mark { "contested" } }
                    }
                }
            }
            @if let Some(rule) = &told.rule { dd.rule { (rule) } }
        }
    }
}

fn ink(told: &Told) -> Option<Svg> {
    let (verdict, share) = chance::likeliest(&told.verdicts)?;
    let verdicts = vec![VerdictShare { verdict: verdict.clone(), share: *share }];
    Some(rule(&Gauge { verdicts, contested: told.contested }, Pixels::from(RULE)))
}

fn portrait(folder: &Folder, index: usize, svg: Option<&Svg>) -> Markup {
    let whole = |pixels: f64| format!("{:.0}", pixels.ceil());
    html! {
        figure.portrait {
            @match svg {
                Some(svg) => {
                    img src=(Depth::Inner.to(&folder.places.large_picture(index))) alt="The whole fruit, and cut across"
                        width=(whole(svg.width().get())) height=(whole(svg.height().get()));
                    figcaption {
                        "Drawn from its measures. What was not measured is pale or dashed."
                    }
                }
                None => figcaption { "No portrait: no fruit was measured." },
            }
        }
    }
}

fn measured(folder: &Folder, told: &Entry) -> Markup {
    html! {
        section aria-labelledby="measured" {
            h2 #measured { "Measured" }
            dl.about {
                @for fact in facts::told(&told.facts, folder.list.units) {
                    div {
                        dt { (fact.about) }
                        @match fact.words {
                            Some(words) => dd { (words) },
                            None => dd.silent { "not yet measured" },
                        }
                    }
                }
            }
        }
    }
}

fn good_for(folder: &Folder, entry: &WebEntry) -> Markup {
    let class = entry.class.and_then(|class| folder.list.classes.get(class));
    let words = match entry.uses.as_slice() {
        [] => class.map(|class| class.good_for.clone()).unwrap_or_default(),
        uses => format!("{}.", capitalised(&uses.join(", "))),
    };
    html! {
        @if !words.is_empty() || !entry.marks.is_empty() {
            section aria-labelledby="good-for" {
                h2 #good-for { "Good for" }
                @if !words.is_empty() {
                    p { (words) }
                    p.basis { "The guide's word for its class, shape and habit; not tried with this variety." }
                }
                @if !entry.marks.is_empty() { p { "Shape: " (marked(entry)) "." } }
            }
        }
    }
}

/// `heart (82 in 100), ribbed (60 in 100)`
fn marked(entry: &WebEntry) -> String {
    let marks = entry.marks.iter().map(|(mark, share)| format!("{mark} ({})", language::chance(*share)));
    marks.collect::<Vec<_>>().join(", ")
}

fn evidence(told: &Entry, strips: &[Strip]) -> Markup {
    html! {
        section aria-labelledby="evidence" {
            h2 #evidence { "What it rests on" }
            p { (evidence_words(&told.evidence)) }
            @if !strips.is_empty() {
                p.basis { "Each dot is a fruit, above the guide's limits; the bar is where the variety's mean lies." }
                div.strips { @for own in strips { div { (drawn(&strip(own, Pixels::from(STRIP)))) } } }
            }
        }
    }
}

fn trials(trials: &[String]) -> Markup {
    html! {
        @if !trials.is_empty() {
            section aria-labelledby="trials" {
                h2 #trials { "How it bore" }
                ul { @for words in trials { li { (words) "." } } }
            }
        }
    }
}

fn claims(claims: &[ClaimBeside]) -> Markup {
    html! {
        @if !claims.is_empty() {
            section aria-labelledby="claims" {
                h2 #claims { "What is said of it" }
                ul.claims { @for claim in claims { li { q { (claim.words) } ": " (standing(&claim.standing)) } } }
            }
        }
    }
}

fn standing(standing: &Standing) -> Markup {
    html! {
        @match standing {
            Standing::Upheld => "upheld by the evidence.",
            Standing::Unmeasured => "not enough evidence to say.",
            Standing::Contradicted(against) => { strong { "contradicted" } ": " (against.trim_end_matches('.')) "." }
        }
    }
}

fn settle(steps: &[String]) -> Markup {
    html! {
        @if !steps.is_empty() {
            section aria-labelledby="settle" {
                h2 #settle { "What would settle it" }
                ul { @for step in steps { li { (step) } } }
            }
        }
    }
}

fn stand_ins(folder: &Folder, entry: &WebEntry) -> Markup {
    let known = entry.stand_ins.iter().filter_map(|own| Some((own, folder.list.entries.get(own.entry)?)));
    html! {
        @if !entry.stand_ins.is_empty() {
            section aria-labelledby="stand-ins" {
                h2 #stand-ins { "If it is sold out" }
                ul {
                    @for (own, other) in known {
                        li {
                            a href=(Depth::Inner.to(&folder.places.variety(own.entry))) { bdi { (other.told.name) } }
                            @if !own.why.is_empty() { ": " (own.why) }
                        }
                    }
                }
            }
        }
    }
}
