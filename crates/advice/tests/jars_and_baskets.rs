//! Canner loads, baskets and plates against printed figures.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use advice::jars::{Filling, Jar, fruit_for, jars_filled, loads_for};
use advice::market::{
    BUSHEL_LITRES, CHERRY_CUPS_A_POUND, SLICES_A_POUND, bushel, cherry_cup, diced, dried_share, dry_pints,
    plants_for,
};
use advice::solids::{Gravity, Total};
use proptest::prelude::*;
use record::mass::{Grams, Pounds};
use record::share::Share;

fn pounds(pounds: f64) -> Grams {
    Pounds::new(pounds).and_then(Pounds::to_grams).unwrap()
}

#[track_caller]
fn agrees(found: f64, printed: f64, half_a_unit: f64) {
    assert!((found - printed).abs() <= half_a_unit * (1.0 + 1e-9), "{found} is not {printed}");
}

#[track_caller]
fn takes(filling: Filling, jar: Jar, jars: u32, printed: f64) {
    agrees(fruit_for(filling, jar, jars).unwrap().to_pounds().get(), printed, 1e-6);
}

/// Complete Guide to Home Canning, 2015, Guide 3; thick sauce: National Center for Home Food Preservation.
#[test]
fn full_loads_agree_with_the_guide() {
    takes(Filling::Juice, Jar::Quart, 7, 23.0);
    takes(Filling::Crushed, Jar::Quart, 7, 22.0);
    takes(Filling::ThickSauce, Jar::Pint, 9, 28.0);
    let two = fruit_for(Filling::InWater, Jar::Quart, 14).unwrap().to_pounds().get();
    agrees(two + fruit_for(Filling::InWater, Jar::Pint, 9).unwrap().to_pounds().get(), 55.0, 1e-6);
}

/// The same: 2 3/4 lb a quart of crushed, on average.
#[test]
fn jars_beside_full_loads_go_by_the_average() {
    takes(Filling::Crushed, Jar::Quart, 6, 16.5);
    takes(Filling::Crushed, Jar::Quart, 8, 24.75);
    takes(Filling::InWater, Jar::Quart, 20, 60.0);
    assert_eq!((loads_for(Jar::Quart, 8), loads_for(Jar::Pint, 9), loads_for(Jar::Pint, 0)), (2, 1, 0));
}

/// The guide prints a load of quarts for the blend, and no more.
#[test]
fn what_is_not_printed_is_not_made_up() {
    takes(Filling::JuiceBlend, Jar::Quart, 7, 22.0);
    assert_eq!(fruit_for(Filling::JuiceBlend, Jar::Pint, 9), None);
    assert_eq!(fruit_for(Filling::JuiceBlend, Jar::Quart, 8), None);
}

/// The same: quarts a bushel of 53 lb, beside what the average gives.
#[test]
fn a_bushel_agrees_with_the_guide() {
    for (filling, average, half, low, high) in [
        (Filling::ThinSauce, 10.6, 0.05, 10.0, 12.0),
        (Filling::ThickSauce, 8.15, 0.005, 7.0, 9.0),
        (Filling::Juice, 16.3, 0.05, 15.0, 18.0),
    ] {
        let quarts = filling.quarts(pounds(53.0)).unwrap();
        agrees(quarts, average, half);
        let range = filling.quarts_a_bushel().unwrap();
        assert_eq!((range.low, range.high), (low, high));
        assert!((low..=high).contains(&quarts));
    }
}

/// Food Buying Guide for Child Nutrition: 12.1 quarter-cups of cherry tomatoes a pound; 8.53 quarter-cups of slices, about
/// 5 each; 0.87 lb diced of a pound.
#[test]
fn cups_and_slices_agree_with_the_buying_guide() {
    agrees(CHERRY_CUPS_A_POUND, 3.03, 0.005);
    agrees(cherry_cup().get(), 150.0, 0.5);
    agrees(SLICES_A_POUND, 43.0, 0.5);
    agrees(diced(pounds(10.0)).to_pounds().get(), 8.7, 0.05);
}

/// NIST Handbook 44, Appendix C: the dry pint and the bushel; 149 g a cup of cherries: U.S. Department of Agriculture.
#[test]
fn baskets_agree_with_the_handbook() {
    let flat = dry_pints(12, Grams::new(149.0).unwrap()).unwrap();
    agrees(flat.to_pounds().get(), 9.2, 0.05);
    agrees(bushel().get() / 1000.0, 24.04, 0.005);
    agrees(bushel().get() / 1000.0 / BUSHEL_LITRES, 0.682, 0.0005);
}

/// Guide 3: 3 lb a quart of whole tomatoes; trial of 35 varieties, Missouri and Kansas State, 2015-16: median 5.8 lb a plant.
#[test]
fn plants_are_rounded_up() {
    let need = fruit_for(Filling::InWater, Jar::Quart, 20).unwrap();
    agrees(need.to_pounds().get() / 5.8, 10.3, 0.05);
    assert_eq!(plants_for(need, pounds(5.8)), Some(11));
    assert_eq!(plants_for(need, Grams::NONE), None);
    assert_eq!(plants_for(Grams::NONE, pounds(5.8)), Some(0));
}

/// By hand: 14 lb x 0.87 x 5.8 % / 0.90 = 0.785 lb at a tenth of moisture.
#[test]
fn drying_keeps_solids() {
    let kept =
        dried_share(Share::new(0.87).unwrap(), Total::new(5.8).unwrap(), Share::new(0.1).unwrap()).unwrap();
    agrees(14.0 * kept.get(), 0.785, 0.0005);
}

/// By hand: 946.35 ml x 1.0331 = 977.7 g a quart, 488.8 g a pint.
#[test]
fn only_whole_jars_are_filled() {
    let gravity = Gravity::of(Total::new(7.90).unwrap());
    let jars = |grams, jar| jars_filled(Grams::new(grams).unwrap(), gravity, jar);
    assert_eq!((jars(977.0, Jar::Quart), jars(978.0, Jar::Quart), jars(978.0, Jar::Pint)), (0, 1, 2));
}

proptest! {
    /// One more jar never takes less fruit.
    #[test]
    fn more_jars_take_more_fruit(jars in 0u32..500) {
        for filling in Filling::ALL {
            for jar in Jar::ALL {
                let (less, more) = (fruit_for(filling, jar, jars), fruit_for(filling, jar, jars + 1));
                if let (Some(less), Some(more)) = (less, more) {
                    prop_assert!(less < more, "{filling:?} {jar:?}: {less:?} is not under {more:?}");
                }
            }
        }
    }
}
