//! A residual structure of the caller's: plots along a line, each like its neighbours.

use crate::plain::{Rows, answer_with};
use proptest::prelude::*;
use statistics::mixed::residual::{Cell, Parameter, ParameterKind, Residual, Setting, Structure};
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::{Going, MixedFault, Model, criterion_at, fit};
use statistics::nested::Likelihood;
use std::sync::Arc;

/// Covariance `variance * correlation^distance` over `count` plots in a row.
///
/// Its inverse times `variance (1 - correlation^2)` is the identity, plus `correlation^2` on the inner plots,
/// less `correlation` between neighbours.
#[derive(Debug)]
struct Line {
    count: usize,
}

impl Structure for Line {
    fn parameters(&self) -> Vec<Parameter> {
        let bounded = ParameterKind::Bounded { start: 0.3, least: -1.0, most: 1.0 };
        vec![
            Parameter { name: "residual".to_owned(), kind: ParameterKind::Variance },
            Parameter { name: "correlation".to_owned(), kind: bounded },
        ]
    }

    fn pieces(&self) -> Vec<Vec<Cell>> {
        let own = |row: usize| Cell { row, other: row, value: 1.0 };
        let beside = |row: usize| Cell { row: row + 1, other: row, value: 1.0 };
        let last = self.count - 1;
        vec![(0..=last).map(own).collect(), (1..last).map(own).collect(), (0..last).map(beside).collect()]
    }

    fn setting(&self, parameters: &[f64]) -> Option<Setting> {
        let [variance, correlation] = *parameters else { return None };
        if !(0.0 < variance && correlation.abs() < 1.0) {
            return None;
        }
        let free = 1.0 - correlation * correlation;
        let shapes = [1.0, correlation * correlation, -correlation];
        let turns = [0.0, 2.0 * correlation, -1.0];
        let coefficients: Vec<f64> = shapes.iter().map(|shape| shape / (variance * free)).collect();
        let by_variance = coefficients.iter().map(|own| -own / variance).collect();
        let by_correlation = shapes
            .iter()
            .zip(turns)
            .map(|(shape, turn)| (turn + shape * 2.0 * correlation / free) / (variance * free))
            .collect();
        let count = self.count as f64;
        Some(Setting {
            coefficients,
            log_determinant: count * variance.ln() + (count - 1.0) * free.ln(),
            coefficient_slopes: vec![by_variance, by_correlation],
            log_determinant_slopes: vec![count / variance, -(count - 1.0) * 2.0 * correlation / free],
        })
    }

    fn covariance_times(&self, parameters: &[f64], vector: &[f64]) -> Vec<f64> {
        let cell = |a: usize, b: usize| parameters[0] * parameters[1].powi(a.abs_diff(b) as i32);
        (0..self.count).map(|a| (0..self.count).map(|b| cell(a, b) * vector[b]).sum()).collect()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Both criteria are those of the whole covariance matrix, and the search ends where no parameter a little
    /// above or below does better.
    #[test]
    fn neighbours_agree_with_the_slow_way(
        plots in prop::collection::vec((-9.0..9.0_f64, 0..4_usize), 12..30),
        at in (0.1..4.0_f64, 0.2..5.0_f64, -0.9..0.9_f64),
    ) {
        let count = plots.len();
        let groups: Vec<usize> = plots.iter().map(|plot| plot.1).collect();
        let variety = Factor::from_codes("variety", (0..4).map(|own| own.to_string()).collect(), groups.clone()).unwrap();
        let yields: Vec<f64> = plots.iter().map(|plot| plot.0).collect();
        let rows = Rows { response: yields.clone(), columns: vec![vec![1.0; count]], groups: vec![groups], residual: vec![] };
        let model = Model::new(yields, vec![Fixed::intercept()], vec![Random::of([(&variety).into()])]);
        let model = Model { residual: Residual::Structured(Arc::new(Line { count })), ..model };
        let slow = |at: &[f64]| answer_with(&rows, &at[..1], |a, b| at[1] * at[2].powi(a.abs_diff(b) as i32));
        let at = [at.0, at.1, at.2];
        for likelihood in [Likelihood::Restricted, Likelihood::Full] {
            let of = |at: &[f64]| {
                let slow = slow(at);
                if likelihood == Likelihood::Full { slow.full } else { slow.restricted }
            };
            let quick = criterion_at(&model, likelihood, &at).unwrap();
            prop_assert!((quick - of(&at)).abs() < 1e-8 * (1.0 + quick.abs()), "{quick} {}", of(&at));
            // A correlation that climbs to one is a walk without end, which is no top: about one table in a thousand.
            let fit = fit(&model, likelihood, &mut |_| Going::On);
            prop_assume!(!matches!(fit, Err(MixedFault::NotFound)));
            let fit = fit.unwrap();
            let best: Vec<f64> =
                fit.components.iter().chain(&fit.residual).map(|named| named.component.variance).collect();
            prop_assert!((fit.criterion - of(&best)).abs() < 1e-8 * (1.0 + fit.criterion.abs()));
            for (place, step) in [(0, 1e-3), (1, 1e-3), (1, -1e-3), (2, 1e-4), (2, -1e-4)] {
                let mut beside = best.clone();
                beside[place] += step * if place == 2 { 1.0 } else { best[1] };
                prop_assert!(fit.criterion <= of(&beside) + 1e-9, "{place} {step} {best:?} {} {}", fit.criterion, of(&beside));
            }
        }
    }
}
