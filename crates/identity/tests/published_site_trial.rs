//! How far one site moves a fruit-class call: an open trial of 15 genotypes at 18 sites.
//!
//! Source: Ortiz et al. 2007, Euphytica 153:119-134; data from the open R package agridat, read in place.

#![expect(clippy::unwrap_used, reason = "ten is not zero")]

mod fruit;

use fruit::{Fruits, draws, guide};
use identity::fruit_class::call;
use identity::spread::{Spread, beforehand};
use identity::sums::FruitSums;
use record::language::Units;
use std::collections::BTreeMap;
use std::num::NonZeroU32;
use std::path::PathBuf;

/// Weights are means of many fruits; how many is not told. Ten is what measuring precedents ask for.
const FRUITS: u32 = 10;

/// Length over width taken for all genotypes, which the trial does not tell: round.
const SHAPE: f64 = 0.9;

struct Trial {
    /// Mean fruit weight in grams, by genotype, then site.
    weights: BTreeMap<String, BTreeMap<String, f64>>,
}

fn trial() -> Option<Trial> {
    let beside = || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared/oracles");
    let folder = std::env::var_os("LOCULE_ORACLES").map_or_else(beside, PathBuf::from);
    let text = std::fs::read_to_string(folder.join("identity/agridat_ortiz_tomato_yield.tsv")).ok()?;
    let mut weights: BTreeMap<String, BTreeMap<String, f64>> = BTreeMap::new();
    for line in text.lines().skip(1) {
        let cells: Vec<&str> = line.split('\t').map(|cell| cell.trim_matches('"')).collect();
        if let [site, genotype, _, weight] = cells.as_slice()
            && let Ok(weight) = weight.parse::<f64>()
            // Some cells hold no weight, or nothing: not measured.
            && 0.0 < weight
        {
            weights.entry((*genotype).to_owned()).or_default().insert((*site).to_owned(), weight);
        }
    }
    Some(Trial { weights })
}

fn mean(values: impl Iterator<Item = f64> + Clone) -> f64 {
    values.clone().sum::<f64>() / values.count().max(1) as f64
}

/// One record a site: the mean of ten fruits.
fn evidence(sites: impl Iterator<Item = f64>) -> FruitSums {
    let samples: Vec<_> = sites
        .enumerate()
        .map(|(number, weight)| {
            let mut sample = Fruits::weighing(weight).shape(SHAPE).sample(number as i16, 1, 1.0);
            sample.fruit_count = NonZeroU32::new(FRUITS).unwrap();
            sample
        })
        .collect();
    fruit::sums(samples.iter())
}

/// Facts of the trade, section 5: log weight site .27, genotype .29, residual .19. Site and genotype are taken
/// out of the two-way table in turns until nothing moves (some cells are empty), and the variances follow
/// from sums of squares.
#[test]
fn the_published_spread_is_what_the_trial_says() {
    let Some(trial) = trial() else {
        println!("left out: agridat_ortiz_tomato_yield");
        return;
    };
    let cells: Vec<(&str, &str, f64)> = trial
        .weights
        .iter()
        .flat_map(|(genotype, sites)| {
            sites.iter().map(|(site, weight)| (genotype.as_str(), site.as_str(), weight.ln()))
        })
        .collect();
    let mut genotypes: BTreeMap<&str, f64> = BTreeMap::new();
    let mut sites: BTreeMap<&str, f64> = BTreeMap::new();
    for _ in 0..50 {
        genotypes = means(cells.iter().map(|(genotype, site, log)| (*genotype, log - at(&sites, site))));
        sites = means(cells.iter().map(|(genotype, site, log)| (*site, log - at(&genotypes, genotype))));
    }
    assert_eq!((genotypes.len(), sites.len()), (15, 18));
    let left = cells.iter().map(|(genotype, site, log)| log - at(&genotypes, genotype) - at(&sites, site));
    let freedom = cells.len() as f64 - 15.0 - 18.0 + 1.0;
    let residual = (left.map(|left| left * left).sum::<f64>() / freedom).sqrt();
    let site = (variance(&sites) - residual.powi(2) * 18.0 / cells.len() as f64).sqrt();
    let genotype = (variance(&genotypes) - residual.powi(2) * 15.0 / cells.len() as f64).sqrt();
    println!(
        "log weight: site {site:.3}, genotype {genotype:.3}, residual {residual:.3}, {} cells",
        cells.len()
    );
    // Half a unit of the last printed digit, and as much again for another way with empty cells.
    assert!((site - beforehand::SITE_LOG_WEIGHT).abs() < 0.01, "{site}");
    assert!((residual - beforehand::SEASON_LOG_WEIGHT).abs() < 0.01, "{residual}");
    assert!((genotype - 0.29).abs() < 0.01, "{genotype}");
}

fn at(effects: &BTreeMap<&str, f64>, name: &str) -> f64 {
    effects.get(name).copied().unwrap_or(0.0)
}

fn means<'a>(values: impl Iterator<Item = (&'a str, f64)>) -> BTreeMap<&'a str, f64> {
    let mut sums: BTreeMap<&str, (f64, f64)> = BTreeMap::new();
    for (name, value) in values {
        let (sum, count) = sums.entry(name).or_default();
        *sum += value;
        *count += 1.0;
    }
    sums.into_iter().map(|(name, (sum, count))| (name, sum / count)).collect()
}

fn variance(effects: &BTreeMap<&str, f64>) -> f64 {
    let middle = mean(effects.values().copied());
    effects.values().map(|effect| (effect - middle).powi(2)).sum::<f64>() / (effects.len() as f64 - 1.0)
}

/// Each genotype called from all its sites, and from each site alone.
#[test]
fn one_site_alone_may_cross_a_border_and_seldom_with_confidence() {
    let Some(trial) = trial() else {
        println!("left out: agridat_ortiz_tomato_yield");
        return;
    };
    let spread = Spread::beforehand();
    let told = |sums: &FruitSums| call(sums, &spread, guide(), draws(), Units::METRIC);
    let (mut alone, mut other, mut sure, mut sure_other) = (0.0, 0.0, 0.0, 0.0);
    println!("genotype | all sites: g, call | sites that call it otherwise | of them uncontested");
    for (genotype, sites) in &trial.weights {
        let whole = told(&evidence(sites.values().copied()));
        let singles: Vec<_> =
            sites.values().map(|weight| told(&evidence(std::iter::once(*weight)))).collect();
        let otherwise = singles.iter().filter(|single| single.verdict != whole.verdict).count();
        let confident =
            singles.iter().filter(|single| single.verdict != whole.verdict && !single.contested).count();
        let typical = mean(sites.values().map(|weight| weight.ln())).exp();
        let verdict = whole.verdict.as_ref().map_or("between", |name| name.as_str());
        println!(
            "{genotype} | {typical:.0} g, {verdict} ({:.0} in 100) | {otherwise} of {} | {confident}",
            100.0 * whole.probability().get(),
            sites.len()
        );
        alone += sites.len() as f64;
        other += otherwise as f64;
        sure += singles.iter().filter(|single| !single.contested).count() as f64;
        sure_other += confident as f64;
    }
    println!(
        "one site alone: {alone} calls, {other} otherwise, {sure} uncontested, {sure_other} of these otherwise"
    );
    // A border is crossed often enough that a season cannot be ignored..
    assert!(0.1 < other / alone, "{other} of {alone}");
    // ..and uncontested calls are right at least as often as they must be, though these sites lie farther
    // apart than the seasons of one garden that the figures stand for.
    assert!(sure_other / sure < 0.2, "{sure_other} of {sure}");
}
