//! The bench: portraits to one scale, on a shelf a class and a row a habit, so that gaps and crowding are seen.
//!
//! On a wide page the classes stand beside each other and the habits in line; on a narrow one, and on a class's own
//! page, the shelves follow each other down the page. The style sheet does that; the markup is one.

use crate::pages::places::{Depth, Shelf, small};
use crate::pages::{Folder, WebEntry};
use maud::{Markup, html};
use record::language;

/// The bench of all shelves.
pub(super) fn all(folder: &Folder) -> Markup {
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
                    (rows(folder, Depth::Top, &shelf.entries))
                }
            }
        }
    }
}

fn is_drawn(folder: &Folder, shelf: &Shelf) -> bool {
    shelf.entries.iter().filter_map(|entry| folder.list.entries.get(*entry)).any(|entry| entry.look.is_some())
}

/// Rows by habit, one for every habit so that neighbouring shelves stand in line, then one for those of no
/// habit yet.
pub(super) fn rows(folder: &Folder, depth: Depth, entries: &[usize]) -> Markup {
    let habits = (0..folder.list.habits.len()).map(Some).chain([None]);
    html! {
        @for habit in habits {
            @let own = on_the_row(folder, entries, habit);
            @let name = habit.and_then(|habit| folder.list.habits.get(habit)).map_or("no habit yet", |habit| &habit.name);
            div.row {
                @if !own.is_empty() {
                    p.habit { (name) " · " (own.len()) }
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
