//! The first page: the bench, and every variety in a plain table. A long list is told by class instead.

use crate::pages::frame::{Page, Place, count, scripts};
use crate::pages::places::{Depth, MOST_ON_A_PAGE};
use crate::pages::{File, Folder, bench, linked, rows};
use maud::{Markup, html};
use record::language::{capitalised, counted, grouped};

/// What the search needs, in the order that they need each other.
const SCRIPTS: [&str; 9] = [
    "script/tokens.js",
    "script/amounts.js",
    "script/reading.js",
    "script/telling.js",
    "script/elements.js",
    "script/finding.js",
    "data/list.js",
    "data/words.js",
    "script/list.js",
];

/// The first page.
pub(super) fn pages(folder: &Folder) -> Vec<File> {
    let all: Vec<usize> = (0..folder.len()).collect();
    let about = format!(
        "{} of tomato, each called from evidence, with how sure.",
        counted(count(all.len()), "variety", "varieties")
    );
    let page = Page {
        path: "index.html".to_owned(),
        title: "The list",
        about: &about,
        place: Place::List,
        head: html! { (linked::list(folder)) (scripts(Depth::Top, &SCRIPTS)) },
        body: body(folder, &all),
    };
    vec![page.framed(folder)]
}

fn body(folder: &Folder, all: &[usize]) -> Markup {
    html! {
        h1 { "The list" }
        p.lead { (rows::counted_varieties(folder, all)) (grown(folder)) "." }
        p {
            "What each variety is was called from what was seen and measured, and the number beside a word is how sure "
            "the call is. Under 80 in 100 a call is contested, and says so. "
            a href="how-we-know.html" { "How we know" } "."
        }
        @if all.is_empty() {
            p { "There are no varieties on the list yet." }
        } @else {
            (search(folder, all.len()))
            @if all.len() <= MOST_ON_A_PAGE {
                section.settles aria-labelledby="bench" {
                    h2 #bench { "The bench" }
                    (bench::ruler(folder))
                    (bench::all(folder))
                }
                (table(folder, all))
            } @else {
                section.settles aria-labelledby="cells" {
                    h2 #cells { "By class and habit" }
                    (cells(folder))
                }
                div.needs-script { (table(folder, &[])) }
            }
        }
    }
}

fn search(folder: &Folder, all: usize) -> Markup {
    html! {
        search.needs-script {
            form #search {
                label for="wish" { "Find, in plain words" }
                input #wish type="search" name="wish" autocomplete="off" spellcheck="false"
                    aria-describedby="wish-help" placeholder=(example(folder));
                button type="submit" { "Find" }
            }
            p.basis #wish-help {
                "Class, habit, colour, weight in any unit, earliness, what for, or a name; \"not\" takes away."
            }
            ul.read-as #read-as hidden aria-label="Read as" {}
            p #found role="status" { (counted(count(all), "variety", "varieties")) }
        }
    }
}

fn example(folder: &Folder) -> &'static str {
    folder.list.units.either("early red paste under 4 oz", "early red paste under 120 g")
}

/// Every variety; the script adds the rows of a long list as they come into sight.
fn table(folder: &Folder, entries: &[usize]) -> Markup {
    html! {
        section.settles aria-labelledby="table" {
            h2 #table { "Every variety" }
            (rows::table(folder, Depth::Top, "Every variety with its calls", entries))
            button.needs-script #more type="button" hidden { "Show more" }
        }
    }
}

fn grown(folder: &Folder) -> String {
    match folder.list.seasons {
        None => String::new(),
        Some((first, last)) if first == last => format!(", grown and measured in {first}"),
        Some((first, last)) => format!(", grown and measured {first} to {last}"),
    }
}

/// How many varieties stand in each cell of class and habit; a class leads to its page.
fn cells(folder: &Folder) -> Markup {
    let habits = &folder.list.habits;
    let caption = "How many varieties of each class have each habit";
    html! {
        div.scrolling role="region" aria-label=(caption) tabindex="0" {
            table.cells {
                caption.unseen { (caption) }
                thead {
                    tr {
                        th scope="col" { "Fruit class" }
                        @for (index, habit) in habits.iter().enumerate() {
                            th scope="col" { a href=(folder.places.habit(index, 0)) { (habit.name) } }
                        }
                        th scope="col" { "no habit yet" }
                        th scope="col" { "All" }
                    }
                }
                tbody {
                    @for shelf in &folder.places.shelves {
                        tr {
                            th scope="row" { a href=(folder.places.shelf(shelf, 0)) { (capitalised(&shelf.name)) } }
                            @for habit in (0..habits.len()).map(Some).chain([None]) {
                                td { (cell(folder, &shelf.entries, habit)) }
                            }
                            td { (grouped(count(shelf.entries.len()))) }
                        }
                    }
                }
            }
        }
    }
}

fn cell(folder: &Folder, entries: &[usize], habit: Option<usize>) -> Markup {
    let own = entries.iter().filter_map(|index| folder.list.entries.get(*index));
    let own = own.filter(|entry| entry.habit == habit).count();
    html! { @if own == 0 { span.silent { "none" } } @else { (grouped(count(own))) } }
}
