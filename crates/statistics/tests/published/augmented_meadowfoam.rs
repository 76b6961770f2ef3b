//! An augmented design: fixed blocks, entries random, most of them grown once. One random level.
//!
//! Data: Introduction to Augmented Experimental Design (extension page on plant breeding and genomics).
//! Expected values: R 4.2.2 with lme4 1.1-31, polished by Newton steps (`augmented_meadowfoam.R` beside them).

use crate::oracles::{agrees, component_agrees, golden, levels, numbers, table, treatment_columns};
use statistics::nested::{Groups, Likelihood, Model, fit};

#[test]
fn random_entries_agree() {
    let Some(golden) = golden("stats/augmented_meadowfoam.json") else { return };
    let Some(table) = table("stats/augmented_meadowfoam.csv", ',') else { return };
    let expected = &golden["entries_random_blocks_fixed"];
    let (entry, entries) = levels(&table["gen"]);
    let (block, blocks) = levels(&table["block"]);
    let response = numbers(&table["tsw"]);
    let mut columns = vec![vec![1.0; response.len()]];
    columns.extend(treatment_columns(&block));
    let model = Model { response: &response, columns: &columns, groups: Groups::Outer(&entry) };
    let fit = fit(&model, Likelihood::Restricted).unwrap();

    agrees("criterion", fit.criterion, &expected["reml_deviance"]);
    component_agrees("entry", fit.outer, &expected["variance_components"]["gen"]);
    component_agrees("residual", fit.residual, &expected["variance_components"]["residual"]);
    let names =
        std::iter::once("(Intercept)".to_owned()).chain(blocks.iter().skip(1).map(|b| format!("block{b}")));
    for (name, effect) in names.zip(&fit.fixed) {
        agrees(&name, effect.estimate, &expected["fixed_effects"][&name]);
        agrees(&name, effect.standard_error, &expected["fixed_effect_se"][&name]);
    }
    for group in &fit.outer_effects {
        let label = &entries[group.outer];
        agrees(label, group.effect.estimate, &expected["blup"][label]);
    }
}
