//! Slips of the pen: an unknown word that is nearly a known one.

use crate::vocabulary::{Meaning, Vocabulary};
use strsim::damerau_levenshtein;

/// Letters from which a word is mended at all: in shorter words one letter makes another word.
const MENDED_FROM: usize = 5;
/// Letters from which two slips are mended.
const TWO_SLIPS_FROM: usize = 8;
/// Letters from which two words together are taken for one phrase with a slip.
const PAIR_FROM: usize = 10;

/// The known phrase that a folded word, or `count` words joined, is a slip for.
///
/// A slip is a letter too many, too few, wrong or changed with its neighbour (Damerau and Levenshtein): one in words of
/// five letters and more, two from eight on. The first letter must be right. Where two phrases that mean different
/// things are equally near, neither is taken.
pub(crate) fn mended<'a>(key: &str, count: usize, vocabulary: &'a Vocabulary) -> Option<&'a str> {
    let letters = key.chars().count();
    let least = if count == 1 { MENDED_FROM } else { PAIR_FROM };
    if letters < least || key.chars().any(|sign| sign.is_numeric()) {
        return None;
    }
    let slips = if letters < TWO_SLIPS_FROM { 1 } else { 2 };
    let first = key.chars().next();
    let near = |(known, means): (&'a str, &'a Meaning)| {
        let could = known.chars().next() == first && known.chars().count().abs_diff(letters) <= slips;
        let far = could.then(|| damerau_levenshtein(key, known)).filter(|far| *far <= slips)?;
        (MENDED_FROM <= known.chars().count() + 1).then_some((far, known, means))
    };
    let mut all: Vec<(usize, &str, &Meaning)> = vocabulary.wanting().filter_map(near).collect();
    all.sort_unstable_by_key(|(far, known, _)| (*far, *known));
    let (nearest, known, means) = *all.first()?;
    all.iter().all(|(far, _, other)| nearest < *far || *other == means).then_some(known)
}
