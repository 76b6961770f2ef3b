//! What must hold of comparisons made together, and how they stand to comparisons made alone.

use proptest::prelude::*;
use record::share::Share;
use statistics::multiplicity::check::{Family, Question, USUAL_ERROR, against_check};
use statistics::multiplicity::contrasts::Means;
use statistics::multiplicity::letters::Letters;
use statistics::multiplicity::pairs::tukey_kramer;
use statistics::multiplicity::steps::holm;
use statistics::multiplicity::studentised::StudentisedRange;
use statistics::power::power;
use statistics::students_t::{Degrees, chance_beyond, critical};

fn degrees() -> impl Strategy<Value = Degrees> {
    prop_oneof![(1.0..200.0_f64).prop_map(|n| Degrees::new(n).unwrap()), Just(Degrees::ENDLESS)]
}

/// Correlations of differences from a check, by the shares of the shared part.
fn from_shares(shares: &[f64]) -> Vec<Vec<f64>> {
    let cell = |i: usize, j: usize| if i == j { 1.0 } else { shares[i] * shares[j] };
    (0..shares.len()).map(|i| (0..shares.len()).map(|j| cell(i, j)).collect()).collect()
}

fn level(share: f64) -> Share {
    Share::new(share).unwrap()
}

/// Which pairs of up to nine means were told apart.
fn apart() -> impl Strategy<Value = (usize, Vec<bool>)> {
    (0..10_usize).prop_flat_map(|n| (Just(n), prop::collection::vec(any::<bool>(), n * n)))
}

