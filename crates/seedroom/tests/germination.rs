//! Germination tests beside the law's tables and the numeric cases of the seed-lot facts.
//!
//! Where an assertion names no regulation, its number was worked out apart from this program, from a stated formula.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use jiff::civil::date;
use proptest::prelude::*;
use record::germination::{GerminationTest, Made, Replicate, Seedlings};
use record::share::{Share, WholePercent};
use seedroom::germination::TOMATO_STANDARD;
use seedroom::germination::claim::{OfMinimum, chance_of_showing, fewest_to_be_sure, sureness};
use seedroom::germination::compare::{LawSays, Sample, compare, label_stands, legal_tolerance};
use seedroom::germination::counted::{Shortfall, add_up, shortfalls};
use seedroom::germination::judge::{Standing, judge, judge_all};
use seedroom::germination::tolerance::{AgreementFault, RangeVerdict, Yardstick, agreement, legal_range};
use statistics::binomial::{Binomial, range_beyond};

fn of(sown: u32, normal: u32) -> Replicate {
    let seedlings = Seedlings { normal, abnormal: 0, hard: 0, dead: sown - normal };
    Replicate::new(sown, seedlings, None).unwrap()
}

fn hundreds(normal: &[u32]) -> Vec<Replicate> {
    normal.iter().map(|normal| of(100, *normal)).collect()
}

fn percent(percent: u8) -> WholePercent {
    WholePercent::new(percent).unwrap()
}

fn share(share: f64) -> Share {
    Share::new(share).unwrap()
}

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted}");
}

/// 7 CFR 201.55 (2015): the first and last mean of each row, and the points; the second column is 101 less the first.
#[test]
fn ranges_agree_with_the_regulation() {
    let four = [
        (99, 99, 5),
        (98, 98, 6),
        (97, 97, 7),
        (96, 96, 8),
        (95, 95, 9),
        (93, 94, 10),
        (91, 92, 11),
        (89, 90, 12),
        (87, 88, 13),
        (84, 86, 14),
        (81, 83, 15),
        (78, 80, 16),
        (73, 77, 17),
        (67, 72, 18),
        (56, 66, 19),
        (51, 55, 20),
    ];
    let two = [
        (96, 97, 6),
        (95, 95, 7),
        (93, 94, 8),
        (90, 92, 9),
        (88, 89, 10),
        (84, 87, 11),
        (81, 83, 12),
        (76, 80, 13),
        (69, 75, 14),
        (55, 68, 15),
        (51, 54, 16),
    ];
    for (replicates, rows) in [(4, four.as_slice()), (2, two.as_slice())] {
        for (from, to, points) in rows {
            for mean in *from..=*to {
                assert_eq!(legal_range(replicates, percent(mean)), Some(*points), "{replicates} of {mean}");
                assert_eq!(legal_range(replicates, percent(101 - mean)), Some(*points), "mirror of {mean}");
            }
        }
    }
    for (replicates, mean) in [(4, 100), (4, 0), (4, 1), (2, 99), (2, 98), (2, 2), (3, 75), (8, 75)] {
        assert_eq!(legal_range(replicates, percent(mean)), None, "{replicates} of {mean}");
    }
}

/// Worked out apart: with 2.75 in 100 for the law's 2.5 to its printed digits, all rows but two are the exact range.
#[test]
fn the_regulation_agrees_with_exact_chances() {
    let exact = |mean: u8| {
        let count = Binomial { trials: 100, share: percent(mean).share() };
        (0..=100_u8).find(|range| range_beyond(count, 4, u32::from(*range)).get() <= 0.0275)
    };
    let differ: Vec<(u8, Option<u8>, Option<u8>)> = (51..=99)
        .map(|mean| (mean, legal_range(4, percent(mean)), exact(mean)))
        .filter(|(_, law, exact)| law != exact)
        .collect();
    assert_eq!(differ, [(94, Some(10), Some(9)), (99, Some(5), Some(4))]);
}

/// Case 11: exact tails beyond the law's range, at the mean.
#[test]
fn exact_tails_agree() {
    for (mean, range, tail) in [(75, 17, 0.0217), (60, 19, 0.0246), (99, 5, 0.0017)] {
        let count = Binomial { trials: 100, share: percent(mean).share() };
        near(range_beyond(count, 4, range).get(), tail, 5e-5);
    }
}

