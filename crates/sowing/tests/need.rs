//! What speaks for growing a variety, and what plots of it are worth.

use sowing::need::{Flowers, KindHeld, Plots, Reason, Subject, Wished, Worths, left, reasons, ways};
use statistics::rates::{Family, Seen};

const PLOTS: Plots = Plots { plants: 6, fewest_parents: 10, most: 4 };

/// A variety that sells about 40 packets a year, of which 200 are in the house, and nothing else is wanted of it.
fn subject() -> Subject {
    let family = Family { mean: 40.0, shape: 2.0, size: 10.0 };
    let seen = Seen { count: 120, exposure: 3.0 };
    Subject {
        before: family.outlook(seen, 0.0, 0.0),
        soon: family.outlook(seen, 1.5, 0.2),
        late: family.outlook(seen, 3.5, 0.3),
        packets: 400,
        lasting: 400,
        packets_a_plant: Some(20.0),
        contested: Vec::new(),
        fruits: 40,
        seasons: 3,
        wished: Wished::No,
        kind: KindHeld::WithOthers,
        flowers: Flowers::Closed,
    }
}

fn told(subject: &Subject) -> Vec<Reason> {
    reasons(subject, &Worths::USUAL)
}

#[test]
fn a_full_jar_and_a_sure_call_want_nothing() {
    let (reasons, ways) = (told(&subject()), ways(&subject(), &Worths::USUAL, &PLOTS));
    assert!(reasons.is_empty() && ways.is_empty(), "{reasons:?} {ways:?}");
}

#[test]
fn an_empty_jar_misses_all_that_would_sell() {
    let empty = Subject { packets: 0, lasting: 0, ..subject() };
    let missing = empty.soon.mean();
    let [Reason::StockLow { packets }, Reason::Later { packets: later }] = told(&empty)[..] else {
        panic!("{:?}", told(&empty));
    };
    assert!((packets - missing).abs() < 1e-9);
    assert!((later - 0.25 * (empty.late.mean() - missing)).abs() < 1e-9);
}

#[test]
fn old_seed_is_missing_seed() {
    let old = Subject { lasting: 0, ..subject() };
    let seed_old = told(&old).into_iter().find(|reason| matches!(reason, Reason::SeedOld { .. })).unwrap();
    assert!((seed_old.packets() - (old.soon.mean() - old.soon.beyond(400))).abs() < 1e-9);
}

/// 20 packets for a call that nothing is known of: 0.45 of one is 9, and 0.3 of another 6.
#[test]
fn what_is_not_known_is_worth_its_part() {
    let contested = Subject { contested: vec![0.55, 0.7], ..subject() };
    let [Reason::Contested { calls: 2, packets }] = told(&contested)[..] else { panic!("no contested call") };
    assert!((packets - 15.0).abs() < 1e-9);
    // Two fruits of eight and one season of two: three eighths of 15 short.
    let thin = Subject { fruits: 2, seasons: 1, ..subject() };
    let [Reason::Thin { packets }] = told(&thin)[..] else { panic!("no thin evidence") };
    assert!((packets - 15.0 * 0.625).abs() < 1e-9);
    let wished = Subject { wished: Wished::Yes, ..subject() };
    assert!(matches!(told(&wished)[..], [Reason::Wished { .. }]));
}

#[test]
fn seed_wants_parents_and_notes_want_one_plot() {
    let both = Subject { packets: 0, lasting: 0, contested: vec![0.5], ..subject() };
    let ways = ways(&both, &Worths::USUAL, &PLOTS);
    // One plot of six plants is looked at; two are the ten parents that seed is saved from.
    let plots: Vec<(u32, bool)> = ways.iter().map(|way| (way.plots, 0.0 < way.seed)).collect();
    assert_eq!(plots.get(..2), Some(&[(1, false), (2, true)][..]));
    assert!(plots.iter().skip(1).all(|(plots, saves)| 2 <= *plots && *saves));
    assert!(ways.is_sorted_by(|less, more| less.worth < more.worth));
    let all: f64 = told(&both).iter().map(|reason| reason.packets()).sum();
    assert!(ways.last().unwrap().worth <= all + 1e-9);
}

#[test]
fn flowers_that_cross_take_a_place_apart_for_seed_alone() {
    let open = Subject { packets: 0, lasting: 0, contested: vec![0.5], flowers: Flowers::Open, ..subject() };
    let apart: Vec<u32> = ways(&open, &Worths::USUAL, &PLOTS).iter().map(|way| way.apart).collect();
    assert_eq!(apart.first(), Some(&0));
    assert!(1 < apart.len() && apart.iter().skip(1).all(|apart| *apart == 1));
}

#[test]
fn the_only_one_of_its_kind_is_not_let_run_out() {
    let alone = Subject { packets: 10, lasting: 10, kind: KindHeld::Alone, ..subject() };
    let worth = |subject: &Subject| ways(subject, &Worths::USUAL, &PLOTS).last().unwrap().worth;
    let with_others = Subject { kind: KindHeld::WithOthers, ..alone.clone() };
    assert!(worth(&with_others) + 20.0 < worth(&alone));
}

/// Seed of this grow-out cannot help with what sells before it is ready, but what sells then is gone.
#[test]
fn sales_before_the_seed_is_ready_are_taken_off_the_stock() {
    let family = Family { mean: 40.0, shape: 2.0, size: 10.0 };
    let seen = Seen { count: 120, exposure: 3.0 };
    let early = Subject { before: family.outlook(seen, 1.0, 0.0), packets: 60, lasting: 60, ..subject() };
    let half = early.before.at(record::share::Share::new(0.5).unwrap());
    assert_eq!(left(&early, 60), 60 - half);
    assert_eq!(left(&early, 5), 0);
    let none = Subject { packets: 0, lasting: 0, ..early.clone() };
    let low = |subject: &Subject| told(subject).first().unwrap().packets();
    assert!((low(&none) - none.soon.mean()).abs() < 1e-9);
    assert!(low(&early) < low(&none));
}
