//! Packets filled, and labels made for them, beside the label law.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use jiff::civil::{Date, date};
use proptest::prelude::*;
use record::germination::Made;
use record::language::Units;
use record::lot::Packing;
use record::mass::{Grams, Milligrams};
use record::share::{Share, WholePercent};
use seedroom::dates::Month;
use seedroom::increase::filling::{Contents, Filling, FillingFault, filling};
use seedroom::increase::weight::{SeedWeight, thousand_seed_weight};
use seedroom::label::check::{LabelFault, check};
use seedroom::label::guide::{Guide, SHIPPED, read};
use seedroom::label::made::{Known, made, packed_for, packet};
use seedroom::label::{Item, Tested};

const TODAY: Date = date(2026, 5, 1);

fn guides(places: &[usize]) -> Vec<Guide> {
    places.iter().map(|at| SHIPPED.get(*at).map(|(file, text)| read(file, text).unwrap()).unwrap()).collect()
}

/// Eight replicates of 100 seeds about 300 mg each: 3 mg a seed.
fn weighed() -> SeedWeight {
    let masses =
        [0.294, 0.306, 0.300, 0.297, 0.303, 0.300, 0.291, 0.309].map(|grams| Grams::new(grams).unwrap());
    thousand_seed_weight(&masses, 100, Share::new(0.95).unwrap()).unwrap()
}

fn tested(germination: u8) -> Tested {
    let germination = WholePercent::new(germination).unwrap();
    Tested {
        month: Month::new(2026, 3).unwrap(),
        germination,
        hard: WholePercent::of::<0>(),
        towards_standard: germination,
    }
}

fn known(germination: u8) -> Known {
    Known {
        shipper: Some("Long Furrow Seed, 4 Ferry Road, Low Barn".to_owned()),
        variety: "Amber Lantern".to_owned(),
        lot: "26-014".to_owned(),
        filling: filling(Contents::Seeds(30), Some(&weighed())).unwrap(),
        tested: Some(tested(germination)),
        made: Some((Made::InHouse, 400)),
        packing: Packing::Open,
        treatment: None,
        packed_for: 2026,
        packed_on: TODAY,
        units: Units::METRIC,
    }
}

#[track_caller]
fn faults(known: &Known, guides: &[Guide]) -> Vec<LabelFault> {
    let packet = packet(known, &made(known, guides));
    guides.iter().flat_map(|guide| check(&packet, guide, TODAY)).map(|finding| finding.fault).collect()
}

fn says(known: &Known, guides: &[Guide], item: Item) -> Option<(String, u8)> {
    let statements = made(known, guides);
    let found = statements.into_iter().find(|one| one.says.iter().any(|says| says.item() == item));
    found.map(|one| (one.words, one.points))
}

/// Seeds to a given weight vary by the root of their number (Feller, as cited in the library): weighings of 100 seeds that
/// vary by 2 in 100 tell of single seeds that vary by 20 in 100, so that 30 seeds vary by 0.2 times the root of 30, 1.1
/// seeds, and 95 in 100 are 1.645 times as far from the mean.
#[test]
fn packets_are_filled_over_what_they_say() {
    let Filling { fill, seeds, net, over } = filling(Contents::Seeds(30), Some(&weighed())).unwrap();
    assert_eq!(
        (fill.each(), seeds, net, over),
        (Milligrams::new(96), Some(30), Milligrams::new(90), Some(2))
    );
    // The same packet by its weight holds what the other says.
    let by_mass = filling(Contents::Mass(fill.each()), Some(&weighed())).unwrap();
    assert_eq!((by_mass.seeds, by_mass.over, by_mass.net), (Some(30), Some(2), Milligrams::new(96)));
    assert_eq!(filling(Contents::Seeds(30), None), Err(FillingFault::NotWeighed));
    assert_eq!(filling(Contents::Seeds(0), Some(&weighed())), Err(FillingFault::NoFilling));
    assert_eq!(filling(Contents::Mass(Milligrams::new(100)), None).unwrap().seeds, None);
}

