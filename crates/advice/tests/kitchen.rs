//! The kitchen's sums against printed figures and worked examples.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use advice::boiling::{boil_down, fruit_for, home_waste, pulp, strength_before};
use advice::burner::{Boil, Burner, Kilojoules, Kilowatts, Kind, OPEN_POT, heat, share_reaching};
use advice::solids::{Composition, Gravity, Soluble, Strength, Total, volume_left, without_salt};
use advice::standard::{Fruit, Name, PasteWeight, PureeWeight, name};
use proptest::prelude::*;
use record::mass::Grams;
use record::share::{Percent, Share};
use record::temperature::Celsius;

fn soluble(percent: f64) -> Soluble {
    Soluble::new(percent).unwrap()
}

fn total(percent: f64) -> Total {
    Total::new(percent).unwrap()
}

fn kilograms(kilograms: f64) -> Grams {
    Grams::new(1000.0 * kilograms).unwrap()
}

fn share(part: f64) -> Share {
    Share::new(part).unwrap()
}

fn room() -> Celsius {
    Celsius::new(20.0).unwrap()
}

#[track_caller]
fn agrees(found: f64, printed: f64, half_a_unit: f64) {
    assert!((found - printed).abs() <= half_a_unit * (1.0 + 1e-9), "{found} is not {printed}");
}

/// 21 CFR 155.191(a): puree from 8.0 to below 24.0 % soluble solids, paste from 24.0 %; 7 CFR 52.5042 and 52.5082:
/// medium paste from 28 %, heavy puree from 11.3 %.
#[test]
fn names_agree_with_the_standard() {
    assert_eq!(name(soluble(7.9), Fruit::Red), None);
    assert_eq!(name(soluble(8.0), Fruit::Red), Some(Name::Puree(PureeWeight::Light)));
    assert_eq!(name(soluble(23.9), Fruit::Red), Some(Name::Puree(PureeWeight::ExtraHeavy)));
    assert_eq!(name(soluble(24.0), Fruit::Red), Some(Name::Paste(PasteWeight::Light)));
    assert_eq!(name(soluble(28.0), Fruit::Red), Some(Name::Paste(PasteWeight::Medium)));
    assert_eq!(name(soluble(39.3), Fruit::Red), Some(Name::Paste(PasteWeight::ExtraHeavy)));
    assert_eq!(name(soluble(10.2), Fruit::Red), Some(Name::Puree(PureeWeight::Medium)));
    assert_eq!(name(soluble(11.3), Fruit::Red), Some(Name::Puree(PureeWeight::Heavy)));
}

/// 21 CFR 155.191: concentrates come from red or reddish varieties.
#[test]
fn yellow_paste_has_no_standard_name() {
    assert_eq!(name(soluble(25.0), Fruit::OtherColour), None);
}

/// 21 CFR 156.3(b): (10.0 - 1.0) x 1.016 = 9.144.
#[test]
fn salt_is_taken_off_as_the_regulation_says() {
    let found = without_salt(Percent::new(10.0).unwrap(), Percent::new(1.0).unwrap()).unwrap();
    agrees(found.percent(), 9.144, 0.0005);
    assert_eq!(without_salt(Percent::new(1.0).unwrap(), Percent::new(1.0).unwrap()), None);
}

/// National Canners Association, Research Laboratory Bulletin 21L (1923), Table 9: pulp of specific gravity 1.0125
/// boiled down to 1.030, 1.035 and 1.050.
#[test]
fn volumes_agree_with_the_bulletin() {
    for (to, printed) in [(7.14, 0.384), (8.37, 0.326), (12.06, 0.223)] {
        agrees(volume_left(total(2.79), total(to)).unwrap().get(), printed, 0.0005);
    }
    assert_eq!(volume_left(total(8.37), total(2.79)), None);
}

