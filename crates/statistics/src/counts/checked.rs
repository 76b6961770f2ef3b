//! A model whose lists were found to fit together.

use super::{CountFault, Family, Model};
use crate::matrix::Square;

/// A verified model, everything as numbers.
#[derive(Clone, Debug)]
pub(super) struct Checked<'a> {
    pub(super) seen: Vec<f64>,
    /// How many were looked at; 1 for counts.
    pub(super) looked_at: Vec<f64>,
    pub(super) columns: &'a [Vec<f64>],
    pub(super) groups: &'a [Vec<usize>],
    pub(super) offset: Vec<f64>,
    pub(super) weights: Vec<f64>,
}

/// Least part of a column's squared length that may be left after those before it, before it counts as aliased.
const ALIASED: f64 = 1e-12;

impl<'a> Checked<'a> {
    pub(super) fn new(model: &Model<'a>) -> Result<Self, CountFault> {
        let rows = model.seen.len();
        if rows == 0 {
            return Err(CountFault::Empty);
        }
        let looked_at = match model.family {
            Family::Binomial { looked_at } => looked_at.iter().map(|count| f64::from(*count)).collect(),
            _ => vec![1.0; rows],
        };
        let list = |given: Option<&[f64]>, otherwise| given.map_or(vec![otherwise; rows], <[f64]>::to_vec);
        let checked = Self {
            seen: model.seen.iter().map(|count| f64::from(*count)).collect(),
            looked_at,
            columns: model.columns,
            groups: model.groups,
            offset: list(model.offset, 0.0),
            weights: list(model.weights, 1.0),
        };
        checked.verify()?;
        let more = (0..rows).find(|row| checked.looked_at[*row] < checked.seen[*row]);
        match (model.family, more) {
            (Family::Binomial { .. }, Some(row)) => Err(CountFault::MoreThanLookedAt { row }),
            _ => Ok(checked),
        }
    }

    fn verify(&self) -> Result<(), CountFault> {
        let rows = self.rows();
        let lengths = self.columns.iter().chain([&self.offset, &self.weights, &self.looked_at]).map(Vec::len);
        let wrong = lengths.chain(self.groups.iter().map(Vec::len)).find(|length| *length != rows);
        if let Some(other) = wrong {
            return Err(CountFault::Lengths { rows, other });
        }
        let usable = |row: usize| {
            let finite = self.columns.iter().chain([&self.offset]).all(|list| list[row].is_finite());
            finite && self.weights[row].is_finite() && 0.0 <= self.weights[row]
        };
        let unusable = (0..rows).find(|row| !usable(*row));
        unusable.map_or_else(|| self.verify_columns(), |row| Err(CountFault::NotFinite { row }))
    }

    /// Every column must add something to those before it, in the rows that count.
    fn verify_columns(&self) -> Result<(), CountFault> {
        let counts: Vec<f64> =
            self.weights.iter().zip(&self.looked_at).map(|(w, m)| f64::from(u8::from(0.0 < w * m))).collect();
        let products = self.crossed(&counts);
        for column in 0..self.columns.len() {
            let upto: Vec<bool> = (0..self.columns.len()).map(|other| other <= column).collect();
            let part = products.part(&upto);
            if part.eliminate(ALIASED * part.at(column, column)).left <= ALIASED * part.at(column, column) {
                return Err(CountFault::Aliased { column });
            }
        }
        Ok(())
    }

    /// How many rows.
    pub(super) fn rows(&self) -> usize {
        self.seen.len()
    }

    /// `X' diag(w) X`.
    pub(super) fn crossed(&self, weights: &[f64]) -> Square {
        let mut products = Square::zero(self.columns.len());
        let mut line = vec![0.0; self.columns.len()];
        for (row, weight) in weights.iter().enumerate() {
            line.iter_mut().zip(self.columns).for_each(|(cell, column)| *cell = column[row]);
            products.add_outer(*weight, &line, &line);
        }
        products
    }

    /// `X' v`.
    pub(super) fn against(&self, vector: &[f64]) -> Vec<f64> {
        self.columns.iter().map(|column| crate::matrix::dot(column, vector)).collect()
    }

    /// `offset + X b`.
    pub(super) fn fixed_part(&self, effects: &[f64]) -> Vec<f64> {
        let mut sums = self.offset.clone();
        for (column, effect) in self.columns.iter().zip(effects) {
            sums.iter_mut().zip(column).for_each(|(sum, value)| *sum += effect * value);
        }
        sums
    }
}