/// Cases 8, 9 and 10; 7 CFR 201.55 (2015).
#[test]
fn replicates_are_put_to_the_table() {
    for (normal, mean, range, points, verdict) in [
        ([88, 92, 85, 91], 89, 7.0, 12, RangeVerdict::Within),
        ([66, 84, 75, 75], 75, 18.0, 17, RangeVerdict::TooWide),
        ([99, 94, 99, 100], 98, 6.0, 6, RangeVerdict::Within),
    ] {
        let replicates = hundreds(&normal);
        let found = agreement(&replicates).unwrap();
        assert_eq!(add_up(&replicates).unwrap().germination(), percent(mean));
        assert_eq!((found.range, found.by, found.verdict), (range, Yardstick::LegalTable(points), verdict));
        assert!(found.chance_of_wider < found.chance_of_as_wide);
    }
    let judged = judge(&hundreds(&[66, 84, 75, 75]), TOMATO_STANDARD).unwrap();
    assert_eq!(judged.standing, Standing::TestAgain);
}

#[test]
fn replicates_without_a_table_say_so() {
    let of_25 = agreement(&[of(25, 20), of(25, 24), of(25, 21), of(25, 22)]).unwrap();
    assert_eq!((of_25.by, of_25.verdict), (Yardstick::NoLegalTable, RangeVerdict::Within));
    let apart = agreement(&[of(25, 10), of(25, 24)]).unwrap();
    assert_eq!((apart.by, apart.verdict), (Yardstick::NoLegalTable, RangeVerdict::TooWide));
    let alike = agreement(&hundreds(&[100, 100, 100, 100])).unwrap();
    assert_eq!((alike.by, alike.verdict), (Yardstick::NoLegalTable, RangeVerdict::Within));
    assert_eq!(agreement(&[of(25, 20)]), Err(AgreementFault::OneReplicate));
    assert_eq!(agreement(&[]), Err(AgreementFault::OneReplicate));
    let unlike = AgreementFault::UnlikeSizes { smallest: 25, largest: 50 };
    assert_eq!(agreement(&[of(25, 20), of(50, 40)]), Err(unlike));
}

/// 7 CFR 201.63 (2015), 400 seeds: mean from, points.
#[test]
fn tolerances_agree_with_the_regulation() {
    let rows =
        [(96, 5), (95, 6), (90, 6), (89, 7), (80, 7), (79, 8), (70, 8), (69, 9), (60, 9), (59, 10), (0, 10)];
    for (mean, points) in rows {
        assert_eq!(legal_tolerance(percent(mean), percent(mean), Sample::Pure), points, "{mean}");
        let component = legal_tolerance(percent(mean), percent(mean), Sample::ComponentOfMixture);
        assert_eq!(component, points + 2, "{mean}");
    }
}

/// Cases 13 and 14.
#[test]
fn two_tests_are_put_to_the_tolerance() {
    let test = |normal| add_up(&[of(400, normal)]).unwrap();
    let says = |first, second| compare(test(first), test(second), Sample::Pure).law;
    assert_eq!(says(320, 288), LawSays::Within(8));
    assert_eq!(says(324, 288), LawSays::Apart(8));
    assert_eq!(says(388, 368), LawSays::Within(6));
    assert_eq!(label_stands(percent(75), percent(67), Sample::Pure), LawSays::Within(8));
    assert_eq!(label_stands(percent(75), percent(66), Sample::Pure), LawSays::Apart(8));
    assert_eq!(label_stands(percent(75), percent(99), Sample::Pure), LawSays::Within(7));
    // R: fisher.test(matrix(c(320,80,288,112),2))$p.value and fisher.test(matrix(c(20,5,15,10),2))$p.value
    near(compare(test(320), test(288), Sample::Pure).chance.get(), 0.010_169_341_361_7, 5e-13);
    let small = |normal| add_up(&[of(25, normal)]).unwrap();
    let found = compare(small(20), small(15), Sample::Pure);
    assert_eq!(found.law, LawSays::NoTable);
    near(found.chance.get(), 0.216_534_219_431, 5e-13);
}

/// Case 1, first half: 74 of 100 are under the standard, 75 are not; hard seed counts towards it (7 CFR 201.31).
#[test]
fn lots_are_put_to_the_standard() {
    let standing = |normal: &[u32]| judge(&hundreds(normal), TOMATO_STANDARD).unwrap().standing;
    assert_eq!(standing(&[75, 74, 76, 75]), Standing::Reached);
    let missed = Standing::Missed { short: 1, beside_a_claim: LawSays::Within(8) };
    assert_eq!(standing(&[74, 73, 75, 74]), missed);
    let far = Standing::Missed { short: 10, beside_a_claim: LawSays::Apart(8) };
    assert_eq!(standing(&[65, 65, 65, 65]), far);
    let hard = Seedlings { normal: 70, abnormal: 4, hard: 5, dead: 21 };
    let hard = judge(&[Replicate::new(100, hard, None).unwrap()], TOMATO_STANDARD).unwrap();
    assert_eq!(hard.standing, Standing::Reached);
    assert_eq!((hard.counted.germination(), hard.counted.hard()), (percent(70), percent(5)));
    assert!(judge(&[], TOMATO_STANDARD).is_none());
}

