//! Intervals of a share: R 4.2.2 `binom.test` (Clopper and Pearson), `qbeta` (Jeffreys), `uniroot` on
//! `pbinom` (mid-p) and Wilson's formula
//! (`binomial_multiplicity.R` in the oracles).

use crate::oracles::{agrees_within, golden};
use record::share::Share;
use serde_json::Value;
use statistics::intervals::{ShareInterval, Tally, clopper_pearson, jeffreys, mid_p, wilson};

#[track_caller]
fn agrees(found: ShareInterval, expected: &Value) {
    agrees_within("low", found.low.get(), &expected[0], 1e-10);
    agrees_within("high", found.high.get(), &expected[1], 1e-10);
}

#[test]
fn intervals_agree_with_r() {
    let Some(golden) = golden("stats/binomial_multiplicity.json") else { return };
    let level = Share::new(0.95).unwrap();
    for case in golden["binomial_95"].as_array().unwrap() {
        let tally = Tally::new(case["x"].as_u64().unwrap(), case["n"].as_u64().unwrap()).unwrap();
        agrees(clopper_pearson(tally, level), &case["clopper_pearson"]);
        agrees(wilson(tally, level), &case["wilson"]);
        agrees(jeffreys(tally, level), &case["jeffreys"]);
        agrees(mid_p(tally, level), &case["mid_p"]);
    }
}
