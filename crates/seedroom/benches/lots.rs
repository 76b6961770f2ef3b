//! How long a seed room takes: 10,000 lots of 20 tests judged again, and one lot's forecast.

#![expect(clippy::unwrap_used, reason = "a bench that cannot begin has nothing to measure")]

use divan::counter::ItemsCount;
use record::days::Days;
use record::germination::{Replicate, Seedlings};
use record::share::Share;
use seedroom::germination::TOMATO_STANDARD;
use seedroom::germination::judge::judge_all;
use seedroom::viability::belief::USUAL;
use seedroom::viability::decline::DatedTest;
use seedroom::viability::keeping::keeping;

const LOTS: u32 = 10_000;
const TESTS: u32 = 20;

fn main() {
    divan::main();
}

/// Four replicates of 100, spread over what lots show as they age.
fn test(number: u32) -> [Replicate; 4] {
    [0, 3, 1, 4].map(|shift| {
        let normal = 55 + (number * 7 + shift * 2) % 44;
        let seedlings = Seedlings { normal, abnormal: 1, hard: 0, dead: 99 - normal };
        Replicate::new(100, seedlings, Some(normal / 2)).unwrap()
    })
}

#[divan::bench(sample_count = 10)]
fn lots_judged_again(bench: divan::Bencher<'_, '_>) {
    let tests: Vec<[Replicate; 4]> = (0..LOTS * TESTS).map(test).collect();
    let tests: Vec<&[Replicate]> = tests.iter().map(|test| test.as_slice()).collect();
    let lots = ItemsCount::new(LOTS);
    bench.counter(lots).bench_local(|| judge_all(&tests, TOMATO_STANDARD).into_iter().flatten().count());
}

#[divan::bench(sample_count = 10)]
fn one_lot_forecast(bench: divan::Bencher<'_, '_>) {
    let days = |count| Days::new(count).unwrap();
    let test = |kept, normal| DatedTest { kept: days(kept), normal, sown: 400 };
    let tests = [test(30.0, 380), test(400.0, 368), test(760.0, 340)];
    let minimum = Share::new(0.75).unwrap();
    bench.bench_local(|| keeping(&tests, &USUAL, minimum, days(900.0)));
}
