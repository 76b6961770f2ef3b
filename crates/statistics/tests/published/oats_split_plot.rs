//! Oats in a split plot: blocks, and varieties within blocks, as nested random effects.
//!
//! Data: Yates 1935, Complex Experiments, J. Roy. Stat. Soc. Suppl. 2:181-247. Expected values: R 4.2.2 with
//! lme4 1.1-31, polished by Newton steps (`oats_split_plot.R` beside the data).

use crate::oracles::{agrees, component_agrees, golden, levels, numbers, table, treatment_columns};
use statistics::nested::{Groups, Likelihood, Model, NestedFit, fit};

/// Whether varieties may answer differently to nitrogen.
#[derive(Clone, Copy)]
enum Fixed {
    Interaction,
    Additive,
}

fn fitted(fixed: Fixed) -> Option<(NestedFit, Vec<String>)> {
    let table = table("stats/oats_split_plot.csv", ',')?;
    let (variety, varieties) = levels(&table["gen"]);
    let (nitrogen, doses) = levels(&table["nitro"]);
    let (block, _) = levels(&table["block"]);
    let response = numbers(&table["yield"]);
    let by_variety = treatment_columns(&variety);
    let by_nitrogen = treatment_columns(&nitrogen);
    let mut columns = vec![vec![1.0; response.len()]];
    columns.extend(by_variety.clone());
    columns.extend(by_nitrogen.clone());
    let mut names = vec!["(Intercept)".to_owned()];
    names.extend(varieties.iter().skip(1).map(|label| format!("gen{label}")));
    names.extend(doses.iter().skip(1).map(|label| format!("N{label}")));
    if matches!(fixed, Fixed::Interaction) {
        for (dose, with_dose) in doses.iter().skip(1).zip(&by_nitrogen) {
            for (label, of_variety) in varieties.iter().skip(1).zip(&by_variety) {
                columns.push(of_variety.iter().zip(with_dose).map(|(a, b)| a * b).collect());
                names.push(format!("gen{label}:N{dose}"));
            }
        }
    }
    let groups = Groups::InnerInOuter { outer: &block, inner: &variety };
    let model = Model { response: &response, columns: &columns, groups };
    Some((fit(&model, Likelihood::Restricted).unwrap(), names))
}

fn agrees_with(fixed: Fixed, section: &str) {
    let Some(golden) = golden("stats/oats_split_plot.json") else { return };
    let Some((fit, names)) = fitted(fixed) else { return };
    let expected = &golden[section];
    agrees("criterion", fit.criterion, &expected["reml_deviance"]);
    component_agrees("block", fit.outer, &expected["variance_components"]["block"]);
    component_agrees("variety in block", fit.inner.unwrap(), &expected["variance_components"]["gen:block"]);
    component_agrees("residual", fit.residual, &expected["variance_components"]["residual"]);
    assert_eq!(fit.fixed.len(), names.len());
    for (name, effect) in names.iter().zip(&fit.fixed) {
        agrees(name, effect.estimate, &expected["fixed_effects"][name]);
        agrees(name, effect.standard_error, &expected["fixed_effect_se"][name]);
    }
}

#[test]
fn interaction_model_agrees() {
    agrees_with(Fixed::Interaction, "interaction_model");
}

#[test]
fn additive_model_agrees() {
    agrees_with(Fixed::Additive, "additive_model");
}

/// Balanced strata have closed forms: residual = MS within, the others differences of mean squares
/// (`anova_error_strata` of the same file).
#[test]
fn components_are_differences_of_mean_squares() {
    let Some((fit, _)) = fitted(Fixed::Interaction) else { return };
    let (block, plot, within) = (3175.05555556, 601.330555556, 177.083333333);
    let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-6, "{found} {expected}");
    near(fit.residual.variance, within);
    near(fit.inner.unwrap().variance, (plot - within) / 4.0);
    near(fit.outer.variance, (block - plot) / 12.0);
}
