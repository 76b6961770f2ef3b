//! The bench: portraits to one scale, on a shelf a class and a row a habit, so that gaps and crowding are seen.
//!
//! On a wide page the classes stand beside each other and the habits in line; on a narrow one, and on a class's own
//! page, the shelves follow each other down the page. The style sheet does that; the markup is one.

use crate::pages::places::{BENCH_SCALE, Depth, Shelf, small};
use crate::pages::{Folder, WebEntry};
use maud::{Markup, html};
use record::language;

/// What the ruler beside a bench measures of a fruit: two inches, in millimetres.
const RULER: f64 = 50.8;

/// A length of fruit as the bench draws it.
pub(super) fn ruler(folder: &Folder) -> Markup {
    let words = folder.list.units.either("2 in (51 mm)", "51 mm (2 in)");
    let long = format!("{:.1}", RULER * BENCH_SCALE);
    html! {
        p.ruler {
            svg.rule xmlns="http://www.w3.org/2000/svg" width=(long) height="8" aria-hidden="true" {
                path d={ "M0.5 1v6M0 4h" (long) "m-0.5 -3v6" } fill="none" stroke="#23211d" {}
            }
            span { "All to one scale; this is " (words) " of fruit." }
        }
    }
}

/// The bench of all shelves.
pub(super) fn all(folder: &Folder) -> Markup {
    let drawn: Vec<usize> = (0..folder.len()).collect();
    let habits = habits(folder, &drawn);
    let called =
        folder.places.shelves.iter().filter(|shelf| shelf.class.is_some() || is_drawn(folder, shelf));
    html! {
        div.bench {
            @for shelf in called {
                section.shelf {
                    h3 {
                        a href=(folder.places.shelf(shelf, 0)) { (shelf.name) }
                        " " span.count { (shelf.entries.len()) }
                    }
                    (rows(folder, Depth::Top, &habits, &shelf.entries))
                }
            }
        }
    }
}

fn is_drawn(folder: &Folder, shelf: &Shelf) -> bool {
    shelf.entries.iter().filter_map(|entry| folder.list.entries.get(*entry)).any(|entry| entry.look.is_some())
}

/// The bench of one shelf, or of a part of it.
pub(super) fn one(folder: &Folder, depth: Depth, entries: &[usize]) -> Markup {
    html! { (ruler(folder)) div.bench.stacked { (rows(folder, depth, &habits(folder, entries), entries)) } }
}

/// The habits that varieties have, then no habit yet.
fn habits(folder: &Folder, entries: &[usize]) -> Vec<Option<usize>> {
    let all = (0..folder.list.habits.len()).map(Some).chain([None]);
    all.filter(|habit| !on_the_row(folder, entries, *habit).is_empty()).collect()
}

/// A row for each of the habits, so that neighbouring shelves stand in line.
fn rows(folder: &Folder, depth: Depth, habits: &[Option<usize>], entries: &[usize]) -> Markup {
    html! {
        @for habit in habits {
            @let own = on_the_row(folder, entries, *habit);
            @let name = habit.and_then(|habit| folder.list.habits.get(habit)).map_or("no habit yet", |habit| &habit.name);
            div.row {
                @if !own.is_empty() {
                    p.habit { (name) " · " span.count { (own.len()) } }
                    ul { @for index in own { (figure(folder, depth, index)) } }
                }
            }
        }
    }
}

/// The varieties of one row that can be drawn, from small fruit to large.
fn on_the_row(folder: &Folder, entries: &[usize], habit: Option<usize>) -> Vec<usize> {
    let of = |index: &usize| folder.list.entries.get(*index);
    let fits = |entry: &WebEntry| entry.habit == habit && entry.look.is_some();
    let mut own: Vec<usize> = entries.iter().filter(|index| of(index).is_some_and(fits)).copied().collect();
    let weight = |index: &usize| {
        of(index).and_then(|entry| entry.told.facts.weight).map_or(0.0, |weight| weight.usual.get())
    };
    own.sort_by(|one, other| weight(one).total_cmp(&weight(other)));
    own
}

fn figure(folder: &Folder, depth: Depth, index: usize) -> Markup {
    let Some(entry) = folder.list.entries.get(index) else { return html! {} };
    let svg = entry.look.as_ref().map(|look| small(look, folder.list.units));
    let whole = |pixels: f64| format!("{:.0}", pixels.ceil());
    let chance =
        crate::chance::likeliest(&entry.told.fruit_class.verdicts).map(|(_, share)| language::chance(*share));
    html! {
        li.contested[entry.told.fruit_class.contested] data-at=(index) {
            a href=(depth.to(&folder.places.variety(index))) title=[chance] {
                @if let Some(svg) = svg {
                    img src=(depth.to(&folder.places.small_picture(index))) alt="" loading="lazy" decoding="async"
                        width=(whole(svg.width().get())) height=(whole(svg.height().get()));
                }
                bdi { (entry.told.name) }
                @if entry.told.fruit_class.contested { span.unseen { ", class contested" } }
            }
        }
    }
}
