//! Short ways to build, fit and ask, shared by the tests of this folder.

use crate::oracles::{agrees, agrees_within};
use serde_json::Value;
use statistics::component::Standing;
use statistics::mixed::means::{AdjustedMeans, coefficients};
use statistics::mixed::predictions::predictions;
use statistics::mixed::terms::{Factor, Fixed, Random, Variable};
use statistics::mixed::{Fit, Going, MixedFault, Model, fit};
use statistics::nested::Likelihood;
use std::collections::BTreeMap;

/// A table's column as a factor.
pub(crate) fn factor(table: &BTreeMap<String, Vec<String>>, name: &str) -> Factor {
    Factor::from_labels(name, &table[name])
}

/// A main effect.
pub(crate) fn main_effect(factor: &Factor) -> Fixed {
    Fixed::of([factor.into()])
}

/// A random term of several factors' combinations.
pub(crate) fn random<const N: usize>(factors: [&Factor; N]) -> Random {
    Random::of(factors.map(Variable::from))
}

/// Fits by restricted likelihood.
pub(crate) fn restricted(model: &Model) -> Result<Fit, MixedFault> {
    fit(model, Likelihood::Restricted, &mut |_| Going::On)
}

/// Holds where criterion, components, fixed effects and their errors are those of a golden fit.
///
/// `names` gives for each random term the golden's name of its component.
#[track_caller]
pub(crate) fn fit_agrees(fit: &Fit, expected: &Value, names: &[&str]) {
    agrees("criterion", fit.criterion, &expected["reml_deviance"]);
    let names = names.iter().chain(&["residual"]);
    for (named, name) in fit.components.iter().chain(&fit.residual).zip(names) {
        assert!(matches!(named.component.standing, Standing::Estimated { .. }), "{named:?}");
        agrees(name, named.component.variance, &expected["variance_components"][name]);
    }
}

/// Holds where fixed coefficients and their errors are those of a golden fit, whose names `rename` makes of ours.
#[track_caller]
pub(crate) fn coefficients_agree(fit: &Fit, expected: &Value, rename: impl Fn(&str) -> String) {
    let told = coefficients(fit);
    assert_eq!(told.len(), expected["fixed_effects"].as_object().unwrap().len());
    for coefficient in told {
        let (name, effect) = (rename(&coefficient.name), coefficient.effect.unwrap());
        agrees(&name, effect.estimate, &expected["fixed_effects"][&name]);
        agrees(&name, effect.standard_error, &expected["fixed_effect_se"][&name]);
    }
}

/// Holds where predictions of a term, and their errors if given, are the golden's.
#[track_caller]
pub(crate) fn predictions_agree(fit: &Fit, term: &str, blup: &Value, errors: Option<&Value>) {
    let all = predictions(fit, term).unwrap();
    let by_label: BTreeMap<&str, _> = all.iter().map(|own| (own.label.as_str(), own.effect)).collect();
    for (label, expected) in blup.as_object().unwrap() {
        agrees(label, by_label[label.as_str()].estimate, expected);
        if let Some(errors) = errors {
            agrees(label, by_label[label.as_str()].standard_error, &errors[label]);
        }
    }
}

/// Holds where means and their errors are the golden's, with `relative` for the errors.
#[track_caller]
pub(crate) fn means_agree(means: &AdjustedMeans, expected: &Value, relative: f64) {
    for (label, effect) in means.labels.iter().zip(&means.means) {
        let effect = effect.unwrap();
        agrees_within(label, effect.estimate, &expected[label]["mean"], relative);
        agrees_within(label, effect.standard_error, &expected[label]["se"], relative);
    }
}

/// The place of a label.
pub(crate) fn place(means: &AdjustedMeans, label: &str) -> usize {
    means.labels.iter().position(|own| own == label).unwrap()
}