/// 7 CFR 201.29 and 201.31: at the standard nothing more is asked, below it the words in 8 point.
#[test]
fn a_label_says_what_its_guides_ask() {
    let federal = guides(&[0]);
    assert_eq!(faults(&known(89), &federal), []);
    assert_eq!(says(&known(89), &federal, Item::BelowStandard), None);
    assert_eq!(faults(&known(74), &federal), []);
    let (words, points) = says(&known(74), &federal, Item::BelowStandard).unwrap();
    assert!(
        words.contains("Below Standard") && words.contains("74") && 8 <= points,
        "{words}, {points} points"
    );
    // Treated seed says so in 8 point (7 CFR 201.31a), hot water among it.
    let treated = Known { treatment: Some("hot water, 50 °C".to_owned()), ..known(89) };
    assert_eq!(faults(&treated, &federal), []);
    assert_eq!(
        says(&treated, &federal, Item::Treatment).unwrap(),
        ("Treated with hot water, 50 °C".to_owned(), 8)
    );
    // A test is told in 8 point only where the packet is sealed (7 CFR 201.36c).
    let points = |known: &Known| says(known, &federal, Item::TestMonth).unwrap().1;
    assert!(points(&known(89)) < 8);
    assert_eq!(points(&Known { packing: Packing::Hermetic, ..known(89) }), 8);
    assert_eq!(faults(&known(74), &guides(&[0, 1])), []);
    assert_eq!(faults(&known(89), &guides(&[2])), []);
    assert_eq!(says(&known(89), &federal, Item::Category), None);
    assert!(says(&known(89), &guides(&[2]), Item::Category).is_some());
}

#[test]
fn what_is_not_known_is_found_missing() {
    let nameless = Known { shipper: None, ..known(89) };
    assert_eq!(faults(&nameless, &guides(&[0])), [LabelFault::Missing(vec![vec![Item::NameAndAddress]])]);
    let untested = Known { tested: None, ..known(89) };
    assert_eq!(faults(&untested, &guides(&[0])), [LabelFault::Untested]);
    let over = Known { packed_for: 2025, ..known(89) };
    assert!(faults(&over, &guides(&[1])).contains(&LabelFault::PackedForIsOver { year: 2025 }));
}

#[test]
fn the_contents_are_told_by_count_and_by_weight_both_ways() {
    let told = |known: &Known| says(known, &guides(&[0]), Item::NetWeight).unwrap().0;
    // 90 mg over 28.349523125 g, the avoirdupois ounce of NIST SP 811.
    assert_eq!(told(&known(89)), "30 seeds, net 90 mg (0.0032 oz)");
    assert_eq!(told(&Known { units: Units::US, ..known(89) }), "30 seeds, net 0.0032 oz (90 mg)");
    let filling = filling(Contents::Mass(Milligrams::new(2500)), None).unwrap();
    assert_eq!(told(&Known { filling, ..known(89) }), "Net 2.50 g (0.0882 oz)");
}

#[test]
fn autumn_packs_for_the_next_year() {
    assert_eq!([date(2031, 8, 31), date(2031, 9, 1)].map(packed_for), [2031, 2032]);
}

proptest! {
    /// A packet never weighs less than the seed that it says, and more seeds never weigh less.
    #[test]
    fn a_packet_holds_what_it_says(seeds in 1_u32..2000) {
        let filled = filling(Contents::Seeds(seeds), Some(&weighed())).unwrap();
        let more = filling(Contents::Seeds(seeds + 1), Some(&weighed())).unwrap();
        prop_assert!(filled.net <= filled.fill.each());
        prop_assert!(filled.fill <= more.fill);
        let by_mass = filling(Contents::Mass(filled.fill.each()), Some(&weighed())).unwrap();
        prop_assert!(by_mass.seeds.is_some_and(|held| seeds <= held));
    }
}
