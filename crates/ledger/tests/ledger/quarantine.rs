//! Rows that could not be taken.

use crate::ground::{act, add_varieties, fruit, is_sound, on_both, source, take};
use ledger::batch::{BatchKind, Source};
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::quarantine::{Listed, QuarantineNumber, Rejected};
use ledger::undo::Resting;
use ledger::writer::Standing;
use record::note::Note;

fn rejected(row: u64, value: &str) -> Rejected {
    Rejected {
        row,
        column: Some("wt (g)".to_owned()),
        value: value.to_owned(),
        reason: "holds more than one number".to_owned(),
        remedy: "write one number and one unit, such as 58 g".to_owned(),
        cells: vec!["Amber Lantern".to_owned(), value.to_owned(), "a\ttab, a\nline and a \\".to_owned()],
    }
}

fn reject(ledger: &mut Ledger, source: &Source, values: &[&str]) -> ledger::batch::BatchSummary {
    let mut writer = ledger.begin_batch(source).unwrap();
    for (row, value) in (2..).zip(values) {
        writer.reject(&rejected(row, value)).unwrap();
    }
    writer.commit().unwrap()
}

#[test]
fn a_rejected_row_waits_with_all_that_is_needed_to_mend_it() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let from = source(BatchKind::FruitSamples, "f.csv", 3);
        let summary = reject(&mut ledger, &from, &["3 lb 4", "58 58"]);
        assert_eq!(summary.quarantined, 2);
        let rows = ledger.quarantine(Listed::Waiting).unwrap();
        assert_eq!((rows[0].number, rows[0].batch), (QuarantineNumber(1), summary.batch));
        assert_eq!(
            (&rows[0].rejected, rows[0].file_name.as_deref()),
            (&rejected(2, "3 lb 4"), Some("f.csv"))
        );
        assert_eq!(ledger.quarantined(QuarantineNumber(2)).unwrap(), rows[1]);
        assert_eq!(ledger.batch(summary.batch).unwrap().waiting, 2);
        let missing = ledger.quarantined(QuarantineNumber(9));
        assert!(matches!(missing, Err(LedgerFault::NoSuchQuarantined(_))));
        is_sound(&mut ledger);
    });
}

#[test]
fn a_mended_row_is_taken_once_and_its_undoing_lets_it_wait_again() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let from = source(BatchKind::FruitSamples, "f.csv", 3);
        let mut writer = ledger.begin_batch(&from).unwrap();
        writer.add_note(2, &Note::Fruit(fruit(variety, 58.0)), &[]).unwrap();
        writer.reject(&rejected(3, "58 58")).unwrap();
        writer.reject(&rejected(4, "3 lb 4")).unwrap();
        writer.commit().unwrap();

        // The mended row says what another row of its file says, and is yet another fruit.
        let mut writer = ledger.begin_mending(&from).unwrap();
        assert_eq!(writer.add_note(3, &Note::Fruit(fruit(variety, 58.0)), &[]).unwrap(), Standing::Added);
        writer.solve(QuarantineNumber(1)).unwrap();
        assert!(matches!(writer.solve(QuarantineNumber(1)), Err(LedgerFault::SolvedAlready(_))));
        let mended = writer.commit().unwrap();
        assert_eq!((mended.added.fruit_samples, mended.solved, mended.gone), (1, 0, 0));
        let waiting: Vec<_> =
            ledger.quarantine(Listed::Waiting).unwrap().iter().map(|row| row.number).collect();
        assert_eq!(waiting, [QuarantineNumber(2)]);
        assert_eq!(ledger.quarantined(QuarantineNumber(1)).unwrap().solved_by, Some(mended.batch));

        // The file itself, mended in that row, brings nothing that is not there.
        let again = take(&mut ledger, &source(BatchKind::FruitSamples, "f.csv", 5), variety, &[58.0, 58.0]);
        assert_eq!((again.added.fruit_samples, again.already_there), (0, 2));
        ledger.undo(again.batch, &act(6), Resting::Refuse).unwrap();
        ledger.undo(mended.batch, &act(7), Resting::Refuse).unwrap();
        assert_eq!(ledger.quarantine(Listed::Waiting).unwrap().len(), 2);
        is_sound(&mut ledger);
    });
}

#[test]
fn a_later_version_quarantines_only_new_rows_and_solves_those_it_mended() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let version = |content| source(BatchKind::FruitSamples, "f.csv", content);
        reject(&mut ledger, &version(3), &["3 lb 4", "58 58"]);
        let second = reject(&mut ledger, &version(4), &["3 lb 4", "heavy"]);
        assert_eq!((second.quarantined, second.solved), (1, 1));
        let waiting = ledger.quarantine(Listed::Waiting).unwrap();
        let values: Vec<_> = waiting.iter().map(|row| row.rejected.value.as_str()).collect();
        assert_eq!(values, ["3 lb 4", "heavy"]);
        assert_eq!(ledger.quarantine(Listed::All).unwrap().len(), 3);
        assert_eq!(ledger.quarantine(Listed::WaitingOf(second.batch)).unwrap().len(), 1);
        assert_eq!(ledger.quarantine(Listed::AllOf(second.batch)).unwrap().len(), 1);
        is_sound(&mut ledger);
    });
}

#[test]
fn rows_of_an_undone_batch_are_not_listed() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let batch = reject(&mut ledger, &source(BatchKind::Picks, "p.csv", 3), &["many"]).batch;
        ledger.undo(batch, &act(4), Resting::Refuse).unwrap();
        assert_eq!(ledger.quarantine(Listed::All).unwrap(), []);
    });
}

/// PostgreSQL keeps no NUL in a text; a hostile cell must not stop the batch on one server only.
#[test]
fn a_cell_with_a_nul_is_kept_without_it() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        reject(&mut ledger, &source(BatchKind::Picks, "p\0.csv", 3), &["5\0"]);
        let rows = ledger.quarantine(Listed::All).unwrap();
        assert_eq!(rows[0].rejected.value, "5\u{FFFD}");
        assert_eq!(rows[0].rejected.cells[1], "5\u{FFFD}");
        is_sound(&mut ledger);
    });
}
