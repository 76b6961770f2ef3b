//! Stock: movements balance, nothing falls under nothing, undoing restores, and the oldest test goes first.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use jiff::civil::{Date, date};
use proptest::prelude::*;
use record::id::Id;
use record::lot::{Lot, Packing};
use record::mass::Milligrams;
use record::stock::{Fill, Movement, Place};
use seedroom::dates::Month;
use seedroom::stock::draw::{PassedOver, Quality, Shelf, draw};
use seedroom::stock::{Balances, Refused, StockFault, balances};
use std::collections::BTreeMap;

fn lot(number: u128) -> Id<Lot> {
    Id::from_uuid(uuid::Uuid::from_u128(number))
}

fn fill(milligrams: u64) -> Fill {
    Fill::new(Milligrams::new(milligrams)).unwrap()
}

fn moved(on: Date, from: Place, to: Place, milligrams: u64) -> Movement {
    Movement { lot: lot(1), on, from, to, mass: Milligrams::new(milligrams) }
}

fn day(day: i8) -> Date {
    date(2031, 10, day)
}

#[test]
fn a_lot_goes_from_harvest_to_packets_to_buyers() {
    let packets = Place::Packets(fill(90));
    let booked = balances(&[
        moved(day(1), Place::Origin, Place::Jar, 25_000),
        moved(day(2), Place::Jar, Place::FileSample, 1_200),
        moved(day(3), Place::Jar, Place::Tested, 1_200),
        moved(day(20), Place::Jar, packets, 212 * 90),
        moved(day(20), Place::Jar, Place::Lost, 35),
        moved(day(25), packets, Place::Sold, 12 * 90),
    ])
    .unwrap();
    assert_eq!(booked.held(lot(1), packets), Milligrams::new(200 * 90));
    assert_eq!(booked.held(lot(1), Place::Jar), Milligrams::new(25_000 - 2_400 - 212 * 90 - 35));
    assert_eq!(booked.held(lot(1), Place::Sold), Milligrams::NONE);
    assert_eq!(booked.net(lot(1), Place::Sold), 12 * 90);
    assert_eq!(booked.net(lot(1), Place::Origin), -25_000);
    assert_eq!(booked.held(lot(2), Place::Jar), Milligrams::NONE);
}

#[test]
fn what_cannot_be_is_refused() {
    let packets = Place::Packets(fill(90));
    let harvest = moved(day(10), Place::Origin, Place::Jar, 1_000);
    let told = |second| balances(&[harvest, second]).unwrap_err();
    let refused = |fault| Refused { at: 1, fault };
    let too_little = StockFault::TooLittle { held: 1_000, taken: 1_001 };
    assert_eq!(told(moved(day(11), Place::Jar, Place::Sold, 1_001)), refused(too_little));
    // Written down late: there was nothing yet on that day.
    let early = StockFault::TooLittle { held: 0, taken: 10 };
    assert_eq!(told(moved(day(9), Place::Jar, Place::Sold, 10)), refused(early));
    let broken = StockFault::BrokenPacket { moved: 100, each: 90 };
    assert_eq!(told(moved(day(11), Place::Jar, packets, 100)), refused(broken));
    assert_eq!(told(moved(day(11), Place::Jar, Place::Sold, 0)), refused(StockFault::NoMovement));
    assert_eq!(told(moved(day(11), Place::Jar, Place::Jar, 10)), refused(StockFault::NoMovement));
    assert_eq!(told(moved(day(11), Place::Origin, Place::Jar, u64::MAX)), refused(StockFault::TooMuch));
    assert_eq!(refused(early).to_string(), "movement 2: 0 mg are there, 10 mg cannot be taken");
    assert_eq!(Fill::new(Milligrams::NONE), None);
}

#[test]
fn the_oldest_test_goes_first() {
    let shelf = |number, packets, month, packing| Shelf {
        lot: lot(number),
        packets,
        tested: Month::new(2031, month),
        packing,
        quality: Quality::Reached,
    };
    let shelves = [
        shelf(1, 10, 9, Packing::Open),
        shelf(2, 5, 7, Packing::Open),
        shelf(3, 9, 3, Packing::Open),
        shelf(4, 50, 1, Packing::Hermetic),
        Shelf { tested: None, ..shelf(5, 8, 9, Packing::Open) },
        Shelf { quality: Quality::Under, ..shelf(6, 20, 6, Packing::Open) },
    ];
    let drawn = draw(&shelves, 12, day(5));
    assert_eq!(drawn.from, [(lot(2), 5), (lot(1), 7)]);
    let passed_over = vec![
        (lot(3), PassedOver::TestOutOfDate),
        (lot(5), PassedOver::Untested),
        (lot(6), PassedOver::UnderMinimum),
    ];
    assert_eq!((drawn.short, drawn.passed_over), (0, passed_over));
    assert_eq!(draw(&shelves, 70, day(5)).short, 5);
    assert_eq!(draw(&shelves, 70, day(5)).from.last(), Some(&(lot(4), 50)));
}

