//! A large, a middling and many small trials, timed, for setting beside another program in the same sitting.
//!
//! `LOCULE_BENCH_TRIAL=VARIETIESxSITESxREPLICATES` picks one large trial and `LOCULE_BENCH_TRIAL=small` a thousand fits
//! of 72 plots (else all run); `LOCULE_BENCH_TABLES` names a folder to write the plots to.
//! `benches/mixed/compare.sh` does both and runs lme4 on the same tables.

#![expect(
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a bench that cannot be set up should stop, and prints"
)]

use statistics::draws::{normal, stream};
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::{Going, Model, fit};
use statistics::nested::Likelihood;
use std::fmt::Write;
use std::time::Instant;

/// True variances that the plots are drawn with.
const VARIETY: f64 = 9.0;
const VARIETY_AT_SITE: f64 = 4.0;
const BLOCK: f64 = 2.25;
const SITE: f64 = 36.0;
const RESIDUAL: f64 = 16.0;
/// Plots in a block.
const BLOCK_SIZE: usize = 40;

struct Plots {
    name: String,
    yields: Vec<f64>,
    variety: Vec<usize>,
    site: Vec<usize>,
    block: Vec<usize>,
    counts: [usize; 3],
}

/// Every variety once a replicate and site, blocks of forty running over varieties in an order that changes.
fn plots(varieties: usize, sites: usize, replicates: usize) -> Plots {
    let name = format!("{varieties}x{sites}x{replicates}");
    let mut chance = stream(&["bench", "large trials", &name]);
    let mut effects = |count: usize, variance: f64| -> Vec<f64> {
        (0..count).map(|_| variance.sqrt() * normal(&mut chance)).collect()
    };
    let blocks = varieties.div_ceil(BLOCK_SIZE);
    let of_variety = effects(varieties, VARIETY);
    let of_site = effects(sites, SITE);
    let of_both = effects(varieties * sites, VARIETY_AT_SITE);
    let of_block = effects(sites * replicates * blocks, BLOCK);
    let noise = effects(varieties * sites * replicates, RESIDUAL);
    let counts = [varieties, sites, of_block.len()];
    let mut plots = Plots { name, yields: vec![], variety: vec![], site: vec![], block: vec![], counts };
    for site in 0..sites {
        for replicate in 0..replicates {
            let mut order: Vec<usize> = (0..varieties).collect();
            let keys = normal_keys(&plots.name, site, replicate, varieties);
            order.sort_by(|a, b| keys[*a].total_cmp(&keys[*b]));
            for (place, variety) in order.into_iter().enumerate() {
                let block = (site * replicates + replicate) * blocks + place / BLOCK_SIZE;
                let random =
                    of_variety[variety] + of_site[site] + of_both[variety * sites + site] + of_block[block];
                plots.yields.push(100.0 + random + noise[plots.yields.len()]);
                plots.variety.push(variety);
                plots.site.push(site);
                plots.block.push(block);
            }
        }
    }
    plots
}

fn normal_keys(name: &str, site: usize, replicate: usize, count: usize) -> Vec<f64> {
    let mut chance = stream(&["bench", "order", name, &format!("{site} {replicate}")]);
    (0..count).map(|_| normal(&mut chance)).collect()
}

fn factor(name: &str, letter: char, count: usize, codes: &[usize]) -> Factor {
    let levels = (0..count).map(|level| format!("{letter}{level}")).collect();
    Factor::from_codes(name, levels, codes.to_vec()).expect("levels for every code")
}

fn table(plots: &Plots) -> String {
    let mut text = "yield,variety,site,block\n".to_owned();
    for at in 0..plots.yields.len() {
        let (variety, site, block) = (plots.variety[at], plots.site[at], plots.block[at]);
        writeln!(text, "{},v{variety},s{site},b{block}", plots.yields[at]).expect("room for a line");
    }
    text
}

