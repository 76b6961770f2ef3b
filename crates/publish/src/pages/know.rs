//! How we know: what a call is, what contested means, which guides and how much evidence stand behind the list.

use crate::pages::frame::{Page, Place, count};
use crate::pages::{File, Folder, WebEntry, rows};
use maud::{Markup, html};
use record::language::{counted, grouped};

/// The page.
pub(super) fn page(folder: &Folder) -> File {
    let body = html! {
        h1 { "How we know" }
        (calls())
        (pictures())
        (claims())
        (evidence(folder))
        (guides(folder))
        (files())
    };
    let page = Page {
        path: "how-we-know.html".to_owned(),
        title: "How we know",
        about: "What a call is and rests on, what contested means, and which guides decide.",
        place: Place::Know,
        head: html! {},
        body,
    };
    page.framed(folder)
}

fn calls() -> Markup {
    html! {
        section aria-labelledby="calls" {
            h2 #calls { "A call, and how sure it is" }
            p {
                "We grow every variety out, weigh and measure its fruit, cut it across and watch its plants. What it is, "
                "its habit, fruit class and colour, is then called from these records by written rules. Each call "
                "carries its chance: \"plum 62 in 100\" means that with as much evidence as this, and as much "
                "difference between seasons, plants and fruits as we see, 62 of 100 such varieties would be plums."
            }
            p {
                "The words beside the number only make it easier to read: almost surely (95 in 100 and more), very "
                "probably (80 and more), probably (50 and more), perhaps. A call under 80 in 100 is "
                em { "contested" } ": its line is broken, and the page says what else it may be and what would settle it."
            }
            p { "Nothing is told of what nobody measured. It says " em { "not yet measured" } " there." }
        }
    }
}

fn pictures() -> Markup {
    html! {
        section aria-labelledby="pictures" {
            h2 #pictures { "The portraits" }
            p {
                "Portraits are drawn from the measures: whole fruit at the left, cut across at the right, and on the "
                "bench all to one scale. A dashed outline, faint chambers or paper instead of colour is a trait that "
                "was not measured. They are no photographs."
            }
            p {
                "On a variety's page its fruits stand as dots against the guide's limits, which fade where they are soft, "
                "and the bar below is where the variety's own mean lies."
            }
        }
    }
}

fn claims() -> Markup {
    html! {
        section aria-labelledby="claims" {
            h2 #claims { "What is said, beside what was seen" }
            p {
                "Old catalogues and packets say things of a variety. Each such claim stands beside the evidence and is "
                "upheld, contradicted (with the reason), or left open because not enough was measured."
            }
            p {
                "What a class or habit is good for is the guide's word for all of its kind. It was not tried with each "
                "variety, and says so."
            }
        }
    }
}

fn evidence(folder: &Folder) -> Markup {
    let entries = &folder.list.entries;
    let those = |holds: &dyn Fn(&WebEntry) -> bool| {
        grouped(count(entries.iter().filter(|entry| holds(entry)).count()))
    };
    let fruits: u64 = entries.iter().map(|entry| entry.told.evidence.fruit_count).sum();
    let unmeasured = |entry: &WebEntry| entry.told.evidence.fruit_count == 0;
    html! {
        section aria-labelledby="evidence" {
            h2 #evidence { "How much there is" }
            dl.about {
                div { dt { "On the list" } dd { (counted(count(entries.len()), "variety", "varieties")) } }
                div { dt { "Measured" } dd { (counted(fruits, "fruit", "fruits")) } }
                @if let Some((first, last)) = folder.list.seasons {
                    div { dt { "Seasons" } dd { (first) @if first != last { " to " (last) } } }
                }
                div { dt { "With a contested call" } dd { (those(&rows::is_contested)) } }
                div { dt { "With a claim contradicted" } dd { (those(&rows::is_contradicted)) } }
                div { dt { "With no fruit measured yet" } dd { (those(&unmeasured)) } }
            }
        }
    }
}

fn guides(folder: &Folder) -> Markup {
    html! {
        section aria-labelledby="guides" {
            h2 #guides { "The guides" }
            p { "The rules are the house's own, written down with their sources. No two published sources agree on all of them." }
            ul { @for guide in &folder.list.guides { li { (guide) } } }
            h3 { "Fruit classes" }
            ul.names {
                @for shelf in &folder.places.shelves {
                    li { a href=(folder.places.shelf(shelf, 0)) { (shelf.name) } }
                }
            }
            h3 { "Habits" }
            ul.names {
                @for (index, habit) in folder.list.habits.iter().enumerate() {
                    li { a href=(folder.places.habit(index, 0)) { (habit.name) } }
                }
            }
        }
    }
}

fn files() -> Markup {
    html! {
        section aria-labelledby="files" {
            h2 #files { "The list as data" }
            p {
                a href="list.csv" { "list.csv" } " for a spreadsheet and " a href="list.json" { "list.json" }
                " for programs hold the same calls and measures, with their chances and units."
            }
        }
    }
}
