//! Exact chances of counts, the exact test of two shares, probit lines and outlying rows, beside R 4.2.2 (each with its call).

use record::share::Share;
use statistics::binomial::{Binomial, Seen, range_beyond, same_share};
use statistics::outlying;
use statistics::probit::{Point, ProbitFault, fit};

#[track_caller]
fn printed(what: &str, found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{what}: found {found}, expected {expected}");
}

fn tries(trials: u32, share: f64) -> Binomial {
    Binomial { trials, share: Share::new(share).unwrap() }
}

/// R: `pbinom(299,400,.75)`, `pbinom(2,20,.05)`, `pbinom(3,100,.01)`, `pbinom(0,60,.05)`,
/// `pbinom(41,50,.75,lower=FALSE)`; `dbinom(300,400,.75)`, `dbinom(0,20,.05)`, `dbinom(100,100,.99)`.
#[test]
fn chances_agree_with_r() {
    printed("at most 299", tries(400, 0.75).at_most(299).get(), 0.473_162_414_222, 5e-13);
    printed("at most 2", tries(20, 0.05).at_most(2).get(), 0.924_516_326_212, 5e-13);
    printed("at most 3", tries(100, 0.01).at_most(3).get(), 0.981_625_963_555, 5e-13);
    printed("none", tries(60, 0.05).at_most(0).get(), 0.046_069_798_987, 5e-14);
    printed("at least 42", tries(50, 0.75).at_least(42).get(), 0.091_597_258_831, 5e-14);
    printed("300 of 400", tries(400, 0.75).chances()[300], 0.046_024_318_234_4, 5e-14);
    printed("none of 20", tries(20, 0.05).chances()[0], 0.358_485_922_409, 5e-13);
    printed("all of 100", tries(100, 0.99).chances()[100], 0.366_032_341_273, 5e-13);
}

#[test]
fn certain_and_impossible_counts_are_told_as_such() {
    for (share, place) in [(0.0, 0), (1.0, 7)] {
        let certain = tries(7, share);
        let chances = certain.chances();
        assert_eq!(chances.iter().position(|chance| *chance == 1.0), Some(place));
        assert_eq!(chances.iter().sum::<f64>(), 1.0);
        assert_eq!(certain.at_most(6).get(), 1.0 - share);
        assert_eq!(certain.at_least(1).get(), share);
    }
    assert_eq!(tries(7, 0.5).at_most(7), Share::ALL);
    assert_eq!(tries(7, 0.5).at_least(8), Share::NONE);
}

/// Every division of two and three replicates of five, added up one by one.
#[test]
fn ranges_agree_with_counting_them_out() {
    let chances = tries(5, 0.7).chances();
    for beyond in 0..5_usize {
        let (mut two, mut three) = (0.0, 0.0);
        for a in 0..=5_usize {
            for b in 0..=5 {
                two += if a.abs_diff(b) > beyond { chances[a] * chances[b] } else { 0.0 };
                for c in 0..=5 {
                    let range = a.max(b).max(c) - a.min(b).min(c);
                    three += if range > beyond { chances[a] * chances[b] * chances[c] } else { 0.0 };
                }
            }
        }
        let beyond = u32::try_from(beyond).unwrap();
        printed("two", range_beyond(tries(5, 0.7), 2, beyond).get(), two, 1e-14);
        printed("three", range_beyond(tries(5, 0.7), 3, beyond).get(), three, 1e-14);
    }
}

/// R: `fisher.test(matrix(c(a, n-a, b, m-b), 2))$p.value`.
#[test]
fn two_counts_agree_with_r() {
    for (a, n, b, m, expected, within) in [
        (320, 400, 288, 400, 0.010_169_341_361_7, 5e-14),
        (20, 25, 15, 25, 0.216_534_219_431, 5e-13),
        (24, 25, 18, 25, 0.048_797_153_695_7, 5e-14),
        (0, 20, 3, 30, 0.265_306_122_449, 5e-13),
        (50, 50, 50, 50, 1.0, 5e-13),
    ] {
        let first = Seen { seen: a, looked_at: n };
        let second = Seen { seen: b, looked_at: m };
        printed("same share", same_share(first, second).unwrap().get(), expected, within);
        printed("the other way round", same_share(second, first).unwrap().get(), expected, within);
    }
    assert_eq!(same_share(Seen { seen: 3, looked_at: 2 }, Seen { seen: 0, looked_at: 2 }), None);
}

