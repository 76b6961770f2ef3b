//! Meadowfoam in augmented blocks: checks in every block, new entries once.
//!
//! Data: Introduction to Augmented Experimental Design (extension.org plant breeding and genomics). Expected values:
//! R 4.2.2 with lme4 1.1-31, emmeans 1.8.4-1 (`augmented_meadowfoam.R` beside the data).

use crate::oracles::{agrees, golden, numbers, table};
use crate::trial::{
    coefficients_agree, factor, fit_agrees, main_effect, means_agree, place, predictions_agree, random,
    restricted,
};
use serde_json::Value;
use statistics::mixed::Model;
use statistics::mixed::means::adjusted_means;
use statistics::mixed::satterthwaite::Satterthwaite;
use statistics::mixed::terms::{Covariate, Factor, Fixed, Random};

struct Foam {
    weights: Vec<f64>,
    entry: Factor,
    block: Factor,
    golden: Value,
}

fn foam() -> Option<Foam> {
    let golden = golden("stats/augmented_meadowfoam.json")?;
    let table = table("stats/augmented_meadowfoam.csv", ',')?;
    let weights = numbers(&table["tsw"]);
    Some(Foam { weights, entry: factor(&table, "gen"), block: factor(&table, "block"), golden })
}

fn renamed(name: &str) -> String {
    if name == "intercept" { "(Intercept)".to_owned() } else { name.replace(' ', "") }
}

/// Blocks and entries fixed: the plain intra-block analysis is a mixed model without a random term.
#[test]
fn all_fixed_agrees() {
    let Some(foam) = foam() else { return };
    let expected = &foam.golden["entries_fixed"];
    let fixed = vec![Fixed::intercept(), main_effect(&foam.block), main_effect(&foam.entry)];
    let fit = restricted(&Model::new(foam.weights.clone(), fixed, vec![])).unwrap();
    agrees("error", fit.residual[0].component.variance, &expected["error_ms"]);
    let means = adjusted_means(&fit, &["gen"]).unwrap();
    means_agree(&means, &expected["means"], 2e-8);
    let satterthwaite = Satterthwaite::new(&fit).unwrap();
    let check = place(&means, foam.golden["checks"][0].as_str().unwrap());
    for (label, own) in expected["vs_first_check_unadjusted"].as_object().unwrap() {
        let (one, _) = label.split_once(" - ").unwrap();
        let contrast = means.difference(&fit, place(&means, one), check).unwrap();
        agrees(label, means.standard_error_of_difference(place(&means, one), check).unwrap(), &own["se"]);
        agrees(label, satterthwaite.degrees(&contrast), &own["df"]);
    }
}

#[test]
fn entries_random_agree() {
    let Some(foam) = foam() else { return };
    let expected = &foam.golden["entries_random_blocks_fixed"];
    let fixed = vec![Fixed::intercept(), main_effect(&foam.block)];
    let fit = restricted(&Model::new(foam.weights.clone(), fixed, vec![random([&foam.entry])])).unwrap();
    fit_agrees(&fit, expected, &["gen"]);
    coefficients_agree(&fit, expected, renamed);
    predictions_agree(&fit, "gen", &expected["blup"], None);
}

/// Checks fixed, new entries random: a covariate that is one for new entries switches the random term on.
#[test]
fn new_entries_random_agree() {
    let Some(foam) = foam() else { return };
    let expected = &foam.golden["checks_fixed_new_random"];
    let checks: Vec<&str> =
        foam.golden["checks"].as_array().unwrap().iter().map(|own| own.as_str().unwrap()).collect();
    let own = |code: &usize| foam.entry.levels()[*code].clone();
    let group: Vec<String> = foam.entry.codes().iter().map(own).collect();
    let group: Vec<&str> = group
        .iter()
        .map(|entry| if checks.contains(&entry.as_str()) { entry.as_str() } else { "new" })
        .collect();
    let is_new = group.iter().map(|group| f64::from(u8::from(*group == "new"))).collect();
    let is_new = Covariate { name: "new".to_owned(), values: is_new };
    let check = Factor::from_labels("check", &group);
    let new = Random { name: "new".to_owned(), ..Random::of([(&foam.entry).into(), (&is_new).into()]) };
    let fixed = vec![Fixed::intercept(), main_effect(&check)];
    let fit = restricted(&Model::new(foam.weights.clone(), fixed, vec![new, random([&foam.block])])).unwrap();
    fit_agrees(&fit, expected, &["gen.new", "block"]);
    coefficients_agree(&fit, expected, renamed);
    predictions_agree(&fit, "new", &expected["blup_new"], None);
}
