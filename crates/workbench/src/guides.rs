//! Guides: the house's rules as text, what a change would move, and accepting it.

use crate::desk::{Desk, act};
use crate::fields::Sent;
use crate::list::call_button;
use crate::page::{self, Place, scrolling};
use crate::telling::{count, moment, variety_address};
use crate::trouble::{Trouble, sentence};
use axum::Form;
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use house::calls;
use house::editing::{self, Guide, TextStanding};
use house::folder::House;
use house::kept::{KeptCall, chance};
use house::moves::Move;
use house::progress::Unwatched;
use maud::{Markup, html};
use record::language::{capitalised, counted};
use serde::Deserialize;

/// What was just done.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Did {
    accepted: Option<u32>,
}

/// What each guide is about.
const ABOUT: [(&str, &str); 3] = [
    ("fruit", "Fruit classes: their borders in weight, size and shape, and how soft each border is."),
    ("habit", "Habits: what each looks like on a walk, and how often each is met."),
    ("colour", "Colours: the reference colour of each word, and how far a reading may stray."),
];

/// Lists the guides.
pub(crate) async fn all(State(desk): State<Desk>) -> Result<Markup, Trouble> {
    let (house, guides) = desk.ask(editing::guides).await?;
    let body = html! {
        h1 { "Guides" }
        p {
            "The rules that calls are made by. No two published sources agree on them, so they are this house's own; "
            "each value names its source. Change one, see what would move, and only then accept it."
        }
        p { a href="/types" { "See them drawn: the type chart" } }
        ul.guides {
            @for guide in &guides {
                li {
                    h2 { a href=(format!("/guides/{}", guide.name)) { (capitalised(guide.name)) } }
                    p { (about(guide.name)) }
                    p { (standing(guide)) }
                }
            }
        }
    };
    Ok(page::page(&house, Place::Guides, "Guides", body))
}

fn about(name: &str) -> &'static str {
    ABOUT.iter().find(|(guide, _)| *guide == name).map(|(_, words)| *words).unwrap_or_default()
}

fn standing(guide: &Guide) -> Markup {
    html! {
        @if let Some(last) = guide.versions.last() {
            "Version " (last.version) ", accepted " (moment(last.accepted.at)) " by " (last.accepted.who) "."
        } @else { "As it was shipped." }
        @if guide.standing == TextStanding::Edited { " " strong { "Its file was edited and is not accepted." } }
    }
}

/// Shows one guide's text to edit.
pub(crate) async fn edit(
    State(desk): State<Desk>,
    Path(name): Path<String>,
    Query(did): Query<Did>,
) -> Result<Markup, Trouble> {
    let (house, guide) = desk.ask(move |house| editing::guide(house, &name)).await?;
    let told = html! {
        @if let Some(version) = did.accepted {
            (page::notice(&html! {
                p { "Accepted as version " (version) ". Call again to go by it." }
                (call_button())
            }))
        }
    };
    Ok(edit_page(&house, &guide, &guide.text, &Told { done: told, preview: html! {} }))
}

/// Previews or accepts a changed text.
pub(crate) async fn decide(
    State(desk): State<Desk>,
    Path(name): Path<String>,
    Form(sent): Sent,
) -> Result<Response, Trouble> {
    let text = sent.whole("text").unwrap_or_default().replace("\r\n", "\n");
    let guide_name = name.clone();
    let (house, guide) = desk.ask(move |house| editing::guide(house, &guide_name)).await?;
    let (own, why) = (text.clone(), sent.get("why").map(str::to_owned));
    let told = if sent.get("do") == Some("accept") {
        let accepted = desk.ask(move |house| editing::accept(house, &name, &own, &act(house, why))).await;
        match accepted {
            Ok((_, version)) => {
                let to = format!("/guides/{}?accepted={}", version.guide, version.version);
                return Ok(Redirect::to(&to).into_response());
            }
            Err(trouble) => Err(trouble),
        }
    } else {
        desk.ask(move |house| editing::preview(house, &name, &own, &Unwatched)).await
    };
    match told {
        Ok((_, moves)) => Ok(edit_page(&house, &guide, &text, &Told::of(moved(&moves))).into_response()),
        Err(trouble) if trouble.status == StatusCode::BAD_REQUEST => {
            Ok((trouble.status, edit_page(&house, &guide, &text, &Told::of(fault(&trouble)))).into_response())
        }
        Err(trouble) => Err(trouble),
    }
}

fn fault(trouble: &Trouble) -> Markup {
    html! {
        div.fault role="alert" {
            p { (sentence(&trouble.message)) }
            @if let Some(help) = &trouble.help { p.help { (sentence(help)) } }
        }
    }
}

/// What a guide's page tells beside its text.
struct Told {
    /// What was just done.
    done: Markup,
    /// What the text as it stands would move, or why it cannot be read.
    preview: Markup,
}

impl Told {
    fn of(preview: Markup) -> Self {
        Self { done: html! {}, preview }
    }
}

fn edit_page(house: &House, guide: &Guide, text: &str, told: &Told) -> Markup {
    let title = format!("The {} guide", guide.name);
    let body = html! {
        p.trail { a href="/guides" { "Guides" } }
        h1 { (title) }
        p { (about(guide.name)) " " (standing(guide)) }
        (told.done)
        div.guide-room {
            form.guide method="post" action="#preview" {
                label for="text" { "Its text, as it stands in guides/" (guide.name) ".toml" }
                // A line break straight after the tag is not part of the text, so one is written for it.
                textarea #text name="text" rows="28" spellcheck="false" autocapitalize="off" autocomplete="off" {
                    "\n" (text)
                }
                label { span { "Why it is changed" } input name="why" maxlength="500" autocomplete="off"; }
                div.acts {
                    button.strong name="do" value="preview" { "See what would move" }
                    button name="do" value="accept" { "Accept it" }
                }
            }
            div #preview aria-live="polite" { (told.preview) }
        }
        (versions(guide))
    };
    page::page(house, Place::Guides, &title, body)
}

fn versions(guide: &Guide) -> Markup {
    html! {
        section aria-labelledby="versions" {
            h2 #versions { "Versions" }
            ol.versions reversed {
                @for version in guide.versions.iter().rev() {
                    li {
                        "Version " (version.version) ", " (moment(version.accepted.at)) " by " (version.accepted.who)
                        @if let Some(why) = &version.accepted.why { ": " (why) }
                    }
                }
            }
        }
    }
}

fn moved(moves: &[Move]) -> Markup {
    html! {
        section.moves aria-labelledby="moves" {
            h2 #moves { "What would move" }
            @if moves.is_empty() {
                p { "No verdict moves, and none becomes contested or settled. It is not accepted yet." }
            } @else {
                p { (counted(count(moves.len()), "call moves", "calls move")) ". Nothing is accepted yet." }
                (scrolling("Calls that would move, as a table", &moves_table(moves)))
            }
        }
    }
}

fn moves_table(moves: &[Move]) -> Markup {
    html! {
        table {
            caption.unseen { "Calls that would move" }
            (page::heads(&["Variety", "Call", "Now", "Then"]))
            tbody {
                @for one in moves {
                    tr {
                        th scope="row" { a href=(variety_address(&one.variety)) { (one.variety) } }
                        td { (calls::subject(one.subject)) }
                        td { (briefly(&one.before)) }
                        td { (briefly(&one.after)) }
                    }
                }
            }
        }
    }
}

fn briefly(call: &KeptCall) -> String {
    let verdict = call.verdict.as_deref().unwrap_or("between");
    let contested = if call.contested { ", contested" } else { "" };
    format!("{verdict}, {}{contested}", chance(call.probability))
}
