//! A photograph of 12 megapixels from its bytes to the measures of its fruit, on one core.

#![expect(clippy::unwrap_used, reason = "a picture that cannot be drawn may stop it")]

#[path = "../tests/made/mod.rs"]
mod made;

use made::{Scene, TrueFruit, drawn};
use photo::card::KNOWN;
use photo::code::Code;
use photo::decode::decode;
use photo::encode::jpeg;
use photo::measure::{Measured, Wishes, measure};
use photo::plane::Plane;
use record::length::Millimetres;
use std::collections::BTreeMap;

fn main() {
    divan::main();
}

/// Twelve fruit, drawn at a quarter of the pixels and made larger.
fn photograph() -> Vec<u8> {
    let fruit = (0..12_u32).map(|at| TrueFruit {
        middle: [30.0 + 42.0 * f64::from(at % 6), 165.0 + 50.0 * f64::from(at / 6)],
        length: 36.0 - f64::from(at),
        width: 24.0,
        turned: 31.0 * f64::from(at),
        skin: [0.42, 0.05, 0.03],
    });
    let small = drawn(&Scene {
        fruit: fruit.collect(),
        size: [2000, 1500],
        ..Scene::plain(Code { version: 1, tag: 7 })
    });
    let (width, height) = (2 * small.width(), 2 * small.height());
    let places =
        (0..width * height).map(|at| ((at % width / 2).cast_signed(), (at / width / 2).cast_signed()));
    let cells = places.map(|(x, y)| small.at(x, y)).collect();
    jpeg(&Plane::of_cells(width, height, cells).unwrap()).unwrap()
}

#[divan::bench(sample_count = 5)]
fn twelve_megapixels(bencher: divan::Bencher<'_, '_>) {
    let (bytes, stems) = (photograph(), BTreeMap::new());
    // For `benches/photo/peers.py`, which takes the steps of general libraries on the same picture.
    if let Some(file) = std::env::var_os("PHOTOGRAPH_TO") {
        std::fs::write(file, &bytes).unwrap();
    }
    let wishes = Wishes { cards: &KNOWN, line: Millimetres::new(70.0).unwrap(), stems: &stems, changes: &[] };
    let whole = || -> Measured { measure(&decode(&bytes).unwrap(), &wishes).unwrap() };
    assert_eq!(whole().fruit.len(), 12);
    bencher.bench_local(whole);
}
