//! The ground that tests stand on: an empty ledger on each server, and short ways to fill it.

use jiff::Timestamp;
use jiff::civil::Date;
use ledger::batch::{Act, BatchKind, BatchNumber, BatchSummary, Sha256, Source};
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use ledger::location::Location;
use ledger::writer::{NewGrowOut, NewPlot, NewVariety};
use record::doubt::{Doubt, DoubtKind};
use record::fruit::FruitSample;
use record::growout::Plot;
use record::id::Id;
use record::mass::Grams;
use record::note::Note;
use record::season::Season;
use record::subject::Subject;
use record::variety::Variety;
use std::num::NonZeroU32;
use std::ops::ControlFlow;
use std::sync::atomic::{AtomicU32, Ordering};
use tempfile::TempDir;

/// Runs a test on a new ledger of each server.
pub(crate) fn on_both(test: impl Fn(&Location)) {
    let folder = TempDir::new().unwrap();
    test(&new_file(&folder));
    on_postgres(test);
}

/// Runs a test on a new ledger of the server only.
pub(crate) fn on_postgres(test: impl Fn(&Location)) {
    match new_schema() {
        Some(location) => test(&location),
        None => println!("left out: PostgreSQL"),
    }
}

/// A new ledger in a file.
pub(crate) fn new_file(folder: &TempDir) -> Location {
    let location = Location::File(folder.path().join("ledger.db"));
    Ledger::create(&location).unwrap();
    location
}

/// A new ledger in a schema of its own, where a server is named.
pub(crate) fn new_schema() -> Option<Location> {
    let location = unused_schema()?;
    Ledger::create(&location).unwrap();
    Some(location)
}

/// A schema where no ledger stands, where a server is named.
pub(crate) fn unused_schema() -> Option<Location> {
    static NEXT: AtomicU32 = AtomicU32::new(1);
    let server = std::env::var("LOCULE_POSTGRES").ok().filter(|server| !server.is_empty())?;
    let schema = format!("t{}_{}", std::process::id(), NEXT.fetch_add(1, Ordering::Relaxed));
    let between = if server.contains('?') { '&' } else { '?' };
    Some(Location::Postgres(format!("{server}{between}schema={schema}")))
}

pub(crate) fn moment(second: i64) -> Timestamp {
    Timestamp::from_second(1_940_000_000 + second).unwrap()
}

pub(crate) fn act(second: i64) -> Act {
    Act { who: "Mara".to_owned(), at: moment(second), why: Some("looked again".to_owned()) }
}

/// A table of a file; its content is told by one number.
pub(crate) fn source(kind: BatchKind, file: &str, content: u8) -> Source {
    Source {
        who: "Ansel".to_owned(),
        at: moment(i64::from(content)),
        kind,
        file_name: Some(file.to_owned()),
        sheet: None,
        sha256: Some(Sha256([content; 32])),
        headings: vec!["variety".to_owned(), "wt (g)".to_owned()],
        reading: Some("columns = 2".to_owned()),
        why: None,
    }
}

pub(crate) fn new_variety(name: &str, aliases: &[&str]) -> NewVariety {
    NewVariety {
        name: name.to_owned(),
        aliases: aliases.iter().map(|alias| (*alias).to_owned()).collect(),
        claims: Vec::new(),
    }
}

/// Adds varieties in one batch.
pub(crate) fn add_varieties(ledger: &mut Ledger, names: &[&str]) -> Vec<Id<Variety>> {
    let mut writer = ledger.begin_batch(&source(BatchKind::Varieties, "varieties.csv", 1)).unwrap();
    let ids = names.iter().map(|name| writer.add_variety(2, &new_variety(name, &[])).unwrap().id).collect();
    writer.commit().unwrap();
    ids
}

/// Adds a grow-out with one plot a variety, labelled from 1, in one batch.
pub(crate) fn add_plots(ledger: &mut Ledger, varieties: &[Id<Variety>]) -> Vec<Id<Plot>> {
    let mut writer = ledger.begin_batch(&source(BatchKind::GrowOut, "plots.csv", 2)).unwrap();
    let home = NewGrowOut { name: "2031 Home".to_owned(), season: season(), garden: "Home".to_owned() };
    let grow_out = writer.add_grow_out(1, &home).unwrap().id;
    let plots = (1..).zip(varieties).map(|(label, variety)| {
        let plot = NewPlot {
            grow_out,
            label: label.to_string(),
            variety: *variety,
            block: Some(1),
            row: None,
            position: None,
            transplanted: None,
            plant_count: None,
            layout: record::growout::PlotLayout::default(),
        };
        writer.add_plot(label, &plot).unwrap().id
    });
    let plots = plots.collect();
    writer.commit().unwrap();
    plots
}

pub(crate) fn season() -> Season {
    Season::new(2031).unwrap()
}

pub(crate) fn day(month: i8, day: i8) -> Date {
    Date::constant(2031, month, day)
}

pub(crate) fn about(variety: Id<Variety>) -> Subject {
    Subject { variety, season: season(), plot: None, plant: None }
}

/// A fruit of which only the weight is known.
pub(crate) fn fruit(variety: Id<Variety>, grams: f64) -> FruitSample {
    FruitSample {
        subject: about(variety),
        sampled_on: Some(day(8, 14)),
        fruit_count: NonZeroU32::MIN,
        weight: Some(Grams::new(grams).unwrap()),
        length: None,
        width: None,
        neck_width: None,
        locules: None,
        soluble_solids: None,
        dry_matter: None,
        lobes: None,
        cracking: None,
        catfacing: None,
        exterior: None,
        flesh: None,
        skin: None,
    }
}

pub(crate) fn doubt() -> Doubt {
    Doubt { kind: DoubtKind::BeyondLimit, words: "900 g is no currant".to_owned() }
}

/// Takes fruits of these weights from a file.
pub(crate) fn take(
    ledger: &mut Ledger,
    source: &Source,
    variety: Id<Variety>,
    grams: &[f64],
) -> BatchSummary {
    let mut writer = ledger.begin_batch(source).unwrap();
    for (row, grams) in (2..).zip(grams) {
        writer.add_note(row, &Note::Fruit(fruit(variety, *grams)), &[]).unwrap();
    }
    writer.commit().unwrap()
}

/// Takes one doubted fruit from a file.
pub(crate) fn take_doubted(
    ledger: &mut Ledger,
    source: &Source,
    variety: Id<Variety>,
    grams: f64,
) -> (BatchNumber, Id<Note>) {
    let mut writer = ledger.begin_batch(source).unwrap();
    writer.add_note(2, &Note::Fruit(fruit(variety, grams)), &[doubt()]).unwrap();
    let batch = writer.commit().unwrap().batch;
    (batch, ledger.records_in(batch).unwrap()[0].id)
}

/// The weights that count for one variety, in the order they came in, and how many are set aside.
pub(crate) fn weights(ledger: &mut Ledger, variety: Id<Variety>) -> (Vec<f64>, u64) {
    let mut seen = (Vec::new(), 0);
    ledger
        .fruit_by_variety(Whose::Only(variety), &mut |gathered| {
            assert_eq!(gathered.variety, variety);
            seen.0 = gathered.records.iter().map(|fruit| fruit.weight.unwrap().get()).collect();
            seen.1 = gathered.set_aside;
            ControlFlow::Continue(())
        })
        .unwrap();
    seen
}

/// Fails where the ledger is not sound.
#[track_caller]
pub(crate) fn is_sound(ledger: &mut Ledger) {
    let verified = ledger.verify().unwrap();
    assert!(verified.is_sound(), "{verified:#?}");
}
