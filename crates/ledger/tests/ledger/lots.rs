//! The seed room's books: every kind of note read back as it was written, withdrawn, restored, and refused as one.

use crate::ground::{act, add_plots, add_varieties, new_file, on_both, source};
use jiff::civil::{Date, date};
use ledger::batch::{BatchKind, BatchNumber};
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::location::Location;
use ledger::lots::{EntryNumber, EntryState, NewLot, Turn};
use ledger::undo::Resting;
use ledger::writer::Standing;
use proptest::prelude::*;
use record::germination::{GerminationTest, Made, Replicate, Seedlings};
use record::id::Id;
use record::length::Millimetres;
use record::lot::{
    ITSELF, Inspection, Lot, LotKeeping, LotNote, LotOrigin, MoistureReading, OffType, Packing, SeedWeighing,
};
use record::mass::Milligrams;
use record::season::Season;
use record::share::Percent;
use record::stock::{Fill, Movement, Place};
use record::temperature::Celsius;
use rusqlite::Connection;
use std::cell::Cell;
use tempfile::TempDir;

const DAY: Date = date(2031, 10, 1);

fn moved(from: Place, to: Place, milligrams: u64) -> LotNote {
    LotNote::Movement(Movement { lot: ITSELF, on: DAY, from, to, mass: Milligrams::new(milligrams) })
}

/// One note of every kind, with what is seldom said too.
fn notes(ledger: &mut Ledger, sown_from: Option<Id<Lot>>) -> Vec<LotNote> {
    let plot = ledger.plots().unwrap().first().map(|plot| plot.id);
    let packets = Place::Packets(Fill::new(Milligrams::new(90)).unwrap());
    let seedlings = Seedlings { normal: 44, abnormal: 3, hard: 1, dead: 2 };
    vec![
        LotNote::Origin(LotOrigin {
            harvested_on: Some(DAY),
            plot,
            sown_from,
            parents: Some(24),
            isolation: Millimetres::new(30_000.0),
            extraction: Some("fermented \u{1F345}\t\\N".to_owned()),
            drying: None,
            treatment: Some("hot water".to_owned()),
        }),
        LotNote::Keeping(LotKeeping {
            since: DAY,
            location: Some("cellar".to_owned()),
            temperature: Celsius::new(5.0),
            packing: Packing::Hermetic,
            vapour_g: Some(0.03),
        }),
        moved(Place::Origin, Place::Jar, 42_500),
        moved(Place::Jar, packets, 900),
        moved(packets, Place::Sold, 180),
        LotNote::Weighing(SeedWeighing {
            on: DAY,
            seeds_each: 100,
            masses: [312, 309].map(Milligrams::new).to_vec(),
        }),
        LotNote::Moisture(MoistureReading { on: DAY, moisture: Percent::new(5.4).unwrap() }),
        LotNote::Germination(GerminationTest {
            begun_on: date(2031, 11, 1),
            first_counted_on: Some(date(2031, 11, 6)),
            counted_on: date(2031, 11, 15),
            made: Made::Laboratory,
            replicates: vec![
                Replicate::new(50, seedlings, Some(30)).unwrap(),
                Replicate::new(50, seedlings, None).unwrap(),
            ],
        }),
        LotNote::Inspection(Inspection {
            on: DAY,
            plants: 60,
            off_types: vec![OffType { kind: "potato leaf".to_owned(), plants: 1 }],
        }),
    ]
}

/// A ledger with one variety and its plots, and a lot of it without notes.
fn with_lot(location: &Location) -> (Ledger, Id<Lot>) {
    let mut ledger = Ledger::open(location).unwrap();
    let ids = add_varieties(&mut ledger, &["Amber Lantern", "Brindle"]);
    add_plots(&mut ledger, &ids);
    let lot = new_lot(&mut ledger, "31-014").unwrap();
    (ledger, lot)
}

