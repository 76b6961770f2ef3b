//! A suggestion: the known name that an unknown one is nearest to. It is offered, never applied.

use record::id::Id;
use record::variety::{Variety, name_key};

/// The known variety nearest to an unknown name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Suggestion {
    /// The name as written in the file.
    pub written: String,
    /// The known name or alias that is nearest.
    pub nearest: String,
    /// The variety it names.
    pub variety: Id<Variety>,
}

/// Letters of a name that may hide one slip of the pen (a letter left out, added, changed or swapped with
/// its neighbour). Common practice, no source.
const LETTERS_A_SLIP: usize = 4;
/// Most slips that are taken for slips; more make another name. Common practice, no source.
const MOST_SLIPS: usize = 3;

/// How many slips a name of so many letters may hide: one in four letters, at most three.
fn slips_allowed(letters: usize) -> usize {
    (letters / LETTERS_A_SLIP).clamp(1, MOST_SLIPS)
}

/// The nearest of the known names, by optimal string alignment of the folded names; `None` where none is
/// near enough, or where names of two varieties are equally near.
pub(crate) fn nearest<'a>(
    written: &str,
    known: impl Iterator<Item = (&'a str, Id<Variety>)>,
) -> Option<Suggestion> {
    let wanted = name_key(written);
    let letters = wanted.chars().count();
    let allowed = slips_allowed(letters);
    let mut best: Option<(usize, &str, Id<Variety>)> = None;
    let mut tied = false;
    for (name, variety) in known {
        let folded = name_key(name);
        if allowed < folded.chars().count().abs_diff(letters) {
            continue;
        }
        let slips = strsim::osa_distance(&wanted, &folded);
        match best {
            _ if allowed < slips => {}
            Some((least, _, nearest)) if slips == least => tied |= nearest != variety,
            Some((least, ..)) if least < slips => {}
            _ => (best, tied) = (Some((slips, name, variety)), false),
        }
    }
    let (_, name, variety) = best.filter(|_| !tied)?;
    Some(Suggestion { written: written.to_owned(), nearest: name.to_owned(), variety })
}

#[cfg(test)]
mod tests {
    use super::*;
    use uuid::Uuid;

    #[track_caller]
    fn agrees(written: &str, nearest_name: Option<&str>) {
        let known = ["Amber Bell", "Amber Ball", "Old Pike", "Nan", "Duchess of Thorle"];
        let known = known.iter().zip(1..).map(|(name, at)| (*name, Id::from_uuid(Uuid::from_u128(at))));
        let found = nearest(written, known).map(|suggestion| suggestion.nearest);
        assert_eq!(found.as_deref(), nearest_name, "{written}");
    }

    #[test]
    fn the_nearest_spelling_is_offered() {
        agrees("Duches of Thorel", Some("Duchess of Thorle"));
        agrees("old pkie", Some("Old Pike"));
        agrees("Amber Bel", Some("Amber Bell"));
        // One slip from both: neither is offered.
        agrees("Amber Bill", None);
        agrees("Green Lantern", None);
        agrees("Nn", Some("Nan"));
        agrees("", None);
    }
}
