//! Plants of one and of two varieties for one wish, held against trying every number of them out with the planner's own
//! judge of a garden.

#![allow(clippy::unwrap_used, clippy::expect_used, reason = "what a test works with may stop it")]

use advice::by_itself::{Bearing, Want, of_one, of_two};
use advice::planner::harvest::years_met;
use advice::planner::request::{Request, Wish};
use advice::planner::supply::{Choice, Room, Supply};
use proptest::prelude::*;
use record::share::Share;

const WEEKS: usize = 5;
const YEARS: usize = 6;
/// More than any wish below takes of a plant that bears enough at all.
const TRIED: u32 = 60;

fn wish() -> impl Strategy<Value = Want> {
    let each_week =
        (1..40_u32, 0..WEEKS).prop_map(|(tens, from)| Want::EachWeek { tens, weeks: from..=WEEKS - 1 });
    let on_days = (1..80_u32, 1..60_u32, 1..4_usize).prop_map(|(tens, a_day, days)| Want::OnDays {
        tens,
        a_day,
        days,
        weeks: 0..=WEEKS - 1,
    });
    prop_oneof![each_week, on_days]
}

fn bearing() -> impl Strategy<Value = Vec<u32>> {
    prop::collection::vec(0..9_u32, WEEKS * YEARS)
}

/// The wish in the planner's words: kilograms are hundreds of tens of grams, exactly enough for its judge.
fn request(want: &Want) -> Request {
    let kilograms = |tens: u32| f64::from(tens);
    let wish = match want.clone() {
        Want::EachWeek { tens, weeks } => {
            Wish::Fresh { class: "a".to_owned(), kilograms: kilograms(tens), weeks }
        }
        Want::OnDays { tens, a_day, days, weeks } => Wish::Kitchen {
            class: "a".to_owned(),
            kilograms: kilograms(tens),
            window: weeks,
            days: u32::try_from(days).unwrap(),
            a_day: kilograms(a_day),
            keeps: 0,
        },
    };
    Request {
        wishes: vec![wish],
        bed: 0.0,
        containers: 1000,
        most_varieties: 2,
        wanted: Vec::new(),
        barred: Vec::new(),
        favourites: Vec::new(),
        sure: Share::ALL,
        gap: Share::NONE,
    }
}

fn supply(columns: &[&Vec<u32>]) -> Supply {
    let choice = |name: usize| Choice {
        variety: name.to_string(),
        wave: 0,
        class: "a".to_owned(),
        room: Room::Container,
    };
    let choices = (0..columns.len()).map(choice).collect();
    let years = (0..YEARS).flat_map(|year| {
        columns
            .iter()
            .flat_map(move |own| own.iter().skip(year * WEEKS).take(WEEKS).map(|own| f64::from(*own)))
    });
    Supply::new(choices, WEEKS, years.collect()).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn one_variety(own in bearing(), want in wish(), years in 1..=YEARS) {
        let (supply, request) = (supply(&[&own]), request(&want));
        let tried = (0..=TRIED).find(|plants| years <= years_met(&supply, &request, &[*plants]));
        let found = of_one(&Bearing::new(WEEKS, own).unwrap(), &want, years);
        // What takes more than was tried is not held against it.
        prop_assert_eq!(found.filter(|plants| *plants <= u64::from(TRIED)), tried.map(u64::from));
    }

    #[test]
    fn two_varieties(first in bearing(), second in bearing(), want in wish(), years in 1..=YEARS) {
        let (supply, request) = (supply(&[&first, &second]), request(&want));
        let pairs = (2..=TRIED).flat_map(|all| (1..all).map(move |second| [all - second, second]));
        let tried = pairs.into_iter().find(|plants| years <= years_met(&supply, &request, plants));
        let own = |tens| Bearing::new(WEEKS, tens).unwrap();
        let found = of_two(&own(first), &own(second), &want, years);
        prop_assert_eq!(
            found.filter(|plants| plants.iter().sum::<u64>() <= u64::from(TRIED)),
            tried.map(|plants| plants.map(u64::from))
        );
    }
}
