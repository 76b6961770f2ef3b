//! Stand-ins: what comes first, what is dropped, and what is said of it.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]
#![allow(dead_code, reason = "the made-up list serves several tests")]

mod list;

use assortment::kinds::{Apart, Mix};
use assortment::profile::Profile;
use assortment::standins::{Assortment, Known};
use list::{contested, sure, words};

fn nearest(profiles: &[Profile], of: usize) -> Vec<(usize, f64)> {
    let words = words();
    let assortment = Assortment::new(profiles, &words).unwrap();
    assortment.nearest(of, profiles.len()).into_iter().map(|found| (found.place, found.distance)).collect()
}

#[test]
fn a_contested_habit_counts_by_its_probabilities() {
    let plum = |name, habit| sure(name, 60.0, [habit, "plum", "red"]);
    // Half indeterminate: half a step from a determinate in either half, as expected.
    let half = contested(plum("half", "determinate"), [0.5, 0.0, 0.5]);
    let profiles =
        [plum("asked", "determinate"), half, plum("other", "indeterminate"), plum("same", "determinate")];
    let found = nearest(&profiles, 0);
    assert_eq!(found.iter().map(|found| found.0).collect::<Vec<_>>(), [3, 1, 2]);
    // Weights: weight 2, colour 2, habit 1.5; only habit differs, by 0.5 and by 1.
    assert!((found[1].1 - 1.5 * 0.5 / 5.5).abs() < 1e-12 && (found[2].1 - 1.5 / 5.5).abs() < 1e-12);
}

#[test]
fn expected_distance_is_that_of_independent_draws() {
    // By hand: p = (.6, .4), q = (.3, .7), all names 1 apart: 1 - .6 x .3 - .4 x .7 = .54.
    let mix = |shares: [f64; 2]| Mix::new(shares.to_vec()).unwrap();
    let apart = Apart::all_alike(2);
    assert!((apart.expected(&mix([0.6, 0.4]), &mix([0.3, 0.7])) - 0.54).abs() < 1e-12);
    // What is none of the names is far from everything: .5 x 1 that it is a name at all.
    assert!((apart.expected(&mix([0.5, 0.0]), &mix([1.0, 0.0])) - 0.5).abs() < 1e-12);
}

#[test]
fn equals_keep_the_order_of_the_list() {
    let profiles: Vec<Profile> =
        ["a", "b", "c", "d"].map(|name| sure(name, 60.0, ["determinate", "plum", "red"])).to_vec();
    assert_eq!(nearest(&profiles, 2), [(0, 0.0), (1, 0.0), (3, 0.0)]);
}

#[test]
fn a_variety_that_was_hardly_measured_comes_last() {
    let weighed = Profile { habit: None, class: None, colour: None, ..sure("weighed", 60.0, ["", "", ""]) };
    let near = sure("near", 70.0, ["determinate", "plum", "red"]);
    let profiles = [sure("asked", 60.0, ["determinate", "plum", "red"]), weighed, near];
    let words = words();
    let found = Assortment::new(&profiles, &words).unwrap().nearest(0, 5);
    let told: Vec<_> = found.iter().map(|found| (found.place, found.known, found.compared)).collect();
    assert_eq!(told, [(2, Known::Enough, 3), (1, Known::Little, 1)]);
    assert_eq!(found[1].distance, 0.0, "alike in the one thing known");
}

#[test]
fn reasons_are_told_as_a_grower_would() {
    let asked = Profile { days_to_ripe: Some(70.0), ..sure("asked", 60.0, ["indeterminate", "plum", "red"]) };
    let other = Profile { days_to_ripe: Some(77.0), ..sure("other", 63.0, ["determinate", "plum", "red"]) };
    let far = sure("far", 150.0, ["indeterminate", "slicer", "green"]);
    let profiles = [asked, other, far];
    let words = words();
    let found = Assortment::new(&profiles, &words).unwrap().nearest(0, 5);
    assert_eq!(
        found[0].reasons.to_string(),
        "as heavy, same colour; a week later, determinate where this is indeterminate"
    );
    assert_eq!(found[1].reasons.to_string(), "same habit; 2.5 times as heavy, green where this is red");
}

#[test]
fn nothing_known_has_no_stand_in() {
    let unknown = Profile { name: "unknown".to_owned(), ..Profile::default() };
    assert!(nearest(&[unknown, sure("other", 60.0, ["determinate", "plum", "red"])], 0).is_empty());
}
