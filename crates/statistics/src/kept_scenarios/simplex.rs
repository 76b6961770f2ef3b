//! The linear program under the search: as great a sum as can be, solved anew after each bound that moves and each row that comes.
//!
//! The dual simplex method on a dense table, long steps over variables that may cross to their other bound. Every variable has
//! two bounds, so there is always a table to begin from, and what was solved before is a good beginning for the next. Whoever
//! shuts a branch does so by what the rows give as they were taken, and not by the table, so that no rounding in it can shut
//! what is open. Start at [`Simplex::solve`].

#![expect(clippy::indexing_slicing, reason = "tables and lists of a length set a few lines above")]

use super::pivot::{Table, Variable};

/// A row: what it adds up, and the bounds of the sum.
#[derive(Clone, Debug)]
pub(super) struct Row {
    pub(super) terms: Vec<(usize, f64)>,
    pub(super) least: f64,
    pub(super) most: f64,
}

/// What a program comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ended {
    /// The greatest sum was found.
    Greatest,
    /// The sum is below what was asked for, or nothing keeps the rows.
    Below,
    /// The table cannot say.
    Unsure,
}

/// A program: columns with bounds and a worth each, rows over them.
#[derive(Clone, Debug)]
pub(super) struct Simplex {
    pub(super) least: Vec<f64>,
    pub(super) most: Vec<f64>,
    /// What one more of each is worth, a little less for each column by its own amount: without ties the method does not go in circles.
    prices: Vec<f64>,
    rows: Vec<Row>,
    table: Table,
    /// Exchanges since the table was last made from the rows.
    since: usize,
    /// Cells of the table that were worked on: what a search is measured by, for no clock is asked.
    pub(super) work: u64,
}

/// How far a variable may lie beyond its bound.
const LOOSE: f64 = 1e-7;
/// How far below what is asked a sum must lie to count as below.
const CLEARLY: f64 = 2e-3;
/// How far apart the worths of columns are held: even with hundreds of pieces not a tenth of what is clearly below.
const APART: f64 = 1e-7;
/// Entries of the table that are taken for nothing when a column is chosen.
const NOTHING: f64 = 1e-9;
/// Exchanges after which the table is made anew from the rows, so that rounding does not add up.
const RENEWED_AFTER: usize = 400;
/// Exchanges after which a program that comes to no end is given up: many times what one takes.
const MOST_EXCHANGES: usize = 4_000;

impl Simplex {
    /// A program without rows.
    ///
    /// # Shape
    /// One bound below, one above and one worth a column, all of them finite.
    pub(super) fn new(least: Vec<f64>, most: Vec<f64>, worth: Vec<f64>) -> Self {
        let prices = worth
            .iter()
            .zip(0_u32..)
            .map(|(worth, column)| worth - APART * (1.0 + f64::from(column * 37 % 101) / 101.0));
        let prices: Vec<f64> = prices.collect();
        let table = Table::new(&prices);
        Self { least, most, prices, rows: Vec::new(), table, since: 0, work: 0 }
    }

    /// Adds a row.
    pub(super) fn add(&mut self, row: Row) {
        self.table.add(&row.terms);
        self.rows.push(row);
    }

    fn bounds(&self, variable: Variable) -> (f64, f64) {
        match variable {
            Variable::Column(column) => (self.least[column], self.most[column]),
            Variable::Row(row) => (self.rows[row].least, self.rows[row].most),
        }
    }

    /// The bound on which a variable outside the basis rests: the upper one where more of it is worth something.
    fn rests_on(&self, place: usize) -> f64 {
        let (least, most) = self.bounds(self.table.outside[place]);
        if (0.0 < self.table.worth[place] || !least.is_finite()) && most.is_finite() { most } else { least }
    }

    /// Goes on until the sum is greatest, or shown to be below what is `asked`.
    ///
    /// # Shape
    /// The second: one value a column where the sum is greatest.
    pub(super) fn solve(&mut self, asked: f64) -> (Ended, Vec<f64>) {
        let first = self.solved(asked);
        if first.0 != Ended::Unsure {
            return first;
        }
        // Where rounding or going in circles came to nothing, another beginning may.
        self.table = Table::new(&self.prices);
        self.rows.iter().for_each(|row| self.table.add(&row.terms));
        self.since = 0;
        self.solved(asked)
    }

    fn solved(&mut self, asked: f64) -> (Ended, Vec<f64>) {
        let (mut rest, mut values) = self.at_rest();
        for _ in 0..MOST_EXCHANGES {
            self.work += (self.rows.len() * self.prices.len()) as u64;
            let sum: f64 = self.table.worth.iter().zip(&rest).map(|(worth, rest)| worth * rest).sum();
            if sum < asked - CLEARLY {
                return (if self.is_below(asked) { Ended::Below } else { Ended::Unsure }, Vec::new());
            }
            let Some((row, beyond)) = self.furthest(&values) else {
                return (Ended::Greatest, self.columns(&rest, &values));
            };
            let Some(column) = self.chosen((row, beyond), &mut rest, &mut values) else {
                let is_shut = self.is_out_of_reach(row, beyond);
                return (if is_shut { Ended::Below } else { Ended::Unsure }, Vec::new());
            };
            self.exchange((row, column), beyond, &mut rest, &mut values);
            if RENEWED_AFTER <= self.since {
                (rest, values) = self.renewed();
            }
        }
        (Ended::Unsure, Vec::new())
    }

    /// What variables outside the basis rest on, and the basis then.
    fn at_rest(&self) -> (Vec<f64>, Vec<f64>) {
        let rest: Vec<f64> = (0..self.prices.len()).map(|place| self.rests_on(place)).collect();
        let values = self.table.values(&rest);
        (rest, values)
    }

