//! Evidence: what counts, in what order, and by what stamp.

use crate::ground::{act, add_varieties, day, fruit, is_sound, on_both, source, take, take_doubted};
use ledger::batch::BatchKind;
use ledger::evidence::{EvidenceOf, Whose};
use ledger::ledger::Ledger;
use ledger::undo::Resting;
use record::id::Id;
use record::mass::Grams;
use record::note::Note;
use record::pick::{Cull, CullCause, Pick};
use record::variety::Variety;
use std::ops::ControlFlow;

fn gathered(ledger: &mut Ledger) -> Vec<(Id<Variety>, usize, u64)> {
    let mut seen = Vec::new();
    ledger
        .fruit_by_variety(Whose::Everyones, &mut |gathered| {
            seen.push((gathered.variety, gathered.records.len(), gathered.set_aside));
            ControlFlow::Continue(())
        })
        .unwrap();
    seen
}

/// Files bring varieties in any order; evidence comes variety by variety, and one whose fruits are all
/// set aside is told of too, wherever it stands among the others.
#[test]
fn evidence_comes_variety_by_variety() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber", "Brindle", "Candle", "Dapple", "Ember"]);
        let from = |content| source(BatchKind::FruitSamples, &format!("{content}.csv"), content);
        take(&mut ledger, &from(3), ids[3], &[1.0, 2.0]);
        take(&mut ledger, &from(4), ids[1], &[3.0]);
        take(&mut ledger, &from(5), ids[3], &[4.0]);
        take_doubted(&mut ledger, &from(6), ids[0], 5.0);
        take_doubted(&mut ledger, &from(7), ids[3], 6.0);
        take_doubted(&mut ledger, &from(8), ids[4], 7.0);
        assert_eq!(gathered(&mut ledger), [(ids[0], 0, 1), (ids[1], 1, 0), (ids[3], 3, 1), (ids[4], 0, 1)]);
        let mut first = None;
        ledger
            .fruit_by_variety(Whose::Everyones, &mut |gathered| {
                assert_eq!(first.replace(gathered.variety), None);
                ControlFlow::Break(())
            })
            .unwrap();
        assert_eq!(first, Some(ids[0]));
    });
}

#[test]
fn a_picks_culls_stay_with_it() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber"])[0];
        let cull =
            |cause, count| Cull { cause, fruit_count: Some(count), weight: Grams::new(f64::from(count)) };
        let pick = |on, culls| Pick {
            subject: fruit(variety, 1.0).subject,
            picked_on: on,
            fruit_count: Some(12),
            weight: Grams::new(830.5),
            culls,
        };
        let picks = [
            pick(day(8, 1), vec![cull(CullCause::Cracked, 2), cull(CullCause::Eaten, 1)]),
            pick(day(8, 1), vec![cull(CullCause::Cracked, 2)]),
            pick(day(8, 5), vec![]),
        ];
        let mut writer = ledger.begin_batch(&source(BatchKind::Picks, "p.csv", 3)).unwrap();
        for pick in &picks {
            writer.add_note(2, &Note::Pick(pick.clone()), &[]).unwrap();
        }
        writer.commit().unwrap();
        let mut seen = Vec::new();
        ledger
            .picks_by_variety(Whose::Everyones, &mut |gathered| {
                seen.extend_from_slice(gathered.records);
                ControlFlow::Continue(())
            })
            .unwrap();
        assert_eq!(seen, picks);

        // The same pick with another cull is another row.
        let mut writer = ledger.begin_batch(&source(BatchKind::Picks, "p.csv", 4)).unwrap();
        for culls in [vec![cull(CullCause::Cracked, 2)], vec![cull(CullCause::Rotten, 2)]] {
            writer.add_note(2, &Note::Pick(pick(day(8, 1), culls)), &[]).unwrap();
        }
        let again = writer.commit().unwrap();
        assert_eq!((again.added.picks, again.already_there, again.gone), (1, 1, 2));
        is_sound(&mut ledger);
    });
}

#[test]
fn a_stamp_changes_with_its_own_evidence_only_and_comes_back_with_it() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber", "Brindle"]);
        let stamps = |ledger: &mut Ledger| -> [EvidenceOf; 2] {
            ledger.evidence_stamps().unwrap().try_into().unwrap()
        };
        let empty = stamps(&mut ledger);
        assert_eq!(empty.map(|of| of.variety), [ids[0], ids[1]]);
        let (_, doubted) =
            take_doubted(&mut ledger, &source(BatchKind::FruitSamples, "f.csv", 3), ids[0], 900.0);
        let taken = stamps(&mut ledger);
        assert_ne!(taken[0].stamp, empty[0].stamp);
        assert_eq!(taken[1], empty[1]);
        assert_eq!((taken[0].amount.fruit_samples, taken[0].amount.set_aside), (1, 1));
        let confirmation = ledger.confirm(&act(5), &[doubted]).unwrap();
        let confirmed = stamps(&mut ledger);
        assert_ne!(confirmed[0].stamp, taken[0].stamp);
        assert_eq!((confirmed[0].amount.fruit_samples, confirmed[0].amount.set_aside), (1, 0));
        ledger.undo(confirmation, &act(6), Resting::Refuse).unwrap();
        assert_eq!(stamps(&mut ledger), taken);
        let corrected = ledger.correct(&act(7), doubted, &Note::Fruit(fruit(ids[1], 9.0)), &[]).unwrap();
        let moved = stamps(&mut ledger);
        assert!(moved[0].stamp != taken[0].stamp && moved[1].stamp != empty[1].stamp);
        assert_eq!((moved[0].amount.fruit_samples, moved[1].amount.fruit_samples), (0, 1));
        ledger.undo(corrected.batch, &act(8), Resting::Refuse).unwrap();
        assert_eq!(stamps(&mut ledger), taken);
    });
}

#[test]
fn several_readings_at_one_moment_see_the_same_ledger() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let variety = add_varieties(&mut ledger, &["Amber"])[0];
        let mut other = Ledger::open(location).unwrap();
        let seen: Result<_, ledger::fault::LedgerFault> = ledger.at_one_moment(|ledger| {
            let before = ledger.evidence_stamps()?;
            take(&mut other, &source(BatchKind::FruitSamples, "f.csv", 3), variety, &[10.0]);
            Ok((before, ledger.evidence_stamps()?, gathered(ledger)))
        });
        let (before, after, fruits) = seen.unwrap();
        assert_eq!((before, fruits), (after, vec![]));
        assert_eq!(gathered(&mut ledger), [(variety, 1, 0)]);
    });
}
