//! Maize in six counties, some plots missing: the table, spreads by county, and the joint regression.
//!
//! Data: Besag and Higdon 1999, J. Roy. Stat. Soc. B 61:691-746. Expected values: R 4.2.2, `gls` of nlme 3.1-162 with
//! `varIdent`, and `lm`, on the same table (printed to ten digits).

use crate::oracles::{numbers, table};
use statistics::environments::joint_regression::regress;
use statistics::mixed::means::coefficients;
use statistics::mixed::residual::Residual;
use statistics::mixed::terms::{Factor, Fixed};
use statistics::mixed::{Going, Model, fit};
use statistics::nested::Likelihood;
use std::collections::BTreeMap;

pub(crate) struct Maize {
    pub(crate) yields: Vec<f64>,
    pub(crate) variety: Factor,
    pub(crate) county: Factor,
    pub(crate) replicate: Factor,
    pub(crate) block: Factor,
}

pub(crate) fn maize() -> Option<Maize> {
    let whole = table("stats/maize_counties.csv", ',')?;
    let known: Vec<usize> =
        (0..whole["yield"].len()).filter(|row| whole["yield"][*row].parse::<f64>().is_ok()).collect();
    let kept = |name: &str| -> Vec<String> { known.iter().map(|row| whole[name][*row].clone()).collect() };
    let factor = |ours: &str, name: &str| Factor::from_labels(ours, &kept(name));
    Some(Maize {
        yields: numbers(&kept("yield")),
        variety: factor("variety", "gen"),
        county: factor("county", "county"),
        replicate: factor("replicate", "rep"),
        block: factor("block", "block"),
    })
}

/// Means of the plots of every variety in every county, and how many plots they are of.
pub(crate) fn cells(maize: &Maize) -> (Vec<f64>, Factor, Factor, Vec<f64>) {
    let mut sums: BTreeMap<(usize, usize), (f64, f64)> = BTreeMap::new();
    for (row, own) in maize.yields.iter().enumerate() {
        let sum = sums.entry((maize.variety.codes()[row], maize.county.codes()[row])).or_default();
        *sum = (sum.0 + own, sum.1 + 1.0);
    }
    let factor =
        |of: &Factor, codes: Vec<usize>| Factor::from_codes(of.name(), of.levels().to_vec(), codes).unwrap();
    let variety = factor(&maize.variety, sums.keys().map(|key| key.0).collect());
    let county = factor(&maize.county, sums.keys().map(|key| key.1).collect());
    let counts = sums.values().map(|sum| sum.1).collect();
    (sums.values().map(|sum| sum.0 / sum.1).collect(), variety, county, counts)
}

/// Where `gls(yield ~ gen + county, weights = varIdent(~ 1 | county))` stops.
const GLS_STOPS_AT: f64 = 9_521.403_094_069;
/// Criterion and residual variances by county where the restricted score is nought. `gls` stops 9.6e-7 short of it, with
/// variances up to 1e-4 off; from there R was taken on by scoring steps (exact score, expected information, dense
/// matrices) until the largest score was 7e-12 and the last step 4e-14 on the log scale.
const CRITERION: f64 = 9_521.403_093_106_233;
const VARIANCES: [f64; 6] = [
    278.160_795_422_1,
    290.895_825_029_3,
    328.829_327_084_6,
    262.682_498_401_5,
    200.173_978_278_6,
    715.035_214_197_4,
];
/// Some of the coefficients there and their errors.
const COEFFICIENTS: [(&str, f64, f64); 2] = [
    ("variety G02", -5.298_393_387_562, 5.734_235_068_892),
    ("county C2", -93.078_619_791_664, 1.721_579_671_363),
];
/// Counties' means in `lm(mean ~ gen + county)`, less their own mean.
const INDICES: [f64; 6] = [
    42.340_002_604_17,
    -50.738_617_187_50,
    -18.901_606_770_83,
    37.825_132_812_50,
    8.637_158_854_17,
    -19.162_070_312_50,
];
/// Means and slopes, with errors, of `lm(mean ~ 0 + gen + gen:index)`.
const MEANS: [(&str, f64, f64); 2] =
    [("G01", 111.555_888_888_889, 3.831_271_514_040), ("G02", 106.183_833_333_333, 3.831_271_514_040)];
const SLOPES: [(&str, f64, f64); 3] = [
    ("G01", 0.877_375_151_388, 0.115_544_496_685),
    ("G02", 0.973_291_295_503, 0.115_544_496_685),
    ("G64", 0.880_821_430_778, 0.115_544_496_685),
];
/// Mean squares of what it leaves: of single varieties on four degrees of freedom, and of all.
const RESTS: [(&str, f64); 2] = [("G01", 82.825_289_969_2), ("G64", 47.985_004_000_5)];
const LEFT: f64 = 88.071_848_485_7;

#[track_caller]
fn near(found: f64, expected: f64, relative: f64) {
    assert!((found - expected).abs() <= relative * expected.abs(), "found {found}, expected {expected}");
}

#[test]
fn spreads_by_county_agree() {
    let Some(maize) = maize() else { return };
    let fixed =
        vec![Fixed::intercept(), Fixed::of([(&maize.variety).into()]), Fixed::of([(&maize.county).into()])];
    let model = Model::new(maize.yields.clone(), fixed, vec![]);
    let model = Model { residual: Residual::By(maize.county.clone()), ..model };
    let found = fit(&model, Likelihood::Restricted, &mut |_| Going::On).unwrap();
    assert!(found.criterion < GLS_STOPS_AT, "{}", found.criterion);
    near(found.criterion, CRITERION, 1e-12);
    for (named, expected) in found.residual.iter().zip(VARIANCES) {
        near(named.component.variance, expected, 1e-6);
    }
    for (name, estimate, error) in COEFFICIENTS {
        let all = coefficients(&found);
        let own = all.iter().find(|own| own.name == name).unwrap().effect.unwrap();
        near(own.estimate, estimate, 1e-6);
        near(own.standard_error, error, 1e-6);
    }
}

#[test]
fn the_joint_regression_agrees() {
    let Some(maize) = maize() else { return };
    let (means, variety, county, _) = cells(&maize);
    let told = regress(&means, &variety, &county).unwrap();
    for (own, expected) in told.indices.iter().zip(INDICES) {
        near(*own, expected, 1e-9);
    }
    let of = |label: &str| told.varieties.iter().find(|own| own.variety == label).unwrap();
    for (label, slope, error) in SLOPES {
        let own = of(label).slope.unwrap();
        near(own.estimate, slope, 1e-9);
        near(own.standard_error, error, 1e-9);
    }
    for (label, mean, error) in MEANS {
        let own = of(label).mean.unwrap();
        near(own.estimate, mean, 1e-9);
        near(own.standard_error, error, 1e-9);
    }
    for (label, rest) in RESTS {
        near(of(label).rest.unwrap(), rest, 1e-9);
    }
    near(told.residual, LEFT, 1e-9);
}
