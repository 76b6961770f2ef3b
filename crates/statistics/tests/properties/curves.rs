//! Curves: exact data are found again, no shape is worse than one it holds, and units do not matter.

use proptest::prelude::*;
use statistics::curves::{Curve, CurveFault, Reading, Shape, fit};
use statistics::information::akaike_weights;

fn readings(times: u32, value: impl Fn(f64) -> f64) -> Vec<Reading> {
    (0..times).map(|at| Reading { time: 7.0 * f64::from(at), value: value(7.0 * f64::from(at)) }).collect()
}

fn fitted(shape: Shape, readings: &[Reading]) -> Curve {
    fit(shape, readings).unwrap()
}

fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * (1.0 + a.abs().max(b.abs()))
}

proptest! {
    /// A curve's own values give its numbers back.
    #[test]
    fn exact_curves_are_found(top in 50.0..250.0_f64, middle in 20.0..60.0_f64, slowness in 6.0..20.0_f64) {
        let logistic = readings(12, |time| top / (1.0 + (-(time - middle) / slowness).exp()));
        let gompertz = readings(12, |time| top * (-(-(time - middle) / slowness).exp()).exp());
        let rise = readings(12, |time| top - 0.8 * top * (-time / (2.0 * slowness)).exp());
        for (shape, readings, expected) in [
            (Shape::Logistic, logistic, [top, middle, slowness]),
            (Shape::Gompertz, gompertz, [top, middle, slowness]),
            (Shape::Rise, rise, [top, 0.8 * top, 2.0 * slowness]),
        ] {
            let curve = fitted(shape, &readings);
            for (found, expected) in curve.numbers.iter().zip(expected) {
                prop_assert!(close(*found, expected, 1e-5), "{shape:?} {:?} {expected:?}", curve.numbers);
            }
            prop_assert!(close(curve.at(33.0), curve.at(33.0), 0.0) && curve.residual_sum_of_squares < 1e-6);
        }
    }

    /// The stick stops where it stopped.
    #[test]
    fn exact_sticks_are_found(start in 0.0..40.0_f64, slope in 0.5..4.0_f64, stop in 10.0..65.0_f64) {
        let curve = fitted(Shape::BrokenStick, &readings(12, |time| start + slope * time.min(stop)));
        for (found, expected) in curve.numbers.iter().zip([start, slope, stop]) {
            prop_assert!(close(*found, expected, 1e-7), "{:?}", curve.numbers);
        }
    }

    /// A stick that may stop at the end is never further off than a line, and no stick with a stop on a
    /// fine grid is nearer.
    #[test]
    fn no_nearer_stick(values in prop::collection::vec(0.0..100.0_f64, 4..9)) {
        let readings: Vec<Reading> =
            values.iter().enumerate().map(|(at, value)| Reading { time: at as f64, value: *value }).collect();
        let stick = fitted(Shape::BrokenStick, &readings);
        for step in 1..=(readings.len() as u32 - 2) * 20 {
            let stop = 1.0 + f64::from(step) / 20.0;
            let held: Vec<Reading> =
                readings.iter().map(|reading| Reading { time: reading.time.min(stop), ..*reading }).collect();
            let other = fitted(Shape::Line, &held).residual_sum_of_squares;
            prop_assert!(stick.residual_sum_of_squares <= other + 1e-8, "{stop} {other} {stick:?}");
        }
    }

    /// Any readings are answered or refused by name.
    #[test]
    fn any_readings_are_answered(values in prop::collection::vec((-1e6..1e6_f64, -1e6..1e6_f64), 0..12)) {
        let readings: Vec<Reading> = values.iter().map(|(time, value)| Reading { time: *time, value: *value }).collect();
        for shape in [Shape::Line, Shape::BrokenStick, Shape::Rise, Shape::Logistic, Shape::Gompertz] {
            if let Ok(curve) = fit(shape, &readings) {
                prop_assert!(curve.numbers.iter().all(|number| number.is_finite()));
                prop_assert!(curve.residual_sum_of_squares.is_finite());
            }
        }
    }

    /// Centimetres or inches, days or weeks: the same shape is believed.
    #[test]
    fn units_do_not_matter(values in prop::collection::vec(1.0..100.0_f64, 8), time in 0.1..10.0_f64, value in 0.1..10.0_f64) {
        let plain: Vec<Reading> = values.iter().enumerate()
            .map(|(at, reading)| Reading { time: at as f64, value: (at * at) as f64 + reading }).collect();
        let other: Vec<Reading> =
            plain.iter().map(|reading| Reading { time: time * reading.time, value: value * reading.value }).collect();
        for shape in [Shape::Line, Shape::BrokenStick, Shape::Logistic] {
            if let (Ok(one), Ok(two)) = (fit(shape, &plain), fit(shape, &other)) {
                let scaled = two.residual_sum_of_squares / (value * value);
                prop_assert!(close(one.residual_sum_of_squares, scaled, 1e-6), "{shape:?}");
            }
        }
    }
}

/// A stem that stops is believed to level off, one that does not to keep on.
#[test]
fn weights_tell_a_stopped_stem() {
    let wobble = |time: f64| 1.5 * (time * 12.9898).sin();
    let weigh = |readings: &[Reading]| {
        let criteria = [Shape::Line, Shape::BrokenStick].map(|shape| fitted(shape, readings).aicc());
        akaike_weights(&criteria).unwrap()
    };
    let stopped = weigh(&readings(12, |time| 20.0 + 2.0 * time.min(40.0) + wobble(time)));
    let growing = weigh(&readings(12, |time| 20.0 + 2.0 * time + wobble(time)));
    assert!(0.999 < stopped[1], "{stopped:?}");
    assert!(0.7 < growing[0], "{growing:?}");
}

/// Too few times and impossible readings are named.
#[test]
fn faults_are_named() {
    let two = readings(2, |time| time);
    assert_eq!(fit(Shape::Logistic, &two), Err(CurveFault::TooFewTimes { needed: 3, found: 2 }));
    assert_eq!(fit(Shape::Line, &[Reading { time: 0.0, value: f64::NAN }]), Err(CurveFault::NotFinite));
}
