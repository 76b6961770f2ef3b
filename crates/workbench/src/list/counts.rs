//! The bench of a list too long for portraits: how many stand in each cell, and the way to them.

use super::filter::Asked;
use crate::page::scrolling;
use house::list::List;
use house::list::filter::MOST_PORTRAITS;
use maud::{Markup, html};
use record::language::grouped;

/// What a variety stands under that was not called.
const NOT_CALLED: &str = "Not called";

/// The counts of a list's cells.
pub(super) fn of(asked: &Asked, list: &List) -> Markup {
    let columns: Vec<Option<&str>> = places(&list.classes, |class| count(list, class, None) > 0);
    let rows: Vec<Option<&str>> = places(&list.habits, |habit| count(list, None, habit) > 0);
    let table = html! {
        table.counts {
            caption {
                "How many varieties stand in each cell. Portraits are drawn for up to " (MOST_PORTRAITS)
                "; choose a cell to see its own."
            }
            thead { tr { th scope="col" { "Habit" } @for class in &columns { th scope="col" { (class.unwrap_or(NOT_CALLED)) } } } }
            tbody {
                @for habit in &rows {
                    tr {
                        th scope="row" { (habit.unwrap_or(NOT_CALLED)) }
                        @for class in &columns { td { (cell(asked, list, *class, *habit)) } }
                    }
                }
            }
        }
    };
    scrolling("The bench in numbers", &table)
}

/// The words of the guide, and one for what was not called where there is any.
fn places(words: &[String], has_none: impl Fn(Option<&str>) -> bool) -> Vec<Option<&str>> {
    let known = words.iter().map(|word| Some(word.as_str()));
    known.chain(has_none(None).then_some(None)).collect()
}

fn count(list: &List, class: Option<&str>, habit: Option<&str>) -> u64 {
    let is = |cell: &&house::list::Cell| cell.class.as_deref() == class && cell.habit.as_deref() == habit;
    list.cells.iter().filter(is).map(|cell| cell.varieties).sum()
}

fn cell(asked: &Asked, list: &List, class: Option<&str>, habit: Option<&str>) -> Markup {
    let varieties = count(list, class, habit);
    let (Some(class), Some(habit), true) = (class, habit, 0 < varieties) else {
        return html! { (if varieties == 0 { "none".to_owned() } else { grouped(varieties) }) };
    };
    let of = [("class", class.to_owned()), ("habit", habit.to_owned())];
    let words = format!("{} {habit} {class}", grouped(varieties));
    html! { a href=(asked.address_with("/bench", &of)) aria-label=(words) { (grouped(varieties)) } }
}
