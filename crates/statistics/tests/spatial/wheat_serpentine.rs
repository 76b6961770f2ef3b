//! Wheat in South Australia, 22 rows by 15 columns: a smooth surface, and neighbours alike with a nugget.
//!
//! Data: Gilmour, Cullis and Verbyla 1997, J. Agric. Biol. Environ. Stat. 2:269-293. Expected values: dense fits in
//! R 4.2.2, the surface's also by mgcv 1.8-41 (`wheat_serpentine.R` beside the data).

use crate::oracles::{agrees, agrees_within, golden, numbers, table};
use serde_json::Value;
use statistics::component::Standing;
use statistics::mixed::heritability::generalised;
use statistics::mixed::means::adjusted_means;
use statistics::mixed::predictions::predictions;
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::{Going, Model};
use statistics::nested::Likelihood;
use statistics::spatial::bed::Bed;
use statistics::spatial::splines::Segments;
use statistics::spatial::{Nugget, Plane, SpatialFit, Trend, Trial, choice, fit};

const SURFACE: Trend = Trend::Splines(Segments { rows: 10, columns: 8 });

/// Golden names of the trend's terms, in our order.
const TERMS: [&str; 7] = ["row", "column", "f_row", "f_col", "col_by_f_row", "row_by_f_col", "f_row_col"];

enum Varieties {
    Fixed,
    Random,
}

fn wheat(varieties: Varieties) -> Option<(Trial, Value)> {
    let (golden, table) = (golden("stats/wheat_serpentine.json")?, table("stats/wheat_serpentine.csv", ',')?);
    let whole = |name: &str| table[name].iter().map(|cell| cell.parse().unwrap()).collect();
    let bed = Bed::new(whole("row"), whole("col")).unwrap();
    let variety = Factor::from_labels("variety", &table["gen"]);
    let yields = numbers(&table["yield"]).iter().map(|own| own / 100.0).collect();
    let mut model = Model::new(yields, vec![Fixed::intercept()], vec![]);
    match varieties {
        Varieties::Fixed => model.fixed.push(Fixed::of([(&variety).into()])),
        Varieties::Random => model.random.push(Random::of([(&variety).into()])),
    }
    Some((Trial { model, bed, plane: Plane::LeftOut }, golden))
}

fn fitted(trial: &Trial, trend: Trend) -> SpatialFit {
    let found = fit(trial, trend, Likelihood::Restricted, &mut |_| Going::On).unwrap();
    println!("{:?}", found.fit.history.last().unwrap());
    found
}

/// Components and effective dimensions of the trend's terms, from the `first` term on; one at zero is zero.
#[track_caller]
fn parts_agree(found: &SpatialFit, first: usize, expected: &Value) {
    let parts = found.parts();
    for ((named, part), name) in found.fit.components[first..].iter().zip(&parts[first..]).zip(TERMS) {
        if name == expected["at_boundary"].as_str().unwrap() {
            assert_eq!(named.component.standing, Standing::AtZero, "{named:?}");
            continue;
        }
        agrees_within(name, named.component.variance, &expected["variance_components"][name], 1e-6);
        agrees_within(name, part.effective_dimension, &expected["effective_dimension"][name], 1e-6);
    }
}

#[test]
fn the_surface_agrees() {
    let Some((trial, golden)) = wheat(Varieties::Random) else { return };
    let expected = &golden["ps_anova_variety_random"];
    let found = fitted(&trial, SURFACE);
    agrees("criterion", found.fit.criterion, &expected["reml_deviance"]);
    agrees_within("residual", found.fit.residual[0].component.variance, &expected["residual_variance"], 1e-6);
    let variety = found.fit.components[0].component.variance;
    agrees_within("variety", variety, &expected["variance_components"]["variety"], 1e-6);
    let dimension = found.parts()[0].effective_dimension;
    agrees_within("dimension", dimension, &expected["effective_dimension"]["variety"], 1e-6);
    parts_agree(&found, 1, expected);
    let cullis = generalised(&found.fit, "variety").unwrap().share.unwrap();
    agrees_within("cullis", cullis, &expected["h2_cullis"], 1e-6);
    for own in predictions(&found.fit, "variety").unwrap() {
        agrees_within(&own.label, own.effect.estimate, &expected["blup_variety"][&own.label], 2e-6);
        agrees_within(&own.label, own.effect.standard_error, &expected["blup_sqrt_pev"][&own.label], 1e-6);
    }
    // Intercept, varieties, trend and what is left make up every plot.
    let ground = found.ground();
    let left = found.left();
    let varieties = predictions(&found.fit, "variety").unwrap();
    let of = |label: &str| varieties.iter().find(|own| own.label == label).unwrap().effect.estimate;
    let table = table("stats/wheat_serpentine.csv", ',').unwrap();
    let rest: Vec<f64> = left
        .iter()
        .zip(&trial.model.response)
        .zip(&table["gen"])
        .map(|((left, own), label)| {
            let trend = ground.iter().find(|ground| ground.place == left.place).unwrap().trend;
            own - of(label) - trend - left.left
        })
        .collect();
    assert!(rest.iter().all(|own| (own - rest[0]).abs() < 1e-9), "{rest:?}");
}

