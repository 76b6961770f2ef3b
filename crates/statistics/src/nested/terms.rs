//! The criterion of a nested model, its exact score and its average information.
//!
//! With residual variance `e`, inner `i` and outer `o`, a cell of n rows weighs `w = n / (e + n i)` and an
//! outer group `h = a / (1 + o a)` with `a = sum w`. [`solve`] finds the fixed effects at given
//! variances; [`slope`] (and `effects`) read the rest from that solution. `P` is the usual
//! projection, `P y` the weighted residuals.

use super::Likelihood;
use super::table::{Cell, Outer, Table};
use crate::climb::{LEVELS, PerLevel, Slope};
use crate::matrix::{Cholesky, Square, dot, trace_of_product};

/// One outer group, given the variances.
pub(super) struct OuterSums {
    /// `h`: its weight.
    pub(super) weight: f64,
    /// `1 + o a`: how far its own effect shrinks what its cells say.
    shrink: f64,
    /// Its cells' weighted means, the response last.
    means: Vec<f64>,
}

/// The generalised least-squares solution at given variances.
pub(super) struct Solution<'a> {
    pub(super) table: &'a Table,
    pub(super) variances: PerLevel<f64>,
    pub(super) outers: Vec<OuterSums>,
    /// Fixed effects of the orthonormal columns.
    pub(super) coefficients: Vec<f64>,
    /// Factor of `X' V^-1 X`.
    pub(super) factor: Cholesky,
    /// `y' P y`.
    squares: f64,
}

/// Solves for the fixed effects, or `None` where the variances are off the ground.
pub(super) fn solve<'a>(table: &'a Table, variances: &PerLevel<f64>) -> Option<Solution<'a>> {
    let outers: Vec<OuterSums> = table.outers.iter().map(|outer| OuterSums::of(outer, variances)).collect();
    let products = weighted_products(table, &outers, variances);
    let columns = table.columns;
    let is_fixed: Vec<bool> = (0..=columns).map(|column| column < columns).collect();
    let factor = products.part(&is_fixed).cholesky()?;
    let right: Vec<f64> = (0..columns).map(|column| products.at(column, columns)).collect();
    let coefficients = factor.solve(&right);
    let squares = products.at(columns, columns) - dot(&coefficients, &right);
    Some(Solution { table, variances: *variances, outers, coefficients, factor, squares })
}

/// `[X y]' V^-1 [X y]`, as a sum of squares only.
fn weighted_products(table: &Table, outers: &[OuterSums], variances: &PerLevel<f64>) -> Square {
    let mut products = Square::zero(table.within.size());
    products.add_scaled(variances[2].recip(), &table.within);
    for (outer, sums) in table.outers.iter().zip(outers) {
        products.add_outer(sums.weight, &sums.means, &sums.means);
        for cell in &outer.cells {
            let apart: Vec<f64> = cell.means.iter().zip(&sums.means).map(|(own, mean)| own - mean).collect();
            products.add_outer(cell_weight(cell, variances), &apart, &apart);
        }
    }
    products
}

/// `w`: the inverse of the variance of a cell's mean within its outer group.
fn cell_weight(cell: &Cell, variances: &PerLevel<f64>) -> f64 {
    cell.count / (variances[2] + cell.count * variances[1])
}

impl OuterSums {
    fn of(outer: &Outer, variances: &PerLevel<f64>) -> Self {
        let mut cells_weight = 0.0;
        let mut means: Vec<f64> = Vec::new();
        for cell in &outer.cells {
            let weight = cell_weight(cell, variances);
            cells_weight += weight;
            means.resize(cell.means.len(), 0.0);
            // Running weighted means (West): no large sums to subtract.
            let share = weight / cells_weight;
            means.iter_mut().zip(&cell.means).for_each(|(mean, own)| *mean += (own - *mean) * share);
        }
        let shrink = 1.0 + variances[0] * cells_weight;
        Self { weight: cells_weight / shrink, shrink, means }
    }
}