fn new_lot(ledger: &mut Ledger, number: &str) -> Result<Id<Lot>, LedgerFault> {
    let variety = ledger.varieties().unwrap()[0].id;
    let lot = NewLot { number: number.to_owned(), variety, season: Season::new(2031).unwrap() };
    ledger.found_lot(&lot, &[], &act(1), &mut |_| true)
}

/// A movement as its lot's books tell it.
fn of_lot(lot: Id<Lot>, note: LotNote) -> LotNote {
    match note {
        LotNote::Movement(movement) => LotNote::Movement(Movement { lot, ..movement }),
        other => other,
    }
}

#[test]
fn every_note_is_read_back_as_it_was_written() {
    on_both(|location| {
        let (mut ledger, parents) = with_lot(location);
        let lot = new_lot(&mut ledger, "31-015").unwrap();
        let written = notes(&mut ledger, Some(parents));
        let all: Vec<(Id<Lot>, LotNote)> = written.iter().map(|note| (lot, note.clone())).collect();
        let numbers = ledger.note_lots(&all, &act(2), &mut |_| true).unwrap();
        let entries = ledger.lot_entries(Some(lot)).unwrap();
        assert_eq!(entries[0].note, None, "the founding one");
        let read: Vec<LotNote> = entries[1..].iter().map(|entry| entry.note.clone().unwrap()).collect();
        assert_eq!(read, written.iter().map(|note| of_lot(lot, note.clone())).collect::<Vec<_>>());
        assert_eq!(entries[1..].iter().map(|entry| entry.number).collect::<Vec<_>>(), numbers);
        let LotNote::Origin(origin) = &written[0] else { panic!("the first is where it comes from") };
        assert_eq!(&ledger.lots().unwrap()[1].origin, origin);
        assert_eq!(ledger.lot_entries(None).unwrap().len(), 2 + written.len());
        assert!(ledger.verify().unwrap().is_sound());
    });
}

#[test]
fn what_is_refused_leaves_nothing() {
    on_both(|location| {
        let (mut ledger, lot) = with_lot(location);
        let before = ledger.lot_entries(None).unwrap();
        let all = [(lot, moved(Place::Origin, Place::Jar, 100)), (lot, moved(Place::Jar, Place::Sold, 200))];
        let asked = Cell::new(0);
        let refused = ledger.note_lots(&all, &act(2), &mut |moved| {
            asked.set(asked.get() + 1);
            moved.len() != 2
        });
        assert!(matches!(refused, Err(LedgerFault::StockRefused)), "{refused:?}");
        assert_eq!(asked.get(), 1, "once a lot, with all that moves");
        assert_eq!(ledger.lot_entries(None).unwrap(), before);
        let again = new_lot(&mut ledger, " 31-014 ");
        assert!(matches!(again, Err(LedgerFault::LotThere(_))), "{again:?}");
        let nameless = new_lot(&mut ledger, " ");
        assert!(matches!(nameless, Err(LedgerFault::Nameless)), "{nameless:?}");
        let nobody = ledger.note_lots(
            &[(ITSELF, notes(&mut Ledger::open(location).unwrap(), None)[6].clone())],
            &act(2),
            &mut |_| true,
        );
        assert!(matches!(nobody, Err(LedgerFault::NoSuchLot(_))), "{nobody:?}");
        assert_eq!(ledger.lot_entries(None).unwrap(), before);
    });
}

