//! A lot's account: what its notes come to on a day, and what notes of later days do not.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use jiff::civil::{Date, date};
use record::germination::{GerminationTest, Made, Replicate, Seedlings};
use record::id::Id;
use record::lot::{Lot, LotKeeping, LotNote, LotOrigin, MoistureReading, Packing, SeedWeighing};
use record::mass::Milligrams;
use record::season::Season;
use record::share::{Percent, WholePercent};
use record::stock::{Fill, Movement, Place};
use record::temperature::Celsius;
use seedroom::account::ageing::Warmth;
use seedroom::account::keepsakes::FileSample;
use seedroom::account::{Account, GoesBy, LotState, account};
use seedroom::dates::HermeticFault;

const MINIMUM: WholePercent = WholePercent::of::<75>();

fn lot() -> Lot {
    Lot {
        id: Id::from_uuid(uuid::Uuid::from_u128(1)),
        number: "31-014".to_owned(),
        variety: Id::from_uuid(uuid::Uuid::from_u128(2)),
        season: Season::new(2031).unwrap(),
        origin: LotOrigin { harvested_on: Some(date(2031, 9, 1)), ..LotOrigin::default() },
    }
}

fn moved(on: Date, from: Place, to: Place, milligrams: u64) -> LotNote {
    LotNote::Movement(Movement { lot: lot().id, on, from, to, mass: Milligrams::new(milligrams) })
}

fn tested(on: Date, normal: u32) -> LotNote {
    let seedlings = Seedlings { normal, abnormal: 0, hard: 0, dead: 100 - normal };
    LotNote::Germination(GerminationTest {
        begun_on: on.checked_sub(jiff::Span::new().days(14)).unwrap(),
        first_counted_on: None,
        counted_on: on,
        made: Made::InHouse,
        replicates: vec![Replicate::new(100, seedlings, None).unwrap(); 4],
    })
}

fn kept(since: Date, warm: Option<f64>, packing: Packing) -> LotNote {
    let temperature = warm.and_then(Celsius::new);
    LotNote::Keeping(LotKeeping { since, location: None, temperature, packing, vapour_g: Some(0.03) })
}

#[track_caller]
fn on(today: Date, notes: &[LotNote]) -> Account {
    account(&lot(), notes, GoesBy { today, minimum: MINIMUM, lawful: MINIMUM, spare_days: 0 }).unwrap()
}

#[test]
fn notes_of_later_days_do_not_count_yet() {
    let packets = Place::Packets(Fill::new(Milligrams::new(100)).unwrap());
    let notes = [
        moved(date(2031, 9, 20), Place::Origin, Place::Jar, 10_000),
        tested(date(2032, 1, 24), 92),
        moved(date(2032, 2, 1), Place::Jar, packets, 4_000),
        tested(date(2032, 6, 10), 70),
    ];
    assert_eq!(on(date(2031, 9, 19), &notes).state, LotState::Gone);
    assert_eq!(on(date(2032, 1, 23), &notes).state, LotState::Untested);
    // 7 CFR 201.30a: five calendar months after the month of the test.
    assert_eq!(on(date(2032, 1, 31), &notes).state, LotState::Fit { until: date(2032, 6, 30) });
    let packed = on(date(2032, 2, 1), &notes);
    assert_eq!(packed.held, [(Place::Jar, Milligrams::new(6_000)), (packets, Milligrams::new(4_000))]);
    // 7 CFR 201.58: the next count takes 14 days.
    assert_eq!(packed.test_due, Some(date(2032, 6, 16)));
    assert_eq!(on(date(2032, 6, 10), &notes).state, LotState::Below { until: date(2032, 11, 30) });
    assert_eq!(on(date(2032, 12, 1), &notes).state, LotState::TooOld { until: date(2032, 11, 30) });
}

/// Under the house's own minimum and not under the law's: no words are asked, and the house is told apart from the law.
#[test]
fn the_houses_own_minimum_is_told_apart_from_the_laws() {
    let notes = [moved(date(2031, 9, 20), Place::Origin, Place::Jar, 10_000), tested(date(2032, 1, 24), 78)];
    let by = |minimum| {
        let by = GoesBy { today: date(2032, 2, 1), minimum, lawful: MINIMUM, spare_days: 0 };
        account(&lot(), &notes, by).unwrap().state
    };
    let until = date(2032, 6, 30);
    assert_eq!(by(MINIMUM), LotState::Fit { until });
    assert_eq!(by(WholePercent::of::<80>()), LotState::UnderHouse { until });
}

