//! Varieties made up to answer to gardens in known ways, and two gardens, which tell no slope.

use crate::{compared, plot};
use statistics::draws::{normal, stream};
use trial::compare::Observed;
use trial::compare::stability::Answers;

/// How good each garden and season is, in grams about the middle.
const ENVIRONMENTS: [(&str, f64); 5] = [
    ("Far 2031", -900.0),
    ("Far 2032", -300.0),
    ("Home 2031", 0.0),
    ("Home 2032", 400.0),
    ("Home 2033", 800.0),
];
/// What each variety gains where all gain 1; they come to 1 on average, as an index of their own means must have it.
const SLOPES: [(&str, f64); 6] =
    [("Bold", 1.6), ("Even", 1.0), ("Fair", 1.0), ("Plain", 1.0), ("Round", 1.0), ("Steady", 0.4)];

fn grown(environments: &[(&str, f64)]) -> Vec<Observed> {
    let mut chances = stream(&["steady"]);
    let mut plots = Vec::new();
    for (environment, good) in environments {
        for replicate in 1..=4 {
            for (variety, slope) in SLOPES {
                let value = 3000.0 + slope * good + 120.0 * normal(&mut chances);
                plots.push(plot(variety, environment, replicate, replicate, value));
            }
        }
    }
    plots
}

#[test]
fn steady_and_bold_varieties_are_told() {
    let found = compared(&grown(&ENVIRONMENTS), Some("Even")).unwrap().stability.unwrap();
    let order: Vec<&str> = found.environments.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(order, ["Home 2033", "Home 2032", "Home 2031", "Far 2032", "Far 2031"]);
    for own in &found.varieties {
        let truly = SLOPES.iter().find(|(name, _)| *name == own.variety).unwrap().1;
        let (low, high) = own.interval;
        assert!(low <= truly && truly <= high, "{}: {truly} is not within {low} to {high}", own.variety);
        let verdict = match own.variety.as_str() {
            "Bold" => Answers::More,
            "Steady" => Answers::Less,
            _ => Answers::AsOthers,
        };
        assert_eq!(own.verdict, verdict, "{}", own.variety);
    }
}

#[test]
fn two_gardens_tell_no_slope() {
    assert_eq!(compared(&grown(&ENVIRONMENTS[..2]), Some("Even")).unwrap().stability, None);
}
