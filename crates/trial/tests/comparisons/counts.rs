//! Fruit that was counted: pooled means where nothing else differs, wider intervals for fewer fruits, and the way back to
//! plain numbers where counts cannot tell.

use std::ops::ControlFlow;
use trial::compare::{CompareFault, Comparison, Degrees, Observed, Outcome, compare};
use trial::traits::{Counted, Trait};

fn plots(of: Trait, counts: &[(&str, u32, u32)]) -> Vec<Observed> {
    let one = |(variety, seen, whole): &(&str, u32, u32)| {
        let share = f64::from(*seen) / f64::from(*whole);
        Observed {
            variety: (*variety).to_owned(),
            environment: "Home 2031".to_owned(),
            replicate: None,
            block: None,
            place: None,
            value: if of == Trait::Culled { 100.0 * share } else { share },
            counted: Some(Counted { seen: *seen, of: *whole }),
        }
    };
    counts.iter().map(one).collect()
}

fn found(of: Trait, counts: &[(&str, u32, u32)]) -> Result<Comparison, CompareFault> {
    compare(of, &plots(of, counts), Some("Check"), &mut |_| ControlFlow::Continue(()))
}

fn outcome<'a>(of: &'a Comparison, variety: &str) -> &'a Outcome {
    of.outcomes.iter().find(|own| own.variety == variety).unwrap()
}

/// Plots that scatter no more than counts do: the mean is fruits over plants, and the difference is told at the check's
/// own mean. R 4.2.2, `glm(c(40, 44, 39, 63, 58, 61) ~ v + offset(log(c(4, 4, 4, 6, 5, 5))), poisson)`.
#[test]
fn even_counts_are_pooled() {
    let counts = [
        ("Check", 40, 4),
        ("Check", 44, 4),
        ("Check", 39, 4),
        ("Own", 63, 6),
        ("Own", 58, 5),
        ("Own", 61, 5),
    ];
    let told = found(Trait::FruitCount, &counts).unwrap();
    assert_eq!(told.degrees, Degrees::OfCounts);
    let means = ["Check", "Own"].map(|variety| outcome(&told, variety).mean.unwrap().estimate);
    assert!((means[0] - 123.0 / 12.0).abs() < 1e-6 && (means[1] - 182.0 / 16.0).abs() < 1e-6, "{means:?}");
    let against = outcome(&told, "Own").against.unwrap();
    assert!((against.difference - (182.0 / 16.0 - 123.0 / 12.0)).abs() < 1e-6, "{against:?}");
    let (low, high) = against.interval;
    // The standard error of the logarithm of the ratio is sqrt(1/123 + 1/182), on 4 degrees of freedom 2.776445 wide.
    let reach = 2.776_445 * (1.0 / 123.0 + 1.0 / 182.0_f64).sqrt();
    let ratio = (182.0 / 16.0) / (123.0 / 12.0);
    let at = |distance: f64| 123.0 / 12.0 * (ratio * f64::exp(distance) - 1.0);
    assert!((low - at(-reach)).abs() < 1e-3 && (high - at(reach)).abs() < 1e-3, "{low} to {high}");
}

/// The same shares of ten times the fruit are known better, and no share leaves 0 to 100 per cent.
#[test]
fn shares_of_more_fruit_are_known_better() {
    let few = [
        ("Check", 1, 20),
        ("Check", 2, 20),
        ("Check", 1, 21),
        ("Own", 6, 20),
        ("Own", 5, 22),
        ("Own", 7, 21),
    ];
    let many = few.map(|(variety, seen, of)| (variety, 10 * seen, 10 * of));
    let width = |counts: &[(&str, u32, u32)]| {
        let told = found(Trait::Culled, counts).unwrap();
        for own in &told.outcomes {
            let (low, high) = own.interval.unwrap();
            assert!(0.0 < low && low < high && high < 100.0, "{}: {low} to {high}", own.variety);
        }
        let against = outcome(&told, "Own").against.unwrap();
        assert!(0.0 < against.difference, "{against:?}");
        against.interval.1 - against.interval.0
    };
    assert!(width(&many) < 0.6 * width(&few), "{} and {}", width(&many), width(&few));
}

/// A variety without a single cull has no finite log-odds: the plots' own numbers are compared instead.
#[test]
fn nothing_seen_falls_back_to_measures() {
    let counts = [
        ("Check", 3, 20),
        ("Check", 4, 21),
        ("Check", 2, 22),
        ("Own", 0, 20),
        ("Own", 0, 22),
        ("Own", 0, 21),
    ];
    let told = found(Trait::Culled, &counts).unwrap();
    assert_ne!(told.degrees, Degrees::OfCounts);
    assert_eq!(outcome(&told, "Own").mean.unwrap().estimate, 0.0);
}
