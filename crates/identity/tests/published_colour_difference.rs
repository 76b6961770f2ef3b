//! CIEDE2000 and CIELAB against the published table and against an independent library's figures.

#![expect(clippy::unwrap_used, reason = "what these tests write down is possible, and a test may stop")]

use identity::ciede2000::{colour_difference, lab_of_srgb};
use proptest::prelude::{prop_assert, prop_assert_eq, proptest};
use record::colour::Lab;

fn lab(values: [f64; 3]) -> Lab {
    Lab::new(values[0], values[1], values[2]).unwrap()
}

/// The table prints four decimals; half a unit of the last one is allowed.
#[track_caller]
fn agrees(first: [f64; 3], second: [f64; 3], printed: f64) {
    for (one, other) in [(first, second), (second, first)] {
        let ours = colour_difference(lab(one), lab(other)).get();
        assert!((ours - printed).abs() <= 0.000_05 + 1e-9, "{one:?} {other:?}: {ours}, printed {printed}");
    }
}

/// Sharma, Wu and Dalal (2005), Table 1, all 34 pairs.
#[test]
fn all_published_pairs_agree() {
    let published = [
        ([50.0, 2.6772, -79.7751], [50.0, 0.0, -82.7485], 2.0425),
        ([50.0, 3.1571, -77.2803], [50.0, 0.0, -82.7485], 2.8615),
        ([50.0, 2.8361, -74.02], [50.0, 0.0, -82.7485], 3.4412),
        ([50.0, -1.3802, -84.2814], [50.0, 0.0, -82.7485], 1.0),
        ([50.0, -1.1848, -84.8006], [50.0, 0.0, -82.7485], 1.0),
        ([50.0, -0.9009, -85.5211], [50.0, 0.0, -82.7485], 1.0),
        ([50.0, 0.0, 0.0], [50.0, -1.0, 2.0], 2.3669),
        ([50.0, -1.0, 2.0], [50.0, 0.0, 0.0], 2.3669),
        ([50.0, 2.49, -0.001], [50.0, -2.49, 0.0009], 7.1792),
        ([50.0, 2.49, -0.001], [50.0, -2.49, 0.001], 7.1792),
        ([50.0, 2.49, -0.001], [50.0, -2.49, 0.0011], 7.2195),
        ([50.0, 2.49, -0.001], [50.0, -2.49, 0.0012], 7.2195),
        ([50.0, -0.001, 2.49], [50.0, 0.0009, -2.49], 4.8045),
        ([50.0, -0.001, 2.49], [50.0, 0.001, -2.49], 4.8045),
        ([50.0, -0.001, 2.49], [50.0, 0.0011, -2.49], 4.7461),
        ([50.0, 2.5, 0.0], [50.0, 0.0, -2.5], 4.3065),
        ([50.0, 2.5, 0.0], [73.0, 25.0, -18.0], 27.1492),
        ([50.0, 2.5, 0.0], [61.0, -5.0, 29.0], 22.8977),
        ([50.0, 2.5, 0.0], [56.0, -27.0, -3.0], 31.903),
        ([50.0, 2.5, 0.0], [58.0, 24.0, 15.0], 19.4535),
        ([50.0, 2.5, 0.0], [50.0, 3.1736, 0.5854], 1.0),
        ([50.0, 2.5, 0.0], [50.0, 3.2972, 0.0], 1.0),
        ([50.0, 2.5, 0.0], [50.0, 1.8634, 0.5757], 1.0),
        ([50.0, 2.5, 0.0], [50.0, 3.2592, 0.335], 1.0),
        ([60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644),
        ([63.0109, -31.0961, -5.8663], [62.8187, -29.7946, -4.0864], 1.263),
        ([61.2901, 3.7196, -5.3901], [61.4292, 2.248, -4.962], 1.8731),
        ([35.0831, -44.1164, 3.7933], [35.0232, -40.0716, 1.5901], 1.8645),
        ([22.7233, 20.0904, -46.694], [23.0331, 14.973, -42.5619], 2.0373),
        ([36.4612, 47.858, 18.3852], [36.2715, 50.5065, 21.2231], 1.4146),
        ([90.8027, -2.0831, 1.441], [91.1528, -1.6435, 0.0447], 1.4441),
        ([90.9257, -0.5406, -0.9208], [88.6381, -0.8985, -0.7239], 1.5381),
        ([6.7747, -0.2908, -2.4247], [5.8714, -0.0985, -2.2286], 0.6377),
        ([2.0776, 0.0795, -1.135], [0.9033, -0.0636, -0.5514], 0.9082),
    ];
    assert_eq!(published.len(), 34);
    for (first, second, printed) in published {
        agrees(first, second, printed);
    }
}

/// Computed with scikit-image (`rgb2lab`, D65, 2 degrees): shared oracle `photo/colour.json`.
#[test]
fn screen_colours_agree_with_an_independent_library() {
    let computed = [
        ([255, 255, 255], [100.0, -0.0025, 0.0047]),
        ([0, 0, 0], [0.0, 0.0, 0.0]),
        ([255, 0, 0], [53.2406, 80.0923, 67.2028]),
        ([0, 255, 0], [87.7351, -86.183, 83.1797]),
        ([0, 0, 255], [32.2957, 79.1856, -107.8573]),
        ([255, 255, 0], [97.1395, -21.5547, 94.4781]),
        ([0, 255, 255], [91.1133, -48.0906, -14.1263]),
        ([255, 0, 255], [60.3235, 98.2331, -60.821]),
        ([128, 128, 128], [53.585, -0.0015, 0.0028]),
        ([119, 119, 119], [50.0344, -0.0014, 0.0026]),
        ([180, 40, 30], [40.1105, 54.6335, 40.9082]),
        ([230, 120, 20], [61.9219, 37.1923, 65.5432]),
        ([240, 200, 60], [81.9271, 0.5512, 70.7054]),
        ([110, 140, 60], [54.4461, -24.026, 38.6769]),
        ([60, 20, 20], [12.6826, 19.7228, 9.9164]),
        ([200, 90, 100], [52.4146, 44.6988, 15.953]),
    ];
    for (screen, expected) in computed {
        let ours = lab_of_srgb(screen);
        for (ours, expected) in [ours.lightness(), ours.a(), ours.b()].into_iter().zip(expected) {
            assert!((ours - expected).abs() <= 0.000_051, "{screen:?}: {ours}, expected {expected}");
        }
    }
}

proptest! {
    #[test]
    fn a_colour_does_not_differ_from_itself_and_order_does_not_matter(
        first in (0.0..=100.0, -128.0..128.0, -128.0..128.0),
        second in (0.0..=100.0, -128.0..128.0, -128.0..128.0),
    ) {
        let (first, second) = (lab([first.0, first.1, first.2]), lab([second.0, second.1, second.2]));
        let there = colour_difference(first, second).get();
        prop_assert!(there.is_finite() && 0.0 <= there);
        prop_assert_eq!(colour_difference(first, first).get(), 0.0);
        prop_assert!((there - colour_difference(second, first).get()).abs() < 1e-9);
    }

    /// Every screen colour has a CIELAB colour: the library promises it without an `Option`.
    #[test]
    fn every_screen_colour_is_a_colour(screen in proptest::array::uniform3(0_u8..=255)) {
        prop_assert!((0.0..=100.0).contains(&lab_of_srgb(screen).lightness()));
    }
}
