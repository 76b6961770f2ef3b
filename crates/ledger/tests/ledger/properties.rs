//! Random lives of a ledger against a slow, plain model of it kept in memory.

use crate::ground::{act, add_varieties, doubt, fruit, is_sound, new_file, new_schema, source};
use ledger::batch::{BatchKind, BatchNumber};
use ledger::evidence::{EvidenceStamp, Whose};
use ledger::ledger::Ledger;
use ledger::location::Location;
use ledger::undo::Resting;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestCaseError, TestRunner};
use record::id::Id;
use record::note::Note;
use record::variety::Variety;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::ops::ControlFlow;
use tempfile::TempDir;

const NAMES: [&str; 3] = ["Amber Lantern", "Brindle", "Candle"];

/// Something that somebody does. Numbers choose among what there is, wrapped round.
#[derive(Clone, Debug)]
enum Deed {
    /// Takes a version of one of two files: variety and weight of each row.
    Take {
        file: usize,
        rows: Vec<(usize, u8)>,
    },
    Undo {
        batch: usize,
        resting: Resting,
    },
    Restore {
        batch: usize,
    },
    Withdraw {
        fact: usize,
    },
    Confirm {
        fact: usize,
    },
    Correct {
        fact: usize,
        variety: usize,
        weight: u8,
    },
}

fn deed() -> impl Strategy<Value = Deed> {
    let row = (0..NAMES.len(), 1_u8..9);
    let resting = prop_oneof![Just(Resting::Refuse), Just(Resting::UndoToo)];
    let which = || any::<prop::sample::Index>().prop_map(|index| index.index(64));
    prop_oneof![
        4 => (0..2_usize, prop::collection::vec(row, 0..7)).prop_map(|(file, rows)| Deed::Take { file, rows }),
        2 => (which(), resting).prop_map(|(batch, resting)| Deed::Undo { batch, resting }),
        2 => which().prop_map(|batch| Deed::Restore { batch }),
        1 => which().prop_map(|fact| Deed::Withdraw { fact }),
        1 => which().prop_map(|fact| Deed::Confirm { fact }),
        2 => (which(), 0..NAMES.len(), 1_u8..9)
            .prop_map(|(fact, variety, weight)| Deed::Correct { fact, variety, weight }),
    ]
}

/// Every third weight is doubted.
fn doubted(weight: u8) -> bool {
    weight.is_multiple_of(3)
}

#[derive(Clone, Debug, Default)]
struct Batch {
    file: Option<usize>,
    undone: bool,
    rests_on: BTreeSet<usize>,
    ends: Vec<usize>,
    confirms: Vec<usize>,
}

#[derive(Clone, Copy, Debug)]
struct Fact {
    batch: usize,
    variety: usize,
    weight: u8,
}

/// The model: batches in order, the varieties' own first, and all facts in the order they came in.
struct Model {
    batches: Vec<Batch>,
    facts: Vec<Fact>,
}

impl Model {
    fn stands(&self, fact: usize) -> bool {
        let ended = |batch: &Batch| !batch.undone && batch.ends.contains(&fact);
        !self.batches[self.facts[fact].batch].undone && !self.batches.iter().any(ended)
    }

    fn counts(&self, fact: usize) -> bool {
        let confirms = |batch: &Batch| !batch.undone && batch.confirms.contains(&fact);
        self.stands(fact) && (!doubted(self.facts[fact].weight) || self.batches.iter().any(confirms))
    }

    /// Weights that count and how many are set aside, variety by variety.
    fn evidence(&self) -> BTreeMap<usize, (Vec<u8>, u64)> {
        let mut all: BTreeMap<usize, (Vec<u8>, u64)> = BTreeMap::new();
        for fact in (0..self.facts.len()).filter(|fact| self.stands(*fact)) {
            let of = all.entry(self.facts[fact].variety).or_default();
            match self.counts(fact) {
                true => of.0.push(self.facts[fact].weight),
                false => of.1 += 1,
            }
        }
        all
    }

    fn resting_on(&self, batch: usize) -> BTreeSet<usize> {
        let mut found = BTreeSet::from([batch]);
        for (later, held) in self.batches.iter().enumerate() {
            if !held.undone && held.rests_on.iter().any(|on| found.contains(on)) {
                found.insert(later);
            }
        }
        found.remove(&batch);
        found
    }

