//! A page a class and a page a habit: what it is, what it is good for, and the varieties that are called so.

use crate::pages::frame::{Page, Place, pager};
use crate::pages::places::{Depth, MOST_ON_A_PAGE, Shelf};
use crate::pages::{File, Folder, Kind, bench, rows};
use maud::{Markup, html};
use record::language::capitalised;

/// Every page of every class and habit.
pub(super) fn pages(folder: &Folder) -> Vec<File> {
    let shelves = folder.places.shelves.iter().flat_map(|shelf| shelf_pages(folder, shelf));
    let habits =
        folder.list.habits.iter().enumerate().flat_map(|(index, habit)| habit_pages(folder, index, habit));
    shelves.chain(habits).collect()
}

/// What all pages of a class or habit share.
struct Book<'a> {
    title: String,
    head: Markup,
    entries: &'a [usize],
    address: &'a dyn Fn(usize) -> String,
}

fn shelf_pages(folder: &Folder, shelf: &Shelf) -> Vec<File> {
    let class = shelf.class.and_then(|class| folder.list.classes.get(class));
    let head = html! {
        @match class {
            Some(class) => (words(class)),
            None => p.lead { (shelf.about) },
        }
    };
    let address = |page| folder.places.shelf(shelf, page);
    let book = Book { title: capitalised(&shelf.name), head, entries: &shelf.entries, address: &address };
    book.pages(folder)
}

fn habit_pages(folder: &Folder, index: usize, habit: &Kind) -> Vec<File> {
    let entries = folder.list.entries.iter().enumerate().filter(|(_, entry)| entry.habit == Some(index));
    let entries: Vec<usize> = entries.map(|(entry, _)| entry).collect();
    let address = |page| folder.places.habit(index, page);
    let book =
        Book { title: capitalised(&habit.name), head: words(habit), entries: &entries, address: &address };
    book.pages(folder)
}

impl Book<'_> {
    fn pages(&self, folder: &Folder) -> Vec<File> {
        let parts: Vec<&[usize]> =
            if self.entries.is_empty() { vec![&[]] } else { self.entries.chunks(MOST_ON_A_PAGE).collect() };
        parts.iter().enumerate().map(|(page, part)| self.page(folder, page, parts.len(), part)).collect()
    }

    fn page(&self, folder: &Folder, page: usize, pages: usize, part: &[usize]) -> File {
        let title = if page == 0 { self.title.clone() } else { format!("{}, page {}", self.title, page + 1) };
        let about = rows::counted_varieties(folder, self.entries);
        let body = html! {
            p.trail { a href="../index.html" { "The list" } }
            h1 { (title) }
            @if page == 0 { (self.head) }
            section.settles aria-labelledby="varieties" {
                h2 #varieties { (about) }
                (pager(Depth::Inner, page, pages, self.address))
                @if !part.is_empty() {
                    (bench::one(folder, Depth::Inner, part))
                    (rows::table(folder, Depth::Inner, &format!("{title}, every variety"), part))
                    (pager(Depth::Inner, page, pages, self.address))
                }
            }
        };
        let path = (self.address)(page);
        let page = Page { path, title: &title, about: &about, place: Place::Elsewhere, head: html! {}, body };
        page.framed(folder)
    }
}

/// What the guide says of a class or habit.
fn words(kind: &Kind) -> Markup {
    let told = [("Good for", &kind.good_for), ("Mistaken for", &kind.mistaken_for), ("Inside", &kind.flesh)];
    html! {
        @if !kind.what.is_empty() { p.lead { (kind.what) } }
        dl.about {
            @for (about, words) in told.into_iter().filter(|(_, words)| !words.is_empty()) {
                div { dt { (about) } dd { (words) } }
            }
            @if !kind.limits.is_empty() {
                div { dt { "The guide's limits" } @for limits in &kind.limits { dd { (limits) } } }
            }
        }
    }
}