fn run(varieties: usize, sites: usize, replicates: usize) {
    let plots = plots(varieties, sites, replicates);
    if let Some(folder) = std::env::var_os("LOCULE_BENCH_TABLES") {
        let path = std::path::Path::new(&folder).join(format!("{}.csv", plots.name));
        std::fs::write(path, table(&plots)).expect("a folder to write in");
    }
    let began = Instant::now();
    let variety = factor("variety", 'v', plots.counts[0], &plots.variety);
    let site = factor("site", 's', plots.counts[1], &plots.site);
    let block = factor("block", 'b', plots.counts[2], &plots.block);
    let random = vec![
        Random::of([(&variety).into()]),
        Random::of([(&variety).into(), (&site).into()]),
        Random::of([(&block).into()]),
        Random::of([(&site).into()]),
    ];
    let model = Model::new(plots.yields.clone(), vec![Fixed::intercept()], random);
    let verbose = std::env::var_os("LOCULE_BENCH_STEPS").is_some();
    let mut watch = |progress: &statistics::mixed::Progress| {
        if verbose {
            println!("  {:.3} s {progress:?}", began.elapsed().as_secs_f64());
        }
        Going::On
    };
    let fit = fit(&model, Likelihood::Restricted, &mut watch).expect("a fit");
    let seconds = began.elapsed().as_secs_f64();
    println!("{} plots: {seconds:.3} s, criterion {:.6}", plots.yields.len(), fit.criterion);
    for named in fit.components.iter().chain(&fit.residual) {
        println!("  {}: {:.7}", named.name, named.component.variance);
    }
    println!("  evaluations: {}", fit.history.last().map_or(0, |last| last.evaluations));
}

/// Twenty-four varieties in three replicates of six blocks of four.
fn small_plots() -> Plots {
    let mut chance = stream(&["bench", "small trial"]);
    let mut plots = Plots {
        name: "small".to_owned(),
        yields: vec![],
        variety: vec![],
        site: vec![],
        block: vec![],
        counts: [24, 3, 18],
    };
    for plot in 0..72 {
        let (replicate, place) = (plot / 24, plot % 24);
        plots.variety.push((place % 4) * 6 + (place / 4 + replicate * (place % 4)) % 6);
        plots.site.push(replicate);
        plots.block.push(plot / 4);
    }
    let varieties: Vec<f64> = (0..24).map(|_| 0.38 * normal(&mut chance)).collect();
    let blocks: Vec<f64> = (0..18).map(|_| 0.25 * normal(&mut chance)).collect();
    for plot in 0..72 {
        let random = varieties[plots.variety[plot]] + blocks[plots.block[plot]];
        plots.yields.push(4.5 + random + 0.29 * normal(&mut chance));
    }
    plots
}

/// How many small fits are timed.
const SMALL_FITS: u32 = 1_000;

fn run_small() {
    let plots = small_plots();
    if let Some(folder) = std::env::var_os("LOCULE_BENCH_TABLES") {
        let path = std::path::Path::new(&folder).join("small.csv");
        std::fs::write(path, table(&plots)).expect("a folder to write in");
    }
    let variety = factor("variety", 'v', 24, &plots.variety);
    let replicate = factor("site", 's', 3, &plots.site);
    let block = factor("block", 'b', 18, &plots.block);
    let by_replicate = Fixed::of([(&replicate).into()]);
    let of_block = Random::of([(&block).into()]);
    let fixed = vec![Fixed::intercept(), Fixed::of([(&variety).into()]), by_replicate.clone()];
    let varieties_fixed = Model::new(plots.yields.clone(), fixed, vec![of_block.clone()]);
    let random = vec![Random::of([(&variety).into()]), of_block];
    let varieties_random = Model::new(plots.yields.clone(), vec![Fixed::intercept(), by_replicate], random);
    for (name, model) in [("varieties fixed", &varieties_fixed), ("varieties random", &varieties_random)] {
        let began = Instant::now();
        let mut last = None;
        for _ in 0..SMALL_FITS {
            last = fit(model, Likelihood::Restricted, &mut |_| Going::On).ok();
        }
        let each = began.elapsed().as_secs_f64() * 1e3 / f64::from(SMALL_FITS);
        let last = last.expect("a fit");
        let evaluations = last.history.last().map_or(0, |last| last.evaluations);
        println!(
            "72 plots, {name}: {each:.4} ms a fit, {evaluations} evaluations, criterion {:.6}",
            last.criterion
        );
    }
}

fn main() {
    let wish = std::env::var("LOCULE_BENCH_TRIAL").unwrap_or_default();
    let sizes: Vec<usize> = wish.split('x').filter_map(|part| part.parse().ok()).collect();
    match sizes.as_slice() {
        [varieties, sites, replicates] => run(*varieties, *sites, *replicates),
        _ if wish == "small" => run_small(),
        _ => {
            run_small();
            [(200, 6, 3), (2_000, 10, 2)].iter().for_each(|(v, s, r)| run(*v, *s, *r));
        }
    }
}
