//! A wish told back in words that read as the same wish. Start at [`told`].

use crate::reading::Part;
use crate::wish::{Sense, Want, Wish};
use record::language::Units;

/// Tells what a piece of the text was read as: `colour: red`, `not habit: dwarf`.
#[must_use]
pub fn part(part: &Part, _units: Units) -> String {
    let words: Vec<&str> = part.wants.iter().filter_map(word).collect();
    match part.sense {
        Sense::Wanted => words.join(" or "),
        Sense::Barred => format!("not {}", words.join(" or ")),
    }
}

/// Tells a whole wish in one line.
#[must_use]
pub fn told(wish: &Wish, _units: Units) -> String {
    [&wish.habits, &wish.classes, &wish.colours].map(|kind| kind.wanted.join(" or ")).join(", ")
}

fn word(want: &Want) -> Option<&str> {
    match want {
        Want::Habit(word) | Want::Class(word) | Want::Colour(word) | Want::Mark(word) | Want::Words(word) => {
            Some(word)
        }
        Want::Use(purpose) => Some(purpose.name()),
        Want::Pattern(pattern) => Some(pattern.name()),
        _ => None,
    }
}
