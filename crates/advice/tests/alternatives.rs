//! Varieties that could stand in the place of another: every one that is listed is planned for once more by asking for it.

#![allow(clippy::unwrap_used, clippy::panic, reason = "what a test works with may stop it")]

use advice::planner::plan::{Outcome, Plan, plan};
use advice::planner::request::{Request, Wish};
use advice::planner::supply::{Choice, Room, Supply};
use record::share::Share;

/// Three pastes that bear alike and one that bears a tenth of it, a week each year.
fn supply() -> Supply {
    let choice = |name: &str| Choice {
        variety: name.to_owned(),
        wave: 0,
        class: "paste".to_owned(),
        room: Room::Bed(0.5),
    };
    let choices = ["first", "second", "third", "poor"].map(choice).to_vec();
    Supply::new(choices, 1, vec![2.0, 1.95, 1.5, 0.2, 2.0, 1.95, 1.5, 0.2]).unwrap()
}

fn request(wanted: &[&str], barred: &[&str]) -> Request {
    let names = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect();
    Request {
        wishes: vec![Wish::Fresh { class: "paste".to_owned(), kilograms: 40.0, weeks: 0..=0 }],
        bed: 60.0,
        containers: 0,
        most_varieties: 1,
        wanted: names(wanted),
        barred: names(barred),
        favourites: Vec::new(),
        sure: Share::ALL,
        gap: Share::NONE,
    }
}

fn planned(request: &Request) -> Plan {
    match plan(&supply(), request).unwrap() {
        Outcome::Planned(plan) => plan,
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_takes_a_twentieth_more_is_listed_and_what_takes_more_is_not() {
    let found = planned(&request(&[], &[]));
    assert_eq!(found.total, 20);
    // 40 kg take 20, 20.5 and 26.7 plants: only the second comes within 21.
    let told: Vec<(&str, &str, u32)> = found
        .alternatives
        .iter()
        .map(|own| (own.variety.as_str(), own.instead_of.as_str(), own.total))
        .collect();
    assert_eq!(told, [("second", "first", 21)]);
    assert_eq!(planned(&request(&["second"], &["first"])).total, 21);
}

#[test]
fn what_is_barred_or_wanted_stays_so() {
    assert_eq!(planned(&request(&[], &["second"])).alternatives, []);
    assert_eq!(planned(&request(&["first"], &[])).alternatives, []);
}
