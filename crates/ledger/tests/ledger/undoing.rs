//! Undoing, restoring, correcting, withdrawing, confirming.

use crate::ground::{
    act, add_plots, add_varieties, day, fruit, is_sound, on_both, source, take, take_doubted, weights,
};
use ledger::batch::{BatchKind, BatchNumber, BatchState};
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::records::{Happened, RecordState};
use ledger::undo::Resting;
use record::height::HeightReading;
use record::length::Millimetres;
use record::note::Note;

#[test]
fn a_batch_goes_and_comes_back_whole() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let batch =
            take(&mut ledger, &source(BatchKind::FruitSamples, "f.csv", 3), variety, &[10.0, 11.0]).batch;
        assert_eq!(ledger.undo(batch, &act(5), Resting::Refuse).unwrap(), [batch]);
        assert_eq!(weights(&mut ledger, variety), (vec![], 0));
        assert_eq!(ledger.batch(batch).unwrap().state, BatchState::Undone(act(5)));
        assert!(matches!(ledger.undo(batch, &act(6), Resting::Refuse), Err(LedgerFault::UndoneAlready(_))));
        ledger.restore(batch, &act(7)).unwrap();
        assert_eq!(weights(&mut ledger, variety), (vec![10.0, 11.0], 0));
        assert!(matches!(ledger.restore(batch, &act(8)), Err(LedgerFault::NotUndone(_))));
        let missing = BatchNumber(77);
        assert!(matches!(ledger.undo(missing, &act(8), Resting::Refuse), Err(LedgerFault::NoSuchBatch(_))));
        is_sound(&mut ledger);
    });
}

#[test]
fn what_others_rest_on_is_not_undone_alone() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber Lantern"]);
        let plot = add_plots(&mut ledger, &ids)[0];
        let mut there = fruit(ids[0], 10.0);
        there.subject.plot = Some(plot);
        let mut writer = ledger.begin_batch(&source(BatchKind::FruitSamples, "f.csv", 3)).unwrap();
        writer.add_note(2, &Note::Fruit(there), &[]).unwrap();
        writer.commit().unwrap();

        let [varieties, plots, fruits] = [1, 2, 3].map(BatchNumber);
        let fault = ledger.undo(varieties, &act(5), Resting::Refuse).unwrap_err();
        assert_eq!(fault.to_string(), "batch 1 cannot be undone alone: batches 3, 2 rest on it");
        assert_eq!(ledger.resting_on(plots).unwrap(), [fruits]);
        assert_eq!(ledger.undo(varieties, &act(6), Resting::UndoToo).unwrap(), [fruits, plots, varieties]);
        assert_eq!((ledger.varieties().unwrap().len(), ledger.plots().unwrap().len()), (0, 0));
        let fault = ledger.restore(fruits, &act(7)).unwrap_err();
        let told = "batch 3 cannot be restored: it rests on what is undone, batch 1, 2";
        assert_eq!(fault.to_string(), told);
        for batch in [varieties, plots, fruits] {
            ledger.restore(batch, &act(8)).unwrap();
        }
        assert_eq!(weights(&mut ledger, ids[0]).0, [10.0]);
        is_sound(&mut ledger);
    });
}

/// A later version took only what was new, so its file's first version cannot go from under it; and a
/// version that was undone does not come back beside its successor.
#[test]
fn versions_of_one_file_are_undone_from_the_newest() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let version = |content| source(BatchKind::FruitSamples, "f.csv", content);
        let first = take(&mut ledger, &version(3), variety, &[10.0]).batch;
        let second = take(&mut ledger, &version(4), variety, &[10.0, 11.0]).batch;
        let fault = ledger.undo(first, &act(5), Resting::Refuse).unwrap_err();
        assert!(matches!(fault, LedgerFault::RestedOn { ref by, .. } if *by == [second]), "{fault:?}");
        ledger.undo(first, &act(6), Resting::UndoToo).unwrap();
        let third = take(&mut ledger, &version(7), variety, &[10.0, 11.0]);
        assert_eq!(third.added.fruit_samples, 2);
        let fault = ledger.restore(first, &act(8)).unwrap_err();
        assert!(matches!(fault, LedgerFault::TakenSince { by, .. } if by == third.batch), "{fault:?}");
        assert_eq!(weights(&mut ledger, variety).0, [10.0, 11.0]);
        is_sound(&mut ledger);
    });
}

