//! A plan that is watched, and one that is stopped.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use advice::planner::plan::{Outcome, Plan, Without, plan, plan_watched};
use advice::planner::request::{Request, Wish};
use advice::planner::supply::{Choice, Room, Supply};
use advice::planner::watch::{Ended, Watch};
use record::share::Share;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

/// Twelve varieties over thirty years of ten weeks: more than the integer program is asked about whole.
fn supply() -> Supply {
    let choice = |number: usize| Choice {
        variety: format!("variety {number}"),
        wave: 0,
        class: "slicer".to_owned(),
        room: Room::Bed(0.5),
    };
    let borne = (0..30).flat_map(|year: u32| {
        (0..12).flat_map(move |choice: u32| {
            (0..10).map(move |week: u32| f64::from((year * 7 + choice * 5 + week * 3) % 11) / 10.0)
        })
    });
    Supply::new((0..12).map(choice).collect(), 10, borne.collect()).unwrap()
}

fn request() -> Request {
    Request {
        wishes: vec![Wish::Fresh { class: "slicer".to_owned(), kilograms: 3.0, weeks: 1..=8 }],
        bed: 40.0,
        containers: 0,
        most_varieties: 5,
        wanted: Vec::new(),
        barred: Vec::new(),
        favourites: Vec::new(),
        sure: Share::new(0.8).unwrap(),
        gap: Share::NONE,
    }
}

/// Writes down what it is told, and stops as soon as a garden is found if it is asked to.
#[derive(Default)]
struct Witness {
    found: Mutex<Vec<u32>>,
    bounds: Mutex<Vec<u32>>,
    impatient: bool,
    is_stopped: AtomicBool,
}

impl Watch for Witness {
    fn found(&self, plants: u32) {
        self.found.lock().unwrap().push(plants);
        self.is_stopped.fetch_or(self.impatient, Ordering::SeqCst);
    }
    fn bound(&self, at_least: u32) {
        self.bounds.lock().unwrap().push(at_least);
    }
    fn is_stopped(&self) -> bool {
        self.is_stopped.load(Ordering::SeqCst)
    }
}

fn planned(outcome: Outcome) -> Plan {
    match outcome {
        Outcome::Planned(plan) => plan,
        other => panic!("{other:?}"),
    }
}

#[test]
fn who_watches_sees_plants_and_bound_and_changes_nothing() {
    let witness = Witness::default();
    let watched = planned(plan_watched(&supply(), &request(), &witness).unwrap());
    assert_eq!(watched, planned(plan(&supply(), &request()).unwrap()));
    assert_eq!(watched.ended, Ended::Whole);
    let found = witness.found.lock().unwrap();
    assert!(!found.is_empty() && found.iter().all(|plants| watched.total <= *plants), "{found:?}");
    let bounds = witness.bounds.lock().unwrap();
    assert!(!bounds.is_empty() && bounds.iter().all(|bound| *bound <= watched.at_least), "{bounds:?}");
}

#[test]
fn a_stopped_plan_is_the_best_so_far_and_says_so() {
    let whole = planned(plan(&supply(), &request()).unwrap());
    let witness = Witness { impatient: true, ..Witness::default() };
    let stopped = planned(plan_watched(&supply(), &request(), &witness).unwrap());
    assert_eq!(stopped.ended, Ended::Stopped);
    assert!(whole.total <= stopped.total, "{} after {}", whole.total, stopped.total);
    assert!(stopped.at_least <= whole.total, "a bound is true whenever it is told");
    assert!(stopped.reasons.iter().all(|reason| reason.without == Without::NotTried));
    assert!(stopped.alternatives.is_empty());
}

#[test]
fn a_search_that_is_stopped_before_it_found_anything_has_no_plan() {
    let witness = Witness { is_stopped: AtomicBool::new(true), ..Witness::default() };
    let asked = Request { bed: 0.4, ..request() };
    let stopped = plan_watched(&supply(), &asked, &witness).unwrap();
    assert!(matches!(stopped, Outcome::Stopped), "{stopped:?}");
}