/// Section 3 of the facts: exact intervals and one-sided lower limits. Cases 15 and 16.
#[test]
fn intervals_agree() {
    for (seen, looked_at, low, high, at_least) in [
        (4, 20, 0.05733, 0.43661, 0.07135),
        (15, 20, 0.50895, 0.91343, 0.54442),
        (45, 50, 0.78186, 0.96672, 0.80117),
        (85, 100, 0.76469, 0.91355, 0.77846),
        (300, 400, 0.70456, 0.79170, 0.71182),
        (340, 400, 0.81118, 0.88354, 0.81746),
        (20, 20, 0.83157, 1.0, 0.86089),
    ] {
        let sure = sureness(seen, looked_at, TOMATO_STANDARD).unwrap();
        near(sure.interval.low.get(), low, 5e-6);
        near(sure.interval.high.get(), high, 5e-6);
        near(sure.at_least.get(), at_least, 5e-6);
    }
    assert!(sureness(0, 0, TOMATO_STANDARD).is_none());
}

/// Section 3 of the facts, and case 17.
#[test]
fn what_can_be_claimed_agrees() {
    for (looked_at, fewest) in [(50, 43), (100, 83), (200, 161), (400, 315)] {
        assert_eq!(fewest_to_be_sure(looked_at, share(0.75), share(0.95)), Some(fewest));
        let sure = |seen| sureness(seen, looked_at, TOMATO_STANDARD).unwrap().of_minimum();
        assert_eq!((sure(fewest), sure(fewest - 1)), (OfMinimum::SurelyReached, OfMinimum::NotSure));
    }
    assert_eq!(fewest_to_be_sure(10, share(0.75), share(0.95)), None);
    assert_eq!(sureness(280, 400, TOMATO_STANDARD).unwrap().of_minimum(), OfMinimum::SurelyMissed);
    for (truly, shows) in [(0.70, 0.0155), (0.72, 0.0992), (0.75, 0.5268), (0.78, 0.9326), (0.80, 0.9938)] {
        near(chance_of_showing(300, 400, share(truly)).get(), shows, 5e-5);
    }
}

/// 7 CFR 201.54 (400 seeds, replicates of 100 or fewer) and 201.58 (final count on day 14).
#[test]
fn shortfalls_are_told() {
    let mut test = GerminationTest {
        begun_on: date(2031, 2, 1),
        first_counted_on: None,
        counted_on: date(2031, 2, 15),
        made: Made::Laboratory,
        replicates: hundreds(&[80, 81, 82, 83]),
    };
    assert_eq!(shortfalls(&test), []);
    test.counted_on = date(2031, 2, 14);
    test.made = Made::InHouse;
    test.replicates = vec![of(150, 140)];
    let all = [
        Shortfall::FewSeeds { sown: 150 },
        Shortfall::CrowdedReplicate { sown: 150 },
        Shortfall::CountedEarly { days: 13 },
        Shortfall::InHouse,
    ];
    assert_eq!(shortfalls(&test), all);
}

proptest! {
    /// The order of replicates does not matter, and many judged at once are judged as one.
    #[test]
    fn a_room_is_judged_as_each_test(normal in prop::collection::vec(0..=100_u32, 1..6)) {
        let replicates = hundreds(&normal);
        let turned: Vec<Replicate> = replicates.iter().rev().copied().collect();
        let one = judge(&replicates, TOMATO_STANDARD);
        prop_assert_eq!(one, judge(&turned, TOMATO_STANDARD));
        prop_assert_eq!(judge_all(&[&replicates, &turned], TOMATO_STANDARD), [one, one]);
    }

    /// One more seed that sprouts never makes a lot stand worse.
    #[test]
    fn more_sprouting_is_never_worse(sown in 1..500_u32, at in 0.0..1.0_f64) {
        let normal = (f64::from(sown) * at) as u32;
        let verdict = |normal| judge(&[of(sown, normal)], TOMATO_STANDARD).unwrap();
        let (less, more) = (verdict(normal), verdict((normal + 1).min(sown)));
        prop_assert!(less.standing != Standing::Reached || more.standing == Standing::Reached);
        prop_assert!(less.sureness.at_least <= more.sureness.at_least);
        prop_assert!(more.sureness.lucky <= less.sureness.lucky);
    }
}
