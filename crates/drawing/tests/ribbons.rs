//! Ribbons: that depth is the chance, and that the ends are where they should be.

use drawing::ribbon::{Ribbon, months, ribbon};
use drawing::scale::Pixels;
use record::share::Share;

#[test]
fn depth_is_the_chance_of_ripe_fruit() {
    let weeks = [0.0, 0.25, 1.0, 0.0].map(|chance| Share::new(chance).unwrap()).to_vec();
    let drawn = ribbon(&Ribbon { words: "Two weeks".to_owned(), weeks, frost: Some(3.0) }, Pixels::from(400));
    let markup = drawn.markup();
    assert_eq!(markup.matches("<rect").count(), 2, "a week without a chance has no ink: {markup}");
    assert!(markup.contains("x=\"100\"") && markup.contains("fill-opacity=\".25\""), "{markup}");
    assert!(markup.contains("x=\"200\"") && markup.contains("fill-opacity=\"1\""), "{markup}");
    assert!(markup.contains("d=\"m300 0l0 18\""), "frost stands at its week: {markup}");
    assert!(markup.contains("<title>Two weeks</title>"), "{markup}");
}

#[test]
fn months_too_narrow_for_their_name_are_not_named() {
    let drawn = months(&[(0, "May"), (19, "June"), (49, "July")], 10, Pixels::from(200));
    assert!(drawn.markup().contains("May") && drawn.markup().contains("June"));
    let narrow = months(&[(0, "May"), (3, "June")], 10, Pixels::from(200));
    assert!(!narrow.markup().contains("May") && narrow.markup().contains("June"));
}
