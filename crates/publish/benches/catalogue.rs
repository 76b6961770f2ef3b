//! How long a catalogue takes. Issue 2 asks for 130 varieties in 3 s, issue 3 for 1,000 in 10 s.

#[path = "../tests/sample_house/mod.rs"]
mod sample_house;

use publish::catalogue::{Paper, catalogue};

fn main() {
    divan::main();
}

#[divan::bench(args = [130, 1_000], sample_count = 5, sample_size = 1)]
fn print(bencher: divan::Bencher<'_, '_>, varieties: usize) {
    bencher.with_inputs(|| sample_house::house(varieties)).bench_refs(|house| catalogue(house, Paper::A4));
}
