//! Mixed models at their edges: what cannot be told is named, and nothing panics.

use crate::trial::{main_effect, random, restricted};
use statistics::component::{Standing, Why};
use statistics::mixed::contrasts::estimate;
use statistics::mixed::kenward_roger::{KenwardRoger, NoAdjustment};
use statistics::mixed::means::{MeansFault, adjusted_means, coefficients};
use statistics::mixed::predictions::predictions;
use statistics::mixed::residual::Residual;
use statistics::mixed::satterthwaite::Satterthwaite;
use statistics::mixed::terms::{Covariate, Factor, Fixed, Random};
use statistics::mixed::{Going, MixedFault, Model, fit};
use statistics::nested::Likelihood;

const YIELDS: [f64; 8] = [3.0, 4.5, 2.0, 6.5, 8.0, 7.0, 1.0, 2.5];

fn pairs() -> Factor {
    Factor::from_labels("pair", &["a", "a", "b", "b", "c", "c", "d", "d"])
}

fn one_way(yields: &[f64]) -> Model {
    Model::new(yields.to_vec(), vec![Fixed::intercept()], vec![random([&pairs()])])
}

#[track_caller]
fn standing_of(model: &Model, term: usize) -> Standing {
    restricted(model).unwrap().components[term].component.standing
}

/// Pairs more alike between than within: the variance is zero, and the rest is the plain analysis.
#[test]
fn zero_variance_is_named() {
    let model = one_way(&[1.0, 3.0, 3.1, 0.9, 1.1, 2.9, 3.0, 1.0]);
    let fit = restricted(&model).unwrap();
    assert_eq!(fit.components[0].component.standing, Standing::AtZero);
    assert_eq!(fit.components[0].component.variance, 0.0);
    let plain = restricted(&Model { random: vec![], ..model }).unwrap();
    assert!((fit.criterion - plain.criterion).abs() < 1e-9);
    assert!(predictions(&fit, "pair").unwrap().iter().all(|own| own.effect.estimate == 0.0));
    assert!(Satterthwaite::new(&fit).is_some());
}

#[test]
fn terms_that_cannot_be_told_are_named() {
    let rows = Factor::from_labels("row", &["1", "2", "3", "4", "5", "6", "7", "8"]);
    let again = Factor::from_labels("again", &["w", "w", "x", "x", "y", "y", "z", "z"]);
    let with = |terms: Vec<Random>| Model { random: terms, ..one_way(&YIELDS) };
    let not_separable = Standing::NotEstimable(Why::NotSeparable);
    assert_eq!(standing_of(&with(vec![random([&rows])]), 0), not_separable);
    assert_eq!(standing_of(&with(vec![random([&pairs()]), random([&again])]), 1), not_separable);
    let fixed = vec![Fixed::intercept(), main_effect(&again)];
    let said = Model { fixed, ..one_way(&YIELDS) };
    assert_eq!(standing_of(&said, 0), Standing::NotEstimable(Why::NothingToCompare));
}

/// Two pairs of varieties that never meet in a block: one difference between the pairs is not told.
#[test]
fn disconnected_designs_are_named() {
    let variety = Factor::from_labels("variety", &["p", "q", "p", "q", "r", "s", "r", "s"]);
    let block = Factor::from_labels("block", &["1", "1", "2", "2", "3", "3", "4", "4"]);
    let fixed = vec![Fixed::intercept(), main_effect(&block), main_effect(&variety)];
    let fit = restricted(&Model::new(YIELDS.to_vec(), fixed, vec![])).unwrap();
    let aliased: Vec<String> =
        coefficients(&fit).into_iter().filter(|own| own.effect.is_none()).map(|own| own.name).collect();
    assert_eq!(aliased, ["variety s"]);
    let means = adjusted_means(&fit, &["variety"]).unwrap();
    assert!(means.means.iter().all(Option::is_none));
    // Within a pair the difference is told: (3.0 - 4.5 + 2.0 - 6.5) / 2.
    let levels = |level: &str| means.labels.iter().position(|own| own == level).unwrap();
    let within = means.difference(&fit, levels("p"), levels("q")).unwrap();
    assert!((estimate(&fit, &within).estimate + 3.0).abs() < 1e-12);
    assert_eq!(means.difference(&fit, levels("p"), levels("r")), None);
}

#[test]
fn one_level_factors_bear_nothing() {
    let only = Factor::from_labels("only", &["x"; 8]);
    let fixed = vec![Fixed::intercept(), main_effect(&only)];
    let model = Model { fixed, random: vec![random([&only]), random([&pairs()])], ..one_way(&YIELDS) };
    let fit = restricted(&model).unwrap();
    assert_eq!(fit.components[0].component.standing, Standing::NotEstimable(Why::NothingToCompare));
    let plain = restricted(&one_way(&YIELDS)).unwrap();
    assert!((fit.criterion - plain.criterion).abs() < 1e-9);
}

