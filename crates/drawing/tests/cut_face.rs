//! The cut face tells the truth: as many chambers as were counted, as much gel as was measured.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test that cannot make its input should stop"
)]

use drawing::look::FruitLook;
use drawing::portrait::portrait;
use drawing::scale::Scale;
use proptest::option;
use proptest::prelude::{ProptestConfig, prop_assert_eq, proptest};
use record::language::Units;
use record::length::Millimetres;
use record::share::Share;
use std::f64::consts::PI;

fn look(locules: u32) -> FruitLook {
    FruitLook {
        length: Millimetres::new(70.0),
        width: Millimetres::new(80.0),
        locules: Some(locules),
        ..FruitLook::named("Weir Street")
    }
}

/// The path data of the gel.
fn gel(look: &FruitLook) -> String {
    let svg = portrait(look, Scale::new(4.0).unwrap(), Units::US);
    let document = roxmltree::Document::parse(svg.markup()).unwrap();
    let gel = document.descendants().find(|node| node.attribute("class") == Some("gel")).unwrap();
    gel.attribute("d").unwrap().to_string()
}

#[test]
fn chambers_are_as_many_as_were_counted() {
    for locules in [1, 2, 3, 5, 8, 13, 20, 36] {
        assert_eq!(gel(&look(locules)).matches('m').count(), usize::try_from(locules).unwrap());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever its size, lobes and gel, a cut face has exactly the chambers that were counted.
    #[test]
    fn every_cut_face_has_its_chambers(
        locules in 1_u32..=36,
        lobes in option::of(0_u32..20),
        share in option::of(0.02..0.5),
        size in (5.0..140.0, 5.0..140.0),
    ) {
        let of = FruitLook {
            length: Millimetres::new(size.0),
            width: Millimetres::new(size.1),
            lobes,
            gel: share.and_then(Share::new),
            ..look(locules)
        };
        prop_assert_eq!(gel(&of).matches('m').count(), usize::try_from(locules).unwrap());
    }
}

/// Gel measured at 15 to 40 % of the face is drawn as such, to 5 in 100, less the placenta that stands
/// in it (taken as 30 % of each chamber).
#[test]
fn gel_takes_the_share_measured() {
    for locules in [2, 3, 5, 9] {
        for share in [0.15, 0.25, 0.4] {
            let data = gel(&FruitLook { gel: Share::new(share), wall: Share::new(0.12), ..look(locules) });
            let face = PI * (80.0_f64 * 4.0 / 2.0).powi(2);
            let drawn = 0.7 * area(&data) / face;
            assert!((drawn - share).abs() < 0.05, "{locules} locules: {drawn:.3} drawn, {share} measured");
        }
    }
}

/// The area of relative path data with only curves, by the knots: the reader's own plain sum.
fn area(data: &str) -> f64 {
    let parts = data.split('z').filter(|part| !part.is_empty());
    let (mut x0, mut y0, mut total) = (0.0, 0.0, 0.0);
    for part in parts {
        let spaced = part.replace('-', " -").replace(['m', 'c'], " ");
        let numbers: Vec<f64> = spaced.split_whitespace().map(|number| number.parse().unwrap()).collect();
        (x0, y0) = (x0 + numbers[0], y0 + numbers[1]);
        let (mut x, mut y, mut twice) = (x0, y0, 0.0);
        for step in numbers[2..].chunks(6) {
            let (to_x, to_y) = (x + step[4], y + step[5]);
            twice += x * to_y - to_x * y;
            (x, y) = (to_x, to_y);
        }
        total += twice.abs() / 2.0;
    }
    total
}

#[test]
fn an_uncut_fruit_shows_no_gel() {
    let uncut = FruitLook { locules: None, ..look(3) };
    let svg = portrait(&uncut, Scale::new(4.0).unwrap(), Units::US);
    assert!(!svg.markup().contains("class=\"gel\""));
    assert!(svg.markup().contains("Not measured: colour, locules"));
}
