//! Heading dates seen on weekly walks only: laws fitted to what lies between two walks, held to R's `survreg`.
//!
//! Data: Piepho 1999, Biometrics 55:1120-1128, cut to weekly walks (`heading_weekly_censored.R` in the oracles).
//! Expected values: survival 3.5-3, relative tolerance 1e-13.

use crate::oracles::{agrees_within, golden, levels, table, treatment_columns};
use record::share::Share;
use serde_json::Value;
use statistics::censored::{CensoredFit, Law, Model, Reading, fit};

/// Digits that both searches reach.
const DIGITS: f64 = 1e-7;

fn readings(left: &[String], right: &[String]) -> Vec<Reading> {
    let number = |cell: &String| cell.parse::<f64>().ok();
    let reading = |(left, right): (&String, &String)| match (number(left), number(right)) {
        (None, Some(before)) => Reading::Before(before),
        (Some(from), Some(to)) => Reading::Between(from, to),
        (Some(after), None) => Reading::After(after),
        (None, None) => panic!("a row without a time"),
    };
    left.iter().zip(right).map(reading).collect()
}

#[track_caller]
fn law_agrees(found: &CensoredFit, names: &[String], expected: &Value) {
    agrees_within("log-likelihood", found.log_likelihood, &expected["log_likelihood"], DIGITS);
    for (effect, name) in found.fixed.iter().zip(names) {
        agrees_within(name, effect.estimate, &expected["coefficients"][name], DIGITS);
        agrees_within(name, effect.standard_error, &expected["se"][name], DIGITS);
    }
    agrees_within("scale", found.scale, &expected["scale"], DIGITS);
    agrees_within("its error", found.log_scale_error, &expected["se_log_scale"], DIGITS);
    agrees_within("AICc", found.aicc().unwrap(), &expected["aicc"], DIGITS);
    let mut first = vec![0.0; found.fixed.len()];
    first[0] = 1.0;
    for (at, share) in [0.1, 0.5, 0.9].into_iter().enumerate() {
        let quantile = found.quantile(&first, Share::new(share).unwrap()).unwrap();
        agrees_within("quantile", quantile.estimate, &expected["quantiles_first_year_10_50_90"][at], DIGITS);
        agrees_within("its error", quantile.standard_error, &expected["quantile_se"][at], DIGITS);
    }
}

#[test]
fn heading_dates_agree() {
    let Some(golden) = golden("stats/heading_weekly_censored.json") else { return };
    let Some(table) = table("stats/heading_weekly_censored.csv", ',') else { return };
    let readings = readings(&table["left"], &table["right"]);
    let (year, years) = levels(&table["year"]);
    let intercept = vec![vec![1.0; readings.len()]];
    let with_year = [intercept.clone(), treatment_columns(&year)].concat();
    let names: Vec<String> = std::iter::once("(Intercept)".to_owned())
        .chain(years.iter().skip(1).map(|year| format!("w{year}")))
        .collect();
    let laws = [
        (Law::LogNormal, "lognormal"),
        (Law::Weibull, "weibull"),
        (Law::LogLogistic, "loglogistic"),
        (Law::Normal, "gaussian"),
    ];
    for (law, name) in laws {
        for (columns, set) in [(&intercept, "intercept_only"), (&with_year, "with_year")] {
            let found = fit(&Model { law, readings: &readings, columns, weights: None }).unwrap();
            law_agrees(&found, &names[..columns.len()], &golden[set][name]);
        }
    }
}

/// R 4.2.2: the gamma likelihood written out with `pgamma`, Newton's steps on Richardson derivatives (numDeriv
/// 2016.8-1.1), last step under 1e-9: log-likelihood, logarithm of the mean, logarithm of one over the root of the
/// shape, their errors, and the median with its error by the delta method.
#[test]
fn gamma_heading_dates_agree() {
    let Some(table) = table("stats/heading_weekly_censored.csv", ',') else { return };
    let readings = readings(&table["left"], &table["right"]);
    let columns = [vec![1.0; readings.len()]];
    let found =
        fit(&Model { law: Law::Gamma, readings: &readings, columns: &columns, weights: None }).unwrap();
    let median = found.quantile(&[1.0], Share::new(0.5).unwrap()).unwrap();
    let pairs = [
        (found.log_likelihood, GAMMA[0]),
        (found.fixed[0].estimate, GAMMA[1]),
        (found.scale.ln(), GAMMA[2]),
        (found.fixed[0].standard_error, GAMMA[3]),
        (found.log_scale_error, GAMMA[4]),
        (median.estimate, GAMMA[5]),
        (median.standard_error, GAMMA[6]),
    ];
    for (found, expected) in pairs {
        assert!((found / expected - 1.0).abs() < 1e-6, "{found} {expected}");
    }
}

const GAMMA: [f64; 7] = [
    -130.696_686_099_876_33,
    3.817_924_136_611_99,
    -2.012_985_453_224_67,
    0.014_046_963_681_69,
    0.091_423_060_800_38,
    45.239_203_558_874_13,
    0.629_318_242_385_39,
];