    fn take(&mut self, file: usize, rows: &[(usize, u8)]) -> u64 {
        let earlier: BTreeSet<usize> = (0..self.batches.len())
            .filter(|batch| self.batches[*batch].file == Some(file) && !self.batches[*batch].undone)
            .collect();
        let mut left: Vec<(usize, u8)> = self
            .facts
            .iter()
            .filter(|fact| earlier.contains(&fact.batch))
            .map(|fact| (fact.variety, fact.weight))
            .collect();
        let batch = self.batches.len();
        let mut taken = Batch { file: Some(file), ..Batch::default() };
        let mut added = 0;
        for row in rows {
            match left.iter().position(|one| one == row) {
                Some(place) => {
                    left.swap_remove(place);
                    taken.rests_on.extend(&earlier);
                }
                None => {
                    self.facts.push(Fact { batch, variety: row.0, weight: row.1 });
                    taken.rests_on.insert(0);
                    added += 1;
                }
            }
        }
        self.batches.push(taken);
        added
    }

    fn undo(&mut self, batch: usize, resting: Resting) -> bool {
        let by = self.resting_on(batch);
        if self.batches[batch].undone || (resting == Resting::Refuse && !by.is_empty()) {
            return false;
        }
        by.into_iter().chain([batch]).for_each(|batch| self.batches[batch].undone = true);
        true
    }

    fn restore(&mut self, batch: usize) -> bool {
        let held = &self.batches[batch];
        let ground = held.rests_on.iter().all(|on| !self.batches[*on].undone);
        let later = self.batches.iter().skip(batch + 1);
        let again = held.file.is_some() && later.clone().any(|one| one.file == held.file && !one.undone);
        let others = self.batches.iter().filter(|one| !one.undone);
        let ended = others.flat_map(|one| &one.ends).any(|fact| held.ends.contains(fact));
        let comes_back = held.undone && ground && !again && !ended;
        self.batches[batch].undone &= !comes_back;
        comes_back
    }

    fn by_hand(&mut self, batch: Batch) {
        self.batches.push(batch);
    }
}

/// The ledger beside its model.
struct Life {
    ledger: Ledger,
    model: Model,
    varieties: Vec<Id<Variety>>,
    ids: Vec<Id<Note>>,
    known: HashMap<(usize, EvidenceStamp), (Vec<u8>, u64)>,
    second: i64,
}

impl Life {
    fn new(location: &Location) -> Self {
        let mut ledger = Ledger::open(location).unwrap();
        let varieties = add_varieties(&mut ledger, &NAMES);
        let model = Model { batches: vec![Batch::default()], facts: Vec::new() };
        Self { ledger, model, varieties, ids: Vec::new(), known: HashMap::new(), second: 0 }
    }

    /// Does it to both; what one refuses the other must refuse.
    fn does(&mut self, deed: &Deed) -> Result<(), TestCaseError> {
        self.second += 1;
        let facts = self.model.facts.len();
        match deed {
            Deed::Take { file, rows } => self.takes(*file, rows)?,
            Deed::Undo { batch, resting } => self.undoes(*batch, *resting)?,
            Deed::Restore { batch } => {
                let batch = batch % self.model.batches.len();
                let done = self.ledger.restore(number(batch), &act(self.second));
                prop_assert_eq!(done.is_ok(), self.model.restore(batch), "{:?}", done);
            }
            Deed::Withdraw { fact } if facts > 0 => self.withdraws(fact % facts)?,
            Deed::Confirm { fact } if facts > 0 => self.confirms(fact % facts)?,
            Deed::Correct { fact, variety, weight } if facts > 0 => {
                self.corrects(fact % facts, *variety, *weight)?;
            }
            Deed::Withdraw { .. } | Deed::Confirm { .. } | Deed::Correct { .. } => {}
        }
        self.agrees()
    }

    fn takes(&mut self, file: usize, rows: &[(usize, u8)]) -> Result<(), TestCaseError> {
        // No version of a file is like another.
        let version = u8::try_from(self.model.batches.len()).unwrap();
        let from = source(BatchKind::FruitSamples, ["f.csv", "g.csv"][file], 9 + version);
        let mut writer = self.ledger.begin_batch(&from).unwrap();
        for (row, (variety, weight)) in (2..).zip(rows) {
            let doubts = if doubted(*weight) { vec![doubt()] } else { vec![] };
            let note = Note::Fruit(fruit(self.varieties[*variety], f64::from(*weight)));
            if self.model.batches[0].undone {
                prop_assert!(writer.add_note(row, &note, &doubts).is_err());
            } else {
                writer.add_note(row, &note, &doubts).unwrap();
            }
        }
        let summary = writer.commit().unwrap();
        let rows = if self.model.batches[0].undone { &[] } else { rows };
        prop_assert_eq!(summary.added.fruit_samples, self.model.take(file, rows));
        let read = self.ledger.records_in(summary.batch).unwrap();
        self.ids.extend(read.iter().map(|recorded| recorded.id));
        Ok(())
    }

