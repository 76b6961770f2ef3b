//! Oats in a split plot: blocks, plots of a variety within blocks, nitrogen on parts of them.
//!
//! Data: Yates 1935, J. Roy. Stat. Soc. Suppl. 2:181-247. Expected values: R 4.2.2 with lme4 1.1-31, lmerTest 3.1-3,
//! pbkrtest 0.5.2, emmeans 1.8.4-1, nlme 3.1-162 (`oats_split_plot.R` beside the data).

use crate::oracles::{agrees_within, golden, numbers, table};
use crate::trial::{
    coefficients_agree, factor, fit_agrees, main_effect, means_agree, place, random, restricted,
};
use serde_json::{Value, json};
use statistics::mixed::kenward_roger::KenwardRoger;
use statistics::mixed::means::{AdjustedMeans, adjusted_means};
use statistics::mixed::satterthwaite::Satterthwaite;
use statistics::mixed::terms::{Factor, Fixed};
use statistics::mixed::{Fit, Model, tests};

/// Degrees of freedom come from numerical second derivatives over there.
const DEGREES: f64 = 1e-6;

fn oats() -> Option<(Vec<f64>, Factor, Factor, Factor, Value)> {
    let golden = golden("stats/oats_split_plot.json")?;
    let table = table("stats/oats_split_plot.csv", ',')?;
    let nitrogen = Factor::from_labels("N", &table["nitro"]);
    Some((numbers(&table["yield"]), factor(&table, "gen"), nitrogen, factor(&table, "block"), golden))
}

fn fitted(interaction: &[&str]) -> Option<(Fit, Value)> {
    let (yields, variety, nitrogen, block, golden) = oats()?;
    let mut fixed = vec![Fixed::intercept(), main_effect(&variety), main_effect(&nitrogen)];
    if !interaction.is_empty() {
        fixed.push(Fixed::of([(&variety).into(), (&nitrogen).into()]));
    }
    let model = Model::new(yields, fixed, vec![random([&variety, &block]), random([&block])]);
    Some((restricted(&model).unwrap(), golden))
}

fn renamed(name: &str) -> String {
    if name == "intercept" { "(Intercept)".to_owned() } else { name.replace(" x ", ":").replace(' ', "") }
}

#[test]
fn interaction_model_agrees() {
    let Some((fit, golden)) = fitted(&["gen", "N"]) else { return };
    let expected = &golden["interaction_model"];
    fit_agrees(&fit, expected, &["gen:block", "block"]);
    coefficients_agree(&fit, expected, renamed);
    // Pinheiro and Bates 2000 (from memory, unverified): standard deviations 14.645, 10.299, 13.307.
    let printed = [(&fit.components[1], 14.645), (&fit.components[0], 10.299), (&fit.residual[0], 13.307)];
    for (named, printed) in printed {
        assert!((named.component.standard_deviation() - printed).abs() < 0.5e-3, "{named:?}");
    }
}

#[test]
fn tests_agree() {
    let Some((fit, golden)) = fitted(&["gen", "N"]) else { return };
    let satterthwaite = Satterthwaite::new(&fit).unwrap();
    for (name, of) in [("gen", vec!["gen"]), ("N", vec!["N"]), ("gen:N", vec!["gen", "N"])] {
        let own = &golden["interaction_model"]["anova_satterthwaite"][name];
        let own = if own.is_array() { &own[0] } else { own };
        let test = satterthwaite.test(&tests::term(&fit, &of).unwrap()).unwrap();
        agrees_within(name, test.statistic, &own["F value"], DEGREES);
        agrees_within(name, test.numerator, &own["NumDF"], DEGREES);
        agrees_within(name, test.denominator, &own["DenDF"], DEGREES);
        agrees_within(name, test.probability, &own["Pr(>F)"], 1e-5);
    }
    // The strata of the classical analysis: 10 and 45 degrees of freedom.
    let exact = satterthwaite.test(&tests::term(&fit, &["gen", "N"]).unwrap()).unwrap();
    agrees_within("within plots", exact.denominator, &json!(45.0), 1e-8);
}

#[track_caller]
fn pairs_agree(fit: &Fit, means: &AdjustedMeans, expected: &Value) {
    let kenward_roger = KenwardRoger::new(fit).unwrap();
    for (label, own) in expected.as_object().unwrap() {
        let plain = label.replace(['(', ')'], "");
        let (one, other) = plain.split_once(" - ").unwrap();
        let (one, other) = (one.trim_start_matches('N'), other.trim_start_matches('N'));
        let contrast = means.difference(fit, place(means, one), place(means, other)).unwrap();
        let effect = kenward_roger.estimate(&contrast);
        agrees_within(label, effect.estimate, &own["estimate"], DEGREES);
        agrees_within(label, effect.standard_error, &own["se"], DEGREES);
        agrees_within(label, kenward_roger.degrees(&contrast), &own["df"], DEGREES);
    }
}

#[test]
fn additive_model_agrees() {
    let Some((fit, golden)) = fitted(&[]) else { return };
    let expected = &golden["additive_model"];
    fit_agrees(&fit, expected, &["gen:block", "block"]);
    coefficients_agree(&fit, expected, renamed);
    let kenward_roger = KenwardRoger::new(&fit).unwrap();
    for (factor, name, pairs) in [
        ("gen", "variety_means_kr", "variety_pairs_tukey_kr"),
        ("N", "nitrogen_means_kr", "nitrogen_pairs_tukey_kr"),
    ] {
        let means = adjusted_means(&fit, &[factor]).unwrap();
        means_agree(&means, &expected[name], DEGREES);
        for (label, contrast) in means.labels.iter().zip(means.contrasts.iter().flatten()) {
            agrees_within(label, kenward_roger.degrees(contrast), &expected[name][label]["df"], DEGREES);
        }
        pairs_agree(&fit, &means, &expected[pairs]);
    }
}