/// 7 CFR 201.4 (2015): the file sample of 400 seeds for a year, the record for three, from the day the last of the lot is gone.
#[test]
fn sample_and_record_are_kept_after_the_last_of_a_lot_is_gone() {
    let weighed = LotNote::Weighing(SeedWeighing {
        on: date(2031, 10, 1),
        seeds_each: 100,
        masses: vec![Milligrams::new(300); 8],
    });
    let mut notes = vec![
        moved(date(2031, 9, 20), Place::Origin, Place::Jar, 10_000),
        weighed,
        moved(date(2031, 10, 2), Place::Jar, Place::FileSample, 1_200),
        moved(date(2032, 3, 1), Place::Jar, Place::Sold, 8_800),
    ];
    let seen = on(date(2032, 3, 2), &notes);
    assert_eq!(seen.state, LotState::Gone, "the file sample is no stock");
    assert_eq!(seen.keepsakes.sample.is_enough(), Some(true));
    let (gone, kept) = seen.keepsakes.since.unwrap();
    assert_eq!(gone, date(2032, 3, 1));
    assert_eq!((kept.sample_may_go, kept.record_may_go), (date(2033, 3, 1), date(2035, 3, 1)));
    assert_eq!(seen.keepsakes.may_go_next(), Some(date(2033, 3, 1)));
    // A sample that was thrown away later does not keep the record longer.
    notes.push(moved(date(2033, 3, 5), Place::FileSample, Place::Lost, 1_200));
    let later = on(date(2033, 4, 1), &notes).keepsakes;
    assert_eq!((later.sample, later.since.unwrap().0), (FileSample::NotKept, date(2032, 3, 1)));
    assert_eq!(later.may_go_next(), Some(date(2035, 3, 1)));
    // While seed of it is held, nothing may go.
    assert_eq!(on(date(2032, 2, 1), &notes).keepsakes.since, None);
    let few =
        [notes[0].clone(), notes[1].clone(), moved(date(2031, 10, 2), Place::Jar, Place::FileSample, 1_100)];
    assert_eq!(on(date(2032, 2, 1), &few).keepsakes.sample.is_enough(), Some(false));
    assert_eq!(on(date(2032, 2, 1), &few[..1]).keepsakes.sample.is_enough(), Some(false));
    let unweighed = [few[0].clone(), few[2].clone()];
    assert_eq!(on(date(2032, 2, 1), &unweighed).keepsakes.sample.is_enough(), None);
}

/// 7 CFR 201.36c and 201.30a: 24 months for seed that was dry enough, tested, and sealed in time.
#[test]
fn sealed_seed_counts_by_what_was_known_when_it_was_sealed() {
    let moisture =
        |on, percent| LotNote::Moisture(MoistureReading { on, moisture: Percent::new(percent).unwrap() });
    let mut notes = vec![
        moved(date(2031, 9, 20), Place::Origin, Place::Jar, 10_000),
        tested(date(2032, 1, 24), 92),
        moisture(date(2032, 1, 30), 5.5),
        kept(date(2032, 2, 1), Some(5.0), Packing::Hermetic),
        moisture(date(2032, 3, 1), 6.5),
    ];
    let sealed = on(date(2032, 4, 1), &notes);
    assert_eq!((sealed.sealing_faults.as_slice(), sealed.packing()), (&[][..], Packing::Hermetic));
    assert_eq!(sealed.state, LotState::Fit { until: date(2034, 1, 31) });
    notes.remove(2);
    let unknown = on(date(2032, 4, 1), &notes);
    assert_eq!(unknown.sealing_faults, [HermeticFault::Moisture]);
    assert_eq!(unknown.state, LotState::Fit { until: date(2032, 6, 30) });
    // Of two notes of one day the one written last counts.
    notes.push(kept(date(2032, 2, 1), Some(5.0), Packing::Open));
    assert_eq!(on(date(2032, 4, 1), &notes).sealing_faults, []);
}

/// 7 CFR 201.55: a mean of 75 allows 17 points between replicates of 100, and these lie 18 apart.
#[test]
fn a_test_that_says_nothing_is_left_out_of_the_forecast() {
    let begun = moved(date(2031, 9, 20), Place::Origin, Place::Jar, 10_000);
    let mut apart = tested(date(2032, 1, 24), 75);
    if let LotNote::Germination(test) = &mut apart {
        test.replicates = [66, 84, 75, 75]
            .map(|normal| {
                let seedlings = Seedlings { normal, abnormal: 0, hard: 0, dead: 100 - normal };
                Replicate::new(100, seedlings, None).unwrap()
            })
            .to_vec();
    }
    let today = date(2032, 2, 1);
    let (with, without) = (on(today, &[begun.clone(), apart]), on(today, &[begun]));
    assert_eq!((with.state, with.test_due), (LotState::TestAgain, Some(today)));
    assert_eq!(with.ageing, without.ageing);
}

/// Ellis and Roberts 1980: seed keeps 4.707 times as long at 5 C as at 20 C, so a warm year costs more of it.
#[test]
fn warm_days_age_a_lot() {
    let begun = || moved(date(2031, 9, 20), Place::Origin, Place::Jar, 10_000);
    let kept_so = |first: Option<f64>, then: Option<f64>| {
        let notes = [
            begun(),
            kept(date(2031, 9, 20), first, Packing::Open),
            kept(date(2032, 9, 20), then, Packing::Open),
        ];
        on(date(2033, 9, 20), &notes).ageing.unwrap()
    };
    let (cool, warm) = (kept_so(Some(5.0), Some(5.0)), kept_so(Some(20.0), Some(5.0)));
    assert!(warm.about < cool.about && cool.under < warm.under, "{warm:?} {cool:?}");
    assert_eq!(cool.warmth, Warmth::CarriedTo(Celsius::new(5.0).unwrap()));
    assert_eq!(kept_so(None, Some(5.0)).warmth, Warmth::NotTold);
}

/// The inbred form, 1 - (1 - p)^n: 20 plants keep what 1 in 20 carries with 0.64151, and 59 with 0.9515 (facts, section 6).
#[test]
fn parents_are_told_beside_those_that_would_be_enough() {
    let notes = [moved(date(2031, 9, 20), Place::Origin, Place::Jar, 10_000)];
    assert_eq!(on(date(2031, 10, 1), &notes).parentage, None);
    let by = GoesBy { today: date(2031, 10, 1), minimum: MINIMUM, lawful: MINIMUM, spare_days: 0 };
    let told = Lot { origin: LotOrigin { parents: Some(20), ..lot().origin }, ..lot() };
    let parentage = account(&told, &notes, by).unwrap().parentage.unwrap();
    assert!((parentage.kept.get() - 0.64151).abs() < 5e-6, "{parentage:?}");
    assert_eq!((parentage.plants, parentage.enough), (20, 59));
}
