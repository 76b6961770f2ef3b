//! The thirty numeric cases of the seed-lot facts, one test each, so that none can be left out unseen.
//!
//! Regulations are named beside their cases; every other number was worked out apart from this program, from a stated formula.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use jiff::civil::date;
use record::germination::{Replicate, Seedlings};
use record::length::{Inches, Millimetres};
use record::lot::Packing;
use record::mass::{Grams, Ounces};
use record::share::{Percent, Share, WholePercent};
use record::temperature::Celsius;
use seedroom::dates::{
    HermeticFault, Month, SAMPLE_SEEDS, SealedLabel, Sealing, hermetic_faults, kept, last_shipping_day,
    may_ship,
};
use seedroom::germination::claim::{fewest_to_be_sure, sureness};
use seedroom::germination::compare::{LawSays, Sample, compare};
use seedroom::germination::counted::add_up;
use seedroom::germination::tolerance::{RangeVerdict, Yardstick, agreement};
use seedroom::germination::{TEST_SEEDS, TOMATO_STANDARD};
use seedroom::increase::weight::thousand_seed_weight;
use seedroom::label::check::{LabelFault, below_standard_words, check};
use seedroom::label::guide::{Guide, SHIPPED, read};
use seedroom::label::{Item, Packet, Printed, Says, Tested};
use seedroom::sequential::{Lines, Wanted};
use seedroom::trueness::classes::{Class, Field, Neighbour, faults};
use seedroom::trueness::off_types::{acceptance_number, passes, plants_to_detect};
use seedroom::trueness::parents::chance_kept;
use seedroom::viability::Course;
use seedroom::viability::storage::{POTATO, UNIVERSAL, too_warm_and_damp};
use statistics::binomial::{Binomial, range_beyond};
use statistics::intervals::{Tally, wilson};
use statistics::multiplicity::studentised::StudentisedRange;
use statistics::students_t::Degrees;

fn share(share: f64) -> Share {
    Share::new(share).unwrap()
}

fn percent(percent: u8) -> WholePercent {
    WholePercent::new(percent).unwrap()
}

fn celsius(degrees: f64) -> Celsius {
    Celsius::new(degrees).unwrap()
}

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

fn of(sown: u32, normal: u32) -> Replicate {
    let seedlings = Seedlings { normal, abnormal: 0, hard: 0, dead: sown - normal };
    Replicate::new(sown, seedlings, None).unwrap()
}

fn guide(place: usize) -> Guide {
    let (file, text) = SHIPPED.get(place).unwrap();
    read(file, text).unwrap()
}

/// A packet with name, kind, variety, germination, hard seed and test month on it, and no lot number.
fn packet(holds: Grams, germination: u8) -> Packet {
    let (germination, month) = (percent(germination), Month::new(2026, 3).unwrap());
    let items = [Item::NameAndAddress, Item::Kind, Item::Variety].map(Says::Other);
    let test = [Says::Germination(germination), Says::HardSeed(percent(0)), Says::TestMonth(month)];
    Packet {
        holds,
        tested: Some(Tested { month, germination, hard: percent(0), towards_standard: germination }),
        traits: vec![],
        label: items.into_iter().chain(test).map(|says| Printed { says, points: 8 }).collect(),
    }
}

fn lacks(packet: &Packet, place: usize, item: Item) -> bool {
    let found = check(packet, &guide(place), date(2026, 5, 1));
    found.iter().any(|finding| finding.fault == LabelFault::Missing(vec![vec![item]]))
}

#[track_caller]
fn replicates(normal: [u32; 4], mean: u8, range: f64, points: u8, verdict: RangeVerdict) {
    let replicates = normal.map(|normal| of(100, normal));
    assert_eq!(add_up(&replicates).unwrap().germination(), percent(mean));
    let found = agreement(&replicates).unwrap();
    assert_eq!((found.range, found.by, found.verdict), (range, Yardstick::LegalTable(points), verdict));
}

fn sealed() -> Sealing {
    Sealing {
        harvested_on: Some(date(2026, 1, 15)),
        sealed_on: Some(date(2026, 6, 15)),
        vapour_g: Some(0.05),
        moisture: Percent::new(5.5),
        germination: WholePercent::new(75),
        label: Some(SealedLabel),
    }
}

/// 7 CFR 201.29 and 201.31.
#[test]
fn case_01_a_packet_of_20_g_at_74_needs_the_words_and_at_75_not() {
    let words = |germination| {
        let packet = packet(Grams::new(20.0).unwrap(), germination);
        (
            lacks(&packet, 0, Item::BelowStandard),
            below_standard_words(&packet.tested.unwrap(), TOMATO_STANDARD),
        )
    };
    let told = "Below Standard. Germination 74 %, hard seed 0 %.".to_owned();
    assert_eq!(words(74), (true, Some(told)));
    assert_eq!(words(75), (false, None));
}

