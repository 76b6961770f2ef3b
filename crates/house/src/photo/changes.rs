//! What somebody says by hand of a photograph's parts, as it is written: `cut 5`, `cut 5 along 208,160 208,200`, `join 3 4`.
//!
//! Places are pixels of the photograph as it is shown, from its top left corner. Start at [`read`].

use super::Said;
use super::fault::PhotoFault;
pub use photo::change::{Along, Change};
use photo::solid::Told;
use std::collections::BTreeSet;

/// Reads a change.
///
/// # Errors
/// [`PhotoFault::NoChange`] for words that are none.
pub fn read(words: &str) -> Result<Change, PhotoFault> {
    let found = match words.split_whitespace().collect::<Vec<_>>().as_slice() {
        ["cut", part] => part.parse().ok().map(|part| Change::Cut { part, along: Along::Narrowest }),
        ["cut", part, "along", from, to] => part
            .parse()
            .ok()
            .zip(place(from))
            .zip(place(to))
            .map(|((part, from), to)| Change::Cut { part, along: Along::Line([from, to]) }),
        ["join", one, other] => {
            one.parse().ok().zip(other.parse().ok()).map(|(one, other)| Change::Join { parts: [one, other] })
        }
        _ => None,
    };
    found.ok_or_else(|| PhotoFault::NoChange { words: words.to_owned() })
}

fn place(words: &str) -> Option<[f64; 2]> {
    let (x, y) = words.split_once(',')?;
    let number = |word: &str| word.parse::<f64>().ok().filter(|number| number.is_finite());
    Some([number(x)?, number(y)?])
}

/// The change as [`read`] reads it.
#[must_use]
pub fn written(change: &Change) -> String {
    match change {
        Change::Cut { part, along: Along::Narrowest } => format!("cut {part}"),
        Change::Cut { part, along: Along::Line([[left, top], [right, bottom]]) } => {
            format!("cut {part} along {left:.0},{top:.0} {right:.0},{bottom:.0}")
        }
        Change::Join { parts: [one, other] } => format!("join {one} {other}"),
    }
}

/// Numbers that are no more because their parts were joined to others.
pub(super) fn gone(changes: &[Change]) -> BTreeSet<u32> {
    let greater = |change: &Change| match change {
        Change::Join { parts } => Some(parts[0].max(parts[1])),
        Change::Cut { .. } => None,
    };
    changes.iter().filter_map(greater).collect()
}

/// All that was said by hand, as the batch keeps it; nothing where nothing was.
pub(super) fn kept(said: &Said) -> Option<String> {
    let stem = |(number, told): (&u32, &Told)| match told {
        Told::Nothing => None,
        Told::AsDrawn => Some(format!("stem {number} drawn")),
        Told::Across => Some(format!("stem {number} across")),
        Told::Standing => Some(format!("stem {number} up")),
        Told::Cut => Some(format!("stem {number} cut")),
    };
    let words: Vec<String> = said
        .changes
        .iter()
        .map(written)
        .chain(said.left_out.iter().map(|number| format!("leave out {number}")))
        .chain(said.stems.iter().filter_map(stem))
        .chain(said.locules.iter().map(|(number, count)| format!("locules {number} {count}")))
        .chain(said.line.map(|line| format!("line {:.1} mm", line.get())))
        .collect();
    (!words.is_empty()).then(|| words.join("; "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read_again() {
        for words in ["cut 5", "cut 12 along 208,160 208,200", "join 3 4"] {
            assert_eq!(written(&read(words).ok().unwrap_or(Change::Join { parts: [0, 0] })), words);
        }
    }

    #[test]
    fn other_words_are_refused() {
        for words in [
            "",
            "cut",
            "cut five",
            "cut 5 along 1,2",
            "cut 5 along 1;2 3;4",
            "join 3",
            "join 3 4 5",
            "part 3",
        ] {
            assert!(matches!(read(words), Err(PhotoFault::NoChange { .. })), "{words}");
        }
    }
}
