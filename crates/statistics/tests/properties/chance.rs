//! Logarithms, intervals, weights and draws.

use proptest::prelude::*;
use record::share::Share;
use statistics::draws::{NormalPoints, normal, stream, student};
use statistics::information::{aicc, akaike_weights, normal_log_likelihood};
use statistics::intervals::{Tally, clopper_pearson, wilson};
use statistics::logarithms::{log_add_exp, log_rest, log_sum_exp, shares};
use statistics::normal::chance_below;

proptest! {
    /// Adding the same to every logarithm adds it to the sum and changes no share.
    #[test]
    fn shares_do_not_see_a_common_factor(logs in prop::collection::vec(-30.0..30.0_f64, 1..8), by in -900.0..900.0_f64) {
        let moved: Vec<f64> = logs.iter().map(|log| log + by).collect();
        prop_assert!((log_sum_exp(&moved) - log_sum_exp(&logs) - by).abs() < 1e-9);
        let (one, other) = (shares(&logs).unwrap(), shares(&moved).unwrap());
        prop_assert!((one.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        prop_assert!(one.iter().zip(&other).all(|(a, b)| (a - b).abs() < 1e-9));
        let pairwise = logs.iter().fold(f64::NEG_INFINITY, |sum, log| log_add_exp(sum, *log));
        prop_assert!((pairwise - log_sum_exp(&logs)).abs() < 1e-9);
    }

    /// A probability and its rest make a whole.
    #[test]
    fn rest_makes_whole(log in -40.0..-1e-12_f64) {
        prop_assert!(log_add_exp(log, log_rest(log).unwrap()).abs() < 1e-12);
    }

    /// The exact interval holds the share seen, holds Wilson's centre, and narrows with the level.
    #[test]
    fn intervals_hold_what_was_seen(looked_at in 1..500_u64, at in any::<prop::sample::Index>(), level in 0.1..0.98_f64) {
        let seen = at.index(usize::try_from(looked_at).unwrap() + 1) as u64;
        let tally = Tally::new(seen, looked_at).unwrap();
        let share = Share::of(seen, looked_at).unwrap();
        let [narrow, wide] = [level, level + 0.01].map(|level| clopper_pearson(tally, Share::new(level).unwrap()));
        prop_assert!(narrow.low <= share && share <= narrow.high);
        prop_assert!(wide.low <= narrow.low && narrow.high <= wide.high);
        let score = wilson(tally, Share::new(level).unwrap());
        prop_assert!(score.low <= share && share <= score.high);
        // Seen and not seen are the same question turned round.
        let turned = clopper_pearson(Tally::new(looked_at - seen, looked_at).unwrap(), Share::new(level).unwrap());
        prop_assert!((turned.low.rest().get() - narrow.high.get()).abs() < 1e-12);
    }

    /// A model with a smaller criterion never weighs less.
    #[test]
    fn better_models_weigh_more(criteria in prop::collection::vec(prop::option::of(-50.0..50.0_f64), 2..6)) {
        if let Some(weights) = akaike_weights(&criteria) {
            prop_assert!((weights.iter().sum::<f64>() - 1.0).abs() < 1e-12);
            let ranked: Vec<(f64, f64)> = criteria.iter().zip(&weights)
                .filter_map(|(criterion, weight)| criterion.map(|criterion| (criterion, *weight))).collect();
            for (one, weight) in &ranked {
                prop_assert!(ranked.iter().all(|(other, than)| other < one || than <= weight));
            }
        } else {
            prop_assert!(criteria.iter().all(Option::is_none));
        }
    }

    /// Every key has a stream of its own, and the same one each time.
    #[test]
    fn streams_hang_on_their_key(a in "[a-z]{1,4}", b in "[a-z]{1,4}") {
        let first = |key: &[&str]| normal(&mut stream(key)).to_bits();
        prop_assert_eq!(first(&[&a, &b]), first(&[&a, &b]));
        let joined = format!("{a}{b}");
        prop_assert_ne!(first(&[&a, &b]), first(&[&joined]));
    }
}

/// Impossible weights share nothing out.
#[test]
fn nothing_to_share() {
    assert_eq!(shares(&[]), None);
    assert_eq!(shares(&[f64::NEG_INFINITY; 3]), None);
    assert_eq!(log_rest(0.1), None);
}

/// AICc of a small table by hand: RSS 8 of 8 readings, 3 parameters: L = -4 (ln(2 pi) + 1),
/// AIC = 8 (ln(2 pi) + 1) + 6, and 2 x 3 x 4 / 4 = 6 more.
#[test]
fn aicc_by_hand() {
    let log_likelihood = normal_log_likelihood(8.0, 8).unwrap();
    let expected = 8.0 * (std::f64::consts::TAU.ln() + 1.0) + 12.0;
    assert!((aicc(log_likelihood, 3, 8).unwrap() - expected).abs() < 1e-12);
    assert_eq!(aicc(log_likelihood, 7, 8), None);
    assert_eq!(normal_log_likelihood(0.0, 8), None);
}

/// Draws have the mean and spread that they should, within four standard errors.
#[test]
fn draws_are_standard() {
    let mut stream = stream(&["draws", "are", "standard"]);
    let count = 40_000;
    let draws: Vec<f64> = (0..count).map(|_| normal(&mut stream)).collect();
    let mean = draws.iter().sum::<f64>() / f64::from(count);
    let square = draws.iter().map(|draw| draw * draw).sum::<f64>() / f64::from(count);
    assert!(mean.abs() < 4.0 / 200.0, "{mean}");
    assert!((square - 1.0).abs() < 4.0 * 2.0_f64.sqrt() / 200.0, "{square}");
    assert!(student(&mut stream, 5.0).unwrap().is_finite());
    assert_eq!(student(&mut stream, 0.0), None);
}

/// Chances of 81 corners in four dimensions, known exactly: with 512 points their errors are under a third
/// of the standard errors that random draws would have.
#[test]
fn even_points_beat_random_draws() {
    let points = NormalPoints::new(4, 512);
    let edges = [-0.5, 0.3, 1.1];
    let mut squares = 0.0;
    for corner in 0..81_usize {
        let edge = |dimension: u32| edges[corner / 3_usize.pow(dimension) % 3];
        let inside = |point: &&[f64]| (0..4).all(|dimension| point[dimension as usize] < edge(dimension));
        let expected: f64 = (0..4).map(|dimension| chance_below(edge(dimension))).product();
        let found = points.iter().filter(inside).count() as f64 / 512.0;
        squares += (found - expected).powi(2) * 512.0 / (expected * (1.0 - expected));
    }
    let error = (squares / 81.0).sqrt();
    assert!(error < 1.0 / 3.0, "{error} of a random draw's error");
}

/// Each coordinate by itself has mean 0 and spread 1 to within one and two hundredths at 512 points.
#[test]
fn even_points_are_standard() {
    let points = NormalPoints::new(6, 512);
    for dimension in 0..6 {
        let mean = points.iter().map(|point| point[dimension]).sum::<f64>() / 512.0;
        let square = points.iter().map(|point| point[dimension].powi(2)).sum::<f64>() / 512.0;
        assert!(mean.abs() < 0.01 && (square - 1.0).abs() < 0.02, "{dimension}: {mean} {square}");
    }
}
