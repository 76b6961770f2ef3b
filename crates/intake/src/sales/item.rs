//! What was sold, as a shop writes it: a variety's name alone or among words of the trade.

use crate::roster::{Roster, VarietyFound};
use record::id::Id;
use record::variety::Variety;

/// What came of looking up what was sold.
pub(super) enum Sold {
    /// Seed of a variety.
    Of(Id<Variety>),
    /// A name that several varieties have.
    OfSeveral,
    /// Something else.
    Other,
}

/// Words that may stand round a variety's name and say nothing of which it is.
const ROUND: &[&str] = &[
    "tomato", "tomatoes", "seed", "seeds", "packet", "packets", "pack", "packs", "pkt", "of", "x", "count",
    "ct", "the", "a", "approx", "about", "g", "mg", "gram", "grams", "oz", "heirloom", "organic", "variety",
    "small", "large", "standard",
];

/// Signs at which a name may end.
const ENDS: &[char] = &['(', '[', ',', '|', ':', ';', '/', '–', '—'];

/// Finds the variety of what was sold. The name must be whole: what stands round it may only be words of the trade and
/// numbers, so that no variety is taken for another whose name begins alike.
pub(super) fn variety_of(sold: &str, roster: &Roster) -> Sold {
    if let Some(found) = known(sold, roster) {
        return found;
    }
    let words: Vec<&str> = sold.split(|sign: char| sign.is_whitespace() || ENDS.contains(&sign)).collect();
    let words: Vec<&str> = words.into_iter().filter(|word| !word.is_empty() && *word != "-").collect();
    let lead = words.iter().take_while(|word| is_round(word)).count();
    for first in 0..=lead.min(words.len()) {
        for last in (first + 1..=words.len()).rev() {
            let rest = words.get(last..).unwrap_or_default();
            let name = words.get(first..last).unwrap_or_default().join(" ");
            if rest.iter().all(|word| is_round(word))
                && let Some(found) = known(&name, roster)
            {
                return found;
            }
        }
    }
    Sold::Other
}

fn known(name: &str, roster: &Roster) -> Option<Sold> {
    match roster.variety(name) {
        VarietyFound::Known(variety) => Some(Sold::Of(variety.id)),
        VarietyFound::Several => Some(Sold::OfSeveral),
        VarietyFound::Unknown => None,
    }
}

/// Whether a word may stand round a name: a word of the trade, or a number with or without a unit.
fn is_round(word: &str) -> bool {
    let word = word.trim_matches(|sign: char| !sign.is_alphanumeric()).to_lowercase();
    let unit = word.trim_start_matches(|sign: char| sign.is_ascii_digit() || sign == '.');
    word.is_empty() || ROUND.contains(&unit) || (unit.is_empty() && !word.is_empty())
}

/// What was sold, up to the first sign at which a name may end.
pub(super) fn bare(sold: &str) -> &str {
    sold.split(ENDS).next().unwrap_or(sold).trim()
}
