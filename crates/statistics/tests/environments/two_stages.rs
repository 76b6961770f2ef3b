//! Two stages are one, given the same variances.

use crate::maize::{Maize, maize};
use statistics::environments::two_stages::{Carried, Means, Stage, StageFault, stage, together};
use statistics::mixed::means::adjusted_means;
use statistics::mixed::predictions::predictions;
use statistics::mixed::residual::Residual;
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::{Fit, Going, Model, fit, known};
use statistics::nested::Likelihood;

const RESTRICTED: Likelihood = Likelihood::Restricted;

/// Variances near the golden fit's: variety in county, replicate, block.
const BETWEEN: f64 = 13.0;
const REPLICATE: f64 = 120.0;
const BLOCK: f64 = 50.0;
/// Residual variances of the counties, unlike each other.
const RESIDUALS: [f64; 6] = [150.0, 180.0, 200.0, 220.0, 250.0, 300.0];

fn main_effects(variety: &Factor, environment: &Factor) -> Vec<Fixed> {
    vec![Fixed::intercept(), Fixed::of([variety.into()]), Fixed::of([environment.into()])]
}

fn one_stage(maize: &Maize) -> Fit {
    let (county, replicate, block) = (&maize.county, &maize.replicate, &maize.block);
    let random = vec![
        Random::of([(&maize.variety).into(), county.into()]),
        Random::of([county.into(), replicate.into()]),
        Random::of([county.into(), replicate.into(), block.into()]),
    ];
    let model = Model::new(maize.yields.clone(), main_effects(&maize.variety, county), random);
    let model = Model { residual: Residual::By(county.clone()), ..model };
    let variances: Vec<f64> = [BETWEEN, REPLICATE, BLOCK].into_iter().chain(RESIDUALS).collect();
    known(&model, RESTRICTED, &variances).unwrap()
}

fn first_stage(maize: &Maize, county: usize) -> Stage {
    let rows: Vec<usize> =
        (0..maize.yields.len()).filter(|row| maize.county.codes()[*row] == county).collect();
    let part = |factor: &Factor| {
        let labels: Vec<&str> =
            rows.iter().map(|row| factor.levels()[factor.codes()[*row]].as_str()).collect();
        Factor::from_labels(factor.name(), &labels)
    };
    let (variety, replicate, block) = (part(&maize.variety), part(&maize.replicate), part(&maize.block));
    let random = vec![Random::of([(&replicate).into()]), Random::of([(&replicate).into(), (&block).into()])];
    let yields = rows.iter().map(|row| maize.yields[*row]).collect();
    let model = Model::new(yields, vec![Fixed::intercept(), Fixed::of([(&variety).into()])], random);
    let fit = known(&model, RESTRICTED, &[REPLICATE, BLOCK, RESIDUALS[county]]).unwrap();
    stage(&maize.county.levels()[county], &fit, "variety").unwrap()
}

fn second_stage(means: &Means) -> Model {
    let between = Random::of([(&means.variety).into(), (&means.environment).into()]);
    let fixed = main_effects(&means.variety, &means.environment);
    let model = Model::new(means.response.clone(), fixed, vec![between]);
    Model { residual: means.residual.clone(), ..model }
}

#[test]
fn all_of_the_covariance_carried_is_one_stage() {
    let Some(maize) = maize() else { return };
    let stages: Vec<Stage> = (0..6).map(|county| first_stage(&maize, county)).collect();
    let means = together(&stages, Carried::Covariance).unwrap();
    let two = known(&second_stage(&means), RESTRICTED, &[BETWEEN]).unwrap();
    let one = one_stage(&maize);
    let told = [&one, &two].map(|fit| adjusted_means(fit, &["variety"]).unwrap());
    assert_eq!(told[0].labels, told[1].labels);
    for at in 1..told[0].labels.len() {
        let difference = |told: &statistics::mixed::means::AdjustedMeans| {
            let error = told.standard_error_of_difference(at, 0).unwrap();
            (told.means[at].unwrap().estimate - told.means[0].unwrap().estimate, error)
        };
        let (one, two) = (difference(&told[0]), difference(&told[1]));
        assert!((one.0 - two.0).abs() < 1e-8 && (one.1 - two.1).abs() < 1e-8, "{one:?} {two:?}");
    }
    let effects = |fit: &Fit, term: &str| -> Vec<f64> {
        predictions(fit, term).unwrap().iter().map(|own| own.effect.estimate).collect()
    };
    let pairs = effects(&one, "variety x county").into_iter().zip(effects(&two, "variety x environment"));
    assert!(pairs.into_iter().all(|(one, two)| (one - two).abs() < 1e-8));
}

/// The variance between is sought at the second stage, by either way of carrying; weights lose little here.
#[test]
fn the_second_stage_finds_its_variance() {
    let Some(maize) = maize() else { return };
    let stages: Vec<Stage> = (0..6).map(|county| first_stage(&maize, county)).collect();
    for carried in [Carried::Covariance, Carried::Weights] {
        let means = together(&stages, carried).unwrap();
        let model = second_stage(&means);
        let found = fit(&model, RESTRICTED, &mut |_| Going::On).unwrap();
        let best = found.components[0].component.variance;
        assert!(0.0 < best, "{best}");
        for beside in [0.97 * best, 1.03 * best] {
            let worse = known(&model, RESTRICTED, &[beside]).unwrap();
            assert!(found.criterion < worse.criterion);
        }
        // Known errors leave nothing to choose but this variance.
        assert!(found.residual.is_empty());
    }
}

#[test]
fn means_that_are_not_told_apart_are_refused() {
    let stage = |covariance: Vec<Vec<f64>>| Stage {
        environment: "north".to_owned(),
        varieties: vec!["a".to_owned(), "b".to_owned()],
        means: vec![1.0, 2.0],
        covariance,
    };
    let same = together(&[stage(vec![vec![1.0, 1.0], vec![1.0, 1.0]])], Carried::Covariance);
    assert_eq!(same.unwrap_err(), StageFault::NotApart("north".to_owned()));
    let short = together(&[stage(vec![vec![1.0, 0.0]])], Carried::Covariance);
    assert_eq!(short.unwrap_err(), StageFault::Lengths("north".to_owned()));
}
