//! How long drawings take: a portrait has 100 microseconds.

use drawing::bench::{Bench, BenchEntry, bench};
use drawing::look::FruitLook;
use drawing::portrait::portrait;
use drawing::scale::{Pixels, Scale};
use record::colour::{ColourSeen, Pattern, TradeColour};
use record::language::Units;
use record::length::Millimetres;
use record::share::Share;

fn main() {
    divan::main();
}

fn look(width: f64, locules: u32) -> FruitLook {
    FruitLook {
        length: Millimetres::new(width * 0.8),
        width: Millimetres::new(width),
        locules: Some(locules),
        lobes: Some(locules),
        gel: Share::new(0.3),
        exterior: Some(ColourSeen::Word(TradeColour::Red)),
        pattern: Some(Pattern::Striped),
        ..FruitLook::named("Candle Hill")
    }
}

#[divan::bench]
fn portrait_of_a_cherry(bencher: divan::Bencher) {
    let look = look(26.0, 2);
    bencher.bench(|| portrait(divan::black_box(&look), Scale::LIFE_SIZE, Units::US));
}

#[divan::bench]
fn portrait_of_a_striped_ribbed_beefsteak(bencher: divan::Bencher) {
    let look = look(130.0, 14);
    bencher.bench(|| portrait(divan::black_box(&look), Scale::LIFE_SIZE, Units::US));
}

#[divan::bench]
fn portrait_of_a_plain_slicer(bencher: divan::Bencher) {
    let look = FruitLook { pattern: None, lobes: None, gel: None, ..look(74.0, 5) };
    bencher.bench(|| portrait(divan::black_box(&look), Scale::LIFE_SIZE, Units::US));
}

/// The dearest fruit of each size from 5 g to 900 g: striped, ribbed, cut, with its gel measured.
#[divan::bench(args = [5, 15, 60, 180, 400, 900])]
fn portrait_of_every_size(bencher: divan::Bencher, grams: u32) {
    // Weight = 1.06e-3 x pi/6 x width squared x length, with length 0.8 of the width.
    let width = (f64::from(grams) * 6.0 / (std::f64::consts::PI * 1.06e-3 * 0.8)).cbrt();
    let look = look(
        width,
        [(5, 2), (15, 2), (60, 3), (180, 5), (400, 9), (900, 16)]
            .into_iter()
            .find(|(of, _)| *of == grams)
            .map_or(2, |(_, locules)| locules),
    );
    bencher.bench(|| portrait(divan::black_box(&look), Scale::LIFE_SIZE, Units::US));
}

#[divan::bench]
fn bench_of_130(bencher: divan::Bencher) {
    let entry = |index: usize| BenchEntry {
        look: look(20.0 + index as f64 * 0.8, 2 + (index / 10) as u32),
        column: Some(index / 13),
        row: Some(index % 3),
        certainty: Share::new(0.9),
        contested: false,
        link: None,
    };
    let names = |count: usize| (0..count).map(|index| format!("Name {index}")).collect::<Vec<_>>();
    let whole = Bench {
        title: "130 varieties".into(),
        columns: names(10),
        rows: names(3),
        entries: (0..130).map(entry).collect(),
        units: Units::US,
    };
    bencher.bench(|| bench(divan::black_box(&whole), Pixels::from(1280)));
}
