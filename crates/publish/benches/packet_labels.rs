//! How long packet labels take. Issue 6 asks for 5,000 labels in 5 s.

#[path = "../tests/sample_labels/mod.rs"]
mod sample_labels;

use publish::packet_labels::packet_labels;

fn main() {
    divan::main();
}

/// Fifty lots of a hundred packets each, on sheets of ten labels.
#[divan::bench(args = [(50, 100)], sample_count = 3, sample_size = 1)]
fn print(bencher: divan::Bencher<'_, '_>, (lots, packets): (usize, u32)) {
    bencher
        .with_inputs(|| sample_labels::labels(lots, packets))
        .bench_refs(|labels| packet_labels(labels, &sample_labels::sheet()));
}
