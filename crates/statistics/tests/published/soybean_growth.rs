//! Growth of soybean plots through a season: logistic and Gompertz curves.
//!
//! Data: Davidian and Giltinan 1995, Nonlinear Models for Repeated Measurement Data. Expected values: R 4.2.2
//! `nls` with tol 2e-7 (`soybean_growth.R` beside them), so its coefficients are good to about six digits
//! of their standard errors, and the residual sum of squares, flat at the optimum, to nine digits or more.

use crate::oracles::{agrees_within, golden, numbers, table};
use serde_json::Value;
use statistics::curves::{Reading, Shape, fit};

fn readings(plot: &str) -> Option<Vec<Reading>> {
    let table = table("stats/soybean_growth.csv", ',')?;
    let (days, weights) = (numbers(&table["day"]), numbers(&table["weight"]));
    let rows = table["plot"].iter().zip(days.iter().zip(&weights)).filter(|(own, _)| *own == plot);
    Some(rows.map(|(_, (time, value))| Reading { time: *time, value: *value }).collect())
}

#[track_caller]
fn curve_agrees(plot: &str, shape: Shape, expected: &Value) {
    let Some(readings) = readings(plot) else { return };
    let curve = fit(shape, &readings).unwrap();
    agrees_within("rss", curve.residual_sum_of_squares, &expected["rss"], 1e-9);
    agrees_within("aicc", curve.aicc().unwrap(), &expected["aicc"], 1e-9);
    for (at, name) in ["A", "m", "s"].iter().enumerate() {
        agrees_within(name, curve.numbers[at], &expected["coefficients"][name], 1e-6);
        agrees_within(name, curve.standard_errors[at], &expected["se"][name], 1e-5);
    }
}

#[test]
fn growth_curves_agree() {
    let Some(golden) = golden("stats/soybean_growth.json") else { return };
    let mut compared = 0;
    for (plot, by_shape) in golden["plots"].as_object().unwrap() {
        for (shape, name) in [(Shape::Logistic, "logistic"), (Shape::Gompertz, "gompertz")] {
            if by_shape[name].get("failed").is_none() {
                curve_agrees(plot, shape, &by_shape[name]);
                compared += 1;
            }
        }
    }
    assert!(4 <= compared, "only {compared} curves were there to compare");
}
