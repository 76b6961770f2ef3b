//! Claims: what a packet or an old catalogue says of a variety, held against its call.
//!
//! A claim is never evidence. It is upheld where the call agrees and is not contested, contradicted where
//! the call leaves it next to no chance, and otherwise not yet measured well enough to say.
//! Start at [`stand`].

use crate::call::{SETTLED_AT, is_contested};
use record::mass::Grams;
use record::share::Share;
use record::variety::ClaimSubject;

/// How a claim stands beside the evidence.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// The call agrees.
    Upheld,
    /// The call speaks against it: this is the verdict, this sure.
    Contradicted {
        /// The verdict.
        verdict: String,
        /// How sure it is.
        share: Share,
    },
    /// The fruit usually weighs this instead.
    MeasuredAs(Grams),
    /// Nothing, or not enough, was measured that speaks to it.
    Unmeasured,
}

/// How far from a claimed weight the usual fruit may be before the claim is wrong: packets round and
/// seasons differ. Common practice, no source.
const WEIGHT_LEEWAY: f64 = 1.25;
/// Fruits that must have been weighed before a claimed weight is judged: the descriptors' own sample of
/// ten (IPGRI, Descriptors for Tomato, 1996; from memory, unverified).
const FRUITS_TO_JUDGE: u64 = 10;

/// Tells how a claimed weight, from `low` to `high`, stands beside the usual weight of `fruits` fruits.
#[must_use]
pub fn stand_weight(low: Grams, high: Grams, usual: Grams, fruits: u64) -> Standing {
    let within = low.get() / WEIGHT_LEEWAY..=high.get() * WEIGHT_LEEWAY;
    match (fruits < FRUITS_TO_JUDGE, within.contains(&usual.get())) {
        (true, _) => Standing::Unmeasured,
        (false, true) => Standing::Upheld,
        (false, false) => Standing::MeasuredAs(usual),
    }
}

/// Other words that packets and old catalogues use, and the answer that each means.
/// Common practice, no source.
const OTHER_WORDS: [(ClaimSubject, &str, &str); 22] = [
    (ClaimSubject::Habit, "det", "determinate"),
    (ClaimSubject::Habit, "bush", "determinate"),
    (ClaimSubject::Habit, "semi", "semi-determinate"),
    (ClaimSubject::Habit, "semi-det", "semi-determinate"),
    (ClaimSubject::Habit, "indet", "indeterminate"),
    (ClaimSubject::Habit, "vine", "indeterminate"),
    (ClaimSubject::Habit, "cordon", "indeterminate"),
    (ClaimSubject::Habit, "micro", "micro-dwarf"),
    (ClaimSubject::FruitClass, "beef", "beefsteak"),
    (ClaimSubject::FruitClass, "slicing", "slicer"),
    (ClaimSubject::FruitClass, "globe", "slicer"),
    (ClaimSubject::FruitClass, "salad", "saladette"),
    (ClaimSubject::FruitClass, "cocktail", "saladette"),
    (ClaimSubject::FruitClass, "cherries", "cherry"),
    (ClaimSubject::Colour, "purple", "black"),
    (ClaimSubject::Colour, "dusky", "black"),
    (ClaimSubject::Colour, "cream", "white"),
    (ClaimSubject::Colour, "gold", "yellow"),
    (ClaimSubject::Colour, "golden", "yellow"),
    (ClaimSubject::Colour, "rose", "pink"),
    (ClaimSubject::Colour, "bicolor", "bicolour"),
    (ClaimSubject::Colour, "two-tone", "bicolour"),
];

/// Tells how a claim stands beside a call.
///
/// # Shape
/// `shares`: every answer of the call with its probability, likeliest first; empty without evidence.
#[must_use]
pub fn stand(words: &str, about: ClaimSubject, shares: &[(String, Share)]) -> Standing {
    let Some((verdict, leading)) = shares.first() else { return Standing::Unmeasured };
    let claimed: Vec<&(String, Share)> =
        shares.iter().filter(|(answer, _)| names(words, about, answer)).collect();
    let chance: f64 = claimed.iter().map(|(_, share)| share.get()).sum();
    if claimed.is_empty() {
        Standing::Unmeasured
    } else if !is_contested(Share::new(chance.min(1.0)).unwrap_or(Share::NONE)) {
        Standing::Upheld
    } else if chance <= 1.0 - SETTLED_AT && !is_contested(*leading) {
        Standing::Contradicted { verdict: verdict.clone(), share: *leading }
    } else {
        Standing::Unmeasured
    }
}

/// Whether a claim's words name an answer, whole words only: "semi-determinate" does not name "determinate".
fn names(words: &str, about: ClaimSubject, answer: &str) -> bool {
    let words = words
        .to_lowercase()
        .replace("semi determinate", "semi-determinate")
        .replace("micro dwarf", "micro-dwarf");
    let mut said = words.split(|letter: char| !letter.is_alphanumeric() && letter != '-');
    said.any(|word| word == answer || means(about, word) == Some(answer))
}

fn means(about: ClaimSubject, word: &str) -> Option<&'static str> {
    let mut known = OTHER_WORDS.iter();
    known.find(|(subject, other, _)| *subject == about && *other == word).map(|(_, _, answer)| *answer)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shares(all: &[(&str, f64)]) -> Vec<(String, Share)> {
        all.iter().map(|(answer, share)| ((*answer).to_owned(), Share::new(*share).unwrap())).collect()
    }

    #[track_caller]
    fn agrees(words: &str, about: ClaimSubject, all: &[(&str, f64)], standing: &Standing) {
        assert_eq!(stand(words, about, &shares(all)), *standing, "{words}");
    }

    #[test]
    fn a_claimed_weight_is_held_against_the_scale() {
        let grams = |grams| Grams::new(grams).unwrap();
        let stand = |usual, fruits| stand_weight(grams(113.0), grams(170.0), grams(usual), fruits);
        assert_eq!(stand(150.0, 30), Standing::Upheld);
        assert_eq!(stand(300.0, 30), Standing::MeasuredAs(grams(300.0)));
        assert_eq!(stand(300.0, 3), Standing::Unmeasured);
    }

    #[test]
    fn a_claim_is_upheld_contradicted_or_left_open() {
        let sure = [("semi-determinate", 0.97), ("determinate", 0.03)];
        let share = Share::new(0.97).unwrap();
        let against = Standing::Contradicted { verdict: "semi-determinate".into(), share };
        agrees("Semi-determinate", ClaimSubject::Habit, &sure, &Standing::Upheld);
        agrees("semi determinate, strong", ClaimSubject::Habit, &sure, &Standing::Upheld);
        agrees("bush", ClaimSubject::Habit, &sure, &against);
        agrees("vigorous", ClaimSubject::Habit, &sure, &Standing::Unmeasured);
        let open = [("plum", 0.55), ("grape", 0.45)];
        agrees("grape", ClaimSubject::FruitClass, &open, &Standing::Unmeasured);
        agrees("plum", ClaimSubject::FruitClass, &[], &Standing::Unmeasured);
    }
}