/// One cell, given the fixed effects.
pub(super) struct CellSums {
    weight: f64,
    count: f64,
    /// `1' P y` over the cell's rows.
    pub(super) residual: f64,
    /// `1' V^-1 1`.
    pub(super) own: f64,
    /// `1' V^-1 X`.
    pub(super) columns: Vec<f64>,
}

impl Solution<'_> {
    /// Response less fixed effects, from means with the response last.
    fn residual(&self, means: &[f64]) -> f64 {
        means.last().copied().unwrap_or(0.0) - dot(means, &self.coefficients)
    }

    /// `1' P y` over an outer group's rows.
    pub(super) fn pull(&self, sums: &OuterSums) -> f64 {
        sums.weight * self.residual(&sums.means)
    }

    /// `1' V^-1 X` over an outer group's rows.
    pub(super) fn outer_columns(&self, sums: &OuterSums) -> Vec<f64> {
        sums.means.iter().take(self.table.columns).map(|mean| sums.weight * mean).collect()
    }

    pub(super) fn cell(&self, cell: &Cell, sums: &OuterSums) -> CellSums {
        let outer_variance = self.variances[0];
        let weight = cell_weight(cell, &self.variances);
        let taken = |own: f64, outer: f64| weight * (own - outer_variance * sums.weight * outer);
        let columns = cell.means.iter().zip(&sums.means).take(self.table.columns);
        CellSums {
            weight,
            count: cell.count,
            residual: taken(self.residual(&cell.means), self.residual(&sums.means)),
            own: weight - weight * weight * outer_variance / sums.shrink,
            columns: columns.map(|(own, outer)| taken(*own, *outer)).collect(),
        }
    }

    /// -2 times the (restricted) log-likelihood.
    pub(super) fn criterion(&self, likelihood: Likelihood) -> f64 {
        let cells = self.table.outers.iter().flat_map(|outer| &outer.cells);
        let cell_logs: f64 = cells.map(|cell| self.cell_log_determinant(cell)).sum();
        let outer_logs: f64 = self.outers.iter().map(|sums| sums.shrink.ln()).sum();
        let whole = cell_logs + outer_logs + self.squares;
        let log_turn = std::f64::consts::TAU.ln();
        match likelihood {
            Likelihood::Full => whole + self.table.rows * log_turn,
            Likelihood::Restricted => {
                let free = self.table.degrees();
                whole + self.factor.log_determinant() + self.table.log_determinant() + free * log_turn
            }
        }
    }

    fn cell_log_determinant(&self, cell: &Cell) -> f64 {
        let [_, inner, residual] = self.variances;
        (cell.count - 1.0) * residual.ln() + (residual + cell.count * inner).ln()
    }

    /// `(-b, 1)`: what turns a row of columns and response into its residual.
    fn residual_weights(&self) -> Vec<f64> {
        self.coefficients.iter().map(|b| -b).chain([1.0]).collect()
    }
}

/// The sums that score and information are made of.
struct Sums {
    /// `y' P V_k P y`.
    squares: PerLevel<f64>,
    /// `trace(V^-1 V_k)`.
    traces: PerLevel<f64>,
    /// `X' V^-1 V_k V^-1 X`.
    fixed: PerLevel<Square>,
    /// `z_k' V^-1 z_l` with `z_k = V_k P y`.
    products: PerLevel<PerLevel<f64>>,
    /// `X' V^-1 z_k`.
    with_columns: PerLevel<Vec<f64>>,
}

/// The criterion's slope at a solution.
pub(super) fn slope(solution: &Solution<'_>, likelihood: Likelihood) -> Option<Slope> {
    let sums = gather(solution);
    let inverse = solution.factor.inverse();
    let mut score = [0.0; LEVELS];
    let levels = sums.squares.iter().zip(&sums.traces).zip(&sums.fixed);
    for (score, ((squares, trace), fixed)) in score.iter_mut().zip(levels) {
        let explained = match likelihood {
            Likelihood::Restricted => trace_of_product(&inverse, fixed),
            Likelihood::Full => 0.0,
        };
        *score = 0.5 * (squares - (trace - explained));
    }
    let criterion = solution.criterion(likelihood);
    let information = information(solution, &sums);
    criterion.is_finite().then_some(Slope { criterion, score, information })
}