    /// The same with a table made anew from the rows.
    fn renewed(&mut self) -> (Vec<f64>, Vec<f64>) {
        self.since = 0;
        self.table.renew(&self.prices, &self.rows);
        self.at_rest()
    }

    /// The basic variable that lies furthest beyond a bound, as the way back is long, and how far: less than nothing below the lower
    /// one.
    fn furthest(&self, values: &[f64]) -> Option<(usize, f64)> {
        let (mut found, mut furthest) = (None, 0.0);
        for (row, (variable, value)) in self.table.inside.iter().zip(values).enumerate() {
            let (least, most) = self.bounds(*variable);
            let beyond = if *value < least { value - least } else { (value - most).max(0.0) };
            let far = beyond * beyond / self.table.lengths[row];
            if LOOSE < beyond.abs() && furthest < far {
                (found, furthest) = (Some((row, beyond)), far);
            }
        }
        found
    }

    /// The column that comes in for a row, those that may cross to their other bound on the way having crossed.
    fn chosen(&self, (row, beyond): (usize, f64), rest: &mut [f64], values: &mut [f64]) -> Option<usize> {
        let mut open = self.may_move(row, beyond, rest);
        open.sort_by(|one, other| one.0.total_cmp(&other.0).then(other.2.total_cmp(&one.2)));
        let mut lacks = beyond.abs();
        let mut crossed = Vec::new();
        let mut found = None;
        for (_, place, size) in open {
            let (least, most) = self.bounds(self.table.outside[place]);
            let reach = size * (most - least);
            if reach < lacks {
                lacks -= reach;
                crossed.push((place, if rest[place] == least { most } else { least }));
            } else {
                found = Some(place);
                break;
            }
        }
        // Where all of them together reach the bound to within rounding, the last of them comes in.
        if found.is_none() && lacks < LOOSE {
            found = crossed.pop().map(|(place, _)| place);
        }
        found?;
        for (place, to) in crossed {
            self.table.shift(place, to - rest[place], values);
            rest[place] = to;
        }
        found
    }

    /// Columns that bring a row back when they move: the price of each, its place and the size of its entry.
    fn may_move(&self, row: usize, beyond: f64, rest: &[f64]) -> Vec<(f64, usize, f64)> {
        let entries = self.table.row(row).iter().enumerate();
        let open = entries.filter_map(|(place, entry)| {
            let (least, most) = self.bounds(self.table.outside[place]);
            let up = if rest[place] == least { 1.0 } else { -1.0 };
            // Below its bound the row must rise, above it must fall.
            let helps = if beyond < 0.0 { entry * up } else { -entry * up };
            (NOTHING < helps && least < most)
                .then(|| (self.table.worth[place].abs() / entry.abs(), place, entry.abs()))
        });
        open.collect()
    }

    fn exchange(&mut self, (row, column): (usize, usize), beyond: f64, rest: &mut [f64], values: &mut [f64]) {
        let (least, most) = self.bounds(self.table.inside[row]);
        let bound = if beyond < 0.0 { least } else { most };
        let step = (bound - values[row]) / self.table.row(row)[column];
        self.table.shift(column, step, values);
        values[row] = rest[column] + step;
        rest[column] = bound;
        self.table.exchange(row, column);
        self.since += 1;
    }

    /// One value a column.
    fn columns(&self, rest: &[f64], values: &[f64]) -> Vec<f64> {
        let mut columns = vec![0.0; self.prices.len()];
        let outside = self.table.outside.iter().zip(rest);
        for (variable, value) in outside.chain(self.table.inside.iter().zip(values)) {
            if let Variable::Column(column) = variable {
                columns[*column] = *value;
            }
        }
        columns
    }

    /// Whether no sum within the bounds is as great as asked.
    fn is_below(&self, asked: f64) -> bool {
        let prices = self.table.outside.iter().zip(&self.table.worth);
        self.most_of(&self.prices, prices) < asked - CLEARLY / 2.0
    }

    /// Whether nothing within the bounds brings a row back.
    fn is_out_of_reach(&self, row: usize, beyond: f64) -> bool {
        let variable = self.table.inside[row];
        let (least, most) = self.bounds(variable);
        let sign = if beyond < 0.0 { 1.0 } else { -1.0 };
        let mut goal = vec![0.0; self.prices.len()];
        match variable {
            Variable::Column(column) => goal[column] = sign,
            Variable::Row(row) => {
                self.rows[row].terms.iter().for_each(|(column, entry)| goal[*column] += sign * entry);
            }
        }
        let prices: Vec<f64> = self.table.row(row).iter().map(|entry| sign * entry).collect();
        let bound = if beyond < 0.0 { least } else { -most };
        self.most_of(&goal, self.table.outside.iter().zip(&prices)) < bound - LOOSE / 2.0
    }

    /// What a sum of columns cannot exceed, whatever the prices of rows are: worked out of the rows as they were given.
    fn most_of<'a>(&self, goal: &[f64], prices: impl Iterator<Item = (&'a Variable, &'a f64)>) -> f64 {
        let (mut left, mut most) = (goal.to_vec(), 0.0);
        for (variable, price) in prices {
            let Variable::Row(row) = variable else { continue };
            let row = &self.rows[*row];
            let bound = if 0.0 < *price { row.most } else { row.least };
            if *price == 0.0 || !bound.is_finite() {
                continue;
            }
            most += price * bound;
            row.terms.iter().for_each(|(column, entry)| left[*column] -= price * entry);
        }
        let bounds = self.least.iter().zip(&self.most);
        most + left
            .iter()
            .zip(bounds)
            .map(|(left, (least, most))| (left * least).max(left * most))
            .sum::<f64>()
    }
}
