//! How long a search for a layout takes: 400 plots, against a plain search that makes its sums anew.
//!
//! `cargo bench --profile release -p statistics --bench designs`. One trial of 100 treatments, 4 replicates, blocks of
//! 10. `whole_search` is a search as a house runs it; `kept` gives the time of so many judged exchanges, and
//! `plain_100_exchanges` that of a hundred, judged by one new inverse each.

#![expect(
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a bench that cannot be set up should stop, and says how good the design is that it found"
)]

use divan::{Bencher, black_box};
use statistics::design::differences::differences;
use statistics::design::efficiency::efficiency;
use statistics::design::search::{Effort, Ground, Weights, search};
use statistics::design::{Blocking, Design, Treatments};
use statistics::draws::stream;
use std::ops::ControlFlow;

fn main() {
    divan::main();
}

const TREATMENTS: usize = 100;
const PLOTS: usize = 400;

fn start() -> Design {
    let levels = |size: usize| (0..PLOTS).map(|plot| plot / size).collect::<Vec<usize>>();
    // Steps of 1, 11, 21 and 31 through 100 make the four replicates differ.
    let plots = (0..PLOTS).map(|plot| plot * (plot / TREATMENTS * 10 + 1) % TREATMENTS).collect();
    let blockings = vec![Blocking::fixed(levels(TREATMENTS)), Blocking::fixed(levels(10))];
    Design::new(TREATMENTS, plots, blockings).expect("a design")
}

fn searched(looks: u64) -> f64 {
    let start = start();
    let regions = start.blockings().first().expect("replicates").levels.clone();
    let neighbours: Vec<(usize, usize)> =
        (1..PLOTS).filter(|plot| plot % 20 != 0).map(|plot| (plot - 1, plot)).collect();
    let ground = Ground {
        start: &start,
        treatments: Treatments::Fixed,
        regions: &regions,
        pens: &regions,
        penned: &[],
        neighbours: &neighbours,
        zones: &[],
        weights: Weights::default(),
    };
    let effort = Effort { looks };
    let found = search(&ground, effort, &mut stream(&["bench"]), |_| ControlFlow::Continue(()));
    efficiency(&found.expect("a search").design).expect("an efficiency").average
}

/// A search as a house runs it.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn whole_search(bencher: Bencher<'_, '_>) {
    println!("average efficiency {}", searched(20_000_000));
    bencher.bench_local(|| searched(black_box(20_000_000)));
}

/// Exchanges judged by kept products, those that are made among them.
#[divan::bench(sample_count = 3, sample_size = 1, args = [100_000_u64, 2_000_000])]
fn kept(bencher: Bencher<'_, '_>, looks: u64) {
    bencher.bench_local(|| searched(black_box(looks)));
}

/// 100 exchanges judged by a new information matrix and its Cholesky inverse each.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn plain_100_exchanges(bencher: Bencher<'_, '_>) {
    let start = start();
    bencher.bench_local(|| {
        let mut plots = start.plots().to_vec();
        let mut sum = 0.0;
        for step in 0..100 {
            plots.swap(step, step + 50);
            let exchanged = start.with_plots(plots.clone()).expect("a design");
            sum += differences(&exchanged, Treatments::Random { ratio: 1000.0 })
                .expect("differences")
                .mean()
                .unwrap_or(0.0);
        }
        sum
    });
}
