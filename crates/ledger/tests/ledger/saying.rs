//! What the house prefers, has accepted and has worked out.

use crate::ground::{act, add_varieties, is_sound, on_both, source};
use ledger::batch::{BatchKind, BatchNumber};
use ledger::calls::{CallSubject, StoredCall};
use ledger::evidence::EvidenceStamp;
use ledger::ledger::Ledger;
use ledger::settings::SavedMapping;
use ledger::undo::Resting;
use record::share::Share;

#[test]
fn settings_and_mappings_change_in_place() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        assert_eq!(ledger.setting("units").unwrap(), None);
        ledger.set("units", "metric").unwrap();
        ledger.set("units", "us").unwrap();
        ledger.set("name", "Three Beds").unwrap();
        assert_eq!(ledger.setting("units").unwrap().as_deref(), Some("us"));
        let all = [("name", "Three Beds"), ("units", "us")];
        assert_eq!(ledger.settings().unwrap(), all.map(|(name, value)| (name.to_owned(), value.to_owned())));

        let mapping = |body: &str| SavedMapping {
            name: "August sheet".to_owned(),
            kind: BatchKind::FruitSamples,
            headings: vec!["wt\t(g)".to_owned(), "".to_owned(), "len".to_owned()],
            mapping: body.to_owned(),
        };
        ledger.save_mapping(&mapping("old")).unwrap();
        ledger.save_mapping(&mapping("new")).unwrap();
        assert_eq!(ledger.mappings().unwrap(), [mapping("new")]);
        assert!(ledger.forget_mapping("August sheet").unwrap());
        assert!(!ledger.forget_mapping("August sheet").unwrap());
    });
}

#[test]
fn a_guides_versions_are_kept_word_for_word() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        assert_eq!(ledger.accepted_guide("fruit").unwrap(), None);
        assert_eq!(ledger.accept_guide(&act(1), "fruit", "a = 1").unwrap().version, 1);
        assert_eq!(ledger.accept_guide(&act(2), "fruit", "a = 1").unwrap().version, 1);
        assert_eq!(ledger.accept_guide(&act(3), "fruit", "a = 2").unwrap().version, 2);
        assert_eq!(ledger.accept_guide(&act(4), "habit", "b = 1").unwrap().version, 1);
        let newest = ledger.accepted_guide("fruit").unwrap().unwrap();
        assert_eq!((newest.text.as_str(), newest.accepted), ("a = 2", act(3)));
        let texts: Vec<_> = ledger.guide_versions("fruit").unwrap().into_iter().map(|one| one.text).collect();
        assert_eq!(texts, ["a = 1", "a = 2"]);
    });
}

#[test]
fn calls_are_kept_one_a_variety_and_subject() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Brindle", "Amber"]);
        let call = |variety, subject, verdict: Option<&str>| StoredCall {
            variety,
            subject,
            verdict: verdict.map(str::to_owned),
            probability: Share::new(0.62).unwrap(),
            contested: true,
            evidence: EvidenceStamp(u64::MAX - 3),
            guide: 1 << 63,
            detail: "[call]".to_owned(),
        };
        let habit = call(ids[0], CallSubject::Habit, None);
        let class = call(ids[0], CallSubject::FruitClass, Some("plum"));
        let other = call(ids[1], CallSubject::FruitClass, Some("grape"));
        ledger.keep_calls(&[call(ids[0], CallSubject::FruitClass, Some("paste")), habit.clone()]).unwrap();
        ledger.keep_calls(&[class.clone(), other.clone()]).unwrap();
        assert_eq!(ledger.calls().unwrap(), [other, class.clone(), habit.clone()]);
        assert_eq!(ledger.calls_of(ids[0]).unwrap(), [class, habit]);
        ledger.undo(BatchNumber(1), &act(5), Resting::Refuse).unwrap();
        assert_eq!(ledger.calls().unwrap(), []);
        ledger.restore(BatchNumber(1), &act(6)).unwrap();
        assert_eq!(ledger.calls().unwrap().len(), 3);
        ledger.forget_calls().unwrap();
        assert_eq!(ledger.calls().unwrap(), []);
        is_sound(&mut ledger);
    });
}

#[test]
fn an_empty_batch_is_a_batch() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let summary = ledger.begin_batch(&source(BatchKind::Heights, "h.csv", 1)).unwrap().commit().unwrap();
        assert_eq!((summary.batch, summary.added.notes()), (BatchNumber(1), 0));
        assert_eq!(ledger.records_in(summary.batch).unwrap(), []);
        is_sound(&mut ledger);
    });
}
