//! Simulated nested tables fitted with lme4: frozen values, and a fresh table where R is at hand.
//!
//! Frozen: R 4.2.2 with lme4 1.1-31, polished (`tests/data/lme4_nested/SOURCE.md`). Component errors there are
//! average information worked out by dense matrices in R.

use crate::oracles::{agrees, agrees_within, levels, numbers, parse_table};
use serde_json::Value;
use statistics::component::{Component, Standing};
use statistics::draws::{normal, stream};
use statistics::nested::{GroupEffect, Groups, Likelihood, Model, NestedFit, fit};
use statistics::variety_means::{PlantSums, Priors, Variances, variety_mean};
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::process::Command;

type Table = BTreeMap<String, Vec<String>>;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/data/lme4_nested")
}

fn table(name: &str) -> Table {
    parse_table(&std::fs::read_to_string(folder().join(format!("{name}.csv"))).unwrap(), ',')
}

fn expected(name: &str) -> Value {
    let text = std::fs::read_to_string(folder().join("expected.json")).unwrap();
    serde_json::from_str::<Value>(&text).unwrap()["fits"][name].clone()
}

/// One column a variety, or an intercept and the measured column `x`.
fn columns(table: &Table) -> Vec<Vec<f64>> {
    if let Some(x) = table.get("x") {
        return vec![vec![1.0; x.len()], numbers(x)];
    }
    let (variety, varieties) = levels(&table["variety"]);
    let indicator = |at: usize| variety.iter().map(|own| f64::from(u8::from(*own == at))).collect();
    (0..varieties.len()).map(indicator).collect()
}

fn nested(table: &Table, likelihood: Likelihood) -> NestedFit {
    let (outer, inner) = (levels(&table["outer"]).0, levels(&table["inner"]).0);
    let groups = Groups::InnerInOuter { outer: &outer, inner: &inner };
    let (response, columns) = (numbers(&table["y"]), columns(table));
    fit(&Model { response: &response, columns: &columns, groups }, likelihood).unwrap()
}

/// Holds where a component and its error are the same, or both are on the floor.
#[track_caller]
fn component_agrees(found: Component, variance: &Value, error: &Value) {
    match found.standing {
        Standing::AtZero => assert_eq!(variance.as_f64(), Some(0.0)),
        Standing::Estimated { standard_error } => {
            agrees("component", found.variance, variance);
            agrees_within("its error", standard_error, error, 1e-7);
        }
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn components_agree(found: [Component; 3], expected: &Value) {
    for (level, component) in found.into_iter().enumerate() {
        component_agrees(component, &expected["components"][level], &expected["component_errors"][level]);
    }
}

#[track_caller]
fn effects_agree(found: &[GroupEffect], expected: &Value, name: impl Fn(&GroupEffect) -> String) {
    assert_eq!(found.len(), expected.as_object().unwrap().len());
    for group in found {
        agrees_within(&name(group), group.effect.estimate, &expected[name(group)], 1e-6);
    }
}

#[track_caller]
fn nested_agrees(table: &Table, likelihood: Likelihood, expected: &Value) {
    let fit = nested(table, likelihood);
    agrees("criterion", fit.criterion, &expected["criterion"]);
    components_agree([fit.outer, fit.inner.unwrap(), fit.residual], expected);
    for (at, effect) in fit.fixed.iter().enumerate() {
        agrees("fixed effect", effect.estimate, &expected["fixed_effects"][at]);
        agrees("its error", effect.standard_error, &expected["fixed_effect_errors"][at]);
    }
    let (outers, inners) = (levels(&table["outer"]).1, levels(&table["inner"]).1);
    effects_agree(&fit.outer_effects, &expected["outer_effects"], |group| outers[group.outer].clone());
    let inner_name =
        |group: &GroupEffect| format!("{} {}", outers[group.outer], inners[group.inner.unwrap()]);
    effects_agree(&fit.inner_effects, &expected["inner_effects"], inner_name);
}

/// The table as plant sums of each variety.
fn sums(table: &Table) -> Vec<Vec<PlantSums>> {
    let (season, _) = levels(&table["outer"]);
    let mut varieties: BTreeMap<&str, BTreeMap<(usize, &str), PlantSums>> = BTreeMap::new();
    let rows = table["variety"].iter().zip(&season).zip(&table["inner"]).zip(numbers(&table["y"]));
    for (((variety, season), plant), fruit) in rows {
        let plants = varieties.entry(variety).or_default();
        let empty = PlantSums::empty(u32::try_from(*season).unwrap());
        plants.entry((*season, plant)).or_insert(empty).add(fruit);
    }
    varieties.into_values().map(|plants| plants.into_values().collect()).collect()
}

#[track_caller]
fn variety_means_agree(table: &Table, expected: &Value) {
    let sums = sums(table);
    let slices: Vec<&[PlantSums]> = sums.iter().map(Vec::as_slice).collect();
    let spread = statistics::variety_means::fit(&slices, &Priors::default()).unwrap();
    agrees("criterion", spread.criterion, &expected["criterion"]);
    components_agree([spread.season, spread.plant, spread.fruit], expected);
    let given = Variances::new(spread.season.variance, spread.plant.variance, spread.fruit.variance).unwrap();
    for (at, plants) in sums.iter().enumerate() {
        let mean = variety_mean(plants, &given).unwrap();
        agrees("mean", mean.estimate, &expected["fixed_effects"][at]);
        agrees("its error", mean.standard_error, &expected["fixed_effect_errors"][at]);
    }
}

#[test]
fn frozen_fits_agree() {
    for name in ["house", "small_house", "no_season_house", "plots"] {
        nested_agrees(&table(name), Likelihood::Restricted, &expected(name)["restricted"]);
        nested_agrees(&table(name), Likelihood::Full, &expected(name)["full"]);
    }
}

#[test]
fn frozen_variety_means_agree() {
    for name in ["house", "small_house", "no_season_house"] {
        variety_means_agree(&table(name), &expected(name)["restricted"]);
    }
}

/// A house that no file holds: every fruit drawn here.
fn fresh_house() -> String {
    let mut chance = stream(&["lme4", "fresh house"]);
    let mut text = "variety,outer,inner,y\n".to_owned();
    for variety in 10..20 {
        for season in 0..=variety % 3 + 1 {
            let of_season = 4.0 + 0.3 * normal(&mut chance);
            for plant in 0..=(variety + season) % 3 + 1 {
                let of_plant = of_season + 0.25 * normal(&mut chance);
                for _ in 0..=(variety + plant) % 4 + 1 {
                    let fruit = of_plant + 0.3 * normal(&mut chance);
                    text.push_str(&format!("v{variety},v{variety}-s{season},p{plant},{fruit:.6}\n"));
                }
            }
        }
    }
    text
}

#[test]
fn a_fresh_house_agrees_with_this_machines_lme4() {
    let text = fresh_house();
    let path = std::env::temp_dir().join(format!("locule-fresh-house-{}.csv", std::process::id()));
    std::fs::write(&path, &text).unwrap();
    let answer = Command::new("Rscript").arg(folder().join("live.R")).arg(&path).output();
    std::fs::remove_file(&path).unwrap();
    let Some(answer) = answer.ok().filter(|answer| answer.status.success()) else {
        println!("left out: Rscript with lme4, numDeriv and jsonlite");
        return;
    };
    let expected: Value = serde_json::from_slice(&answer.stdout).unwrap();
    let table = parse_table(&text, ',');
    nested_agrees(&table, Likelihood::Restricted, &expected);
    variety_means_agree(&table, &expected);
}
