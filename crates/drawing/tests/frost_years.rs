//! Frost, year by year: that bars run from frost to frost, and that nothing leaves the sheet.

#![expect(clippy::unwrap_used, reason = "a test that cannot make its input should stop")]

use drawing::frost_years::{ChanceLine, FrostYear, FrostYears, Frosts, frost_years};
use drawing::scale::Pixels;
use proptest::prelude::{any, prop_assert, proptest};

fn known(year: i16, last: Option<f64>, first: Option<f64>) -> FrostYear {
    FrostYear { year, frosts: Frosts::Known { last, first } }
}

fn sample() -> FrostYears {
    let chance = |in_10, day| ChanceLine { in_10, day };
    FrostYears {
        words: "Frost of three years".to_owned(),
        years: vec![
            known(2011, Some(110.0), Some(280.0)),
            known(2012, Some(130.0), None),
            FrostYear { year: 2013, frosts: Frosts::NotKnown },
            known(2014, Some(120.0), Some(290.0)),
        ],
        chances: vec![
            chance(1, 128.0),
            chance(5, 120.0),
            chance(9, 112.0),
            chance(1, 281.0),
            chance(5, 285.0),
        ],
    }
}

fn numbers(markup: &str, tag: &str, name: &str) -> Vec<f64> {
    let document = roxmltree::Document::parse(markup).unwrap();
    let nodes = document.descendants().filter(|node| node.has_tag_name(tag));
    nodes.filter_map(|node| node.attribute(name)?.parse().ok()).collect()
}

/// Look at the drawing before accepting a change.
#[test]
fn years_look_as_before() {
    let svg = frost_years(&sample(), Pixels::from(480));
    insta::assert_snapshot!("frost_years", svg.markup().replace("><", ">\n<"));
}

#[test]
fn a_bar_runs_from_the_last_frost_to_the_first_and_a_frost_has_a_dot() {
    let svg = frost_years(&sample(), Pixels::from(480));
    let markup = svg.markup();
    let (bars, widths) = (numbers(markup, "rect", "x"), numbers(markup, "rect", "width"));
    let dots = numbers(markup, "circle", "cx");
    assert_eq!((bars.len(), dots.len()), (3, 5), "a year that is not known has neither: {markup}");
    assert!((bars[0] - dots[0]).abs() < 0.02 && (bars[0] + widths[0] - dots[1]).abs() < 0.02, "{markup}");
    assert!(bars[0] < bars[2] && bars[2] < bars[1], "later frosts lie further to the right");
    assert!((bars[1] + widths[1] - 474.0).abs() < 0.02, "no frost in autumn: the bar runs to the edge");
    assert!(markup.contains("<title>Frost of three years</title>"), "{markup}");
}

#[test]
fn a_season_that_runs_past_the_year_names_the_months_of_both() {
    let south =
        FrostYears { years: vec![known(2011, Some(270.0), Some(500.0))], chances: vec![], ..sample() };
    let svg = frost_years(&south, Pixels::from(700));
    for month in ["Oct", "Jan", "Apr"] {
        assert!(svg.markup().contains(&format!(">{month}<")), "{month}");
    }
    assert!(!svg.markup().contains(">Jul<"));
}

proptest! {
    #[test]
    fn any_years_stay_on_the_sheet(
        years in proptest::collection::vec((any::<i16>(), proptest::option::of(any::<f64>()), proptest::option::of(any::<f64>())), 0..150),
        days in proptest::collection::vec(any::<f64>(), 0..6),
        width in 1_u16..2000,
    ) {
        let years = years.into_iter().map(|(year, last, first)| known(year, last, first)).collect();
        let chances = days.into_iter().map(|day| ChanceLine { in_10: 5, day }).collect();
        let svg = frost_years(&FrostYears { years, chances, ..sample() }, Pixels::from(width));
        let (wide, high) = (svg.width().get(), svg.height().get());
        for (tag, name, most) in [("circle", "cx", wide), ("circle", "cy", high), ("line", "x1", wide), ("line", "y2", high), ("rect", "x", wide)] {
            for at in numbers(svg.markup(), tag, name) {
                prop_assert!((0.0..=most).contains(&at), "{tag} {name} {at} of {most}");
            }
        }
        prop_assert!(!svg.markup().contains("NaN") && !svg.markup().contains("inf"));
    }
}