#[test]
fn faults_are_named() {
    let model = one_way(&YIELDS);
    let fault = |model: Model| restricted(&model).unwrap_err();
    let lengths = MixedFault::Lengths { rows: 7, name: "pair".to_owned(), other: 8 };
    assert_eq!(fault(one_way(&YIELDS[..7])), lengths);
    let mut broken = YIELDS;
    broken[5] = f64::NAN;
    let name = "the response".to_owned();
    assert_eq!(fault(one_way(&broken)), MixedFault::NotUsable { name, row: 5 });
    assert_eq!(fault(one_way(&[4.0; 8])), MixedFault::NoSpread);
    let name = "the weights".to_owned();
    let weights = Some(vec![1.0, 1.0, 0.0, 1.0, 1.0, 1.0, 1.0, 1.0]);
    assert_eq!(fault(Model { weights, ..model.clone() }), MixedFault::NotUsable { name, row: 2 });
    let rows = Factor::from_labels("row", &["1", "2", "3", "4", "5", "6", "7", "8"]);
    let fixed = vec![Fixed::intercept(), main_effect(&rows)];
    assert_eq!(fault(Model { fixed, ..model.clone() }), MixedFault::TooFewRows { rows: 8, columns: 8 });
    let given = vec![Random::given("g", vec!["1".to_owned()], vec![vec![(1, 1.0)]; 8])];
    let no_column = MixedFault::NoSuchColumn { name: "g".to_owned(), columns: 1, row: 0 };
    assert_eq!(fault(Model { random: given, ..model.clone() }), no_column);
    let stopped = fit(&model, Likelihood::Restricted, &mut |_| Going::Stop).unwrap_err();
    assert_eq!(stopped, MixedFault::Stopped);
    let unknown = adjusted_means(&restricted(&model).unwrap(), &["pear"]).unwrap_err();
    assert_eq!(unknown, MeansFault::NotFixed("pear".to_owned()));
    let full = fit(&model, Likelihood::Full, &mut |_| Going::On).unwrap();
    assert_eq!(KenwardRoger::new(&full).unwrap_err(), NoAdjustment::NotRestricted);
}

/// Columns given as they are do what the factor does.
#[test]
fn given_columns_are_the_factor() {
    let rows = pairs().codes().iter().map(|code| vec![(*code, 1.0)]).collect();
    let given = Random::given("pair", pairs().levels().to_vec(), rows);
    let by_columns = restricted(&Model { random: vec![given], ..one_way(&YIELDS) }).unwrap();
    let by_factor = restricted(&one_way(&YIELDS)).unwrap();
    assert!((by_columns.criterion - by_factor.criterion).abs() < 1e-12);
    assert_eq!(predictions(&by_columns, "pair").unwrap().len(), 4);
}

/// A plain regression by full likelihood, which has no random effect at all: R 4.2.2, `lm(y ~ g + x)` with `logLik`, and
/// `nlme::gls(y ~ g + x, weights = varIdent(form = ~ 1 | g), method = "ML")`, both groups' variances.
#[test]
fn full_likelihood_needs_no_random_term() {
    let yields = [4.1, 5.2, 3.9, 6.6, 7.1, 6.2, 9.5, 5.9, 8.8, 4.7, 7.3, 6.1];
    let x = vec![1.0, 3.0, 2.0, 5.0, 4.0, 6.0, 8.0, 7.0, 2.0, 9.0, 3.0, 5.0];
    let group = Factor::from_labels("g", &["1", "1", "1", "1", "1", "1", "2", "2", "2", "2", "2", "2"]);
    let slope = Fixed::of([(&Covariate { name: "x".to_owned(), values: x }).into()]);
    let model = Model::new(yields.to_vec(), vec![Fixed::intercept(), main_effect(&group), slope], Vec::new());
    let alike = fit(&model, Likelihood::Full, &mut |_| Going::On).unwrap();
    assert!((-0.5 * alike.criterion - -21.606_784_391_4).abs() < 1e-9, "{}", alike.criterion);
    assert!((alike.residual[0].component.variance - 2.145_244_786_58).abs() < 1e-9);
    let apart = Model { residual: Residual::By(group), ..model };
    let apart = fit(&apart, Likelihood::Full, &mut |_| Going::On).unwrap();
    assert!((-0.5 * apart.criterion - -20.322_875_378_7).abs() < 1e-9, "{}", apart.criterion);
    let variances: Vec<f64> = apart.residual.iter().map(|own| own.component.variance).collect();
    assert!(
        (variances[0] - 0.546_811_383).abs() < 1e-6 && (variances[1] - 5.485_943_08).abs() < 1e-5,
        "{variances:?}"
    );
}