#[test]
fn the_surface_under_fixed_varieties_agrees() {
    let Some((trial, golden)) = wheat(Varieties::Fixed) else { return };
    let expected = &golden["ps_anova_variety_fixed"];
    let found = fitted(&trial, SURFACE);
    agrees("criterion", found.fit.criterion, &expected["reml_deviance"]);
    agrees_within("residual", found.fit.residual[0].component.variance, &expected["residual_variance"], 1e-6);
    parts_agree(&found, 0, expected);
    let means = adjusted_means(&found.fit, &["variety"]).unwrap();
    let contrasts = expected["contrast_to_first"].as_object().unwrap();
    // The golden's first level is the one that it does not name.
    let first = means.labels.iter().position(|label| !contrasts.contains_key(label)).unwrap();
    for (at, label) in means.labels.iter().enumerate().filter(|(at, _)| *at != first) {
        let difference = means.means[at].unwrap().estimate - means.means[first].unwrap().estimate;
        agrees_within(label, difference, &contrasts[label], 1e-5);
        let error = means.standard_error_of_difference(at, first).unwrap();
        agrees_within(label, error, &expected["contrast_se"][label], 1e-6);
    }
}

#[test]
fn neighbours_with_a_nugget_agree() {
    let Some((trial, golden)) = wheat(Varieties::Random) else { return };
    let expected = &golden["ar1xar1_nugget_variety_random"];
    let found = fitted(&trial, Trend::Autoregression(Nugget::Estimated));
    agrees("criterion", found.fit.criterion, &expected["reml_deviance"]);
    let neighbours = found.neighbours().unwrap();
    // The golden's last step was 2e-9 in parameters of which the likelihood is very flat.
    agrees_within("along rows", neighbours.along_rows.unwrap().value, &expected["rho_row"], 1e-6);
    agrees_within("along columns", neighbours.along_columns.unwrap().value, &expected["rho_col"], 1e-6);
    agrees_within("variance", neighbours.variance, &expected["spatial_variance"], 1e-6);
    agrees_within("nugget", neighbours.nugget.unwrap(), &expected["nugget_variance"], 1e-6);
    let variety = found.fit.components[0].component.variance;
    agrees_within("variety", variety, &expected["random_variances"]["variety"], 1e-6);
    let intercept = statistics::mixed::means::coefficients(&found.fit)[0].effect.unwrap();
    agrees_within("intercept", intercept.estimate, &expected["fixed"]["intercept"], 1e-6);
    agrees_within("its error", intercept.standard_error, &expected["fixed_se"]["intercept"], 1e-6);
}

#[test]
fn the_best_trend_comes_first() {
    let Some((trial, _)) = wheat(Varieties::Random) else { return };
    let candidates = choice::choose(&trial, &choice::usual(&trial), &mut |_, _| Going::On).unwrap();
    let ranks: Vec<f64> = candidates.iter().map(|own| own.outcome.as_ref().unwrap().1).collect();
    println!("{:?}", candidates.iter().map(|own| own.trend).zip(&ranks).collect::<Vec<_>>());
    assert_eq!(ranks.len(), 5);
    assert!(ranks.is_sorted());
    // This bed was published because of its trend: to take it for level is the worst choice.
    assert_eq!(candidates.last().unwrap().trend, Trend::Level);
}