/// The same bulletin, Table 5, and Table 9 (2.79 % and the last two); its figures end at the fourth digit, so a line
/// through them is held to two units of it.
#[test]
fn gravities_agree_with_the_bulletin() {
    for (solids, printed) in
        [(2.79, 1.0125), (6.78, 1.0285), (7.12, 1.0299), (7.51, 1.0315), (7.90, 1.0331), (8.40, 1.0352)]
    {
        let found = Gravity::of(total(solids));
        assert!(matches!(found, Gravity::Weighed(_)));
        agrees(found.get(), printed, 0.0002);
    }
    agrees(Gravity::of(total(10.86)).get(), 1.045, 0.0005);
    // By the mixing rule alone, computed by hand: 1 / (0.80 + 0.20 x 998.2 / 1670) and 1 / (0.72 + 0.28 x 998.2 / 1670).
    for (solids, printed) in [(20.0, 1.0875), (28.0, 1.1269)] {
        let found = Gravity::of(total(solids));
        assert!(matches!(found, Gravity::Reckoned(_)));
        agrees(found.get(), printed, 0.00005);
    }
}

/// "Factors affecting tomato solids", Tomato Day, Leamington 2018: of 100 parts of fruit 83.2 leave as water, 11.0 stay, with
/// 4.37 soluble and 1.19 insoluble solids; 0.25 are skin and seed. The paste then has 26.4 % and reads 28.4.
#[test]
fn paste_of_a_hundred_parts_agrees_with_the_table() {
    let (water_off, water_kept, dissolved, body, skin) = (83.2, 11.0, 4.37, 1.19, 0.25);
    agrees(water_off + water_kept + dissolved + body + skin, 100.0, 0.05);
    let fruit = Composition::measured(soluble(dissolved), total(dissolved + body + skin)).unwrap();
    let pulp = fruit.strained();
    let juice = kilograms(100.0 - skin);
    let paste = water_kept + dissolved + body;
    agrees(pulp.soluble().percent() * juice.get() / 1e5, dissolved, 0.005);
    let strength = soluble(100.0 * dissolved / paste);
    agrees(strength.percent(), 26.4, 0.05);
    let boiled = boil_down(juice, pulp.soluble(), strength);
    agrees(boiled.product.get() / 1000.0, 16.56, 0.01);
    agrees(boiled.water.get() / 1000.0, water_off, 0.05);
    let kept = 100.0 * (dissolved + body) / paste;
    let product = Composition::measured(strength, total(kept)).unwrap();
    agrees(product.reading().unwrap().get(), 28.4, 0.05);
    agrees(pulp.soluble_at(product.reading().unwrap()).unwrap().percent(), strength.percent(), 0.01);
}

/// Worked examples with printed answers: tomato juice, 1,200 kg an hour of which 960 leave, to 35 % (7 % before; 1,089 kg of
/// steam at 2200 kJ/kg, boiling at 45.8 °C with 2393 kJ/kg); fruit juice, 5,400 kg an hour from 15 to 40 (3,375 leave).
#[test]
fn evaporators_agree_with_their_textbooks() {
    agrees(strength_before(kilograms(1200.0), kilograms(960.0), soluble(35.0)).unwrap(), 7.0, 0.05);
    let boiled = boil_down(kilograms(1200.0), soluble(7.0), soluble(35.0));
    let evaporator = Boil { celsius: 45.8, latent_kj: 2393.0 };
    let steam = heat(boiled, Celsius::new(25.0).unwrap(), evaporator).whole().get() / 2200.0;
    agrees(steam, 1089.0, 0.5);
    let boiled = boil_down(kilograms(5400.0), soluble(15.0), soluble(40.0));
    agrees(boiled.water.get() / 1000.0, 3375.0, 0.5);
}

/// 10 kg of fruit with a fifth of waste at 4.5 %, worked by hand: to 8 % 4.5 kg and 10,447 kJ, to 24 % 1.5 kg and
/// 17,218 kJ; at 1.5 kW in the pot 116.1 and 191.3 minutes.
#[test]
fn a_pot_agrees_with_sums_by_hand() {
    for (to, product, water, kilojoules, minutes) in
        [(8.0, 4.5, 3.5, 10_447.0, 116.1), (24.0, 1.5, 6.5, 17_218.0, 191.3)]
    {
        let boiled = boil_down(pulp(kilograms(10.0), share(0.2)), soluble(4.5), soluble(to));
        agrees(boiled.product.get() / 1000.0, product, 0.05);
        agrees(boiled.water.get() / 1000.0, water, 0.05);
        let heat = heat(boiled, room(), OPEN_POT);
        agrees(heat.whole().get(), kilojoules, 0.5);
        let burner = Burner::measured(Kilowatts::new(2.0).unwrap(), share(0.75)).unwrap();
        agrees(burner.hours(boiled, heat).low.get() * 60.0, minutes, 0.05);
    }
    // One bushel, to 24 %: 3.61 kg of paste, 15.63 kg of water, 11.5 kWh.
    let bushel = boil_down(pulp(advice::market::bushel(), share(0.2)), soluble(4.5), soluble(24.0));
    agrees(bushel.product.get() / 1000.0, 3.61, 0.005);
    agrees(bushel.water.get() / 1000.0, 15.63, 0.005);
    agrees(heat(bushel, room(), OPEN_POT).whole().to_kilowatt_hours(), 11.5, 0.05);
}

