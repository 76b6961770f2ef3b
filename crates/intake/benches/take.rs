//! How fast files are opened, recognised and taken. Run with `cargo bench -p intake`.

#![expect(clippy::unwrap_used, reason = "a bench that cannot be set up should stop")]

use divan::Bencher;
use divan::counter::ItemsCount;
use intake::file::{Content, open};
use intake::layout::Answers;
use intake::recognise::recognise;
use intake::roster::Roster;
use intake::take::take;
use jiff::civil::date;
use record::growout::{GrowOut, Plot};
use record::id::Id;
use record::season::Season;
use record::variety::Variety;
use std::fmt::Write;
use std::ops::ControlFlow;
use std::sync::Arc;
use uuid::Uuid;

fn main() {
    divan::main();
}

/// Rows of the bench's file.
const ROWS: u32 = 1_000_000;
/// Varieties of the bench's house, each on one plot.
const VARIETIES: u32 = 130;

/// A file of fruit samples with the plain columns that most houses keep.
fn samples() -> Arc<[u8]> {
    let mut text =
        String::from("variety,plot,plant,date,weight (g),length mm,width mm,neck mm,locules,brix,colour\n");
    for row in 0..ROWS {
        let at = row.wrapping_mul(2_654_435_761) % VARIETIES;
        let (length, width) = (40 + row % 30, 38 + row % 25);
        let weight = 0.000_555 * f64::from(length * width * width);
        let day = 1 + row % 28;
        let _ = writeln!(
            text,
            "Testing Row {at},P{at},{},2031-08-{day:02},{weight:.1},{length},{width},{},{},{}.{},red",
            1 + row % 6,
            width - 8,
            2 + row % 5,
            4 + row % 5,
            row % 10,
        );
    }
    text.into_bytes().into()
}

fn roster() -> Roster {
    let mut roster = Roster::new();
    let grow_out = Id::from_uuid(Uuid::from_u128(1));
    let season = Season::new(2031).unwrap();
    roster.add_grow_out(&GrowOut {
        id: grow_out,
        name: "2031 Home".to_owned(),
        season,
        garden: "Home".to_owned(),
    });
    for at in 0..VARIETIES {
        let id = Id::from_uuid(Uuid::from_u128(u128::from(at) + 1000));
        let name = format!("Testing Row {at}");
        roster.add_variety(&Variety { id, name, aliases: Vec::new(), claims: Vec::new() }, None);
        let plot = Plot {
            id: Id::from_uuid(Uuid::from_u128(u128::from(at) + 10_000)),
            grow_out,
            label: format!("P{at}"),
            variety: id,
            block: None,
            row: None,
            position: None,
            transplanted: Some(date(2031, 5, 20)),
            plant_count: None,
            layout: record::growout::PlotLayout::default(),
        };
        roster.add_plot(&plot);
    }
    roster
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn open_samples(bencher: Bencher) {
    let content = Content::Bytes(samples());
    bencher.counter(ItemsCount::new(ROWS)).bench(|| open("samples.csv", content.clone()).unwrap());
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn recognise_samples(bencher: Bencher) {
    let table = open("samples.csv", Content::Bytes(samples())).unwrap().remove(0);
    bencher.counter(ItemsCount::new(ROWS)).bench(|| recognise(&table, &[], &Answers::default()).unwrap());
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn take_samples(bencher: Bencher) {
    let table = open("samples.csv", Content::Bytes(samples())).unwrap().remove(0);
    let layout = recognise(&table, &[], &Answers::default()).unwrap();
    let roster = roster();
    bencher.counter(ItemsCount::new(ROWS)).bench(|| {
        let tally = take(&table, &layout, &roster, date(2032, 1, 1), &mut |taken| {
            divan::black_box(&taken);
            ControlFlow::Continue(())
        });
        let tally = tally.unwrap();
        assert_eq!((tally.entries, tally.rejected, tally.doubted), (u64::from(ROWS), 0, 0));
        tally
    });
}
