//! Names and aliases: no name may mean two varieties.

use crate::ground::{act, add_varieties, is_sound, new_variety, on_both, source};
use ledger::batch::BatchKind;
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::undo::Resting;
use ledger::writer::{NewVariety, Standing};
use record::variety::{Claim, ClaimSubject};

fn claim(words: &str) -> Claim {
    Claim { about: ClaimSubject::Habit, words: words.to_owned() }
}

#[test]
fn a_name_that_is_known_brings_only_its_new_aliases_and_claims() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let mut writer = ledger.begin_batch(&source(BatchKind::Varieties, "v.csv", 1)).unwrap();
        let new = |aliases, claims: &[&str]| NewVariety {
            claims: claims.iter().map(|words| claim(words)).collect(),
            ..new_variety("Amber Lantern", aliases)
        };
        let first = writer.add_variety(2, &new(&["Lantern"], &["bush"])).unwrap();
        assert_eq!(first.standing, Standing::Added);
        let same = writer.add_variety(3, &new(&[" LANTERN"], &["bush"])).unwrap();
        assert_eq!((same.id, same.standing), (first.id, Standing::AlreadyThere));
        let more = writer.add_variety(4, &new(&["Old Lantern", ""], &["semi-bush"])).unwrap();
        assert_eq!((more.id, more.standing), (first.id, Standing::Extended));
        let by_alias = writer.add_variety(5, &new_variety("lantern", &[])).unwrap();
        assert_eq!((by_alias.id, by_alias.standing), (first.id, Standing::AlreadyThere));
        let summary = writer.commit().unwrap();
        assert_eq!((summary.added.varieties, summary.added.aliases, summary.added.claims), (1, 2, 2));

        let read = ledger.variety(first.id).unwrap();
        assert_eq!(read.name, "Amber Lantern");
        assert_eq!(read.aliases, ["Lantern", "Old Lantern"]);
        assert_eq!(read.claims, [claim("bush"), claim("semi-bush")]);
        assert_eq!(ledger.varieties().unwrap(), std::slice::from_ref(&read));
        for spelling in ["amberlantern", "OLD  LANTERN"] {
            assert_eq!(ledger.variety_named(spelling).unwrap().as_ref(), Some(&read));
        }
        assert_eq!(ledger.variety_named("Brindle").unwrap(), None);
        is_sound(&mut ledger);
    });
}

#[test]
fn a_name_that_means_another_is_refused_with_both_names() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber Lantern", "Brindle"]);
        let fault = ledger.add_alias(&act(5), ids[0], "brindle").unwrap_err();
        let told = "the name \"brindle\" already means \"Brindle\", so it cannot also mean \"Amber Lantern\"";
        assert_eq!(fault.to_string(), told);

        let mut writer = ledger.begin_batch(&source(BatchKind::Varieties, "w.csv", 3)).unwrap();
        let clash = writer.add_variety(2, &new_variety("Candle", &["Taper", "BRINDLE"]));
        assert!(matches!(clash, Err(LedgerFault::NameClash { .. })));
        assert!(matches!(writer.add_variety(3, &new_variety("  ", &[])), Err(LedgerFault::Nameless)));
        writer.add_variety(4, &new_variety("Dapple", &["Taper"])).unwrap();
        writer.commit().unwrap();
        let names: Vec<_> = ledger.varieties().unwrap().into_iter().map(|variety| variety.name).collect();
        assert_eq!(names, ["Amber Lantern", "Brindle", "Dapple"]);
        is_sound(&mut ledger);
    });
}

#[test]
fn an_alias_accepted_by_hand_is_a_batch_that_can_be_undone() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let id = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let batch = ledger.add_alias(&act(5), id, "Ambr Lantern").unwrap();
        ledger.add_claim(&act(6), id, &claim("bush")).unwrap();
        assert!(ledger.variety_named("ambr lantern").unwrap().is_some());
        assert_eq!(ledger.batch(batch).unwrap().source.kind, BatchKind::ByHand);
        ledger.undo(batch, &act(7), Resting::Refuse).unwrap();
        assert_eq!(ledger.variety_named("ambr lantern").unwrap(), None);
        assert_eq!(ledger.variety(id).unwrap().claims, [claim("bush")]);
    });
}

/// What was free while a batch was undone may be taken when it comes back.
#[test]
fn a_batch_does_not_come_back_over_names_that_are_taken() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let id = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let alias = ledger.add_alias(&act(5), id, "Taper").unwrap();
        ledger.undo(alias, &act(6), Resting::Refuse).unwrap();
        let mut writer = ledger.begin_batch(&source(BatchKind::Varieties, "w.csv", 7)).unwrap();
        writer.add_variety(2, &new_variety("Candle", &["Taper"])).unwrap();
        let other = writer.commit().unwrap().batch;
        let fault = ledger.restore(alias, &act(8)).unwrap_err();
        assert!(matches!(fault, LedgerFault::NameClash { .. }), "{fault:?}");
        ledger.undo(other, &act(9), Resting::Refuse).unwrap();
        ledger.restore(alias, &act(10)).unwrap();
        assert_eq!(ledger.variety_named("taper").unwrap().map(|variety| variety.id), Some(id));
        is_sound(&mut ledger);
    });
}
