//! Counts and shares: webworms in beet plots, germinated seed, held to R.
//!
//! Data: Beall 1940, Ecology 21:460-474, table 6 (webworms); Mead, Curnow and Hasted, Statistical Methods in
//! Agriculture and Experimental Biology (germination). Expected values: R 4.2.2 `glm`, MASS 7.3-58.2 `glm.nb`, lme4
//! 1.1-31 `glmer` (Laplace, not polished: its search ends near four digits, so closer values stand beside).

use crate::oracles::{agrees_within, golden, levels, table, treatment_columns};
use serde_json::Value;
use statistics::component::Standing;
use statistics::counts::{CountFit, Family, Model, Shape, fit};
use statistics::nested::Effect;

fn whole(column: &[String]) -> Vec<u32> {
    column.iter().map(|cell| cell.parse().unwrap()).collect()
}

/// Fixed effects by R's names.
#[track_caller]
fn effects_agree(found: &[Effect], names: &[String], values: &Value, errors: &Value, digits: (f64, f64)) {
    assert_eq!(found.len(), names.len());
    for (effect, name) in found.iter().zip(names) {
        agrees_within(name, effect.estimate, &values[name], digits.0);
        agrees_within(name, effect.standard_error, &errors[name], digits.1);
    }
}

/// An intercept and one column a level but the first, with R's names.
fn design(rows: usize, factors: &[(&str, &[usize], &[String])]) -> (Vec<Vec<f64>>, Vec<String>) {
    let (mut columns, mut names) = (vec![vec![1.0; rows]], vec!["(Intercept)".to_owned()]);
    for (prefix, own, labels) in factors {
        columns.extend(treatment_columns(own));
        names.extend(labels.iter().skip(1).map(|label| format!("{prefix}{label}")));
    }
    (columns, names)
}

/// The optimum after Newton's steps on Richardson derivatives (numDeriv 2016.8-1.1), last step under 5e-8: spread, fixed
/// effects, then their errors from the same second derivatives. Webworms: the deviance written out in R, group
/// effects found to 1e-15. Germination: `glmer(.., devFunOnly = TRUE)` with `tolPwrss = 1e-13` (lme4 ends its
/// search for group effects early, which moves webworms' deviance by 2.3e-6).
#[track_caller]
fn polished_agrees(found: &CountFit, deviance: f64, values: &[f64], errors: &[f64]) {
    let close = |found: f64, expected: f64, within: f64| {
        assert!((found - expected).abs() <= within, "found {found}, expected {expected}");
    };
    close(-2.0 * found.log_likelihood, deviance, 5e-8);
    close(found.between[0].standard_deviation(), values[0], 2e-7);
    for (at, effect) in found.fixed.iter().enumerate() {
        close(effect.estimate, values[at + 1], 2e-7);
        close(effect.standard_error / errors[at + 1], 1.0, 1e-5);
    }
}

#[track_caller]
fn laplace_agrees(found: &CountFit, names: &[String], expected: &Value) {
    agrees_within("log-likelihood", found.log_likelihood, &expected["log_likelihood"], 5e-6);
    agrees_within("spread", found.between[0].standard_deviation(), &expected["sd"], 1e-4);
    effects_agree(&found.fixed, names, &expected["fixed"], &expected["se"], (3e-4, 3e-3));
    assert!(found.notes.is_empty(), "{:?}", found.notes);
}