/// `(1/2) z_k' P z_l` for each pair of levels.
fn information(solution: &Solution<'_>, sums: &Sums) -> PerLevel<PerLevel<f64>> {
    let mut information = sums.products;
    for (row, left) in information.iter_mut().zip(&sums.with_columns) {
        let solved = solution.factor.solve(left);
        for (cell, right) in row.iter_mut().zip(&sums.with_columns) {
            *cell = 0.5 * (*cell - dot(&solved, right));
        }
    }
    information
}

fn gather(solution: &Solution<'_>) -> Sums {
    let mut sums = Sums::within_cells(solution);
    for (outer, outer_sums) in solution.table.outers.iter().zip(&solution.outers) {
        sums.add_outer(outer, outer_sums, solution);
    }
    sums
}

impl Sums {
    /// What rows say within their cells, where only the residual variance counts.
    fn within_cells(solution: &Solution<'_>) -> Self {
        let table = solution.table;
        let (columns, residual_variance) = (table.columns, solution.variances[2]);
        let cells = table.outers.iter().map(|outer| outer.cells.len()).sum::<usize>();
        let weights = solution.residual_weights();
        let mut residual_products: Vec<f64> =
            table.within.rows().iter().map(|row| dot(row, &weights)).collect();
        let squares = dot(&residual_products, &weights) / residual_variance.powi(2);
        residual_products.truncate(columns);
        residual_products.iter_mut().for_each(|product| *product /= residual_variance.powi(2));
        let is_fixed: Vec<bool> = (0..=columns).map(|column| column < columns).collect();
        let mut fixed = [(); LEVELS].map(|()| Square::zero(columns));
        fixed[2].add_scaled(residual_variance.powi(-2), &table.within.part(&is_fixed));
        let mut products = [[0.0; LEVELS]; LEVELS];
        products[2][2] = squares / residual_variance;
        #[expect(clippy::cast_precision_loss, reason = "no table in memory has 2^52 cells")]
        let within_degrees = table.rows - cells as f64;
        Self {
            squares: [0.0, 0.0, squares],
            traces: [0.0, 0.0, within_degrees / residual_variance],
            fixed,
            products,
            with_columns: [vec![0.0; columns], vec![0.0; columns], residual_products],
        }
    }

    fn add_outer(&mut self, outer: &Outer, sums: &OuterSums, solution: &Solution<'_>) {
        let pull = solution.pull(sums);
        let columns = solution.outer_columns(sums);
        self.squares[0] += pull * pull;
        self.traces[0] += sums.weight;
        self.fixed[0].add_outer(1.0, &columns, &columns);
        let mut weighted = [0.0; LEVELS];
        for cell in &outer.cells {
            let cell = solution.cell(cell, sums);
            let values = [pull, cell.residual, cell.residual / cell.count];
            weighted.iter_mut().zip(values).for_each(|(sum, value)| *sum += cell.weight * value);
            self.add_cell(&cell, &values);
        }
        // The outer group's own effect shrinks what its cells' weighted sums say.
        self.add_products(-solution.variances[0] / sums.shrink, &weighted);
    }

    fn add_cell(&mut self, cell: &CellSums, values: &PerLevel<f64>) {
        self.squares[1] += cell.residual * cell.residual;
        self.squares[2] += cell.residual * cell.residual / cell.count;
        self.traces[1] += cell.own;
        self.traces[2] += cell.own / cell.count;
        self.fixed[1].add_outer(1.0, &cell.columns, &cell.columns);
        self.fixed[2].add_outer(cell.count.recip(), &cell.columns, &cell.columns);
        self.add_products(cell.weight, values);
        for (sums, value) in self.with_columns.iter_mut().zip(values) {
            sums.iter_mut().zip(&cell.columns).for_each(|(sum, column)| *sum += value * column);
        }
    }

    fn add_products(&mut self, weight: f64, values: &PerLevel<f64>) {
        for (row, left) in self.products.iter_mut().zip(values) {
            row.iter_mut().zip(values).for_each(|(cell, right)| *cell += weight * left * right);
        }
    }
}
