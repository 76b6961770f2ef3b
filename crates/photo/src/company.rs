//! What the fruit of one photograph say of each other: they are mostly of one variety.
//!
//! A flat fruit on its side and a plum look much the same from above, unless the green of the stem is seen. Where fruit of the
//! same colour and the same proportions lie beside one, and of them the stem's way is sure, it is taken to be theirs. Start at
//! [`lies_across`].

use crate::colour::{Lab, difference};

/// Fruit whose colours lie nearer than this, in CIEDE2000 steps, may be of one variety (found on the made pictures).
const LIKE_COLOUR: f64 = 8.0;
/// Fruit whose longer over shorter sides differ by less than this factor may be of one variety (found on the made pictures).
const LIKE_RATIO: f64 = 1.25;
/// Rounder fruit than this say nothing of each other's stems.
const LEAST_RATIO: f64 = 1.15;

/// A fruit that lies on its side, as its neighbours see it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Companion {
    /// Length over width, as measured.
    pub(crate) ratio: f64,
    /// Its colour, where it is known.
    pub(crate) colour: Option<Lab>,
    /// Whether something other than its proportions tells which way its stem lies.
    pub(crate) stem: Stem,
}

/// What tells which way a stem lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stem {
    /// Its green or its size.
    Sure,
    /// Its proportions alone.
    Guessed,
}

impl Companion {
    fn roundness(self) -> f64 {
        self.ratio.max(1.0 / self.ratio)
    }

    fn is_like(self, other: Self) -> bool {
        let (one, two) = (self.roundness(), other.roundness());
        let colours = self.colour.zip(other.colour);
        LEAST_RATIO < one.min(two)
            && one.max(two) < LIKE_RATIO * one.min(two)
            && colours.is_some_and(|(one, two)| difference(one, two) < LIKE_COLOUR)
    }
}

/// Whether a fruit's stem lies across the axis that its proportions chose: most of those like it, whose stems are sure, are long
/// where it is flat, or flat where it is long.
pub(crate) fn lies_across(own: Companion, all: &[Companion]) -> bool {
    if own.stem == Stem::Sure {
        return false;
    }
    let like = all.iter().filter(|other| other.stem == Stem::Sure && own.is_like(**other));
    let (same, other): (Vec<&Companion>, Vec<&Companion>) =
        like.partition(|other| (1.0 < other.ratio) == (1.0 < own.ratio));
    same.len() < other.len()
}

#[cfg(test)]
mod tests {
    use super::{Companion, Stem, lies_across};
    use crate::colour::Lab;

    const RED: Lab = Lab { l: 40.0, a: 45.0, b: 30.0 };
    const YELLOW: Lab = Lab { l: 75.0, a: 5.0, b: 65.0 };

    fn companion(ratio: f64, colour: Lab, stem: Stem) -> Companion {
        Companion { ratio, colour: Some(colour), stem }
    }

    #[test]
    fn a_guessed_stem_follows_those_of_its_kind() {
        let guessed = companion(1.5, RED, Stem::Guessed);
        let flat = companion(0.65, RED, Stem::Sure);
        assert!(lies_across(guessed, &[guessed, flat]));
        assert!(
            !lies_across(guessed, &[guessed, flat, companion(1.45, RED, Stem::Sure)]),
            "one each says nothing"
        );
        assert!(!lies_across(flat, &[flat, companion(1.5, RED, Stem::Sure)]), "what is sure is not turned");
    }

    #[test]
    fn other_kinds_say_nothing() {
        let guessed = companion(1.5, RED, Stem::Guessed);
        for other in [
            companion(0.65, YELLOW, Stem::Sure),
            companion(0.9, RED, Stem::Sure),
            companion(0.65, RED, Stem::Guessed),
        ] {
            assert!(!lies_across(guessed, &[guessed, other]), "{other:?}");
        }
    }
}
