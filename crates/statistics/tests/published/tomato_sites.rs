//! An open tomato trial of 15 genotypes at 18 sites: how far one site moves a mean fruit weight.
//!
//! Data: Ortiz et al. 2007, Euphytica 153:119-134 (open package agridat). Expected: the project's own notes on
//! the same table, standard deviations of log weight to two digits: site 0.27, genotype 0.29, rest 0.19.

use crate::oracles::{levels, numbers, table, treatment_columns};
use statistics::nested::{Groups, Likelihood, Model, NestedFit, fit};

/// One factor random, the other fixed.
fn fitted(response: &[f64], random: &[usize], fixed: &[usize]) -> NestedFit {
    let mut columns = vec![vec![1.0; response.len()]];
    columns.extend(treatment_columns(fixed));
    let model = Model { response, columns: &columns, groups: Groups::Outer(random) };
    fit(&model, Likelihood::Restricted).unwrap()
}

#[test]
fn one_site_can_move_a_class() {
    let Some(table) = table("identity/agridat_ortiz_tomato_yield.tsv", '\t') else { return };
    let weighed = |of: &str| -> Vec<String> {
        let rows = table[of].iter().zip(&table["weight"]);
        // No weight was noted where no fruit was picked, or a 0.
        rows.filter(|(_, weight)| weight.parse::<f64>().is_ok_and(|weight| 0.0 < weight))
            .map(|(cell, _)| cell.clone())
            .collect()
    };
    let (site, sites) = levels(&weighed("env"));
    let (genotype, genotypes) = levels(&weighed("gen"));
    assert_eq!((sites.len(), genotypes.len()), (18, 15));
    let logs: Vec<f64> = numbers(&weighed("weight")).iter().map(|weight| weight.ln()).collect();

    let half_a_digit =
        |found: f64, printed: f64| assert!((found - printed).abs() < 0.005, "{found} {printed}");
    let by_site = fitted(&logs, &site, &genotype);
    half_a_digit(by_site.outer.standard_deviation(), 0.27);
    half_a_digit(by_site.residual.standard_deviation(), 0.19);
    let by_genotype = fitted(&logs, &genotype, &site);
    half_a_digit(by_genotype.outer.standard_deviation(), 0.29);
    half_a_digit(by_genotype.residual.standard_deviation(), 0.19);
}
