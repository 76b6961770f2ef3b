//! What must hold of laws fitted to times between looks.

use proptest::prelude::*;
use record::share::Share;
use statistics::censored::{CensoredFault, CensoredFit, Law, Model, Reading, fit};

/// Fruit counts on eight picks a week apart, and what was still green at the end.
fn season() -> impl Strategy<Value = (Vec<u32>, u32)> {
    (prop::collection::vec(0..40_u32, 8), 0..30_u32)
        .prop_filter("two picks with fruit at least", |(picks, _)| {
            2 <= picks.iter().filter(|n| **n > 0).count()
        })
}

fn readings(picks: &[u32], green: u32, unit: f64) -> (Vec<Reading>, Vec<f64>) {
    let time = |week: usize| unit * (week as f64 + 4.0);
    let pick =
        |(week, count): (usize, &u32)| (Reading::Between(time(week), time(week + 1)), f64::from(*count));
    picks.iter().enumerate().map(pick).chain([(Reading::After(time(picks.len())), f64::from(green))]).unzip()
}

fn fitted(law: Law, readings: &[Reading], weights: &[f64]) -> Result<CensoredFit, CensoredFault> {
    let columns = [vec![1.0; readings.len()]];
    fit(&Model { law, readings, columns: &columns, weights: Some(weights) })
}

fn share(of: f64) -> Share {
    Share::new(of).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Every law is fitted or refused in words; quantiles rise; days or hours, same fruit; green fruit is later fruit.
    #[test]
    fn laws_hold_together((picks, green) in season()) {
        for law in Law::ALL {
            let (own, weights) = readings(&picks, green, 1.0);
            let Ok(found) = fitted(law, &own, &weights) else { continue };
            let median = found.quantile(&[1.0], share(0.5)).unwrap();
            prop_assert!(found.log_likelihood.is_finite() && median.estimate.is_finite());
            prop_assert!(median.standard_error.is_finite() && 0.0 < median.standard_error);
            prop_assert!(found.quantile(&[1.0], share(0.1)).unwrap().estimate < median.estimate);

            let hours = readings(&picks, green, 24.0).0;
            let in_hours = fitted(law, &hours, &weights).unwrap().quantile(&[1.0], share(0.5)).unwrap();
            let close = (in_hours.estimate / median.estimate / 24.0 - 1.0).abs();
            prop_assert!(close < 1e-5, "{law:?} {close}");

            let (later, more) = readings(&picks, green + 20, 1.0);
            if let Ok(later) = fitted(law, &later, &more) {
                let moved = later.quantile(&[1.0], share(0.5)).unwrap().estimate;
                prop_assert!(median.estimate < moved + 1e-6, "{law:?} {} {moved}", median.estimate);
            }
        }
    }

    /// A weight is that many fruits: rows written out one by one give the same law.
    #[test]
    fn weights_are_fruits((picks, green) in season()) {
        let (own, weights) = readings(&picks, green, 1.0);
        let long: Vec<Reading> =
            own.iter().zip(&weights).flat_map(|(reading, weight)| vec![*reading; *weight as usize]).collect();
        let (short, long) =
            (fitted(Law::LogNormal, &own, &weights), fitted(Law::LogNormal, &long, &vec![1.0; long.len()]));
        if let (Ok(short), Ok(long)) = (short, long) {
            prop_assert!((short.log_likelihood - long.log_likelihood).abs() < 1e-8);
            prop_assert!((short.scale / long.scale - 1.0).abs() < 1e-5);
        }
    }
}

/// Readings that tell nothing are refused by what is missing.
#[test]
fn what_tells_nothing_is_refused() {
    let refused =
        |readings: &[Reading]| fitted(Law::LogNormal, readings, &vec![1.0; readings.len()]).unwrap_err();
    assert_eq!(refused(&[Reading::After(3.0), Reading::After(5.0)]), CensoredFault::NothingToTell);
    assert_eq!(refused(&[Reading::Between(3.0, 5.0); 4]), CensoredFault::NothingToTell);
    assert_eq!(
        refused(&[Reading::Between(3.0, 5.0), Reading::Between(5.0, 5.0)]),
        CensoredFault::NotUsable { row: 1 }
    );
    assert_eq!(refused(&[Reading::After(-1.0)]), CensoredFault::NotUsable { row: 0 });
    assert_eq!(refused(&[Reading::Before(f64::NAN)]), CensoredFault::NotUsable { row: 0 });
    let none =
        fit(&Model { law: Law::Normal, readings: &[], columns: &[vec![]], weights: None }).unwrap_err();
    assert_eq!(none, CensoredFault::Lengths { readings: 0, other: 1 });
}
