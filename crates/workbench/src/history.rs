//! History: every batch that was taken in or done by hand, and undoing or redoing one.

use crate::desk::{Desk, act};
use crate::fields::Sent;
use crate::list::call_button;
use crate::page::{self, Place, scrolling};
use crate::pager::Pager;
use crate::telling::moment;
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Path, Query, State};
use axum::response::Redirect;
use house::history::{self, BatchInfo, BatchKind, BatchNumber, BatchState, Counts, Resting};
use maud::{Markup, html};
use record::language::counted;
use serde::Deserialize;

/// What the address asks for, and what was just done.
#[derive(Debug, Default, Deserialize)]
pub(crate) struct Asked {
    page: Option<usize>,
    undone: Option<u64>,
    redone: Option<u32>,
}

/// Lists the batches, the latest first.
pub(crate) async fn all(State(desk): State<Desk>, Query(asked): Query<Asked>) -> Result<Markup, Trouble> {
    let (house, mut batches) = desk.ask(history::batches).await?;
    batches.reverse();
    Ok(page::page(&house, Place::BringIn, "History", list(&asked, &batches)))
}

fn list(asked: &Asked, batches: &[BatchInfo]) -> Markup {
    let pager = Pager::of(asked.page, batches.len());
    html! {
        (page::bring_in_ways("/history"))
        h1 { "History" }
        (done(asked))
        p { "Nothing is ever destroyed: a batch that is undone stays here and can be redone." }
        @if batches.is_empty() {
            p { "Nothing has been taken in yet." }
        } @else {
            (scrolling("Batches", &rows(pager.rows(batches))))
            (pager.links("the history", |page| format!("/history?page={page}")))
        }
    }
}

fn done(asked: &Asked) -> Markup {
    html! {
        @if let Some(undone) = asked.undone {
            (page::notice(&html! {
                p { (counted(undone, "batch", "batches")) " undone. Call again to bring the list up to date." }
                (call_button())
            }))
        }
        @if let Some(redone) = asked.redone {
            (page::notice(&html! {
                p { "Batch " (redone) " redone. Call again to bring the list up to date." }
                (call_button())
            }))
        }
    }
}

fn rows(batches: &[BatchInfo]) -> Markup {
    html! {
        table.history {
            caption.unseen { "Batches, the latest first" }
            (page::heads(&["Batch", "When and who", "What", "Added", "State"]))
            tbody {
                @for batch in batches {
                    tr.over[batch.state != BatchState::Standing] {
                        th scope="row" { a href=(format!("/history/{}", batch.number)) { (batch.number) } }
                        td { time { (moment(batch.source.at)) } br; (batch.source.who) }
                        td { (what(batch)) }
                        td { (added(batch)) }
                        td { (state(batch)) }
                    }
                }
            }
        }
    }
}

fn what(batch: &BatchInfo) -> Markup {
    let source = &batch.source;
    html! {
        (kind(source.kind))
        @if let Some(file) = &source.file_name { ": " (file) }
        @if let Some(sheet) = &source.sheet { ", sheet " (sheet) }
        @if let Some(why) = &source.why { ": " (why) }
    }
}

fn kind(kind: BatchKind) -> &'static str {
    match kind {
        BatchKind::Varieties => "Varieties",
        BatchKind::GrowOut => "Grow-out",
        BatchKind::FruitSamples => "Fruit samples",
        BatchKind::Picks => "Picks",
        BatchKind::Heights => "Heights",
        BatchKind::Stages => "Walk notes",
        BatchKind::Colours => "Colours",
        BatchKind::Lots => "Lots of seed",
        BatchKind::SeedWeighings => "Seed weighings",
        BatchKind::GerminationTests => "Germination tests",
        BatchKind::ByHand => "By hand",
    }
}

/// What a batch added, in words.
pub(crate) fn counts(added: &Counts) -> String {
    let parts = [
        (added.varieties, "variety", "varieties"),
        (added.aliases, "other name", "other names"),
        (added.claims, "claim", "claims"),
        (added.grow_outs, "grow-out", "grow-outs"),
        (added.plots, "plot", "plots"),
        (added.plants, "plant", "plants"),
        (added.fruit_samples, "fruit sample", "fruit samples"),
        (added.picks, "pick", "picks"),
        (added.heights, "height", "heights"),
        (added.stages, "walk note", "walk notes"),
        (added.colours, "colour", "colours"),
        (added.lots, "lot", "lots"),
        (added.lot_entries, "entry of the seed room", "entries of the seed room"),
        (added.confirmed, "record confirmed", "records confirmed"),
        (added.withdrawn, "record withdrawn", "records withdrawn"),
        (added.corrected, "record corrected", "records corrected"),
    ];
    let some = parts.into_iter().filter(|(count, ..)| 0 < *count);
    let words: Vec<String> = some.map(|(count, one, many)| counted(count, one, many)).collect();
    if words.is_empty() { "nothing new".to_owned() } else { words.join(", ") }
}

