//! What the demo house's trials say, held against the hidden truth that their picks were made from.
//!
//! Prints every difference beside the truth; `./test` shows it.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]
#![expect(clippy::print_stdout, reason = "the scores are there to be read")]

mod program;

use program::{answer, demo, truth};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;

const CHECK: &str = "Halfpenny";
const HOME: &str = "2026 Home Trial";
const FAR: &str = "2026 Far Field Trial";

/// Grams a plant of every variety on middling ground, by trial.
fn truths() -> BTreeMap<String, BTreeMap<String, f64>> {
    let mut truths: BTreeMap<String, BTreeMap<String, f64>> = BTreeMap::new();
    for row in truth("truth-trial.csv").1 {
        let grams = 1000.0 * row[3].parse::<f64>().unwrap();
        truths.entry(row[0].to_owned()).or_default().insert(row[2].to_owned(), grams);
    }
    truths
}

/// One difference from the check beside the truth.
struct Beside {
    variety: String,
    truly: f64,
    told: f64,
    interval: (f64, f64),
}

fn beside(house: &Path, trials: &[&str], truths: &BTreeMap<String, BTreeMap<String, f64>>) -> Vec<Beside> {
    let told = answer(house, &[&["compare"], trials, &["yield"]].concat());
    assert_eq!(told["check"], CHECK);
    let mean =
        |variety: &str| trials.iter().map(|trial| truths[*trial][variety]).sum::<f64>() / trials.len() as f64;
    let own = |variety: &Value| {
        let name = variety["variety"].as_str().unwrap();
        let (low, high) =
            (variety["difference_interval"][0].as_f64()?, variety["difference_interval"][1].as_f64()?);
        Some(Beside {
            variety: name.to_owned(),
            truly: mean(name) - mean(CHECK),
            told: variety["difference"].as_f64()?,
            interval: (low, high),
        })
    };
    let besides: Vec<Beside> = told["varieties"].as_array().unwrap().iter().filter_map(own).collect();
    println!("\n{}: grams a plant more than {CHECK}; truly, told, interval", trials.join(" and "));
    for one in &besides {
        let (low, high) = one.interval;
        println!("  {:<18} {:>6.0} {:>6.0}   {low:>6.0} to {high:>6.0}", one.variety, one.truly, one.told);
    }
    besides
}

#[test]
fn differences_from_the_check_hold_the_truth() {
    let ((_folder, house, said), truths) = (demo(), truths());
    assert!(said.contains("yield of 2026 Far Field Trial and 2026 Home Trial, beside Halfpenny"), "{said}");
    assert!(said.contains("Post Mill: ") && said.contains("others cannot be told from it"), "{said}");
    for trials in [&[HOME][..], &[FAR], &[HOME, FAR]] {
        let besides = beside(&house, trials, &truths);
        assert_eq!(besides.len(), 12);
        for one in &besides {
            let (low, high) = one.interval;
            // All twelve intervals of a trial hold together 95 times in 100, and the three sets are not independent.
            assert!(
                (low..=high).contains(&one.truly),
                "{}: {} is not within {low} to {high}",
                one.variety,
                one.truly
            );
            let wrong = (0.0 < low && one.truly <= 0.0) || (high < 0.0 && 0.0 <= one.truly);
            assert!(!wrong, "{} is told to be on the wrong side", one.variety);
        }
    }
    let both = beside(&house, &[HOME, FAR], &truths);
    let best = both.iter().max_by(|one, other| one.truly.total_cmp(&other.truly)).unwrap();
    assert!(0.0 < best.interval.0, "the best is told from the check by both trials: {}", best.variety);
    // Two trials say more than one: their intervals are narrower.
    let width = |own: &[Beside]| own.iter().map(|one| one.interval.1 - one.interval.0).sum::<f64>();
    assert!(width(&both) < width(&beside(&house, &[HOME], &truths)));
    let off = both.iter().map(|one| (one.told - one.truly).powi(2)).sum::<f64>() / 12.0;
    println!("  off by {:.0} g a plant on average (root mean square)", off.sqrt());
}
