//! Gaps and crowding: contested varieties count in parts, and only filled surroundings make a gap.

#![allow(dead_code, reason = "the made-up list serves several tests")]

mod list;

use assortment::gaps::{Cell, cells};
use assortment::profile::Profile;
use assortment::standins::Assortment;
use list::{contested, sure, words};

#[test]
fn a_contested_variety_counts_in_parts() {
    let plum = contested(sure("plum", 60.0, ["determinate", "plum", "red"]), [0.6, 0.0, 0.4]);
    let unmeasured = Profile::default();
    let counted = cells(&[plum, unmeasured], &words());
    let held = |habit| counted.held(Cell { habit, class: 1, colour: 0 });
    assert_eq!((held(0), held(1), held(2)), (0.6, 0.0, 0.4));
    assert_eq!((counted.counted, counted.left_out), (1, 1));
}

/// Determinate plums, determinate orange fruit and orange plums, but no determinate orange plum.
#[test]
fn a_gap_is_where_all_round_is_filled() {
    let list = [
        sure("a", 60.0, ["determinate", "plum", "red"]),
        sure("b", 15.0, ["determinate", "cherry", "orange"]),
        sure("c", 60.0, ["indeterminate", "plum", "orange"]),
    ];
    let gaps = cells(&list, &words()).gaps();
    let found: Vec<Cell> = gaps.iter().map(|gap| gap.cell).collect();
    assert_eq!(found, [Cell { habit: 0, class: 1, colour: 1 }]);
    assert_eq!(
        (gaps[0].habit_and_class, gaps[0].habit_and_colour, gaps[0].class_and_colour),
        (1.0, 1.0, 1.0)
    );
}

#[test]
fn a_crowd_names_its_most_alike() {
    let red = |name: &str, grams| sure(name, grams, ["indeterminate", "slicer", "red"]);
    let list = [
        red("a", 150.0),
        red("b", 200.0),
        red("c", 152.0),
        red("d", 180.0),
        sure("e", 15.0, ["determinate", "cherry", "red"]),
    ];
    let words = words();
    let crowds = cells(&list, &words).crowds(&list, &Assortment::new(&list, &words).unwrap());
    assert_eq!(crowds.len(), 1);
    assert_eq!((crowds[0].cell, crowds[0].held), (Cell { habit: 2, class: 2, colour: 0 }, 4.0));
    assert_eq!((crowds[0].pairs[0].one, crowds[0].pairs[0].other), (0, 2));
}