/// R: `m <- glm(cbind(y, n-y) ~ d, family=binomial(link="probit"), control=glm.control(epsilon=1e-14, maxit=100))`,
/// then `coef(m)`, `vcov(m)` (start, slope, both) and `deviance(m)` to ten digits.
#[test]
fn probit_lines_agree_with_r() {
    type Case<'a> = (&'a [f64], &'a [u32], &'a [u32], [f64; 6]);
    let cases: [Case<'_>; 3] = [
        (
            &[30.0, 400.0, 760.0, 1130.0],
            &[380, 368, 340, 301],
            &[400; 4],
            [1.720393027, -0.0009077034007, 0.007395405631, 1.123789867e-08, -8.013842185e-06, 0.5216036574],
        ),
        (
            &[10.0, 380.0, 730.0],
            &[48, 45, 38],
            &[50; 3],
            [1.803011703, -0.001482887775, 0.0810772454, 2.604374934e-07, -0.0001273878911, 0.04928417766],
        ),
        (
            &[0.0, 365.0, 730.0, 1095.0, 1460.0],
            &[97, 186, 88, 331, 61],
            &[100, 200, 100, 400, 100],
            [1.923870278, -0.0009866026152, 0.0210846753, 1.945135224e-08, -1.885304398e-05, 4.919226964],
        ),
    ];
    for (days, seen, looked_at, [start, slope, of_start, of_slope, both, deviance]) in cases {
        let counts = seen.iter().zip(looked_at);
        let points = days.iter().zip(counts).map(|(x, (seen, looked_at))| Point {
            x: *x,
            seen: *seen,
            looked_at: *looked_at,
        });
        let line = fit(&points.collect::<Vec<_>>()).unwrap();
        let nine_digits = |value: f64| 5e-9 * value.abs();
        printed("start", line.start, start, nine_digits(start));
        printed("slope", line.slope, slope, nine_digits(slope));
        // R leaves its covariance as of the last step but one.
        printed("variance of the start", line.covariance.start, of_start, 1e-7 * of_start);
        printed("variance of the slope", line.covariance.slope, of_slope, 1e-7 * of_slope);
        printed("covariance", line.covariance.both, both, 1e-7 * both.abs());
        printed("deviance", line.deviance, deviance, nine_digits(deviance));
    }
}

#[test]
fn what_gives_no_line_is_told() {
    let point = |x, seen, looked_at| Point { x, seen, looked_at };
    assert_eq!(fit(&[point(1.0, 3, 2)]), Err(ProbitFault::NoCount));
    assert_eq!(fit(&[point(1.0, 1, 2), point(1.0, 2, 4)]), Err(ProbitFault::OneX));
    assert_eq!(fit(&[point(0.0, 50, 50), point(1.0, 50, 50)]), Err(ProbitFault::NoTop));
    assert_eq!(fit(&[point(0.0, 50, 50), point(1.0, 0, 50)]), Err(ProbitFault::NoTop));
}

/// R: `w <- c(212,198,225,205,231,190,219,208,330,202); l <- c(58,55,60,57,62,54,59,56,61,57)`,
/// `X <- cbind(log(w),log(l)); n <- 10; p <- 2; d <- mahalanobis(X,colMeans(X),cov(X))`,
/// `pbeta(n*d/(n-1)^2,p/2,(n-p-1)/2,lower=FALSE)`.
#[test]
fn outlying_rows_agree_with_r() {
    let weight = [212.0, 198.0, 225.0, 205.0, 231.0, 190.0, 219.0, 208.0, 330.0, 202.0];
    let length = [58.0, 55.0, 60.0, 57.0, 62.0, 54.0, 59.0, 56.0, 61.0, 57.0];
    let rows: Vec<Vec<f64>> =
        weight.iter().zip(length).map(|(w, l): (&f64, f64)| vec![w.ln(), l.ln()]).collect();
    let expected = [
        (0.938_338_740_9, 5e-11),
        (0.539_136_107_2, 5e-11),
        (0.620_807_517_4, 5e-11),
        (0.919_853_113_3, 5e-11),
        (0.123_976_060_1, 5e-11),
        (0.289_365_390_2, 5e-11),
        (0.832_068_171, 5e-10),
        (0.768_097_936_7, 5e-11),
        (4.660_134_318e-7, 5e-16),
        (0.880_791_095, 5e-10),
    ];
    for (found, (chance, within)) in outlying::chances(&rows).unwrap().into_iter().zip(expected) {
        printed("outlying", found.get(), chance, within);
    }
    assert_eq!(outlying::chances(&rows[..3]), None);
    assert_eq!(outlying::chances(&vec![vec![1.0, 2.0]; 8]), None);
    assert_eq!(outlying::chances(&[]), None);
}