proptest! {
    /// The range of two means is |t| times the root of two.
    #[test]
    fn two_means_are_students_t(q in 0.0..30.0_f64, n in degrees()) {
        let range = StudentisedRange::new(2).unwrap().chance_above(q, n).get();
        let t = chance_beyond(q / 2.0_f64.sqrt(), n).get();
        prop_assert!((range - t).abs() <= 1e-8 * t.max(1e-6), "{range} {t}");
    }

    /// A quantile is where its own chance lies.
    #[test]
    fn ranges_go_there_and_back(means in 2..60_u32, n in degrees(), covered in 0.5..0.9999_f64) {
        let range = StudentisedRange::new(means).unwrap();
        let quantile = range.quantile(level(covered), n).unwrap();
        let above = range.chance_above(quantile, n).get();
        prop_assert!((above / (1.0 - covered) - 1.0).abs() < 1e-9);
    }

    /// One difference alone is Student's t.
    #[test]
    fn a_family_of_one_is_students_t(t in -8.0..8.0_f64, n in degrees()) {
        let family = Family::new(&from_shares(&[0.7]), Question::Differs, USUAL_ERROR).unwrap();
        prop_assert!((family.chance(t, n).get() - chance_beyond(t, n).get()).abs() < 1e-10);
    }

    /// Together is never easier than alone, never harder than the sum; a clearer difference is never likelier.
    #[test]
    fn families_keep_their_bounds(
        shares in prop::collection::vec(0.2..0.9_f64, 2..8), t in 0.1..5.0_f64, n in degrees(),
    ) {
        let family = Family::new(&from_shares(&shares), Question::Differs, USUAL_ERROR).unwrap();
        prop_assert_eq!(family.error(), 0.0);
        let (alone, together) = (chance_beyond(t, n).get(), family.chance(t, n).get());
        prop_assert!(alone <= together + 1e-10 && together <= shares.len() as f64 * alone + 1e-10);
        prop_assert!(family.chance(t + 0.1, n).get() <= together);
        prop_assert!(critical(level(0.95), n) <= family.critical(level(0.95), n).map(|c| c + 1e-9));
    }

    /// More than the check one way round is less the other way round.
    #[test]
    fn more_and_less_are_mirrored(shares in prop::collection::vec(0.1..0.9_f64, 2..6), t in -3.0..4.0_f64) {
        let correlation = from_shares(&shares);
        let n = Degrees::new(12.0).unwrap();
        let ask = |question, t| Family::new(&correlation, question, USUAL_ERROR).unwrap().chance(t, n).get();
        prop_assert!((ask(Question::More, t) - ask(Question::Less, -t)).abs() < 1e-12);
    }

    /// A difference is found (p under 1 - level) exactly where its interval leaves nothing out.
    #[test]
    fn intervals_and_chances_tell_the_same(
        estimates in prop::collection::vec(-3.0..3.0_f64, 2..7), spread in 0.1..2.0_f64, n in 2.0..50.0_f64,
    ) {
        let size = estimates.len();
        let covariance: Vec<Vec<f64>> = (0..size)
            .map(|i| (0..size).map(|j| if i == j { spread * (1.0 + i as f64 * 0.2) } else { 0.0 }).collect())
            .collect();
        let means = Means::new(&estimates, &covariance).unwrap();
        let n = Degrees::new(n).unwrap();
        let from_check = means.from_check(0, |_| n).unwrap();
        let contrasts: Vec<_> = from_check.pairs.iter().map(|pair| pair.contrast).collect();
        for judged in against_check(&contrasts, &from_check.correlation, Question::Differs, level(0.9)).unwrap() {
            let outside = judged.low > Some(0.0) || judged.high < Some(0.0);
            let edge = (judged.chance.get() - 0.1).abs() < 1e-8;
            prop_assert!(edge || outside == (judged.chance.get() < 0.1), "{judged:?}");
        }
        let pairs = means.every_pair(|_, _| n).unwrap();
        for judged in tukey_kramer(size as u32, &pairs, level(0.9)).unwrap() {
            let edge = (judged.chance.get() - 0.1).abs() < 1e-8;
            prop_assert!(edge || judged.differs() == (judged.chance.get() < 0.1), "{judged:?}");
        }
    }

    /// Two means share a letter exactly where they were not told apart, and no letter can be left out.
    #[test]
    fn letters_say_what_was_told_apart((n, told) in apart()) {
        let apart = |i: usize, j: usize| told[i.min(j) * n + i.max(j)];
        let order: Vec<usize> = (0..n).rev().collect();
        let letters = Letters::new(&order, apart);
        for i in 0..n {
            for j in 0..n {
                prop_assert_eq!(letters.share(i, j), i == j || !apart(i, j), "{} {}", i, j);
            }
        }
        prop_assert!(letters.of_means().iter().all(|own| !own.is_empty()));
        for left_out in 0..letters.groups().len() {
            let shared = |i: usize, j: usize| {
                letters.groups().iter().enumerate()
                    .any(|(at, group)| at != left_out && group.contains(&i) && group.contains(&j))
            };
            prop_assert!((0..n).any(|i| (0..=i).any(|j| letters.share(i, j) && !shared(i, j))));
        }
    }

    /// Holm's values keep the order, are at least the p values, and at most Bonferroni's.
    #[test]
    fn steps_lie_between_alone_and_summed(chances in prop::collection::vec(0.0..1.0_f64, 0..12)) {
        let shares: Vec<Share> = chances.iter().copied().map(level).collect();
        let held = holm(&shares);
        for (held, own) in held.iter().zip(&chances) {
            prop_assert!(*own <= held.get() && held.get() <= (own * chances.len() as f64).min(1.0));
        }
        for (i, a) in chances.iter().enumerate() {
            for (j, b) in chances.iter().enumerate() {
                prop_assert!(b < a || held[i] <= held[j]);
            }
        }
    }

    /// A larger difference is found more often; none at all is found half as often as the level allows.
    #[test]
    fn power_grows_with_the_difference(clear in 0.0..6.0_f64, more in 0.01..2.0_f64, n in degrees()) {
        let found = |clear| power(clear, n, level(0.95)).get();
        prop_assert!(found(clear) <= found(clear + more) + 1e-12);
        prop_assert!((found(0.0) - 0.025).abs() < 1e-8);
    }
}

/// Five varieties in a table worked by hand: the best two apart from the worst two, the middle one from none.
#[test]
fn letters_by_hand() {
    let apart = |i: usize, j: usize| (i < 2 && 2 < j) || (j < 2 && 2 < i);
    let letters = Letters::new(&[0, 1, 2, 3, 4], apart);
    assert_eq!(letters.of_means(), ["a", "a", "ab", "b", "b"]);
}
