//! A house of any size made of a small one: its varieties many times over, under other names.

use house::folder::{self, House};
use jiff::Timestamp;
use ledger::batch::{Act, BatchKind, Source};
use ledger::calls::StoredCall;
use ledger::ledger::Ledger;
use ledger::writer::NewVariety;
use record::id::Id;
use record::variety::Variety;
use std::collections::HashMap;
use std::path::Path;

/// Calls that are kept at once.
const AT_ONCE: usize = 3_000;

pub(crate) fn many_times_over(small: &Path, folder: &Path, varieties: usize) -> House {
    let small = folder::find(Some(small), small).unwrap();
    let mut from = Ledger::open(&small.ledger_location()).unwrap();
    let act = Act { who: "the bench".to_owned(), at: Timestamp::UNIX_EPOCH, why: None };
    let house = folder::create(folder, &small.settings, &act).unwrap();
    let mut into = Ledger::open(&house.ledger_location()).unwrap();
    let models = from.varieties().unwrap();
    let made = add(&mut into, &models, varieties);
    let mut calls: HashMap<Id<Variety>, Vec<StoredCall>> = HashMap::new();
    for call in from.calls().unwrap() {
        calls.entry(call.variety).or_default().push(call);
    }
    let all = made.iter().zip(models.iter().cycle());
    let mut waiting = Vec::new();
    for (variety, model) in all {
        let own = calls.get(&model.id).into_iter().flatten();
        waiting.extend(own.map(|call| StoredCall { variety: *variety, ..call.clone() }));
        if AT_ONCE < waiting.len() {
            into.keep_calls(&std::mem::take(&mut waiting)).unwrap();
        }
    }
    into.keep_calls(&waiting).unwrap();
    house
}

fn add(into: &mut Ledger, models: &[Variety], varieties: usize) -> Vec<Id<Variety>> {
    let source = Source {
        who: "the bench".to_owned(),
        at: Timestamp::UNIX_EPOCH,
        kind: BatchKind::Varieties,
        file_name: Some("varieties.csv".to_owned()),
        sheet: None,
        sha256: None,
        headings: Vec::new(),
        reading: None,
        why: None,
    };
    let mut writer = into.begin_batch(&source).unwrap();
    let made = (0..varieties).zip(models.iter().cycle()).map(|(place, model)| {
        let new = NewVariety {
            name: name(models, place),
            aliases: vec![format!("T{place}")],
            claims: model.claims.clone(),
        };
        writer.add_variety(place as u64 + 2, &new).unwrap().id
    });
    let made = made.collect();
    writer.commit().unwrap();
    made
}

/// The first word of one name and the last of another, and a number where all of these are used up.
fn name(models: &[Variety], place: usize) -> String {
    let word = |place: usize| models.get(place % models.len()).unwrap().name.split(' ');
    let (first, last) = (word(place).next().unwrap(), word(place / models.len()).next_back().unwrap());
    format!("{first} {last} {}", place / (models.len() * models.len()) + 1)
}
