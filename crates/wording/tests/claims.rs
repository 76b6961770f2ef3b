//! Old catalogue texts taken apart, written down as a reader would take them apart before the program did.

use proptest::prelude::any;
use proptest::{prop_assert, proptest};
use record::variety::ClaimSubject;
use wording::claims::taken_apart;
use wording::vocabulary::Vocabulary;

#[track_caller]
fn agrees(text: &str, expected: &[(ClaimSubject, &str)]) {
    let claims = taken_apart(text, &Vocabulary::of_the_trade());
    let told: Vec<(ClaimSubject, &str)> =
        claims.iter().map(|claim| (claim.about, claim.words.as_str())).collect();
    assert_eq!(told, expected, "{text:?}");
}

#[test]
fn texts_are_taken_apart_as_a_reader_would() {
    use ClaimSubject::{Colour, DaysToMaturity, FruitClass, FruitWeight, Habit, Other, Purpose};
    agrees(
        "Large 12 oz red beefsteak, vine, 80 days, great for slicing",
        &[
            (Other, "Large"),
            (FruitWeight, "12 oz"),
            (Colour, "red"),
            (FruitClass, "beefsteak"),
            (Habit, "vine"),
            (DaysToMaturity, "80 days"),
            (Purpose, "slicing"),
        ],
    );
    agrees(
        "Grandmother's favourite. Det. plum of 2 to 3 oz (57-85 g) for bottling; never cracks",
        &[
            (Other, "Grandmother's favourite"),
            (Habit, "Det"),
            (FruitClass, "plum"),
            (FruitWeight, "2 to 3 oz (57-85 g)"),
            (Purpose, "bottling"),
            (Other, "never cracks"),
        ],
    );
    agrees(
        "Sow \u{bd} inch deep at 21 \u{b0}C.\nPot on when the first true leaves show.",
        &[(Other, "Sow \u{bd} inch deep at 21 \u{b0}C"), (Other, "Pot on when the first true leaves show")],
    );
    agrees(
        "Harden off for a week. Early, sweet and mild",
        &[(Other, "Harden off for a week"), (DaysToMaturity, "Early"), (Other, "sweet and mild")],
    );
    agrees(
        "Yellow striped oxheart, not for canning",
        &[(Colour, "Yellow"), (Other, "striped oxheart"), (Other, "not for canning")],
    );
    agrees("", &[]);
}

proptest! {
    /// Whatever the text, every claim has words, and the words stand in the text but for its blanks.
    #[test]
    fn every_claim_is_in_the_texts_own_words(text in any::<String>(), known in "(red|bush|sow|4 oz|, |\\. |not |week|pots ){0,12}") {
        let text = format!("{text} {known}");
        let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        for claim in taken_apart(&text, &Vocabulary::of_the_trade()) {
            prop_assert!(!claim.words.is_empty());
            prop_assert!(plain(&text).contains(&claim.words), "{:?} in {:?}", claim.words, text);
        }
    }
}