fn place() -> impl Strategy<Value = Place> {
    let each = [1_u64, 30, 90].map(fill);
    prop_oneof![
        Just(Place::Origin),
        Just(Place::Jar),
        prop::sample::select(each.to_vec()).prop_map(Place::Packets),
        Just(Place::FileSample),
        Just(Place::Sold),
        Just(Place::Sown),
        Just(Place::Tested),
        Just(Place::Lost),
    ]
}

fn movement() -> impl Strategy<Value = Movement> {
    (1..4_u128, 1..28_i8, place(), place(), 0..40_u64).prop_map(|(number, on, from, to, thirties)| Movement {
        lot: lot(number),
        on: day(on),
        from,
        to,
        mass: Milligrams::new(30 * thirties),
    })
}

proptest! {
    /// Whatever is asked for, what is booked balances and nothing held is under nothing; what is refused changes nothing.
    #[test]
    fn books_balance(movements in prop::collection::vec(movement(), 0..60)) {
        let mut booked = Balances::default();
        for movement in &movements {
            let before = booked.clone();
            if booked.book(movement).is_err() {
                prop_assert_eq!(&booked, &before);
            }
            let mut lots: BTreeMap<Id<Lot>, i128> = BTreeMap::new();
            for (lot, place, net) in booked.nets() {
                *lots.entry(lot).or_default() += net;
                prop_assert!(!place.is_held() || 0 <= net);
                prop_assert_eq!(i128::from(booked.held(lot, place).get()), if place.is_held() { net } else { 0 });
            }
            prop_assert!(lots.values().all(|sum| *sum == 0));
        }
    }

    /// Undone backwards, movements leave every place as it was.
    #[test]
    fn undoing_restores(first in prop::collection::vec(movement(), 0..30), then in prop::collection::vec(movement(), 0..30)) {
        let mut booked = Balances::default();
        for movement in &first {
            let _ = booked.book(movement);
        }
        let before: BTreeMap<(Id<Lot>, Place), i128> =
            booked.nets().map(|(lot, place, net)| ((lot, place), net)).collect();
        let done: Vec<Movement> = then.iter().filter(|movement| booked.book(movement).is_ok()).copied().collect();
        for movement in done.iter().rev() {
            prop_assert_eq!(booked.book(&movement.undone()), Ok(()));
        }
        for (lot, place, net) in booked.nets() {
            prop_assert_eq!(net, before.get(&(lot, place)).copied().unwrap_or(0));
        }
    }

    /// An order takes no more than is there, never from a lot that may not be shipped, and is short only of an empty shelf.
    #[test]
    fn orders_take_what_is_there(
        shelves in prop::collection::vec((0..30_u32, prop::option::of(1..=12_i8), any::<bool>(), any::<bool>()), 0..8), wanted in 0..90_u32,
    ) {
        let shelves: Vec<Shelf> = (1..).zip(shelves).map(|(number, (packets, month, sealed, under))| Shelf {
            lot: lot(number),
            packets,
            tested: month.and_then(|month| Month::new(2031, month)),
            packing: if sealed { Packing::Hermetic } else { Packing::Open },
            quality: if under { Quality::Under } else { Quality::Reached },
        }).collect();
        let drawn = draw(&shelves, wanted, day(15));
        let taken: u32 = drawn.from.iter().map(|(_, packets)| packets).sum();
        prop_assert_eq!(taken + drawn.short, wanted);
        for (lot, packets) in &drawn.from {
            let shelf = shelves.iter().find(|shelf| shelf.lot == *lot).unwrap();
            prop_assert!(*packets <= shelf.packets && shelf.quality == Quality::Reached);
            prop_assert!(drawn.passed_over.iter().all(|(passed, _)| passed != lot));
        }
        let ready: u32 = shelves.iter().filter(|shelf| drawn.passed_over.iter().all(|(passed, _)| *passed != shelf.lot)).map(|shelf| shelf.packets).sum();
        prop_assert_eq!(drawn.short, wanted.saturating_sub(ready));
    }
}
