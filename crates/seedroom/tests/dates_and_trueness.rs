//! Days and off-types beside the regulations and the numeric cases of the seed-lot facts.
//!
//! Where an assertion names no regulation, its number was worked out apart from this program, from a stated formula.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use jiff::civil::{Date, date};
use proptest::prelude::*;
use record::length::{Inches, Millimetres};
use record::lot::Packing;
use record::share::{Percent, Share, WholePercent};
use seedroom::dates::{
    HermeticFault, Month, SealedLabel, Sealing, hermetic_faults, kept, last_shipping_day, may_ship,
    next_test_due,
};
use seedroom::trueness::classes::{CLASSES, Class, ClassFault, Field, Neighbour, faults};
use seedroom::trueness::off_types::{acceptance_number, passes, plants_to_detect, upper_limit};
use seedroom::trueness::parents::{chance_kept, plants_to_keep};

fn share(share: f64) -> Share {
    Share::new(share).unwrap()
}

#[track_caller]
fn near(found: Share, wanted: f64, within: f64) {
    assert!((found.get() - wanted).abs() <= within, "{found:?} is not {wanted}");
}

/// Cases 2 and 3: 7 CFR 201.30a (2026).
#[test]
fn tests_last_to_the_end_of_a_month() {
    let tested = Month::of(date(2026, 3, 3));
    assert_eq!(last_shipping_day(tested, Packing::Open), date(2026, 8, 31));
    assert!(may_ship(date(2026, 8, 31), tested, Packing::Open));
    assert!(!may_ship(date(2026, 9, 1), tested, Packing::Open));
    assert!(!may_ship(date(2026, 2, 28), tested, Packing::Open));
    assert_eq!(last_shipping_day(tested, Packing::Hermetic), date(2028, 3, 31));
    assert_eq!(last_shipping_day(Month::new(2026, 9).unwrap(), Packing::Open), date(2027, 2, 28));
    assert_eq!(next_test_due(tested, Packing::Open, 7), date(2026, 8, 10));
    assert_eq!(Month::new(2026, 13), None);
}

/// Cases 4 and 5: 7 CFR 201.36c.
#[test]
fn sealed_seed_has_conditions() {
    let good = Sealing {
        harvested_on: Some(date(2026, 1, 15)),
        sealed_on: Some(date(2026, 10, 15)),
        vapour_g: Some(0.05),
        moisture: Percent::new(5.5),
        germination: WholePercent::new(75),
        label: Some(SealedLabel),
    };
    assert_eq!(hermetic_faults(&good), []);
    let moist = Sealing { moisture: Percent::new(5.6), ..good };
    assert_eq!(hermetic_faults(&moist), [HermeticFault::Moisture]);
    let late = Sealing { sealed_on: Some(date(2026, 11, 15)), ..good };
    assert_eq!(hermetic_faults(&late), [HermeticFault::SealedLate]);
    assert_eq!(hermetic_faults(&Sealing { vapour_g: Some(0.06), ..good }), [HermeticFault::Vapour]);
    assert_eq!(hermetic_faults(&Sealing::default()).len(), 5);
}

/// Case 7: 7 CFR 201.4 (2015).
#[test]
fn records_and_samples_are_kept() {
    let kept = kept(date(2026, 6, 1));
    assert_eq!((kept.sample_may_go, kept.record_may_go), (date(2027, 6, 1), date(2029, 6, 1)));
}

/// Case 19, and the plant ranges of section 3 of the facts (1 per cent and 95 per cent, then other standards).
#[test]
fn acceptance_numbers_agree() {
    type Row = (u32, u32, u32);
    let ranges: [(f64, &[Row]); 5] = [
        (0.001, &[(1, 51, 0), (52, 355, 1)]),
        (0.01, &[(1, 5, 0), (6, 35, 1), (36, 82, 2), (83, 137, 3), (138, 198, 4), (199, 262, 5)]),
        (0.02, &[(1, 2, 0), (3, 18, 1), (19, 41, 2), (42, 69, 3), (70, 99, 4), (100, 131, 5)]),
        (0.03, &[(1, 1, 0), (2, 12, 1), (13, 27, 2), (28, 46, 3), (47, 66, 4), (67, 88, 5)]),
        (0.05, &[(1, 1, 0), (2, 7, 1), (8, 16, 2), (17, 28, 3), (29, 40, 4), (41, 53, 5)]),
    ];
    for (standard, rows) in ranges {
        for (from, to, accepted) in rows {
            for plants in [*from, *to] {
                let found = acceptance_number(plants, share(standard), share(0.95));
                assert_eq!(found, *accepted, "{plants} plants at {standard}");
            }
        }
    }
}

/// Case 20, and the buyer's risks of section 3 of the facts.
#[test]
fn what_passes_agrees() {
    near(passes(20, 1, share(0.05)), 0.7358, 5e-5);
    near(passes(20, 1, share(0.10)), 0.392, 5e-4);
    near(passes(60, 2, share(0.05)), 0.417, 5e-4);
    near(passes(60, 2, share(0.10)), 0.053, 5e-4);
    near(passes(100, 3, share(0.05)), 0.258, 5e-4);
    near(passes(100, 3, share(0.10)), 0.008, 5e-4);
}