#[test]
fn entries_go_and_come_back() {
    on_both(|location| {
        let (mut ledger, lot) = with_lot(location);
        ledger.note_lots(&[(lot, moved(Place::Origin, Place::Jar, 100))], &act(2), &mut |_| true).unwrap();
        let turn = |ledger: &mut Ledger, number, turn, stands| {
            ledger.turn_lot_entry(EntryNumber(number), turn, &act(3), &mut |_| stands)
        };
        let kept = turn(&mut ledger, 2, Turn::Withdrawn, false);
        assert!(matches!(kept, Err(LedgerFault::StockRefused)), "{kept:?}");
        assert_eq!(turn(&mut ledger, 2, Turn::Withdrawn, true).unwrap(), "31-014");
        let state = ledger.lot_entries(Some(lot)).unwrap()[1].state.clone();
        assert_eq!(state, EntryState::Withdrawn(act(3)));
        let twice = turn(&mut ledger, 2, Turn::Withdrawn, true);
        assert!(matches!(twice, Err(LedgerFault::EntryIsSo(_))), "{twice:?}");
        turn(&mut ledger, 2, Turn::Restored, true).unwrap();
        turn(&mut ledger, 1, Turn::Withdrawn, true).unwrap();
        assert_eq!(ledger.lots().unwrap(), []);
        new_lot(&mut ledger, "31-014").unwrap();
        let taken = turn(&mut ledger, 1, Turn::Restored, true);
        assert!(matches!(taken, Err(LedgerFault::LotThere(_))), "{taken:?}");
        let none = turn(&mut ledger, 99, Turn::Withdrawn, true);
        assert!(matches!(none, Err(LedgerFault::NoSuchEntry(_))), "{none:?}");
        assert!(ledger.verify().unwrap().is_sound());
    });
}

#[test]
fn a_batch_that_lots_are_of_stays() {
    on_both(|location| {
        let (mut ledger, _) = with_lot(location);
        let kept = ledger.undo(BatchNumber(1), &act(4), Resting::UndoToo);
        assert!(matches!(kept, Err(LedgerFault::LotsOf { .. })), "{kept:?}");
        ledger.turn_lot_entry(EntryNumber(1), Turn::Withdrawn, &act(5), &mut |_| true).unwrap();
        ledger.undo(BatchNumber(1), &act(6), Resting::UndoToo).unwrap();
    });
}

