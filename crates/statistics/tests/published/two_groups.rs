//! Two groups beside `tests/data/two_groups/make.py`, written apart in another language with another generator: quantiles of the
//! best parting of one normal population (200,000 samples of one measure, 20,000 of two; numpy 2, 28 November 2026).

use record::share::Share;
use statistics::two_groups::{Chance, parted};

/// Samples drawn here: a chance of 0.05 is then known to 0.004, two standard errors of a share of 9,999.
const SAMPLES: u32 = 9_999;

#[track_caller]
fn agrees(rows: usize, measures: usize, quantiles: [f64; 4]) {
    let drawn = Chance::drawn(rows, measures, SAMPLES).unwrap();
    for (quantile, chance) in quantiles.into_iter().zip([0.50_f64, 0.10, 0.05, 0.01]) {
        let found = drawn.of(quantile).get();
        // Three standard errors of both shares; sixty angles find a hair less than all, which is the same for a sample.
        let within = 3.0 * (chance * (1.0 - chance) * (1.0 / 9_999.0 + 1.0 / 20_000.0)).sqrt() + 0.004;
        assert!((found - chance).abs() < within, "{rows} rows: {found}, not {chance}");
    }
}

#[test]
fn chances_agree_with_drawing_apart() {
    agrees(6, 1, [0.7651, 0.8987, 0.9284, 0.9674]);
    agrees(10, 1, [0.7321, 0.8367, 0.8634, 0.9090]);
    agrees(20, 1, [0.6867, 0.7687, 0.7910, 0.8297]);
    agrees(8, 2, [0.8754, 0.9403, 0.9548, 0.9769]);
    agrees(16, 2, [0.7950, 0.8546, 0.8710, 0.9019]);
}

/// By hand: 1, 2, 3 and 11, 12, 13 about a mean of 7; three times 5 squared on either side is 150 of 154.
#[test]
fn the_part_between_agrees_by_hand() {
    let rows: Vec<Vec<f64>> = [12.0, 1.0, 3.0, 13.0, 2.0, 11.0].map(|value| vec![value]).to_vec();
    let found = parted(&rows, &Chance::drawn(6, 1, 999).unwrap()).unwrap();
    assert!((found.between - 150.0 / 154.0).abs() < 1e-12, "{found:?}");
    assert_eq!(found.smaller, [1, 2, 4]);
    assert!(found.chance.get() < 0.05);
}

#[test]
fn what_cannot_be_parted_is_refused() {
    assert_eq!(Chance::drawn(5, 1, 99), None);
    assert_eq!(Chance::drawn(9, 3, 99), None);
    let chance = Chance::drawn(6, 2, 99).unwrap();
    assert_eq!(parted(&vec![vec![1.0]; 6], &chance), None);
    assert_eq!(parted(&vec![vec![1.0, 2.0]; 6], &chance), None, "no variation");
    assert_eq!(chance.of(f64::INFINITY), Share::new(0.01).unwrap());
}
