//! The index: every name and every other name, by letter.

use crate::catalogue::index::{heading, order};
use crate::pages::frame::{Page, Place, pager};
use crate::pages::places::{Depth, MOST_ON_A_PAGE, numbered};
use crate::pages::{File, Folder};
use maud::{Markup, html};

/// A name and the variety that it leads to.
struct Line<'a> {
    order: String,
    name: &'a str,
    /// The name that the house sells it by, where this is another.
    stands_for: Option<&'a str>,
    entry: usize,
}

/// The pages of the index.
pub(super) fn pages(folder: &Folder) -> Vec<File> {
    let lines = lines(folder);
    let parts: Vec<&[Line<'_>]> =
        if lines.is_empty() { vec![&[]] } else { lines.chunks(MOST_ON_A_PAGE).collect() };
    parts.iter().enumerate().map(|(page, part)| framed(folder, page, &parts, part)).collect()
}

fn framed(folder: &Folder, page: usize, parts: &[&[Line<'_>]], part: &[Line<'_>]) -> File {
    let address = |page| numbered("names", page);
    let body = html! {
        h1 { "By name" }
        (pager(Depth::Top, page, parts.len(), address))
        @for letter in part.chunk_by(|one, next| heading(&one.order) == heading(&next.order)) { (under(folder, letter)) }
        (pager(Depth::Top, page, parts.len(), address))
    };
    let title = if page == 0 { "By name".to_owned() } else { format!("By name, page {}", page + 1) };
    let about = "Every name on the list, with the other names that varieties go by.";
    Page { path: address(page), title: &title, about, place: Place::Names, head: html! {}, body }
        .framed(folder)
}

fn lines(folder: &Folder) -> Vec<Line<'_>> {
    let entries = folder.list.entries.iter().enumerate();
    let mut lines: Vec<Line<'_>> = entries
        .flat_map(|(entry, own)| {
            let told = &own.told;
            let line = move |name, stands_for| Line { order: order(name), name, stands_for, entry };
            let also = told.aliases.iter().map(move |alias| line(alias, Some(told.name.as_str())));
            std::iter::once(line(&told.name, None)).chain(also)
        })
        .collect();
    // Names of other writing come last, as their heading does.
    lines.sort_by(|one, other| key(one).cmp(&key(other)));
    lines
}

fn key<'a>(line: &'a Line<'_>) -> (bool, &'a str, &'a str) {
    (heading(&line.order) == heading(""), &line.order, line.name)
}

fn under(folder: &Folder, lines: &[Line<'_>]) -> Markup {
    let letter = lines.first().map_or_else(String::new, |line| heading(&line.order));
    html! {
        section.letter {
            h2 { (letter) }
            ul.names {
                @for line in lines {
                    li {
                        a href=(folder.places.variety(line.entry)) { bdi { (line.name) } }
                        @if let Some(name) = line.stands_for { span.also { ", sold as " bdi { (name) } } }
                    }
                }
            }
        }
    }
}