/// The books cannot be changed, and where somebody does it past the triggers, it is found out.
#[test]
fn what_was_changed_by_hand_is_found() {
    let changes = [
        "UPDATE seed_lot SET season = 2030",
        "UPDATE lot_movement SET mass_mg = 1",
        "UPDATE germination_replicate SET normal = 45, dead = 1",
        "UPDATE lot_origin SET parents = 99",
        "DELETE FROM lot_off_type",
    ];
    for change in changes {
        let folder = TempDir::new().unwrap();
        let (mut ledger, lot) = with_lot(&new_file(&folder));
        let all: Vec<(Id<Lot>, LotNote)> =
            notes(&mut ledger, None).into_iter().map(|note| (lot, note)).collect();
        ledger.note_lots(&all, &act(2), &mut |_| true).unwrap();
        drop(ledger);
        let file = Connection::open(folder.path().join("ledger.db")).unwrap();
        assert!(file.execute_batch(change).is_err(), "{change} is refused");
        let table = change.split(' ').find(|word| word.contains('_')).unwrap();
        let past = format!("DROP TRIGGER {table}_no_UPDATE; DROP TRIGGER {table}_no_DELETE; {change};");
        file.execute_batch(&past).unwrap();
        drop(file);
        let mut ledger = Ledger::open(&Location::File(folder.path().join("ledger.db"))).unwrap();
        assert!(!ledger.verify().unwrap().is_sound(), "{change}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever is moved, withdrawn and restored in whatever order: the jar is never under nothing.
    #[test]
    fn the_jar_is_never_under_nothing(steps in prop::collection::vec((0_u8..4, 1_u64..200, 1_u32..12), 1..24)) {
        let folder = TempDir::new().unwrap();
        let (mut ledger, lot) = with_lot(&new_file(&folder));
        let in_jar = |moved: &[Movement]| moved.iter().fold(0_i128, |sum, one| {
            let mass = i128::from(one.mass.get());
            if one.to == Place::Jar { sum + mass } else { sum - mass }
        });
        let stands = |moved: &[Movement]| 0 <= in_jar(moved);
        for (what, mass, entry) in steps {
            let entry = EntryNumber(entry.saturating_add(1));
            // Refusals are half of what is tried.
            let _ = match what {
                0 => ledger.note_lots(&[(lot, moved(Place::Origin, Place::Jar, mass))], &act(2), &mut |all| stands(all)).map(|_| ()),
                1 => ledger.note_lots(&[(lot, moved(Place::Jar, Place::Sold, mass))], &act(2), &mut |all| stands(all)).map(|_| ()),
                2 => ledger.turn_lot_entry(entry, Turn::Withdrawn, &act(3), &mut |all| stands(all)).map(|_| ()),
                _ => ledger.turn_lot_entry(entry, Turn::Restored, &act(3), &mut |all| stands(all)).map(|_| ()),
            };
            let standing: Vec<Movement> = ledger.lot_entries(Some(lot)).unwrap().into_iter()
                .filter(|entry| entry.state == EntryState::Standing)
                .filter_map(|entry| match entry.note { Some(LotNote::Movement(one)) => Some(one), _ => None })
                .collect();
            prop_assert!(stands(&standing), "{standing:?}");
        }
        prop_assert!(ledger.verify().unwrap().is_sound());
    }
}

/// A table of lots and one of their weighings: entries with their batch, taken once, and undone only when they are withdrawn.
#[test]
fn tables_of_the_seed_room_are_batches_with_entries() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let varieties = add_varieties(&mut ledger, &["Drip Stone", "Low Barn"]);
        let season = Season::new(2031).unwrap();
        let new = |number: &str, variety| NewLot { number: number.to_owned(), variety, season };
        let seed = [moved(Place::Origin, Place::Jar, 5_000)];
        let mut writer = ledger.begin_batch(&source(BatchKind::Lots, "lots.csv", 41)).unwrap();
        assert_eq!(writer.add_lot(2, &new("31-001", varieties[0]), &seed).unwrap(), Standing::Added);
        // The same lot again, and another lot of its number.
        assert_eq!(writer.add_lot(3, &new(" 31-001 ", varieties[0]), &seed).unwrap(), Standing::AlreadyThere);
        let clash = writer.add_lot(4, &new("31-001", varieties[1]), &[]).unwrap_err();
        assert!(matches!(clash, LedgerFault::LotThere(_)), "{clash:?}");
        let summary = writer.commit().unwrap();
        assert_eq!((summary.added.lots, summary.added.lot_entries, summary.already_there), (1, 1, 1));
        let lot = ledger.lots().unwrap()[0].id;
        let masses = [312, 309].map(Milligrams::new).to_vec();
        let weighing = LotNote::Weighing(SeedWeighing { on: DAY, seeds_each: 100, masses });
        let mut writer = ledger.begin_batch(&source(BatchKind::SeedWeighings, "weighed.csv", 42)).unwrap();
        assert_eq!(writer.add_lot_note(2, lot, &weighing).unwrap(), Standing::Added);
        assert_eq!(writer.add_lot_note(3, lot, &weighing).unwrap(), Standing::AlreadyThere);
        let weighed = writer.commit().unwrap().batch;
        // The history tells what each was, and what it added.
        let told = ledger.batch(summary.batch).unwrap();
        assert_eq!((told.source.kind, told.added.lots, told.added.lot_entries), (BatchKind::Lots, 1, 1));
        assert_eq!(ledger.batch(weighed).unwrap().source.kind, BatchKind::SeedWeighings);
        let refused = ledger.undo(weighed, &act(50), Resting::Refuse).unwrap_err();
        assert!(matches!(refused, LedgerFault::LotsOf { .. }), "{refused:?}");
        let entries = ledger.lot_entries(Some(lot)).unwrap();
        let last = entries.last().unwrap();
        assert_eq!((last.act.why.as_deref(), last.note.as_ref()), (Some("weighed.csv"), Some(&weighing)));
        ledger.turn_lot_entry(last.number, Turn::Withdrawn, &act(51), &mut |_| true).unwrap();
        ledger.undo(weighed, &act(52), Resting::Refuse).unwrap();
        assert!(ledger.verify().unwrap().is_sound());
    });
}
