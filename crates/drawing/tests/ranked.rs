//! Ranked intervals: what is on the sheet, whatever the numbers are.

#![expect(clippy::unwrap_used, reason = "a test that cannot make its input should stop")]

use drawing::ranked::{Ranked, Row, Standing, ranked};
use drawing::scale::Pixels;
use proptest::prelude::{Strategy, any, prop_assert, prop_assert_eq, proptest};

fn row(name: &str, at: f64, reach: f64, standing: Standing) -> Row {
    let interval = (standing != Standing::Line).then_some((at - reach, at + reach));
    Row { name: name.to_owned(), at, interval, standing }
}

fn sample() -> Ranked {
    Ranked {
        title: "Yield of 2031 Home".to_owned(),
        axis: "kg a plant more than Hop Pole".to_owned(),
        line: Some(0.0),
        rows: vec![
            row("Great Churn", 0.9, 0.6, Standing::Told),
            row("Gate Pin", 0.2, 0.6, Standing::NotTold),
            row("Hop Pole", 0.0, 0.0, Standing::Line),
            row("Latch Key", -1.1, 0.6, Standing::Told),
        ],
    }
}

/// Look at the drawing before accepting a change.
#[test]
fn rows_look_as_before() {
    let svg = ranked(&sample(), Pixels::from(560));
    insta::assert_snapshot!("ranked", svg.markup().replace("><", ">\n<"));
}

#[test]
fn the_words_say_how_many_were_told() {
    let svg = ranked(&sample(), Pixels::from(320));
    let words = "Yield of 2031 Home: 4 varieties from most to least, in kg a plant more than Hop Pole, 2 of them told";
    assert!(svg.markup().contains(words), "{}", svg.markup());
}

/// Where every circle and interval lies.
fn places(markup: &str) -> Vec<(f64, f64)> {
    let document = roxmltree::Document::parse(markup).unwrap();
    let number = |node: &roxmltree::Node<'_, '_>, name: &str| -> f64 {
        node.attribute(name).and_then(|text| text.parse().ok()).unwrap_or(0.0)
    };
    let nodes = document.descendants().filter(|node| node.is_element());
    nodes
        .filter_map(|node| match node.tag_name().name() {
            "circle" => Some((number(&node, "cx"), number(&node, "cy"))),
            "line" => Some((number(&node, "x1").max(number(&node, "x2")), number(&node, "y2"))),
            _ => None,
        })
        .collect()
}

fn rows() -> impl Strategy<Value = Vec<Row>> {
    let standing = proptest::sample::select(vec![Standing::Told, Standing::NotTold, Standing::Line]);
    let one = ("[B-HJ-MO-Z<&\"]{0,40}", any::<f64>(), 0.0..1e6_f64, standing);
    proptest::collection::vec(
        one.prop_map(|(name, at, reach, standing)| row(&name, at, reach, standing)),
        0..60,
    )
}

proptest! {
    #[test]
    fn any_numbers_stay_on_the_sheet(rows in rows(), line in proptest::option::of(any::<f64>()), width in 1_u16..2000) {
        let of = Ranked { rows, line, ..sample() };
        let svg = ranked(&of, Pixels::from(width));
        let (wide, high) = (svg.width().get(), svg.height().get());
        for (x, y) in places(svg.markup()) {
            prop_assert!((0.0..=wide).contains(&x) && (0.0..=high).contains(&y), "{x} {y} on {wide} by {high}");
        }
        prop_assert!(!svg.markup().contains("NaN") && !svg.markup().contains("inf"));
    }

    /// More is further to the right.
    #[test]
    fn the_order_of_estimates_is_that_of_their_places(ats in proptest::collection::vec(-1e3..1e3_f64, 2..30)) {
        let rows: Vec<Row> = ats.iter().map(|at| row("x", *at, 0.0, Standing::Told)).collect();
        let svg = ranked(&Ranked { rows, ..sample() }, Pixels::from(600));
        let document = roxmltree::Document::parse(svg.markup()).unwrap();
        let circles = document.descendants().filter(|node| node.has_tag_name("circle"));
        let places: Vec<f64> = circles.map(|node| node.attribute("cx").unwrap().parse().unwrap()).collect();
        prop_assert_eq!(places.len(), ats.len());
        let placed: Vec<(f64, f64)> = ats.iter().copied().zip(places).collect();
        for ((at, x), (next, y)) in placed.iter().zip(placed.iter().skip(1)) {
            prop_assert!(at <= next && x <= y || next <= at && y <= x);
        }
    }
}