fn added(batch: &BatchInfo) -> Markup {
    html! {
        (counts(&batch.added))
        @if 0 < batch.added.doubted { span.help { (batch.added.doubted) " in doubt" } }
        @if 0 < batch.quarantined {
            span.help { (batch.quarantined) " quarantined, " (batch.waiting) " still waiting" }
        }
    }
}

fn state(batch: &BatchInfo) -> Markup {
    html! {
        @match &batch.state {
            BatchState::Standing => "stands",
            BatchState::Undone(act) => {
                "undone by " (act.who) ", " (moment(act.at)) @if let Some(why) = &act.why { ": " (why) }
            }
        }
    }
}

/// Shows one batch, with what rests on it and the button that undoes or redoes it.
pub(crate) async fn one(State(desk): State<Desk>, Path(batch): Path<u32>) -> Result<Markup, Trouble> {
    let number = BatchNumber(batch);
    let read = move |house: &_| Ok((history::one(house, number)?, history::resting_on(house, number)?));
    let (house, (batch, resting)) = desk.ask(read).await?;
    let title = format!("Batch {number}");
    Ok(page::page(&house, Place::BringIn, &title, one_body(&batch, &resting)))
}

fn one_body(batch: &BatchInfo, resting: &[BatchNumber]) -> Markup {
    html! {
        (page::bring_in_ways("/history"))
        p.trail { a href="/history" { "History" } }
        h1 { "Batch " (batch.number) }
        dl.about {
            div { dt { "What" } dd { (what(batch)) } }
            div { dt { "Taken in" } dd { (moment(batch.source.at)) " by " (batch.source.who) } }
            div { dt { "Added" } dd { (counts(&batch.added)) } }
            @if 0 < batch.already_there { div { dt { "There already" } dd { (batch.already_there) } } }
            @if 0 < batch.gone { div { dt { "No longer in the file" } dd { (batch.gone) ", kept" } } }
            @if 0 < batch.added.doubted { div { dt { "In doubt" } dd { (batch.added.doubted) } } }
            @if 0 < batch.quarantined {
                div { dt { "Quarantined" } dd { (batch.quarantined) ", " (batch.waiting) " still waiting" } }
            }
            div { dt { "State" } dd { (state(batch)) } }
        }
        @match batch.state {
            BatchState::Standing => (undo_form(batch, resting)),
            BatchState::Undone(_) => (redo_form(batch)),
        }
    }
}

fn undo_form(batch: &BatchInfo, resting: &[BatchNumber]) -> Markup {
    let label = match resting.len() {
        0 => format!("Undo batch {}", batch.number),
        1 => format!("Undo batch {} and the one that rests on it", batch.number),
        more => format!("Undo batch {} and the {more} that rest on it", batch.number),
    };
    html! {
        section aria-labelledby="undo" {
            h2 #undo { "Undo it" }
            p { "What it added leaves the list and the calls. Nothing is destroyed; it can be redone." }
            @if !resting.is_empty() {
                p {
                    "These batches rest on it, since they use its varieties or plots, so they are undone with it: "
                    @for (place, other) in resting.iter().enumerate() {
                        @if 0 < place { ", " }
                        a href=(format!("/history/{other}")) { (other) }
                    }
                    "."
                }
            }
            form.decide method="post" action=(format!("/history/{}/undo", batch.number)) {
                label { span { "Why" } input name="why" maxlength="500" autocomplete="off"; }
                @if !resting.is_empty() { input type="hidden" name="resting" value="too"; }
                button { (label) }
            }
        }
    }
}

fn redo_form(batch: &BatchInfo) -> Markup {
    html! {
        section aria-labelledby="redo" {
            h2 #redo { "Redo it" }
            p { "What it added counts again." }
            form.decide method="post" action=(format!("/history/{}/redo", batch.number)) {
                label { span { "Why" } input name="why" maxlength="500" autocomplete="off"; }
                button { "Redo batch " (batch.number) }
            }
        }
    }
}

/// Undoes a batch, with those that rest on it where the form said so.
pub(crate) async fn undo(
    State(desk): State<Desk>,
    Path(batch): Path<u32>,
    Form(sent): Sent,
) -> Result<Redirect, Trouble> {
    let resting = if sent.get("resting") == Some("too") { Resting::UndoToo } else { Resting::Refuse };
    let why = sent.get("why").map(str::to_owned);
    let story = move |house: &_| history::undo(house, BatchNumber(batch), &act(house, why), resting);
    let (_, undone) = desk.ask(story).await?;
    Ok(Redirect::to(&format!("/history?undone={}", undone.len())))
}

/// Redoes an undone batch.
pub(crate) async fn redo(
    State(desk): State<Desk>,
    Path(batch): Path<u32>,
    Form(sent): Sent,
) -> Result<Redirect, Trouble> {
    let why = sent.get("why").map(str::to_owned);
    desk.ask(move |house| history::redo(house, BatchNumber(batch), &act(house, why))).await?;
    Ok(Redirect::to(&format!("/history?redone={batch}")))
}
