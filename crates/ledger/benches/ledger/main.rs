//! How fast a ledger takes a million fruit samples and gives them back.
//!
//! `import_ratio.sh` in this folder holds the taking against the sqlite3 shell, and tells the memory.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a bench may break off")]
#![expect(unreachable_pub, reason = "the module is shared with an example")]

mod invented;

use divan::counter::ItemsCount;
use divan::{Bencher, black_box};
use invented::{Planted, fruit, plant, source};
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use ledger::location::Location;
use record::fruit::FruitSample;
use record::note::Note;
use std::ops::ControlFlow;
use tempfile::TempDir;

const ROWS: u32 = 1_000_000;
const VARIETIES: u32 = 10_000;

fn main() {
    divan::main();
}

fn planted() -> (TempDir, Ledger, Vec<Planted>) {
    let folder = TempDir::new().unwrap();
    let mut ledger = Ledger::create(&Location::File(folder.path().join("ledger.db"))).unwrap();
    let planted = plant(&mut ledger, VARIETIES).unwrap();
    (folder, ledger, planted)
}

fn take(ledger: &mut Ledger, name: &str, notes: &[Note]) {
    let mut writer = ledger.begin_batch(&source(name)).unwrap();
    for (row, note) in (2..).zip(notes) {
        writer.add_note(row, note, &[]).unwrap();
    }
    writer.commit().unwrap();
}

fn notes(planted: &[Planted]) -> Vec<Note> {
    (0..ROWS).map(|row| Note::Fruit(fruit(planted, row))).collect()
}

/// One million rows into an empty ledger, durable at the end.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn take_a_million(bencher: Bencher<'_, '_>) {
    bencher
        .counter(ItemsCount::new(ROWS))
        .with_inputs(|| {
            let (folder, ledger, planted) = planted();
            (folder, ledger, notes(&planted))
        })
        .bench_local_values(|(folder, mut ledger, notes)| {
            take(&mut ledger, "f.csv", &notes);
            (folder, ledger, notes)
        });
}

/// The same million as a later version of the file: every row is there already.
#[divan::bench(sample_count = 2, sample_size = 1)]
fn take_a_million_again(bencher: Bencher<'_, '_>) {
    let (_folder, mut ledger, planted) = planted();
    let notes = notes(&planted);
    take(&mut ledger, "f.csv", &notes);
    bencher.counter(ItemsCount::new(ROWS)).bench_local(|| take(&mut ledger, "f.csv", &notes));
}

/// All evidence of a million fruits, variety by variety.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn read_a_million(bencher: Bencher<'_, '_>) {
    let (_folder, mut ledger, planted) = planted();
    take(&mut ledger, "f.csv", &notes(&planted));
    bencher.counter(ItemsCount::new(ROWS)).bench_local(|| {
        let mut grams = 0.0;
        ledger
            .fruit_by_variety(Whose::Everyones, &mut |gathered| {
                grams += gathered
                    .records
                    .iter()
                    .filter_map(|fruit: &FruitSample| fruit.weight)
                    .map(|w| w.get())
                    .sum::<f64>();
                ControlFlow::Continue(())
            })
            .unwrap();
        black_box(grams)
    });
}

/// The stamps of ten thousand varieties.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn stamp_ten_thousand(bencher: Bencher<'_, '_>) {
    let (_folder, mut ledger, planted) = planted();
    take(&mut ledger, "f.csv", &notes(&planted));
    bencher.bench_local(|| black_box(ledger.evidence_stamps().unwrap()));
}

/// One variety's records with all that happened to them.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn records_of_one_in_a_million(bencher: Bencher<'_, '_>) {
    let (_folder, mut ledger, planted) = planted();
    take(&mut ledger, "f.csv", &notes(&planted));
    let mut varieties = planted.iter().cycle();
    bencher.bench_local(|| black_box(ledger.records_of(varieties.next().unwrap().0).unwrap()));
}

/// Verifying a ledger of a million fruits.
#[divan::bench(sample_count = 1, sample_size = 1)]
fn verify_a_million(bencher: Bencher<'_, '_>) {
    let (_folder, mut ledger, planted) = planted();
    take(&mut ledger, "f.csv", &notes(&planted));
    bencher.bench_local(|| assert!(ledger.verify().unwrap().is_sound()));
}
