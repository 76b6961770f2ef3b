//! Efficiency of designs: alpha designs, lattices, a balanced one, augmented blocks.
//!
//! Designs: John and Williams, Cyclic and Computer Generated Designs (1995), p. 146 (`alpha_spring_oats`);
//! lattices and arrays worked out with R 4.2.2 from eigenvalues (`design_efficiency.R` beside the numbers);
//! Cochran and Cox, Experimental Designs (1957), p. 448 (`cochran_bib`).

use crate::oracles::{agrees_within, golden, levels, table};
use serde_json::Value;
use statistics::design::constructions::{alpha, augmented, square_lattice};
use statistics::design::differences::differences;
use statistics::design::efficiency::efficiency;
use statistics::design::search::{Effort, Ground, Weights, search};
use statistics::design::{Blocking, Design, Treatments, bounds};
use statistics::draws::stream;
use std::ops::ControlFlow;

/// The goldens are printed with twelve decimals.
const PRINTED: f64 = 2e-11;

#[track_caller]
fn is_as_efficient(design: &Design, expected: &Value) {
    let found = efficiency(design).unwrap();
    agrees_within("average efficiency", found.average, &expected["harmonic_mean"], PRINTED);
    if let Some(canonical) = expected["canonical"].as_array() {
        assert_eq!(found.canonical.len(), canonical.len());
        for (own, theirs) in found.canonical.iter().zip(canonical) {
            agrees_within("canonical efficiency", *own, theirs, PRINTED);
        }
    }
    let replication = design.replication()[0] as f64;
    let mean = differences(design, Treatments::Fixed).unwrap().mean().unwrap();
    assert!((mean - 2.0 / (replication * found.average)).abs() < 1e-10, "2/(rE) is the mean variance");
}

fn array(golden: &Value) -> Vec<Vec<usize>> {
    let rows = golden["array"].as_array().unwrap().iter();
    let number = |cell: &Value| usize::try_from(cell.as_u64().unwrap()).unwrap();
    rows.map(|row| row.as_array().unwrap().iter().map(number).collect()).collect()
}

#[test]
fn constructed_designs_agree() {
    let Some(golden) = golden("stats/design_efficiency.json") else { return };
    for (name, blocks, treatments, replicates) in
        [("alpha_v12_k3_r2", 4, 12, 2), ("alpha_v24_k4_r3", 6, 24, 3)]
    {
        let expected = &golden[name];
        is_as_efficient(&alpha(&array(expected), blocks, treatments).unwrap(), expected);
        let bound = bounds::resolved(treatments, replicates, blocks).unwrap();
        agrees_within("bound", bound, &expected["lattice_type_bound"], PRINTED);
    }
    for (name, replicates) in
        [("simple_lattice_25", 2), ("triple_lattice_25", 3), ("quadruple_lattice_25", 4)]
    {
        is_as_efficient(&square_lattice(5, replicates).unwrap(), &golden[name]);
    }
}

/// (k+1)(r-1) / ((k+1)(r-1) + r), the closed form of square lattices, at a size that has no golden.
#[test]
fn lattices_agree_with_the_closed_form() {
    for (side, replicates) in [(3_u8, 2_u8), (4, 3), (7, 5), (6, 2)] {
        let (k, r) = (f64::from(side), f64::from(replicates));
        let kept = (k + 1.0) * (r - 1.0);
        let lattice = square_lattice(side.into(), replicates.into()).unwrap();
        assert!((efficiency(&lattice).unwrap().average - kept / (kept + r)).abs() < 1e-12);
    }
}

#[test]
fn the_balanced_design_agrees() {
    let Some(golden) = golden("stats/design_efficiency.json") else { return };
    let Some(table) = table("stats/cochran_bib.csv", ',') else { return };
    let (treatment, names) = levels(&table["gen"]);
    let (block, _) = levels(&table["loc"]);
    let design = Design::new(names.len(), treatment, vec![Blocking::fixed(block)]).unwrap();
    is_as_efficient(&design, &golden["balanced_incomplete_13_in_13_blocks_of_4"]);
    // A balanced design stands on the bound of its size.
    assert!((bounds::one_way(13, 4).unwrap() - 0.8125).abs() < 1e-15);
}

#[test]
fn the_oats_design_agrees() {
    let Some(golden) = golden("stats/alpha_spring_oats.json") else { return };
    let Some(table) = table("stats/alpha_spring_oats.csv", ',') else { return };
    let (treatment, names) = levels(&table["gen"]);
    let (replicate, _) = levels(&table["rep"]);
    let within: Vec<String> =
        table["rep"].iter().zip(&table["block"]).map(|(r, b)| format!("{r}{b}")).collect();
    let (block, _) = levels(&within);
    let blockings = vec![Blocking::fixed(replicate), Blocking::fixed(block)];
    let design = Design::new(names.len(), treatment, blockings).unwrap();
    let found = efficiency(&design).unwrap();
    let expected = &golden["design"];
    agrees_within("E", found.average, &expected["efficiency_factor_harmonic_mean"], PRINTED);
    for (own, theirs) in
        found.canonical.iter().zip(expected["canonical_efficiency_factors"].as_array().unwrap())
    {
        agrees_within("canonical efficiency", *own, theirs, PRINTED);
    }
}

/// Two new entries differ with variance 2 s2 in one block, 2 s2 (1 + 1/c) across blocks, c checks a block.
/// Introduction to Augmented Experimental Design (extension page on plant breeding and genomics): error mean
/// square 0.0698056, standard errors 0.373646 and 0.431449 with 3 checks.
#[test]
fn augmented_differences_agree_with_the_closed_forms() {
    let design = augmented(50, 3, 6).unwrap();
    let between = differences(&design, Treatments::Fixed).unwrap();
    // Entries are dealt round: the first and the seventh share a block, the first and the second do not.
    let error = |left: usize, right: usize| (between.between(left, right).unwrap() * 0.069_805_555_6).sqrt();
    assert!((error(3, 9) - 0.373_646).abs() < 5e-7, "same block: {}", error(3, 9));
    assert!((error(3, 4) - 0.431_449).abs() < 5e-7, "other block: {}", error(3, 4));
}

/// The search beats the arrays above within their replicates, and stays below the bound.
#[test]
fn the_search_reaches_the_known_designs() {
    for (start, blocks, known) in [
        (alpha(&[vec![0; 4], vec![0; 4], vec![0; 4]], 6, 24).unwrap(), 6, 0.726_488_2),
        (alpha(&[vec![0; 3], vec![0; 3]], 4, 12).unwrap(), 4, 0.594_594_6),
    ] {
        let regions = start.blockings()[0].levels.clone();
        let ground = Ground {
            start: &start,
            treatments: Treatments::Fixed,
            regions: &regions,
            pens: &regions,
            penned: &[],
            neighbours: &[],
            zones: &[],
            weights: Weights::default(),
        };
        let mut chance = stream(&["published designs"]);
        let effort = Effort { looks: 200_000 };
        let found = search(&ground, effort, &mut chance, |_| ControlFlow::Continue(())).unwrap();
        let average = efficiency(&found.design).unwrap().average;
        let bound = bounds::resolved(start.treatments(), start.replication()[0], blocks).unwrap();
        assert!(known - 5e-8 <= average && average <= bound, "{average} for {known} below {bound}");
        println!("searched {average}, known {known}, bound {bound}");
    }
}