/// Section 3 of the facts: one-sided 95 in 100 upper limits.
#[test]
fn upper_limits_agree() {
    near(upper_limit(0, 60, share(0.95)).unwrap(), 0.04870, 5e-6);
    near(upper_limit(1, 100, share(0.95)).unwrap(), 0.04656, 5e-6);
    assert_eq!(upper_limit(0, 0, share(0.95)), None);
}

/// Case 18, and section 3 of the facts: 90, 95 and 99 in 100.
#[test]
fn plants_to_detect_agree() {
    let rows = [
        (0.05, [45, 59, 90]),
        (0.02, [114, 149, 228]),
        (0.01, [230, 299, 459]),
        (0.005, [460, 598, 919]),
        (0.001, [2302, 2995, 4603]),
    ];
    for (off_types, plants) in rows {
        let found = [0.90, 0.95, 0.99].map(|level| plants_to_detect(share(off_types), share(level)));
        assert_eq!(found, plants.map(Some));
    }
    assert_eq!(plants_to_detect(Share::NONE, share(0.95)), None);
    assert_eq!(plants_to_detect(share(0.1), Share::ALL), None);
    assert_eq!(plants_to_detect(Share::ALL, share(0.95)), Some(1));
}

/// Case 26, and section 6 of the facts.
#[test]
fn parents_agree() {
    near(chance_kept(share(0.05), 20), 0.64151, 5e-6);
    near(chance_kept(share(0.05), 59), 0.9515, 5e-5);
    near(chance_kept(share(0.10), 30), 0.9576, 5e-5);
    assert_eq!(plants_to_keep(share(0.05), share(0.95)), Some(59));
    assert_eq!((chance_kept(Share::ALL, 0), chance_kept(Share::ALL, 1)), (Share::NONE, Share::ALL));
}

/// Cases 24 and 25: 7 CFR 201.76 (2015), table 5, notes 7 and 25.
#[test]
fn classes_agree_with_the_regulation() {
    let off_types = Field { off_types: Some((1, 200)), ..Field::default() };
    let reaching =
        |field: &Field| CLASSES.into_iter().filter(|class| faults(*class, field).is_empty()).count();
    assert!(faults(Class::Certified, &off_types).is_empty());
    assert_eq!(faults(Class::Registered, &off_types), [ClassFault::OffTypes]);
    assert_eq!(faults(Class::Foundation, &off_types), [ClassFault::OffTypes]);
    let feet = |feet: f64| Inches::new(12.0 * feet).and_then(Inches::to_millimetres).unwrap();
    let at = |feet: Millimetres, neighbour| Field { nearest: Some((neighbour, feet)), ..Field::default() };
    // Feet, classes that may stand so near to another variety, and to another class of their own (half, note 25).
    for (away, other, own) in [
        (35.0, 1, 1),
        (29.9, 0, 1),
        (30.0, 1, 1),
        (50.0, 1, 2),
        (99.9, 1, 2),
        (100.0, 2, 3),
        (200.0, 3, 3),
        (14.9, 0, 0),
    ] {
        assert_eq!(reaching(&at(feet(away), Neighbour::OtherVariety)), other, "{away} ft");
        assert_eq!(reaching(&at(feet(away), Neighbour::OtherClassOfVariety)), own, "{away} ft");
    }
    assert_eq!(reaching(&at(feet(15.0), Neighbour::OtherClassOfVariety)), 1);
    for (in_seed, classes) in [(0.0, 3), (0.004, 2), (0.006, 1), (0.011, 0)] {
        assert_eq!(reaching(&Field { in_seed: Some(share(in_seed)), ..Field::default() }), classes);
    }
}

proptest! {
    /// A later test never lets seed be shipped for less long, and the next test is due before the window closes.
    #[test]
    fn windows_move_with_the_test(days in 0..20_000_i32, spare in 0..60_u16) {
        let day = date(2000, 1, 1).checked_add(jiff::Span::new().days(days)).unwrap();
        let next: Date = day.tomorrow().unwrap();
        for packing in [Packing::Open, Packing::Hermetic] {
            let last = last_shipping_day(Month::of(day), packing);
            prop_assert!(last <= last_shipping_day(Month::of(next), packing));
            prop_assert!(next_test_due(Month::of(day), packing, spare) < last);
            prop_assert_eq!(last, last.last_of_month());
            prop_assert!(may_ship(day, Month::of(day), packing));
        }
    }

    /// What an acceptance number lets stand, a lot at the standard keeps to as often as promised, and no fewer would do.
    #[test]
    fn acceptance_numbers_are_the_fewest(plants in 1..400_u32, standard in 0.001..0.2_f64) {
        let accepted = acceptance_number(plants, share(standard), share(0.95));
        prop_assert!(0.95 - 1e-9 <= passes(plants, accepted, share(standard)).get());
        if let Some(fewer) = accepted.checked_sub(1) {
            prop_assert!(passes(plants, fewer, share(standard)).get() < 0.95 + 1e-9);
        }
    }
}
