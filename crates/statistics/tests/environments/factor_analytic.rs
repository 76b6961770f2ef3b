//! One hidden quality of environments: against whole matrices, and a top found in R.

use crate::maize::{cells, maize};
use crate::plain::{Rows, answer_with};
use proptest::prelude::*;
use statistics::component::Standing;
use statistics::environments::factor_analytic::{Errors, FactorFault, Trial, analyse};
use statistics::mixed::terms::{Factor, Fixed};
use statistics::mixed::{Going, MixedFault};
use statistics::nested::Likelihood;

const RESTRICTED: Likelihood = Likelihood::Restricted;

/// Variance of one maize plot, taken as known: near the residual of the golden fit.
const PLOT: f64 = 200.0;

/// Criterion, loadings and own variances of the same model by whole matrices and `nlminb` in R 4.2.2. The own variance of
/// the fifth county is zero there; ours is held just above, at a correlation of 0.99999.
const CRITERION: f64 = 2_868.300_071_873;
const LOADINGS: [(f64, f64); 6] = [
    (6.262_380_98, 7.221_237_76),
    (7.214_039_97, 8.955_838_36),
    (8.117_450_27, 25.930_841_0),
    (5.569_628_33, 17.164_264_0),
    (8.286_337_76, 0.0),
    (3.811_718_33, 72.872_778_6),
];

#[test]
fn maize_agrees_with_a_search_over_whole_matrices() {
    let Some(maize) = maize() else { return };
    let (response, variety, environment, counts) = cells(&maize);
    let errors = Errors::Known(counts.iter().map(|count| PLOT / count).collect());
    let fixed = vec![Fixed::of([(&environment).into()])];
    let trial = Trial { response, fixed, random: vec![], variety, environment, errors };
    let found = analyse(&trial, RESTRICTED, &mut |_| Going::On).unwrap();
    println!("{:?} {:?}", found.fit.history.last().unwrap(), found.environments);
    // The bound of the fifth county costs this much; the others follow it.
    assert!((found.fit.criterion - CRITERION).abs() < 1e-3, "{}", found.fit.criterion);
    for (own, (loading, variance)) in found.environments.iter().zip(LOADINGS) {
        assert!((own.loading - loading).abs() < 1e-3, "{own:?} {loading}");
        assert!((own.own_variance - variance).abs() < 1e-2, "{own:?} {variance}");
    }
    let last = found.fit.residual.iter().filter(|own| own.component.standing == Standing::AtBound);
    assert_eq!(last.map(|own| own.name.as_str()).collect::<Vec<_>>(), ["shared in C5"]);
}

const VARIETIES: usize = 7;

/// Rows: variety, environment, and chance.
fn rows() -> impl Strategy<Value = Vec<(usize, usize, f64)>> {
    let cell = prop::collection::vec((0..8_u8, -2.0..2.0_f64), 2);
    prop::collection::vec(cell, VARIETIES * 3).prop_map(|cells| {
        let rows = cells.iter().enumerate().flat_map(|(at, plots)| {
            let (variety, environment) = (at / 3, at % 3);
            let value = move |chance: f64| {
                let hidden = (variety as f64 * 2.1).sin() * (1.0 + environment as f64);
                (variety, environment, hidden + chance)
            };
            plots.iter().filter(|plot| 0 < plot.0).map(move |plot| value(plot.1))
        });
        rows.collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// The criterion is that of the whole covariance, and no parameter a little to the side does better.
    #[test]
    fn small_trials_agree_with_the_slow_way(rows in rows()) {
        let codes = |of: &dyn Fn(&(usize, usize, f64)) -> usize| rows.iter().map(of).collect::<Vec<usize>>();
        let factor = |name: &str, count: usize, codes: Vec<usize>| {
            Factor::from_codes(name, (0..count).map(|own| own.to_string()).collect(), codes).unwrap()
        };
        let (of_variety, of_environment) = (codes(&|row| row.0), codes(&|row| row.1));
        prop_assume!((0..3).all(|level| of_environment.contains(&level)));
        let response: Vec<f64> = rows.iter().map(|row| row.2).collect();
        let environment = factor("environment", 3, of_environment.clone());
        let trial = Trial {
            response: response.clone(),
            fixed: vec![Fixed::of([(&environment).into()])],
            random: vec![],
            variety: factor("variety", VARIETIES, of_variety.clone()),
            environment,
            errors: Errors::Alike,
        };
        let found = match analyse(&trial, RESTRICTED, &mut |_| Going::On) {
            Err(FactorFault::Alike(_) | FactorFault::Mixed(MixedFault::NoResidual | MixedFault::NotFound)) => {
                return Ok(());
            }
            found => found.unwrap(),
        };
        let indicator = |level: usize| of_environment.iter().map(|own| f64::from(u8::from(*own == level))).collect();
        let columns = (0..3).map(indicator).collect();
        let whole = Rows { response, columns, groups: vec![], residual: vec![] };
        let slow = |at: &[f64]| {
            let shared = |one: usize, other: usize| if one == other { 1.0 } else { at[4 + one].tanh() * at[4 + other].tanh() };
            let cell = |a: usize, b: usize| {
                let (one, other) = (of_environment[a], of_environment[b]);
                let between = shared(one, other) * (at[1 + one] * at[1 + other]).sqrt();
                let own = if a == b { at[0] } else { 0.0 };
                own + if of_variety[a] == of_variety[b] { between } else { 0.0 }
            };
            answer_with(&whole, &[], cell).restricted
        };
        let best: Vec<f64> = found.fit.residual.iter().map(|own| own.component.variance).collect();
        let criterion = found.fit.criterion;
        prop_assert!((criterion - slow(&best)).abs() < 1e-7 * (1.0 + criterion.abs()), "{criterion} {}", slow(&best));
        for place in 0..best.len() {
            if found.fit.residual[place].component.standing == Standing::AtBound {
                continue;
            }
            for step in [1e-3, -1e-3] {
                let mut beside = best.clone();
                beside[place] += step * if place < 4 { best[place] } else { 1.0 };
                prop_assert!(criterion <= slow(&beside) + 1e-8, "{place} {step} {best:?}");
            }
        }
    }
}

#[test]
fn two_environments_are_too_few() {
    let environment = Factor::from_labels("environment", &["a", "b", "a", "b"]);
    let variety = Factor::from_labels("variety", &["x", "x", "y", "y"]);
    let fixed = vec![Fixed::of([(&environment).into()])];
    let response = vec![1.0, 2.0, 2.0, 5.0];
    let trial = Trial { response, fixed, random: vec![], variety, environment, errors: Errors::Alike };
    let refused = analyse(&trial, RESTRICTED, &mut |_| Going::On);
    assert_eq!(refused.unwrap_err(), FactorFault::TooFew(2));
}