#[test]
fn webworms_agree() {
    let Some(golden) = golden("stats/counts_and_proportions.json") else { return };
    let Some(table) = table("stats/webworm_counts.csv", ',') else { return };
    let expected = &golden["webworm"];
    let seen = whole(&table["y"]);
    let ((treatment, treatments), (block, blocks)) = (levels(&table["trt"]), levels(&table["block"]));
    let (columns, names) = design(seen.len(), &[("trt", &treatment, &treatments)]);
    let groups = [block.clone()];
    let plain = Model {
        family: Family::Poisson,
        seen: &seen,
        columns: &columns,
        groups: &groups,
        offset: None,
        weights: None,
    };
    let found = fit(&plain).unwrap();
    laplace_agrees(&found, &names, &expected["poisson_glmm_laplace"]);
    let values = [
        0.337_105_318_436_7,
        0.281_524_271_721_4,
        -1.020_430_991_057_4,
        -0.496_279_912_722_1,
        -1.222_457_619_095_2,
    ];
    let errors = [0.0754801185062, 0.1051805813074, 0.0910788843455, 0.0762096483516, 0.0982877854378];
    polished_agrees(&found, 3_037.988_033_433_8, &values, &errors);

    let (columns, names) =
        design(seen.len(), &[("trt", &treatment, &treatments), ("block", &block, &blocks)]);
    let without = Model { columns: &columns, groups: &[], ..plain };
    let poisson = fit(&without).unwrap();
    agrees_within("deviance", poisson.deviance, &expected["poisson_glm_deviance"], 1e-10);

    let negative = fit(&Model { family: Family::NegativeBinomial, ..without }).unwrap();
    let expected = &expected["negative_binomial"];
    agrees_within("log-likelihood", negative.log_likelihood, &expected["log_likelihood"], 1e-10);
    agrees_within("deviance", negative.deviance, &expected["deviance"], 1e-6);
    let Some(Shape::Estimated(shape)) = negative.shape else { panic!("{:?}", negative.shape) };
    agrees_within("shape", shape.estimate, &expected["theta"], 1e-6);
    agrees_within("its error", shape.standard_error, &expected["theta_se"], 1e-6);
    effects_agree(&negative.fixed, &names, &expected["coefficients"], &expected["se"], (1e-6, 1e-6));
}

/// Deviances and degrees as printed with the data (the data package's help page for Mead's germination counts).
const PRINTED: [(&str, f64, u32); 5] =
    [("1", 1193.80, 63), ("T", 430.11, 60), ("C", 980.10, 60), ("T+C", 148.11, 57), ("T*C", 55.64, 48)];

#[test]
fn germination_agrees() {
    let Some(golden) = golden("stats/counts_and_proportions.json") else { return };
    let Some(table) = table("stats/germination_binomial.csv", ',') else { return };
    let expected = &golden["germination"];
    let (seen, looked_at) = (whole(&table["germ"]), whole(&table["seeds"]));
    let (warmth, warmths) = levels(&table["temp"]);
    // Labels in the order of the concentrations that they are.
    let (strength, strengths) = levels(&table["conc"]);
    let cell: Vec<usize> = warmth.iter().zip(&strength).map(|(t, c)| t * strengths.len() + c).collect();
    let family = Family::Binomial { looked_at: &looked_at };
    let empty = Model { family, seen: &seen, columns: &[], groups: &[], offset: None, weights: None };
    for (name, printed, degrees) in PRINTED {
        let factors: Vec<(&str, &[usize], &[String])> = match name {
            "1" => vec![],
            "T" => vec![("temp", &warmth, &warmths)],
            "C" => vec![("C", &strength, &strengths)],
            "T+C" => vec![("temp", &warmth, &warmths), ("C", &strength, &strengths)],
            _ => vec![("cell", &cell, &[])],
        };
        let (columns, _) = design(seen.len(), &factors);
        let found = fit(&Model { columns: &columns, ..empty }).unwrap();
        agrees_within(name, found.deviance, &expected["binomial_glm"][name]["deviance"], 1e-10);
        assert!((found.deviance - printed).abs() < 0.005 + 1e-9, "{name}: {}", found.deviance);
        assert_eq!(found.scatter.degrees, degrees, "{name}");
    }

    let replicate = levels(&table["rep"]).0;
    let pot: Vec<usize> = cell.iter().zip(&replicate).map(|(cell, rep)| cell * 4 + rep).collect();
    let (columns, names) = design(seen.len(), &[("temp", &warmth, &warmths), ("C", &strength, &strengths)]);
    let found = fit(&Model { columns: &columns, groups: &[pot], ..empty }).unwrap();
    laplace_agrees(&found, &names, &expected["glmm_laplace"]);
    let values = [
        0.417_484_246_313,
        -1.352_361_173_030,
        1.587_277_516_605,
        -1.859_699_424_658,
        -0.855_465_313_178,
        0.413_271_212_480,
        1.355_309_329_327,
        1.848_947_698_545,
    ];
    let errors = [
        0.0739954154292,
        0.1869665992545,
        0.1934180595444,
        0.2090386483785,
        0.1909219405448,
        0.2054428722718,
        0.2009000062271,
        0.2061625788942,
    ];
    polished_agrees(&found, 363.093_895_758_417, &values, &errors);
    assert!(matches!(found.between[0].standing, Standing::Estimated { .. }));
}