/// 7 CFR 201.30a.
#[test]
fn case_02_a_test_of_march_lasts_until_the_end_of_august() {
    let tested = Month::of(date(2026, 3, 3));
    assert_eq!(last_shipping_day(tested, Packing::Open), date(2026, 8, 31));
    assert!(!may_ship(date(2026, 9, 1), tested, Packing::Open));
}

/// 7 CFR 201.30a.
#[test]
fn case_03_sealed_it_lasts_until_march_two_years_later() {
    assert_eq!(hermetic_faults(&sealed()), []);
    assert_eq!(last_shipping_day(Month::of(date(2026, 3, 3)), Packing::Hermetic), date(2028, 3, 31));
}

/// 7 CFR 201.36c.
#[test]
fn case_04_seed_of_5_6_per_cent_moisture_is_not_sealed() {
    let moist = Sealing { moisture: Percent::new(5.6), ..sealed() };
    assert_eq!(hermetic_faults(&moist), [HermeticFault::Moisture]);
    assert_eq!(hermetic_faults(&sealed()), []);
}

/// 7 CFR 201.36c.
#[test]
fn case_05_seed_sealed_10_months_after_harvest_is_not_sealed() {
    let late = Sealing { sealed_on: Some(date(2026, 11, 15)), ..sealed() };
    assert_eq!(hermetic_faults(&late), [HermeticFault::SealedLate]);
}

/// 7 CFR 201.30b, and Kentucky's label page.
#[test]
fn case_06_over_a_pound_the_lot_number_is_asked_for_and_in_kentucky_always() {
    let of_pounds = |pounds: f64| packet(Ounces::new(16.0 * pounds).and_then(Ounces::to_grams).unwrap(), 80);
    assert!(lacks(&of_pounds(1.5), 0, Item::LotNumber));
    assert!(!lacks(&of_pounds(1.0), 0, Item::LotNumber));
    assert!(lacks(&of_pounds(1.0), 1, Item::LotNumber));
}

/// 7 CFR 201.4 (2015).
#[test]
fn case_07_sample_for_a_year_and_record_for_three() {
    let kept = kept(date(2026, 6, 1));
    assert_eq!((kept.sample_may_go, kept.record_may_go), (date(2027, 6, 1), date(2029, 6, 1)));
    assert_eq!(SAMPLE_SEEDS, 400);
}

/// 7 CFR 201.55 (2015). The chi-square that the facts tell beside it (3.064) is not used here.
#[test]
fn case_08_replicates_7_points_apart_about_89_agree() {
    replicates([88, 92, 85, 91], 89, 7.0, 12, RangeVerdict::Within);
}

/// 7 CFR 201.55 (2015).
#[test]
fn case_09_replicates_18_points_apart_about_75_are_tested_again() {
    replicates([66, 84, 75, 75], 75, 18.0, 17, RangeVerdict::TooWide);
}

/// 7 CFR 201.55 (2015).
#[test]
fn case_10_replicates_6_points_apart_about_98_agree() {
    replicates([99, 94, 99, 100], 98, 6.0, 6, RangeVerdict::Within);
}

#[test]
fn case_11_exact_tails_of_four_replicates() {
    for (mean, range, tail) in [(75, 17, 0.0217), (60, 19, 0.0246), (99, 5, 0.0017)] {
        let count = Binomial { trials: 100, share: percent(mean).share() };
        near(range_beyond(count, 4, range).get(), tail, 1e-4);
    }
}

#[test]
fn case_12_the_range_of_four_and_of_two_normal_draws() {
    for (draws, range) in [(4, 3.98401), (2, 3.16982)] {
        let known = Degrees::new(f64::INFINITY).unwrap();
        near(StudentisedRange::new(draws).unwrap().quantile(share(0.975), known).unwrap(), range, 5e-6);
    }
}

fn two_tests(first: u32, second: u32) -> LawSays {
    let test = |germination: u32| add_up(&[of(TEST_SEEDS, 4 * germination)]).unwrap();
    compare(test(first), test(second), Sample::Pure).law
}

/// 7 CFR 201.63 (2015).
#[test]
fn case_13_80_and_72_agree_and_81_and_72_do_not() {
    assert_eq!(two_tests(80, 72), LawSays::Within(8));
    assert_eq!(two_tests(81, 72), LawSays::Apart(8));
}

/// 7 CFR 201.63 (2015).
#[test]
fn case_14_97_and_92_agree() {
    assert_eq!(two_tests(97, 92), LawSays::Within(6));
}

#[test]
fn case_15_the_exact_interval_of_340_of_400() {
    let sure = sureness(340, 400, TOMATO_STANDARD).unwrap().interval;
    near(sure.low.get(), 0.81118, 5e-6);
    near(sure.high.get(), 0.88354, 5e-6);
}

#[test]
fn case_16_both_intervals_of_4_of_20() {
    let exact = sureness(4, 20, TOMATO_STANDARD).unwrap().interval;
    near(exact.low.get(), 0.05733, 5e-6);
    near(exact.high.get(), 0.43661, 5e-6);
    let score = wilson(Tally::new(4, 20).unwrap(), share(0.95));
    near(score.low.get(), 0.08066, 5e-6);
    near(score.high.get(), 0.41602, 5e-6);
}

