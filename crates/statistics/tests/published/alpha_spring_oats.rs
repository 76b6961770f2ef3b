//! Spring oats in incomplete blocks, blocks random and varieties fixed: one random level.
//!
//! Data: John and Williams 1995, Cyclic and Computer Generated Designs, p. 146. Expected values: R 4.2.2 with
//! lme4 1.1-31, polished by Newton steps (`alpha_spring_oats.R` beside the data).

use crate::oracles::{agrees, component_agrees, golden, levels, numbers, table, treatment_columns};
use statistics::nested::{Groups, Likelihood, Model, fit};

#[test]
fn incomplete_blocks_agree() {
    let Some(golden) = golden("stats/alpha_spring_oats.json") else { return };
    let Some(table) = table("stats/alpha_spring_oats.csv", ',') else { return };
    let expected = &golden["varieties_fixed"];
    let (variety, varieties) = levels(&table["gen"]);
    let (replicate, replicates) = levels(&table["rep"]);
    let (block, blocks) = levels(&table["block"]);
    let block: Vec<usize> =
        replicate.iter().zip(&block).map(|(rep, block)| rep * blocks.len() + block).collect();
    let response = numbers(&table["yield"]);
    let mut columns = vec![vec![1.0; response.len()]];
    columns.extend(treatment_columns(&variety));
    columns.extend(treatment_columns(&replicate));
    let model = Model { response: &response, columns: &columns, groups: Groups::Outer(&block) };
    let fit = fit(&model, Likelihood::Restricted).unwrap();

    agrees("criterion", fit.criterion, &expected["reml_deviance"]);
    component_agrees("block", fit.outer, &expected["variance_components"]["rep:block"]);
    component_agrees("residual", fit.residual, &expected["variance_components"]["residual"]);
    let intercept = std::iter::once("(Intercept)".to_owned());
    let by_variety = varieties.iter().skip(1).map(|label| format!("gen{label}"));
    let by_replicate = replicates.iter().skip(1).map(|label| format!("rep{label}"));
    for (name, effect) in intercept.chain(by_variety).chain(by_replicate).zip(&fit.fixed) {
        agrees(&name, effect.estimate, &expected["fixed_effects"][&name]);
        agrees(&name, effect.standard_error, &expected["fixed_effect_se"][&name]);
    }
}
