//! What must be so of any comparison.

use crate::{compared, plot};
use proptest::prelude::{ProptestConfig, Strategy, prop_assert, proptest};
use trial::compare::verdict::Verdict;
use trial::compare::{CompareFault, Observed};

/// Six varieties in four complete blocks of one garden, with any yields.
fn grow_out() -> impl Strategy<Value = Vec<Observed>> {
    proptest::collection::vec(500.0..6000.0, 24).prop_map(|values| {
        let each = values.into_iter().enumerate();
        each.map(|(at, value)| {
            plot(&format!("V{}", at % 6), "here", 1, u32::try_from(at / 6).unwrap(), value)
        })
        .collect()
    })
}

fn close(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-5 * (1.0 + one.abs())
}

proptest! {
    // Each case is a fit and all its comparisons.
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// The order of plots is no news, and grams are kilograms.
    #[test]
    fn order_and_unit_do_not_matter(plots in grow_out()) {
        let whole = compared(&plots, Some("V0")).unwrap();
        let mut other: Vec<Observed> = plots.iter().rev().cloned().collect();
        other.iter_mut().for_each(|plot| plot.value /= 1000.0);
        let other = compared(&other, Some("V0")).unwrap();
        for (one, other) in whole.outcomes.iter().zip(&other.outcomes) {
            prop_assert!(one.variety == other.variety && one.letters == other.letters);
            let (one, other) = (one.mean.unwrap(), other.mean.unwrap());
            prop_assert!(close(one.estimate, 1000.0 * other.estimate));
            prop_assert!(close(one.standard_error, 1000.0 * other.standard_error));
        }
    }

    /// In complete blocks without gaps the adjusted mean is the plain mean, whatever the blocks did.
    #[test]
    fn complete_blocks_need_no_adjusting(plots in grow_out()) {
        for own in compared(&plots, None).unwrap().outcomes {
            let values: Vec<f64> =
                plots.iter().filter(|plot| plot.variety == own.variety).map(|plot| plot.value).collect();
            prop_assert!(close(own.mean.unwrap().estimate, values.iter().sum::<f64>() / 4.0));
        }
    }

    /// A variety told apart from the check lies outside its own interval, and only then.
    #[test]
    fn verdicts_follow_intervals(plots in grow_out()) {
        for against in compared(&plots, Some("V0")).unwrap().outcomes.iter().filter_map(|own| own.against) {
            let (low, high) = against.interval;
            prop_assert!(low <= against.difference && against.difference <= high);
            let apart = 0.0 < low || high < 0.0;
            let told = !matches!(against.verdict, Verdict::NotTold { .. });
            prop_assert!(apart == told);
            // The chance is a numerical integral, so it may err by a little at the edge.
            prop_assert!(!apart || against.chance.get() < 0.0505);
        }
    }
}

#[test]
fn what_cannot_be_compared_is_said() {
    assert_eq!(compared(&[], None).unwrap_err(), CompareFault::Nothing("yield"));
    let one = [plot("A", "here", 1, 1, 3.0), plot("A", "here", 1, 2, 4.0)];
    assert_eq!(compared(&one, None).unwrap_err(), CompareFault::OneVariety("A".to_owned()));
    let once = [plot("A", "here", 1, 1, 3.0), plot("B", "here", 1, 1, 4.0)];
    assert_eq!(compared(&once, None).unwrap_err(), CompareFault::NothingRepeated);
    let two = [plot("A", "here", 1, 1, 3.0), plot("A", "here", 1, 2, 4.0), plot("B", "here", 1, 1, 4.0)];
    assert_eq!(compared(&two, Some("C")).unwrap_err(), CompareFault::NoCheck("C".to_owned()));
}

/// Two replicates without a variety in common: what stands in one cannot be compared with what stands in the other.
#[test]
fn a_grow_out_cut_apart_is_said() {
    let mut plots = Vec::new();
    for (at, value) in [3.0, 4.0, 5.0, 3.5, 4.2, 5.1].into_iter().enumerate() {
        plots.push(plot(["A", "B", "C"][at % 3], "here", 1, 1, 1000.0 * value));
        plots.push(plot(["D", "E", "F"][at % 3], "there", 1, 1, 1100.0 * value));
    }
    let comparison = compared(&plots, Some("A")).unwrap();
    let without = comparison.outcomes.iter().filter(|own| own.variety != "A" && own.against.is_none());
    assert_eq!(without.count(), 3, "D, E and F have nothing in common with A");
    assert!(comparison.notes.iter().any(|note| note.contains("common ground")), "{:?}", comparison.notes);
}
