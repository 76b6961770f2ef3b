//! The spring oats of John and Williams (1995, Cyclic and Computer Generated Designs, p. 146, as kept in the general data
//! package `agridat`), worked out with lme4, pbkrtest and emmeans: see `alpha_spring_oats.R` among the oracles.

use crate::{compared, plot};
use serde_json::Value;
use std::path::PathBuf;
use trial::compare::verdict::Verdict;
use trial::compare::{Comparison, Degrees, Observed};

/// The folder of outside data, or `None`, said aloud, where it is not here.
fn oracles() -> Option<PathBuf> {
    let beside = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared/oracles");
    let folder = std::env::var_os("LOCULE_ORACLES").map_or(beside, PathBuf::from).join("stats");
    if folder.is_dir() {
        return Some(folder);
    }
    println!("left out: the published spring oats (set LOCULE_ORACLES)");
    None
}

fn oats(folder: &std::path::Path) -> Vec<Observed> {
    let text = std::fs::read_to_string(folder.join("alpha_spring_oats.csv")).unwrap();
    let number = |cell: &str| cell.trim_start_matches(['R', 'B']).parse::<u32>().unwrap();
    let row = |line: &str| {
        let cells: Vec<&str> = line.split(',').collect();
        plot(cells[3], "here", number(cells[1]), number(cells[2]), cells[4].parse().unwrap())
    };
    text.lines().skip(1).map(row).collect()
}

#[track_caller]
fn agrees(found: f64, golden: &Value, within: f64) {
    let golden = golden.as_f64().unwrap();
    assert!((found - golden).abs() <= within, "{found} is not {golden}");
}

fn result<'a>(comparison: &'a Comparison, variety: &str) -> &'a trial::compare::Outcome {
    comparison.outcomes.iter().find(|own| own.variety == variety).unwrap()
}

#[test]
fn oats_come_out_as_printed_through_the_front_door() {
    let Some(folder) = oracles() else { return };
    let golden: Value =
        serde_json::from_str(&std::fs::read_to_string(folder.join("alpha_spring_oats.json")).unwrap())
            .unwrap();
    let comparison = compared(&oats(&folder), Some("G01")).unwrap();
    assert_eq!(comparison.degrees, Degrees::KenwardRoger);
    let fixed = &golden["varieties_fixed"];
    agrees(comparison.components[0].component.variance, &fixed["variance_components"]["rep:block"], 1e-7);
    agrees(comparison.components[1].component.variance, &fixed["variance_components"]["residual"], 1e-7);
    agrees(
        comparison.error_of_difference.unwrap().powi(2),
        &fixed["sed"]["mean_variance_of_a_difference"],
        1e-7,
    );
    for (variety, mean) in fixed["means_kenward_roger"].as_object().unwrap() {
        let own = result(&comparison, variety).mean.unwrap();
        agrees(own.estimate, &mean["mean"], 1e-6);
        agrees(own.standard_error, &mean["se"], 1e-6);
    }
    for (pair, told) in fixed["dunnett_vs_G01_kenward_roger_mvt"].as_object().unwrap() {
        let own = result(&comparison, pair.split(" - ").next().unwrap()).against.unwrap();
        agrees(own.difference, &told["estimate"], 1e-6);
        // The reference rounds degrees of freedom before it integrates, so its chances are good to about 1e-3.
        agrees(own.chance.get(), &told["p_adjusted"], 1e-3);
        let differs = told["p_adjusted"].as_f64().unwrap() < 0.05;
        assert_eq!(differs, !matches!(own.verdict, Verdict::NotTold { .. }), "{pair}");
    }
    // Printed by Piepho and Moehring 2007, Genetics 177:1881, Example 1, as quoted in the data package's help.
    assert_eq!(format!("{:.3}", comparison.repeatability.unwrap()), "0.809");
}
