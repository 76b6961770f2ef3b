//! Trends in a bed, timed, for setting beside other programs in the same sitting.
//!
//! `LOCULE_BENCH_BED=ROWSxCOLUMNS` picks one bed (else 22x15 and 60x30); `LOCULE_BENCH_TABLES` names a folder to write
//! the plots to. `benches/mixed/beds.sh` does both and runs mgcv and nlme on the same tables.

#![expect(
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a bench that cannot be set up should stop, and prints"
)]

use statistics::draws::{normal, stream};
use statistics::mixed::terms::{Factor, Fixed, Random};
use statistics::mixed::{Going, Model};
use statistics::nested::Likelihood;
use statistics::spatial::bed::Bed;
use statistics::spatial::splines::Segments;
use statistics::spatial::{Nugget, Plane, Trend, Trial, fit};
use std::fmt::Write;
use std::time::Instant;

/// Plots of one variety.
const PLOTS_A_VARIETY: u32 = 3;

/// A bed with a smooth trend, uneven columns and plots that differ by chance.
fn bed(rows: u32, columns: u32) -> (Trial, String) {
    let name = format!("{rows}x{columns}");
    let mut chance = stream(&["bench", "beds", &name]);
    let count = (rows * columns) as usize;
    let varieties = (rows * columns / PLOTS_A_VARIETY) as usize;
    let worth: Vec<f64> = (0..varieties).map(|_| 0.5 * normal(&mut chance)).collect();
    let uneven: Vec<f64> = (0..columns).map(|_| 0.4 * normal(&mut chance)).collect();
    let mut keys: Vec<(f64, usize)> =
        (0..count).map(|plot| (normal(&mut chance), plot % varieties)).collect();
    keys.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut text = "yield,variety,row,column\n".to_owned();
    let (mut yields, mut codes, mut down, mut across) = (vec![], vec![], vec![], vec![]);
    for (plot, (_, variety)) in keys.iter().enumerate() {
        let (row, column) = (plot as u32 / columns, plot as u32 % columns);
        let (r, c) = (f64::from(row) / f64::from(rows), f64::from(column) / f64::from(columns));
        let ground =
            (5.0 * r).sin() + (3.0 * c).cos() * r + uneven.get(column as usize).copied().unwrap_or(0.0);
        let own = 5.0 + worth.get(*variety).copied().unwrap_or(0.0) + ground + 0.45 * normal(&mut chance);
        writeln!(text, "{own},v{variety},{},{}", row + 1, column + 1).expect("room for a line");
        yields.push(own);
        codes.push(*variety);
        down.push(row + 1);
        across.push(column + 1);
    }
    let levels = (0..varieties).map(|variety| format!("v{variety}")).collect();
    let variety = Factor::from_codes("variety", levels, codes).expect("levels for every code");
    let model = Model::new(yields, vec![Fixed::intercept()], vec![Random::of([(&variety).into()])]);
    let bed = Bed::new(down, across).expect("a bed");
    (Trial { model, bed, plane: Plane::LeftOut }, text)
}

fn run(rows: u32, columns: u32) {
    let (trial, text) = bed(rows, columns);
    if let Some(folder) = std::env::var_os("LOCULE_BENCH_TABLES") {
        let path = std::path::Path::new(&folder).join(format!("bed-{rows}x{columns}.csv"));
        std::fs::write(path, text).expect("a folder to write in");
    }
    let trends = [
        ("surface", Trend::Splines(Segments { rows: 10, columns: 8 })),
        ("neighbours", Trend::Autoregression(Nugget::LeftOut)),
        ("neighbours and nugget", Trend::Autoregression(Nugget::Estimated)),
    ];
    for (name, trend) in trends {
        let began = Instant::now();
        let found = fit(&trial, trend, Likelihood::Restricted, &mut |_| Going::On);
        let seconds = began.elapsed().as_secs_f64();
        match found {
            Err(fault) => println!("{rows} x {columns} plots, {name}: {seconds:.3} s, {fault}"),
            Ok(found) => {
                let evaluations = found.fit.history.last().map_or(0, |last| last.evaluations);
                let criterion = found.fit.criterion;
                println!(
                    "{rows} x {columns} plots, {name}: {seconds:.3} s, {evaluations} evaluations, criterion {criterion:.6}"
                );
            }
        }
    }
}

fn main() {
    let wish = std::env::var("LOCULE_BENCH_BED").unwrap_or_default();
    let sizes: Vec<u32> = wish.split('x').filter_map(|part| part.parse().ok()).collect();
    match sizes.as_slice() {
        [rows, columns] => run(*rows, *columns),
        _ => [(22, 15), (60, 30)].iter().for_each(|(rows, columns)| run(*rows, *columns)),
    }
}
