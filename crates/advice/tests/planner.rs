//! Plans against a search through all of them, and what must hold of any plan and of any conflict.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use advice::planner::conflict::{Change, Conflict, Way};
use advice::planner::plan::{Outcome, Plan, PlanFault, Without, plan};
use advice::planner::request::{Demand, Request, RequestFault, Wish};
use advice::planner::supply::{Choice, Room, Supply, SupplyFault};
use proptest::prelude::*;
use record::share::Share;

fn choice(variety: &str, wave: u32, class: &str, room: Room) -> Choice {
    Choice { variety: variety.to_owned(), wave, class: class.to_owned(), room }
}

fn request(wishes: Vec<Wish>) -> Request {
    Request {
        wishes,
        bed: 100.0,
        containers: 10,
        most_varieties: 10,
        wanted: Vec::new(),
        barred: Vec::new(),
        favourites: Vec::new(),
        sure: Share::ALL,
        gap: Share::NONE,
    }
}

fn fresh(class: &str, kilograms: f64, weeks: std::ops::RangeInclusive<usize>) -> Wish {
    Wish::Fresh { class: class.to_owned(), kilograms, weeks }
}

fn kitchen(
    kilograms: f64,
    window: std::ops::RangeInclusive<usize>,
    days: u32,
    a_day: f64,
    keeps: usize,
) -> Wish {
    Wish::Kitchen { class: "paste".to_owned(), kilograms, window, days, a_day, keeps }
}

