//! How long comparisons made together and models of counts take.
//!
//! `cargo bench --profile release -p statistics --bench multiplicity`.

#![expect(clippy::indexing_slicing, reason = "tables made a line above")]
#![expect(clippy::expect_used, reason = "a bench that cannot be set up should stop")]

use divan::{Bencher, black_box};
use record::share::Share;
use statistics::counts::{Family, Model, fit};
use statistics::draws::{normal, stream};
use statistics::multiplicity::check::{Question, USUAL_ERROR, against_check};
use statistics::multiplicity::contrasts::{FromCheck, Means};
use statistics::multiplicity::letters::Letters;
use statistics::multiplicity::pairs::tukey_kramer;
use statistics::students_t::Degrees;

fn main() {
    divan::main();
}

const VARIETIES: usize = 50;

fn level() -> Share {
    Share::new(0.95).expect("a share")
}

/// Fifty means, their errors uneven by `lost` (plots lost here and there).
fn from_check(lost: f64) -> FromCheck {
    let mut chance = stream(&["bench", "fifty varieties"]);
    let estimates: Vec<f64> = (0..VARIETIES).map(|_| normal(&mut chance)).collect();
    let mut covariance = vec![vec![0.0; VARIETIES]; VARIETIES];
    for (i, row) in covariance.iter_mut().enumerate() {
        row[i] = 0.25;
    }
    // Each lost plot's block ties a few varieties together.
    for _ in 0..30 {
        let tied: Vec<f64> = (0..VARIETIES).map(|_| lost * normal(&mut chance) / 7.0).collect();
        for (row, a) in covariance.iter_mut().zip(&tied) {
            row.iter_mut().zip(&tied).for_each(|(cell, b)| *cell += a * b);
        }
    }
    let degrees = Degrees::new(98.0).expect("degrees");
    let means = Means::new(&estimates, &covariance).expect("means");
    means.from_check(0, |_| degrees).expect("differences")
}

fn judge(from_check: &FromCheck) -> usize {
    let contrasts: Vec<_> = from_check.pairs.iter().map(|pair| pair.contrast).collect();
    let judged = against_check(&contrasts, &from_check.correlation, Question::Differs, level());
    judged.expect("judgements").len()
}

/// 49 varieties against a check, complete blocks.
#[divan::bench(sample_count = 10)]
fn check_complete_blocks(bencher: Bencher) {
    let from_check = from_check(0.0);
    bencher.bench_local(|| judge(black_box(&from_check)));
}

/// The same with correlations that no shared part explains.
#[divan::bench(sample_count = 3)]
fn check_uneven(bencher: Bencher) {
    let from_check = from_check(0.05);
    bencher.bench_local(|| judge(black_box(&from_check)));
}

/// All 1,225 pairs, with letters.
#[divan::bench(sample_count = 10)]
fn pairs_and_letters(bencher: Bencher) {
    let mut chance = stream(&["bench", "pairs"]);
    let estimates: Vec<f64> = (0..VARIETIES).map(|_| normal(&mut chance)).collect();
    let covariance: Vec<Vec<f64>> =
        (0..VARIETIES).map(|i| (0..VARIETIES).map(|j| if i == j { 0.1 } else { 0.0 }).collect()).collect();
    let degrees = Degrees::new(98.0).expect("degrees");
    let pairs =
        Means::new(&estimates, &covariance).expect("means").every_pair(|_, _| degrees).expect("pairs");
    bencher.bench_local(|| {
        let judged = tukey_kramer(VARIETIES as u32, black_box(&pairs), level()).expect("judgements");
        let mut apart = vec![vec![false; VARIETIES]; VARIETIES];
        for own in judged.iter().filter(|own| own.differs()) {
            apart[own.pair.first][own.pair.second] = true;
            apart[own.pair.second][own.pair.first] = true;
        }
        let mut order: Vec<usize> = (0..VARIETIES).collect();
        order.sort_by(|a, b| estimates[*b].total_cmp(&estimates[*a]));
        Letters::new(&order, |i, j| apart[i][j]).groups().len()
    });
}

/// 2,400 counts in 60 by 40 crossed groups.
#[divan::bench(sample_count = 3)]
fn counts_crossed(bencher: Bencher) {
    let mut chance = stream(&["bench", "counts"]);
    let (first, second): (Vec<usize>, Vec<usize>) =
        (0..60).flat_map(|a| (0..40).map(move |b| (a, b))).unzip();
    let effects: Vec<f64> = (0..100).map(|_| 0.5 * normal(&mut chance)).collect();
    let seen: Vec<u32> = first
        .iter()
        .zip(&second)
        .map(|(a, b)| (1.5 + effects[*a] + effects[60 + b] + 0.4 * normal(&mut chance)).exp() as u32)
        .collect();
    let (columns, groups) = ([vec![1.0; seen.len()]], [first, second]);
    let model = Model {
        family: Family::Poisson,
        seen: &seen,
        columns: &columns,
        groups: &groups,
        offset: None,
        weights: None,
    };
    bencher.bench_local(|| fit(black_box(&model)).expect("a fit").log_likelihood);
}

/// The same work with points enough for chances ten times closer.
#[divan::bench(sample_count = 1, sample_size = 1)]
fn check_uneven_closer(bencher: Bencher) {
    let from_check = from_check(0.05);
    let family = |correlation: &[Vec<f64>]| {
        statistics::multiplicity::check::Family::new(correlation, Question::Differs, 0.1 * USUAL_ERROR)
            .expect("a family")
            .error()
    };
    bencher.bench_local(|| family(black_box(&from_check.correlation)));
}
