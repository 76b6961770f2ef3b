//! The share ripe: that the curve, the points and the steps stand on one ground.

#![expect(clippy::unwrap_used, reason = "a test that cannot make its input should stop")]

use drawing::ripe_share::{RipePoint, RipeShare, ripe_share};
use drawing::scale::Pixels;
use proptest::prelude::{any, prop_assert, proptest};
use record::share::Share;

fn share(of: f64) -> Share {
    Share::new(of).unwrap()
}

fn sample() -> RipeShare {
    let curve = [(60.0, 0.0), (80.0, 0.1), (100.0, 0.5), (120.0, 0.9), (140.0, 1.0)];
    let point = |of: f64, at: f64| RipePoint {
        share: share(of),
        at,
        plots: Some((at - 4.0, at + 4.0)),
        seasons: Some((at - 9.0, at + 9.0)),
    };
    RipeShare {
        words: "A tenth on day 80".to_owned(),
        axis: "days from transplanting".to_owned(),
        curve: curve.map(|(at, of)| (at, share(of))).to_vec(),
        plots: vec![vec![(78.0, share(0.2)), (101.0, share(0.6)), (125.0, share(1.0))]],
        points: vec![point(0.1, 80.0), point(0.5, 100.0), point(0.9, 120.0)],
    }
}

/// Look at the drawing before accepting a change.
#[test]
fn the_curve_looks_as_before() {
    let svg = ripe_share(&sample(), Pixels::from(480));
    insta::assert_snapshot!("ripe_share", svg.markup().replace("><", ">\n<"));
}

#[test]
fn points_lie_on_their_shares_and_later_is_further_right() {
    let svg = ripe_share(&sample(), Pixels::from(480));
    let document = roxmltree::Document::parse(svg.markup()).unwrap();
    let circles: Vec<(f64, f64)> = document
        .descendants()
        .filter(|node| node.has_tag_name("circle"))
        .map(|node| ["cx", "cy"].map(|name| node.attribute(name).unwrap().parse().unwrap()).into())
        .collect();
    let [tenth, half, nine] = circles[..] else { panic!("three points: {circles:?}") };
    assert!(tenth.0 < half.0 && half.0 < nine.0, "{circles:?}");
    // The ground is 230 high below 10: nine tenths, half and a tenth of it down.
    assert_eq!([tenth.1, half.1, nine.1], [217.0, 125.0, 33.0]);
    assert_eq!(svg.markup().matches("class=\"picks\"").count(), 1);
}

proptest! {
    #[test]
    fn any_times_stay_on_the_sheet(times in proptest::collection::vec(any::<f64>(), 0..40), width in 1_u16..2000) {
        let points = times.iter().map(|at| RipePoint { share: share(0.5), at: *at, plots: Some((at - 1.0, at + 1.0)), seasons: None });
        let of = RipeShare { points: points.collect(), curve: times.iter().map(|at| (*at, share(0.3))).collect(), ..sample() };
        let svg = ripe_share(&of, Pixels::from(width));
        let document = roxmltree::Document::parse(svg.markup()).unwrap();
        for node in document.descendants() {
            for name in ["cx", "x1", "x2"] {
                if let Some(at) = node.attribute(name) {
                    let at: f64 = at.parse().unwrap();
                    prop_assert!((0.0..=svg.width().get()).contains(&at), "{name} {at}");
                }
            }
        }
        prop_assert!(!svg.markup().contains("NaN") && !svg.markup().contains("inf"));
    }
}