    fn undoes(&mut self, batch: usize, resting: Resting) -> Result<(), TestCaseError> {
        let batch = batch % self.model.batches.len();
        let done = self.ledger.undo(number(batch), &act(self.second), resting);
        prop_assert_eq!(done.is_ok(), self.model.undo(batch, resting), "{:?}", done);
        Ok(())
    }

    fn withdraws(&mut self, fact: usize) -> Result<(), TestCaseError> {
        let done = self.ledger.withdraw(&act(self.second), &[self.ids[fact]]);
        prop_assert_eq!(done.is_ok(), self.model.stands(fact), "{:?}", done);
        if done.is_ok() {
            self.model.by_hand(Batch { ends: vec![fact], ..Batch::default() });
        }
        Ok(())
    }

    fn confirms(&mut self, fact: usize) -> Result<(), TestCaseError> {
        let done = self.ledger.confirm(&act(self.second), &[self.ids[fact]]);
        prop_assert_eq!(done.is_ok(), self.model.stands(fact), "{:?}", done);
        if done.is_ok() {
            self.model.by_hand(Batch { confirms: vec![fact], ..Batch::default() });
        }
        Ok(())
    }

    fn corrects(&mut self, fact: usize, variety: usize, weight: u8) -> Result<(), TestCaseError> {
        let doubts = if doubted(weight) { vec![doubt()] } else { vec![] };
        let note = Note::Fruit(fruit(self.varieties[variety], f64::from(weight)));
        let done = self.ledger.correct(&act(self.second), self.ids[fact], &note, &doubts);
        prop_assert_eq!(done.is_ok(), self.model.stands(fact), "{:?}", done);
        if let Ok(corrected) = done {
            let batch = self.model.batches.len();
            let rests_on = BTreeSet::from([0, self.model.facts[fact].batch]);
            self.model.facts.push(Fact { batch, variety, weight });
            self.model.by_hand(Batch { ends: vec![fact], rests_on, ..Batch::default() });
            self.ids.push(corrected.id);
        }
        Ok(())
    }

    /// The same evidence counts in both, and one stamp never stands for two evidences.
    fn agrees(&mut self) -> Result<(), TestCaseError> {
        let mut seen = BTreeMap::new();
        let varieties = self.varieties.clone();
        let place = |id| varieties.iter().position(|variety| *variety == id).unwrap();
        self.ledger
            .fruit_by_variety(Whose::Everyones, &mut |gathered| {
                let weights =
                    gathered.records.iter().map(|fruit| fruit.weight.unwrap().get() as u8).collect();
                seen.insert(place(gathered.variety), (weights, gathered.set_aside));
                ControlFlow::Continue(())
            })
            .unwrap();
        prop_assert_eq!(&seen, &self.model.evidence());
        for of in self.ledger.evidence_stamps().unwrap() {
            let variety = place(of.variety);
            let evidence = seen.get(&variety).cloned().unwrap_or_default();
            let amount = u64::try_from(evidence.0.len()).unwrap() + evidence.1;
            prop_assert_eq!((of.amount.fruit_samples, of.amount.set_aside), (amount, evidence.1));
            let known = self.known.entry((variety, of.stamp)).or_insert_with(|| evidence.clone());
            prop_assert_eq!(&*known, &evidence);
        }
        Ok(())
    }
}

fn number(batch: usize) -> BatchNumber {
    BatchNumber(u32::try_from(batch).unwrap() + 1)
}

fn lives(cases: u32, location: impl Fn() -> Location) {
    let mut runner = TestRunner::new(Config { cases, failure_persistence: None, ..Config::default() });
    runner
        .run(&prop::collection::vec(deed(), 1..24), |deeds| {
            let mut life = Life::new(&location());
            deeds.iter().try_for_each(|deed| life.does(deed))?;
            is_sound(&mut life.ledger);
            Ok(())
        })
        .unwrap();
}

#[test]
fn a_ledger_in_a_file_lives_as_its_model_does() {
    let folders = std::cell::RefCell::new(Vec::new());
    lives(64, || {
        let folder = TempDir::new().unwrap();
        let location = new_file(&folder);
        folders.borrow_mut().push(folder);
        location
    });
}

#[test]
fn a_ledger_on_a_server_lives_as_its_model_does() {
    if new_schema().is_none() {
        return println!("left out: PostgreSQL");
    }
    lives(16, || new_schema().unwrap());
}