#[test]
fn case_17_315_of_400_to_be_95_in_100_sure_of_75() {
    assert_eq!(fewest_to_be_sure(400, share(0.75), share(0.95)), Some(315));
}

#[test]
fn case_18_299_plants_to_see_1_in_100_and_59_to_see_5() {
    assert_eq!(plants_to_detect(share(0.01), share(0.95)), Some(299));
    assert_eq!(plants_to_detect(share(0.05), share(0.95)), Some(59));
}

/// UPOV's rule at 1 per cent and 95 in 100; 20 plants and 1 off-type stand in test guidelines.
#[test]
fn case_19_off_types_that_the_population_standard_lets_stand() {
    for (plants, accepted) in [(5, 0), (6, 1), (20, 1), (35, 1), (36, 2), (82, 2), (83, 3)] {
        assert_eq!(acceptance_number(plants, share(0.01), share(0.95)), accepted, "{plants} plants");
    }
}

#[test]
fn case_20_a_stock_of_5_in_100_passes_20_plants_and_1_off_type() {
    near(passes(20, 1, share(0.05)).get(), 0.7358, 5e-5);
}

#[test]
fn case_21_970_days_from_95_to_75() {
    let course = Course { start: statistics::normal::quantile(share(0.95)).unwrap(), sigma_days: 1000.0 };
    near(course.days_to(share(0.75)).unwrap().get(), 970.36, 5e-3);
}

#[test]
fn case_22_seed_keeps_4_7_times_as_long_at_5_as_at_20() {
    near(UNIVERSAL.keeps_longer(celsius(5.0), celsius(20.0)).unwrap(), 4.70706, 5e-6);
}

/// Constants of Ellis and Hong 2007 (abstract).
#[test]
fn case_23_potato_at_5_5_per_cent_and_20_degrees() {
    near(POTATO.sigma_days(Percent::new(5.5).unwrap(), celsius(20.0)).unwrap(), 2494.9, 0.05);
}

/// 7 CFR 201.76 (2015), table 5.
#[test]
fn case_24_1_off_type_in_200_plants_is_certified_and_no_more() {
    let field = Field { off_types: Some((1, 200)), ..Field::default() };
    let keeps = |class| faults(class, &field).is_empty();
    assert_eq!(
        (keeps(Class::Certified), keeps(Class::Registered), keeps(Class::Foundation)),
        (true, false, false)
    );
}

/// 7 CFR 201.76 (2015), table 5 and note 25.
#[test]
fn case_25_a_neighbour_at_35_feet_is_certified_and_no_more() {
    let away: Millimetres = Inches::new(12.0 * 35.0).and_then(Inches::to_millimetres).unwrap();
    let field = Field { nearest: Some((Neighbour::OtherVariety, away)), ..Field::default() };
    let keeps = |class| faults(class, &field).is_empty();
    assert_eq!(
        (keeps(Class::Certified), keeps(Class::Registered), keeps(Class::Foundation)),
        (true, false, false)
    );
}

#[test]
fn case_26_20_inbred_plants_keep_1_allele_in_20() {
    near(chance_kept(share(0.05), 20).get(), 0.64151, 5e-6);
}

#[test]
fn case_27_122_fahrenheit_are_50_celsius() {
    near(Celsius::from_fahrenheit(122.0).unwrap().get(), 50.0, 1e-12);
}

/// Harrington, second-hand.
#[test]
fn case_28_70_fahrenheit_and_40_per_cent_are_too_much() {
    let warm = Celsius::from_fahrenheit(70.0).unwrap();
    near(too_warm_and_damp(warm, Percent::new(40.0).unwrap()).unwrap(), 110.0, 1e-9);
}

#[test]
fn case_29_8000_to_12000_seeds_an_ounce() {
    for (thousand, an_ounce, a_gram) in [(3.54, 8_000.0, 282.2), (2.36, 12_000.0, 423.3)] {
        let weighings = [Grams::new(thousand / 10.0).unwrap(); 8];
        let weight = thousand_seed_weight(&weighings, 100, share(0.95)).unwrap();
        let ounce = Ounces::new(1.0).and_then(Ounces::to_grams).unwrap();
        // The thousand-seed weights are printed to three digits.
        near(weight.seeds_in(ounce).unwrap().0, an_ounce, 0.0022 * an_ounce);
        near(weight.seeds_in(Grams::new(1.0).unwrap()).unwrap().0, a_gram, 0.0022 * a_gram);
    }
}

#[test]
fn case_30_without_off_types_the_sequential_test_accepts_at_55_and_not_at_54() {
    let (good_rejected, bad_accepted) = (share(0.05), share(0.10));
    let wanted = Wanted { good: share(0.01), bad: share(0.05), good_rejected, bad_accepted };
    let lines = Lines::wald(wanted).unwrap();
    assert_eq!((lines.accept_at(54), lines.accept_at(55)), (None, Some(0)));
}