#[track_caller]
fn planned(supply: &Supply, request: &Request) -> Plan {
    match plan(supply, request).unwrap() {
        Outcome::Planned(plan) => plan,
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn conflict(supply: &Supply, request: &Request) -> Conflict {
    match plan(supply, request).unwrap() {
        Outcome::Impossible(conflict) => conflict,
        other => panic!("{other:?}"),
    }
}

/// Two pastes, one early and one late, in two years of three weeks: kilograms a plant.
fn pastes() -> Supply {
    let bed = Room::Bed(0.5);
    let choices = vec![choice("early", 0, "paste", bed), choice("late", 0, "paste", bed)];
    let kilograms = vec![
        2.0, 1.0, 0.0, 0.0, 2.0, 3.0, // a good year: early, late
        1.0, 1.0, 0.0, 0.0, 1.0, 2.0, // a poor year
    ];
    Supply::new(choices, 3, kilograms).unwrap()
}

/// By hand: a poor year gives 2 kg a late plant in the third week, so 10 kg on one day take 5 plants.
#[test]
fn one_kitchen_day_takes_the_week_that_bears() {
    let plan = planned(&pastes(), &request(vec![kitchen(10.0, 0..=2, 1, 20.0, 0)]));
    assert_eq!((plan.plants, plan.total, plan.at_least), (vec![0, 5], 5, 5));
    assert!((plan.bed - 2.5).abs() < 1e-9);
}

/// By hand: with two days a late plant gives 3 kg in a poor year and no plant gives more, so 10 kg take 4; one day of 6 kg
/// holds no more than that.
#[test]
fn more_days_take_fewer_plants() {
    let plan = planned(&pastes(), &request(vec![kitchen(10.0, 0..=2, 2, 20.0, 0)]));
    assert_eq!(plan.total, 4);
    let days = conflict(&pastes(), &request(vec![kitchen(10.0, 0..=2, 1, 6.0, 0)]));
    let wish = days.demands.iter().find(|freed| freed.demand == Demand::Wish(0)).unwrap();
    let Way::Least(Change::Kilograms(most)) = wish.way else { panic!("{wish:?}") };
    assert!((most - 6.0).abs() < 1e-6, "one day holds 6 kg, not {most}");
}

/// By hand: only the good year has to be met, and 10 kg in its third week take 4 plants of 3 kg.
#[test]
fn fewer_years_take_fewer_plants() {
    let mut half = request(vec![kitchen(10.0, 0..=2, 1, 20.0, 0)]);
    half.sure = Share::new(0.5).unwrap();
    let plan = planned(&pastes(), &half);
    assert_eq!((plan.plants, plan.years), (vec![0, 4], 1));
}

/// By hand: the first week needs early plants and the third late ones; without either there is no plan.
#[test]
fn every_choice_has_its_reason() {
    let plan = planned(&pastes(), &request(vec![fresh("paste", 2.0, 0..=2)]));
    assert_eq!(plan.plants, [2, 1]);
    assert!(plan.reasons.iter().all(|reason| reason.without == Without::Impossible));
    // The later of two years in order of weight: early bears 3 kg a plant, late 5.
    let bears: Vec<f64> = plan.reasons.iter().map(|reason| reason.bears[0]).collect();
    assert_eq!(bears, [6.0, 5.0]);
}

/// By hand: 10 kg take 5 plants and 2.5 square metres, and 2 square metres bear 8 kg in the poor year.
#[test]
fn a_bed_too_small_is_told_with_what_frees_it() {
    let mut small = request(vec![kitchen(10.0, 0..=2, 1, 20.0, 0)]);
    small.bed = 2.0;
    let conflict = conflict(&pastes(), &small);
    let demands: Vec<Demand> = conflict.demands.iter().map(|freed| freed.demand).collect();
    assert_eq!(demands, [Demand::Wish(0), Demand::Bed, Demand::Sure]);
    for freed in conflict.demands {
        let Way::Least(change) = freed.way else { panic!("{freed:?}") };
        match change {
            Change::Kilograms(most) => assert!((most - 8.0).abs() < 1e-6, "{most}"),
            Change::Bed(bed) => assert!((bed - 2.5).abs() < 1e-6, "{bed}"),
            // Four plants give 12 kg in the good year.
            Change::Years(years) => assert_eq!(years, 1),
            change => panic!("{change:?}"),
        }
    }
}

/// By hand: an early and a late variety are needed, and only one may be planted.
#[test]
fn too_few_varieties_are_told() {
    let mut one = request(vec![fresh("paste", 2.0, 0..=2)]);
    one.most_varieties = 1;
    let conflict = conflict(&pastes(), &one);
    let varieties = conflict.demands.iter().find(|freed| freed.demand == Demand::MostVarieties).unwrap();
    assert_eq!(varieties.way, Way::Least(Change::Varieties(2)));
}

#[test]
fn wanted_and_barred_are_kept() {
    let mut wanted = request(vec![kitchen(10.0, 0..=2, 1, 20.0, 0)]);
    wanted.wanted = vec!["early".to_owned()];
    assert_eq!(planned(&pastes(), &wanted).plants, [1, 5]);
    wanted.barred = vec!["late".to_owned()];
    assert_eq!(planned(&pastes(), &wanted).plants, [10, 0]);
    wanted.bed = 0.2;
    wanted.wishes.clear();
    let demands: Vec<_> = conflict(&pastes(), &wanted).demands;
    let found: Vec<_> = demands.iter().map(|freed| (freed.demand, freed.way)).collect();
    let bed = Way::Least(Change::Bed(0.5));
    assert_eq!(found, [(Demand::Wanted(0), Way::Least(Change::DoWithout)), (Demand::Bed, bed)]);
}

#[test]
fn what_cannot_be_read_is_told() {
    let mut asked = request(vec![fresh("paste", 2.0, 0..=3)]);
    let fault = |request: &Request| match plan(&pastes(), request) {
        Err(PlanFault::Request(fault)) => fault,
        other => panic!("{other:?}"),
    };
    assert_eq!(fault(&asked), RequestFault::NoWish(0));
    asked.wishes.clear();
    asked.wanted = vec!["none such".to_owned()];
    assert_eq!(fault(&asked), RequestFault::NotToBeHad("none such".to_owned()));
    asked.bed = f64::NAN;
    assert_eq!(fault(&asked), RequestFault::NoBed);
    let one = |kilograms| Supply::new(vec![choice("a", 0, "paste", Room::Container)], 2, kilograms);
    assert_eq!(one(vec![]), Err(SupplyFault::Empty));
    assert_eq!(one(vec![1.0; 3]), Err(SupplyFault::Columns { wanted: 4, found: 3 }));
    assert_eq!(one(vec![1.0, -1.0]), Err(SupplyFault::NoWeight { year: 0, choice: 0, week: 1 }));
}

const WEEKS: usize = 3;
const MOST: u32 = 4;

/// Three choices of two varieties and two classes, in quarters of a kilogram so that sums are exact.
fn small() -> impl Strategy<Value = Supply> {
    let columns = |years: usize| proptest::collection::vec(0u8..9, years * 3 * WEEKS);
    (1usize..=3).prop_flat_map(columns).prop_map(|quarters| {
        let choices = vec![
            choice("one", 0, "paste", Room::Bed(1.0)),
            choice("one", 1, "paste", Room::Container),
            choice("two", 0, "slicer", Room::Bed(1.0)),
        ];
        Supply::new(choices, WEEKS, quarters.into_iter().map(|part| f64::from(part) / 4.0).collect()).unwrap()
    })
}

fn asked() -> impl Strategy<Value = Request> {
    let paste = (1u8..12, 0usize..2, (1u32..=3, 0usize..=1), 2u8..12, any::<bool>());
    (paste, (1u8..6, 0usize..3, any::<bool>()), 1u32..=2, 0u8..=3).prop_map(
        |((all, from, (days, keeps), a_day, beside), (week, start, slicer), most_varieties, sure)| {
            let quarter = |part: u8| f64::from(part) / 4.0;
            let mut wishes = vec![kitchen(quarter(all), from..=2, days, quarter(a_day), keeps)];
            let class = if slicer { "slicer" } else { "paste" };
            if beside {
                wishes.push(fresh(class, quarter(week), start..=start));
            }
            let mut request = request(wishes);
            (request.bed, request.containers) = (f64::from(MOST), MOST);
            request.most_varieties = most_varieties;
            request.sure = Share::new(f64::from(sure) / 3.0).unwrap();
            request
        },
    )
}

/// Whether a year is met by so many plants: what is eaten first, then the best weeks of what is left.
fn is_met(supply: &Supply, request: &Request, plants: [u32; 3], year: usize) -> bool {
    let borne = |class: &str, week| -> f64 {
        let choices = (0..3).filter(|place| supply.choices()[*place].class == class);
        choices.map(|place| f64::from(plants[place]) * supply.kilograms(year, place, week)).sum()
    };
    let mut paste: Vec<f64> = (0..WEEKS).map(|week| borne("paste", week)).collect();
    for wish in &request.wishes {
        let Wish::Fresh { class, kilograms, weeks } = wish else { continue };
        for week in weeks.clone() {
            if borne(class, week) < *kilograms {
                return false;
            }
            if class == "paste" {
                paste[week] -= kilograms;
            }
        }
    }
    request.wishes.iter().all(|wish| {
        let Wish::Kitchen { kilograms, window, days, a_day, keeps, .. } = wish else { return true };
        let weeks: Vec<usize> = window.clone().collect();
        let cooked = (0..1_u32 << weeks.len()).filter(|chosen| chosen.count_ones() <= *days).map(|chosen| {
            let on =
                weeks.iter().enumerate().filter(|(place, _)| chosen >> place & 1 == 1).map(|(_, week)| *week);
            put_up(paste.clone(), on, *a_day, *keeps)
        });
        *kilograms <= cooked.fold(0.0, f64::max) + 1e-9
    })
}

/// What is put up on some days, one after another, each with the oldest fruit first: no other order does more.
fn put_up(mut borne: Vec<f64>, on: impl Iterator<Item = usize>, a_day: f64, keeps: usize) -> f64 {
    on.map(|week| {
        let mut wanted = a_day;
        for own in &mut borne[week.saturating_sub(keeps)..=week] {
            let used = own.min(wanted);
            *own -= used;
            wanted -= used;
        }
        a_day - wanted
    })
    .sum()
}

/// Every garden that keeps to the request.
fn gardens(supply: &Supply, request: &Request) -> Vec<[u32; 3]> {
    let years = supply.years();
    let needed = (0..=years).find(|met| request.sure.get() * years as f64 <= *met as f64 + 1e-4).unwrap();
    let all = (0..=MOST).flat_map(|a| (0..=MOST).flat_map(move |b| (0..=MOST).map(move |c| [a, b, c])));
    all.filter(|[a, b, c]| a + c <= MOST && *b <= MOST)
        .filter(|[a, b, c]| u32::from(0 < a + b) + u32::from(0 < *c) <= request.most_varieties)
        .filter(|plants| needed <= (0..years).filter(|year| is_met(supply, request, *plants, *year)).count())
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// The plan is as small as the smallest of all gardens, and is one of them; no plan means that there is none.
    #[test]
    fn plans_agree_with_a_search_through_all(supply in small(), request in asked()) {
        let gardens = gardens(&supply, &request);
        match plan(&supply, &request).unwrap() {
            Outcome::Planned(plan) => {
                let least = gardens.iter().map(|plants| plants.iter().sum::<u32>()).min();
                prop_assert_eq!(Some(plan.total), least);
                prop_assert_eq!(plan.at_least, plan.total);
                let found: [u32; 3] = plan.plants.clone().try_into().unwrap();
                prop_assert!(gardens.contains(&found), "{:?}", found);
            }
            Outcome::Impossible(_) => prop_assert!(gardens.is_empty(), "{:?}", gardens),
            Outcome::NotFound(_) => prop_assert!(false, "a small garden is soon settled"),
            Outcome::Stopped => prop_assert!(false, "nobody stopped it"),
        }
    }

    /// The least change does free the request.
    #[test]
    fn what_frees_does_free(supply in small(), request in asked()) {
        let Outcome::Impossible(conflict) = plan(&supply, &request).unwrap() else { return Ok(()) };
        prop_assert!(!conflict.demands.is_empty());
        for freed in conflict.demands {
            let Way::Least(change) = freed.way else { continue };
            let mut changed = request.clone();
            match (freed.demand, change) {
                (Demand::Bed, Change::Bed(bed)) => changed.bed = bed + 1e-6,
                (Demand::Containers, Change::Containers(containers)) => changed.containers = containers,
                (Demand::MostVarieties, Change::Varieties(most)) => changed.most_varieties = most,
                (Demand::Sure, Change::Years(years)) => {
                    changed.sure = Share::of(u64::from(years), supply.years() as u64).unwrap();
                }
                (Demand::Wish(wish), Change::Kilograms(most)) => match &mut changed.wishes[wish] {
                    _ if most < 1e-6 => { changed.wishes.remove(wish); }
                    Wish::Kitchen { kilograms, .. } | Wish::Fresh { kilograms, .. } => *kilograms = most - 1e-7,
                },
                other => prop_assert!(false, "{:?}", other),
            }
            prop_assert!(matches!(plan(&supply, &changed).unwrap(), Outcome::Planned(_)), "{:?}", freed);
        }
    }

    /// The same values give the same plan.
    #[test]
    fn plans_are_the_same_again(supply in small(), request in asked()) {
        prop_assert_eq!(plan(&supply, &request).unwrap(), plan(&supply, &request).unwrap());
    }

    /// Asking to be surer never takes fewer plants.
    #[test]
    fn surer_never_takes_less(supply in small(), request in asked()) {
        let surer = Request { sure: Share::ALL, ..request.clone() };
        if let (Outcome::Planned(plan), Outcome::Planned(sure)) =
            (plan(&supply, &request).unwrap(), plan(&supply, &surer).unwrap())
        {
            prop_assert!(plan.total <= sure.total);
        }
    }
}