/// By hand: 4 kg of 8 leave at 1.5 kW with the warming, then 2.5 kg at 0.3 kW: (2547.2 + 9028) / 1.5 + 5642.5 / 0.3 s.
#[test]
fn a_pot_slows_down_in_the_thick() {
    let boiled = boil_down(kilograms(8.0), soluble(4.5), soluble(24.0));
    let burner = Burner::measured(Kilowatts::new(2.0).unwrap(), share(0.75)).unwrap();
    agrees(burner.hours(boiled, heat(boiled, room(), OPEN_POT)).high.get() * 60.0, 442.1, 0.05);
}

#[test]
fn strong_fruit_needs_no_boiling() {
    let boiled = boil_down(kilograms(8.0), soluble(8.2), soluble(8.0));
    assert_eq!((boiled.product, boiled.water), (kilograms(8.0), Grams::NONE));
}

/// A boil test: 317 BTU of use out of 992 of gas and of 430 of induction.
#[test]
fn burners_agree_with_the_boil_test() {
    let kilojoules = |btu: f64| Kilojoules::new(btu * 1.055_056).unwrap();
    for (burned, printed) in [(992.0, 0.320), (430.0, 0.737)] {
        agrees(share_reaching(kilojoules(317.0), kilojoules(burned)).unwrap().get(), printed, 0.0005);
    }
    assert_eq!(share_reaching(kilojoules(1.0), kilojoules(0.0)), None);
}

#[test]
fn home_waste_is_what_cooks_weighed() {
    let waste = home_waste();
    assert_eq!((waste.low, waste.high), (share(0.27), share(0.35)));
}

#[test]
fn more_dissolved_than_there_is_is_no_fruit() {
    assert_eq!(Composition::measured(soluble(6.0), total(5.0)), None);
    assert_eq!(fruit_for(kilograms(1.0), Share::ALL, soluble(5.0), soluble(8.0)), None);
    assert!(Composition::usual(soluble(99.0)).is_none());
}

proptest! {
    /// Nothing is lost or made in the pot, and solids stay.
    #[test]
    fn mass_and_solids_are_kept(grams in 1.0..1e6, from in 1.0..20.0, to in 1.0..60.0) {
        let pulp = Grams::new(grams).unwrap();
        let boiled = boil_down(pulp, soluble(from), soluble(to));
        prop_assert!((boiled.product.get() + boiled.water.get() - grams).abs() < 1e-9 * grams);
        let solids = boiled.product.get() * to.max(from);
        prop_assert!((solids - grams * from).abs() < 1e-9 * solids);
    }

    /// Fruit for a product gives that product.
    #[test]
    fn there_and_back(grams in 1.0..1e6, waste in 0.0..0.9, from in 1.0..20.0, to in 1.0..60.0) {
        let raw = fruit_for(Grams::new(grams).unwrap(), share(waste), soluble(from), soluble(to)).unwrap();
        let again = boil_down(pulp(raw, share(waste)), soluble(from), soluble(to)).product;
        prop_assert!((again.get() - grams).abs() < 1e-9 * grams);
    }

    /// The slow end is never quicker than the quick one, on any burner.
    #[test]
    fn slow_is_slower(from in 3.0..9.0, to in 5.0..30.0, power in 0.2..5.0) {
        let boiled = boil_down(kilograms(8.0), soluble(from), soluble(to));
        for kind in [Kind::Induction, Kind::Electric, Kind::Gas] {
            let burner = Burner::of(kind, Kilowatts::new(power).unwrap());
            let hours = burner.hours(boiled, heat(boiled, room(), OPEN_POT));
            prop_assert!(hours.low <= hours.high);
        }
    }
}
