//! The bench: everything is on it once, nothing overlaps, and links lead where they may.

#![expect(clippy::unwrap_used, reason = "a test that cannot make its input should stop")]

use drawing::bench::{Bench, BenchEntry, bench};
use drawing::look::FruitLook;
use drawing::scale::Pixels;
use drawing::svg::Svg;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::{ProptestConfig, Strategy, any, prop_assert, prop_assert_eq, proptest};
use record::language::Units;
use record::length::Millimetres;
use record::share::Share;

fn entry() -> impl Strategy<Value = BenchEntry> {
    let name = "[A-Z][a-z]{1,14}( [A-Z][a-z]{1,18}){0,2}";
    let place = (option::of(0_usize..11), option::of(0_usize..4));
    (name, 6.0..140.0, 0.6..2.4, place, option::of(0.0..1.0), any::<bool>()).prop_map(
        |(name, width, ratio, (column, row), certainty, contested)| BenchEntry {
            look: FruitLook {
                length: Millimetres::new(f64::min(width * ratio, 150.0)),
                width: Millimetres::new(width),
                ..FruitLook::named(name)
            },
            column,
            row,
            certainty: certainty.and_then(Share::new),
            contested,
            link: Some("/variety/7".into()),
        },
    )
}

fn whole(entries: Vec<BenchEntry>) -> Bench {
    let names = |names: &[&str]| names.iter().map(ToString::to_string).collect();
    Bench {
        title: "All to one scale".into(),
        columns: names(&[
            "Currant",
            "Cherry",
            "Pear",
            "Grape",
            "Plum",
            "Paste",
            "Saladette",
            "Slicer",
            "Oxheart",
            "Beefsteak",
        ]),
        rows: names(&["Determinate", "Semi-determinate", "Indeterminate"]),
        entries,
        units: Units::US,
    }
}

/// Left, top, right and bottom of every entry's own room.
fn rooms(svg: &Svg) -> Vec<[f64; 4]> {
    let document = roxmltree::Document::parse(svg.markup()).unwrap();
    let reaches = document.descendants().filter(|node| node.attribute("class") == Some("reach"));
    let rooms = reaches.map(|node| {
        let [x, y, width, height] =
            ["x", "y", "width", "height"].map(|name| node.attribute(name).unwrap().parse::<f64>().unwrap());
        [x, y, x + width, y + height]
    });
    rooms.collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_overlaps_at_any_width(entries in vec(entry(), 0..70), width in 320_u16..2000) {
        let count = entries.len();
        let svg = bench(&whole(entries), Pixels::from(width));
        let rooms = rooms(&svg);
        prop_assert_eq!(rooms.len(), count);
        for (index, a) in rooms.iter().enumerate() {
            prop_assert!(a[0] >= 0.0 && a[2] <= svg.width().get() && a[1] >= 0.0 && a[3] <= svg.height().get());
            for b in &rooms[index + 1..] {
                let apart = a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
                prop_assert!(apart, "{a:?} and {b:?}");
            }
        }
    }
}

fn one(link: &str) -> Bench {
    let look = FruitLook { width: Millimetres::new(60.0), ..FruitLook::named("Marl") };
    let link = Some(link.to_string());
    whole(vec![BenchEntry {
        look,
        column: Some(7),
        row: Some(0),
        certainty: Share::new(0.58),
        contested: true,
        link,
    }])
}

#[test]
fn links_lead_where_they_may() {
    let drawn = |link: &str| bench(&one(link), Pixels::from(1280)).markup().contains("<a ");
    assert!(drawn("/variety/marl?season=2031"));
    assert!(!drawn("javascript:alert(1)"));
}

#[test]
fn a_contested_call_says_so_in_words() {
    let svg = bench(&one("/marl"), Pixels::from(1280));
    assert!(svg.markup().contains("contested 58 %"));
    assert!(svg.markup().contains("stroke-dasharray"));
}

#[test]
fn an_empty_bench_is_still_a_drawing() {
    for width in [0, 360, 1280] {
        let svg = bench(&whole(Vec::new()), Pixels::from(width));
        assert!(roxmltree::Document::parse(svg.markup()).is_ok());
        assert!(svg.height().get() > 0.0);
    }
}
