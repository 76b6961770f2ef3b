//! What a layout says of itself before planting.

use crate::made::{candidates, checks, garden, tried};
use trial::layout::report::{Source, Spread, report, words};
use trial::layout::{Choice, Entry, Kind, Layout};

fn told(layout: &Layout, spread: &Spread) -> String {
    words(&report(layout, spread).unwrap(), spread, layout).join("\n")
}

/// Look at the words before accepting a change.
#[test]
fn reports_are_told_in_plain_words() {
    let own = Spread { unit: "kg a plant".to_owned(), plots: 0.6, blocks: 0.3, source: Source::OwnGrowOuts };
    let complete = tried(&candidates(6, 4), &[garden("Home", &[36.0])], Choice::Best, "told").unwrap();
    insta::assert_snapshot!("complete", told(&complete, &own));
    let gardens = [garden("Home", &[48.0, 48.0, 48.0]), garden("Hill", &[36.0; 6])];
    let incomplete = tried(&candidates(48, 3), &gardens, Choice::Best, "told").unwrap();
    insta::assert_snapshot!("incomplete", told(&incomplete, &Spread::usual_yield()));
    let entries: Vec<Entry> = candidates(30, 1).into_iter().chain(checks(3, 1)).collect();
    let augmented = tried(&entries, &[garden("Home", &[36.0, 39.0, 27.0])], Choice::Best, "told").unwrap();
    insta::assert_snapshot!("augmented", told(&augmented, &own));
    let mut entries = candidates(20, 2);
    entries.iter_mut().skip(8).for_each(|entry| entry.plots = 1);
    let partly = tried(&entries, &[garden("Home", &[45.0])], Choice::Best, "told").unwrap();
    insta::assert_snapshot!("partly", told(&partly, &own));
}

/// Introduction to Augmented Experimental Design (extension page on plant breeding and genomics): error mean square
/// 0.0698056 with 3 checks; entries of different blocks differ with standard error 0.431449. Blocks that differ
/// without limit are fixed ones.
#[test]
fn augmented_errors_agree_with_the_closed_form() {
    let entries: Vec<Entry> = candidates(50, 1).into_iter().chain(checks(3, 1)).collect();
    let gardens = [garden("Home", &[51.0, 51.0])];
    let layout = tried(&entries, &gardens, Choice::Asked(Kind::Augmented), "closed").unwrap();
    let plots = 0.069_805_555_6_f64.sqrt();
    let spread = Spread { unit: "g".to_owned(), plots, blocks: plots * 1e4, source: Source::OwnGrowOuts };
    let report = report(&layout, &spread).unwrap();
    assert!((report.errors.1 - 0.431_449).abs() < 5e-7, "{}", report.errors.1);
    // (b - 1)(c - 1) degrees of freedom with six blocks and three checks.
    assert_eq!(report.degrees, 10);
}
