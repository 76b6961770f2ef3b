//! How long the mixed models take: a house of 10,000 varieties, a 72-plot trial, a long nested table.
//!
//! `cargo bench --profile release -p statistics`; `nested_vs_lme4.R` times lme4 on the same two tables, written
//! by this bench to the path in `LOCULE_BENCH_TABLES` if that is set.

#![expect(clippy::expect_used, reason = "a bench that cannot be set up should stop")]

use divan::{Bencher, black_box};
use statistics::draws::{NormalPoints, normal, stream};
use statistics::nested::{Groups, Likelihood, Model};
use statistics::variety_means::{PlantSums, Priors, Variances, variety_mean};

fn main() {
    if let Some(folder) = std::env::var_os("LOCULE_BENCH_TABLES") {
        for (name, table) in [("plots_72.csv", plots_72()), ("rows_20000.csv", rows_20000())] {
            std::fs::write(std::path::Path::new(&folder).join(name), table.text())
                .expect("a folder to write in");
        }
    }
    divan::main();
}

/// A nested table: response, treatment, outer and inner groups.
struct Table {
    response: Vec<f64>,
    treatment: Vec<usize>,
    outer: Vec<usize>,
    inner: Vec<usize>,
}

impl Table {
    /// `outers` groups of `inners` plots of `rows` rows, treatments going round.
    fn simulated(outers: usize, inners: usize, rows: usize, treatments: usize) -> Self {
        let mut chance = stream(&["bench", "nested table"]);
        let mut table = Self { response: vec![], treatment: vec![], outer: vec![], inner: vec![] };
        for outer in 0..outers {
            let of_outer = 14.0 * normal(&mut chance);
            for inner in 0..inners {
                let of_inner = of_outer + 10.0 * normal(&mut chance);
                for row in 0..rows {
                    let treatment = (inner + row) % treatments;
                    table.treatment.push(treatment);
                    table.outer.push(outer);
                    table.inner.push(inner);
                    table.response.push(100.0 + treatment as f64 + of_inner + 13.0 * normal(&mut chance));
                }
            }
        }
        table
    }

    fn columns(&self, treatments: usize) -> Vec<Vec<f64>> {
        let indicator =
            |at: usize| self.treatment.iter().map(|own| f64::from(u8::from(*own == at))).collect();
        (0..treatments).map(indicator).collect()
    }

    fn text(&self) -> String {
        let rows = self.response.iter().zip(&self.treatment).zip(self.outer.iter().zip(&self.inner));
        let line = |((y, t), (outer, inner)): ((&f64, &usize), (&usize, &usize))| {
            format!("{y},t{t},o{outer},i{inner}\n")
        };
        "y,treatment,outer,inner\n".to_owned() + &rows.map(line).collect::<String>()
    }

    fn fit(&self, columns: &[Vec<f64>]) -> f64 {
        let groups = Groups::InnerInOuter { outer: &self.outer, inner: &self.inner };
        let model = Model { response: &self.response, columns, groups };
        statistics::nested::fit(&model, Likelihood::Restricted).expect("a fit").criterion
    }
}

/// 6 blocks of 3 plots of 4 rows, 4 treatments.
fn plots_72() -> Table {
    Table::simulated(6, 3, 4, 4)
}

/// 200 groups of 10 plots of 10 rows, 4 treatments.
fn rows_20000() -> Table {
    Table::simulated(200, 10, 10, 4)
}

#[divan::bench]
fn nested_72_plots(bencher: Bencher<'_, '_>) {
    let table = plots_72();
    let columns = table.columns(4);
    bencher.bench_local(|| black_box(table.fit(&columns)));
}

#[divan::bench(sample_count = 20)]
fn nested_20000_rows(bencher: Bencher<'_, '_>) {
    let table = rows_20000();
    let columns = table.columns(4);
    bencher.bench_local(|| black_box(table.fit(&columns)));
}

/// 10,000 varieties of 2 seasons of 5 plants of 10 fruits: a million fruits on 100,000 plants.
fn house() -> Vec<Vec<PlantSums>> {
    let mut chance = stream(&["bench", "house"]);
    let mut variety = || {
        let mut plants = Vec::with_capacity(10);
        for season in 0..2 {
            let of_season = 4.0 + 0.27 * normal(&mut chance);
            for _ in 0..5 {
                let of_plant = of_season + 0.22 * normal(&mut chance);
                let mut sums = PlantSums::empty(season);
                (0..10).for_each(|_| sums.add(of_plant + 0.31 * normal(&mut chance)));
                plants.push(sums);
            }
        }
        plants
    };
    (0..10_000).map(|_| variety()).collect()
}

#[divan::bench(sample_count = 20)]
fn house_10000_varieties_spread(bencher: Bencher<'_, '_>) {
    let house = house();
    let slices: Vec<&[PlantSums]> = house.iter().map(Vec::as_slice).collect();
    bencher.bench_local(|| {
        statistics::variety_means::fit(black_box(&slices), &Priors::default()).expect("a fit")
    });
}

#[divan::bench(sample_count = 20)]
fn house_10000_varieties_means(bencher: Bencher<'_, '_>) {
    let house = house();
    let given = Variances::new(0.07, 0.05, 0.1).expect("three variances");
    bencher.bench_local(|| {
        let means = house.iter().filter_map(|plants| variety_mean(plants, &given));
        black_box(means.map(|mean| mean.standard_error).sum::<f64>())
    });
}

#[divan::bench]
fn even_normal_points_512_by_8() -> NormalPoints {
    NormalPoints::new(8, 512)
}
