//! What must hold of any list.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]
#![allow(dead_code, reason = "the made-up list serves several tests")]

mod list;

use assortment::gaps::cells;
use assortment::kinds::Mix;
use assortment::likeness::{Column, Mark, Traits, Weighed};
use assortment::profile::Profile;
use assortment::standins::Assortment;
use list::words;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::{Just, Strategy, any, prop_assert, prop_assert_eq, prop_oneof, proptest};
use record::mass::Grams;

const COUNT: usize = 8;

fn traits() -> impl Strategy<Value = Traits> {
    let numbers = vec(option::of(-1e6..1e6_f64), COUNT).prop_map(Column::Numbers);
    let names = vec(option::of(0..4_u32), COUNT).prop_map(Column::Names);
    let ranks = vec(option::of(any::<u32>()), COUNT).prop_map(Column::Ranks);
    let mark = prop_oneof![Just(Mark::Borne), Just(Mark::Lacking)];
    let marks = vec(option::of(mark), COUNT).prop_map(Column::Marks);
    (numbers, names, ranks, marks, vec(0.1..3.0_f64, 4)).prop_map(
        |(numbers, names, ranks, marks, weights)| {
            let columns = [numbers, names, ranks, marks].into_iter().zip(weights);
            Traits::new(COUNT, columns.map(|(column, weight)| Weighed { column, weight }).collect()).unwrap()
        },
    )
}

fn mix() -> impl Strategy<Value = Mix> {
    vec(0.01..1.0_f64, 3).prop_map(|shares| {
        let whole: f64 = shares.iter().sum();
        Mix::new(shares.into_iter().map(|share| share / whole).collect()).unwrap()
    })
}

fn profile() -> impl Strategy<Value = Profile> {
    (option::of(5.0..500.0_f64), option::of(mix()), option::of(mix()), option::of(mix())).prop_map(
        |(grams, habit, class, colour)| Profile {
            weight: grams.and_then(Grams::new),
            habit,
            class,
            colour,
            ..Profile::default()
        },
    )
}

proptest! {
    /// From 0 to 1, the same both ways, and nothing from a thing to itself.
    #[test]
    fn a_distance_is_one(traits in traits(), one in 0..COUNT, other in 0..COUNT) {
        let (there, back) = (traits.between(one, other), traits.between(other, one));
        prop_assert_eq!(there, back);
        prop_assert!(there.distance.is_none_or(|distance| (0.0..=1.0).contains(&distance)));
        prop_assert!(traits.between(one, one).distance.is_none_or(|own| own == 0.0));
    }

    /// The trait by trait distances make the whole, and none that both lack is compared.
    #[test]
    fn the_whole_is_of_its_parts(traits in traits(), one in 0..COUNT, other in 0..COUNT) {
        let compared = traits.by_trait(one, other).flatten().count();
        prop_assert_eq!(traits.between(one, other).compared, compared);
    }

    /// Nearest first, each once, never itself; asking for fewer gives the first of more.
    #[test]
    fn stand_ins_are_in_order(profiles in vec(profile(), 1..20), most in 0..20_usize) {
        let words = words();
        let assortment = Assortment::new(&profiles, &words).unwrap();
        let all = assortment.nearest(0, profiles.len());
        prop_assert!(all.is_sorted_by(|one, next| (one.known, one.distance) <= (next.known, next.distance)));
        prop_assert!(all.iter().all(|found| found.place != 0));
        let few = assortment.nearest(0, most);
        prop_assert_eq!(&few[..], &all[..most.min(all.len())]);
    }

    /// Every counted variety is one variety, in however many cells; its place in the list says nothing.
    #[test]
    fn cells_hold_the_list(profiles in vec(profile(), 0..20)) {
        let words = words();
        let counted = cells(&profiles, &words);
        let held: f64 = counted.each().map(|cell| counted.held(cell)).sum();
        // Shares of 1 in 10 000 are left out of up to three names each.
        prop_assert!((held - counted.counted as f64).abs() <= 1e-3 * counted.counted as f64);
        prop_assert_eq!(counted.counted + counted.left_out, profiles.len());
        let turned: Vec<Profile> = profiles.into_iter().rev().collect();
        let again = cells(&turned, &words);
        prop_assert!(counted.each().all(|cell| (counted.held(cell) - again.held(cell)).abs() < 1e-9));
    }
}