#[test]
fn a_correction_takes_the_place_of_a_record_until_it_is_undone() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber Lantern", "Brindle"]);
        let batch =
            take(&mut ledger, &source(BatchKind::FruitSamples, "f.csv", 3), ids[0], &[10.0, 500.0]).batch;
        let wrong = ledger.records_in(batch).unwrap()[1].id;
        let corrected = ledger.correct(&act(5), wrong, &Note::Fruit(fruit(ids[1], 50.0)), &[]).unwrap();
        assert_eq!(
            (weights(&mut ledger, ids[0]).0, weights(&mut ledger, ids[1]).0),
            (vec![10.0], vec![50.0])
        );
        assert_eq!(ledger.record(wrong).unwrap().state, RecordState::Replaced(corrected.id));
        let new = ledger.record(corrected.id).unwrap();
        assert_eq!((new.state, new.from.batch, new.from.row), (RecordState::Standing, corrected.batch, 3));

        let again = ledger.correct(&act(6), wrong, &Note::Fruit(fruit(ids[0], 51.0)), &[]).unwrap_err();
        assert!(matches!(again, LedgerFault::NoLongerStands(id) if id == wrong), "{again:?}");
        let tall = HeightReading {
            subject: fruit(ids[0], 1.0).subject,
            read_on: day(7, 1),
            height: Millimetres::new(900.0).unwrap(),
        };
        let other = ledger.correct(&act(6), corrected.id, &Note::Height(tall), &[]).unwrap_err();
        assert_eq!(other.to_string(), "a fruit sample cannot be corrected into a height reading");

        ledger.undo(corrected.batch, &act(7), Resting::Refuse).unwrap();
        assert_eq!(
            (weights(&mut ledger, ids[0]).0, weights(&mut ledger, ids[1]).0),
            (vec![10.0, 500.0], vec![])
        );
        let what: Vec<_> = ledger.happenings(wrong).unwrap();
        let told: Vec<_> = what.iter().map(|happening| (happening.what, happening.stands)).collect();
        assert_eq!(told, [(Happened::Taken, true), (Happened::ReplacedBy(corrected.id), false)]);
        let told: Vec<_> = ledger.happenings(corrected.id).unwrap().iter().map(|one| one.what).collect();
        assert_eq!(told, [Happened::Taken, Happened::ReplacedAnother(wrong), Happened::Undone]);
        is_sound(&mut ledger);
    });
}

#[test]
fn a_doubted_record_counts_once_it_is_confirmed() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let (_, id) = take_doubted(&mut ledger, &source(BatchKind::FruitSamples, "f.csv", 3), variety, 900.0);
        assert_eq!(weights(&mut ledger, variety), (vec![], 1));
        let waiting = ledger.doubted(10).unwrap();
        assert_eq!((waiting[0].id, waiting[0].state), (id, RecordState::SetAside));
        assert_eq!(waiting[0].doubts, [crate::ground::doubt()]);
        let batch = ledger.confirm(&act(5), &[id]).unwrap();
        assert_eq!(weights(&mut ledger, variety), (vec![900.0], 0));
        assert_eq!(ledger.record(id).unwrap().state, RecordState::Confirmed(batch));
        assert_eq!(ledger.doubted(10).unwrap(), []);
        ledger.undo(batch, &act(6), Resting::Refuse).unwrap();
        assert_eq!(weights(&mut ledger, variety), (vec![], 1));
        is_sound(&mut ledger);
    });
}

#[test]
fn a_withdrawn_record_does_not_come_back_with_its_file() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let version = |content| source(BatchKind::FruitSamples, "f.csv", content);
        let batch = take(&mut ledger, &version(3), variety, &[10.0, 11.0]).batch;
        let id = ledger.records_in(batch).unwrap()[0].id;
        let withdrawal = ledger.withdraw(&act(5), &[id]).unwrap();
        assert_eq!(ledger.record(id).unwrap().state, RecordState::Withdrawn(withdrawal));
        let again = take(&mut ledger, &version(6), variety, &[10.0, 11.0, 12.0]);
        assert_eq!((again.added.fruit_samples, again.already_there), (1, 2));
        assert_eq!(weights(&mut ledger, variety).0, [11.0, 12.0]);
        assert!(matches!(ledger.withdraw(&act(7), &[id]), Err(LedgerFault::NoLongerStands(_))));
        assert_eq!(ledger.batch(withdrawal).unwrap().added.withdrawn, 1);
        is_sound(&mut ledger);
    });
}
