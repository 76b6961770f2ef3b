//! Lobes of outlines that are drawn with a known number of them.

use photo::lobes::lobes;
use std::f64::consts::TAU;

/// An outline with waves of the given depth, an oval of 8% and noise of a fifth of a percent that is the same each time.
fn outline(waves: u32, depth: f64) -> Vec<[f64; 2]> {
    let radius = |step: u32| {
        let turn = f64::from(step) / 600.0 * TAU;
        let noise = 0.002 * f64::from(step * 7919 % 101) / 101.0;
        (
            turn,
            120.0 * (1.0 + 0.08 * (2.0 * turn).cos() + depth * (f64::from(waves) * turn + 0.4).cos() + noise),
        )
    };
    (0..600)
        .map(radius)
        .map(|(turn, radius)| [300.0 + radius * turn.cos(), 200.0 + radius * turn.sin()])
        .collect()
}

#[test]
fn every_number_of_lobes_is_counted() {
    for waves in 3..=16 {
        let found = lobes(&outline(waves, 0.03));
        assert_eq!(found.map(|found| found.count), Some(waves));
        assert!(found.is_some_and(|found| (found.depth - 0.03).abs() < 0.003), "{found:?}");
    }
}

#[test]
fn an_oval_has_none() {
    assert_eq!(lobes(&outline(5, 0.0)), None);
    assert_eq!(lobes(&[]), None);
}
