//! Random terms as columns: one for every combination of levels that was seen.

use super::MixedFault;
use super::sparse_rows::SparseRows;
use super::terms::{Covariate, Factor, Random, RandomColumns, Variable};
use std::ops::Range;

/// All random terms beside each other.
#[derive(Clone, Debug)]
pub(super) struct RandomDesign {
    names: Vec<String>,
    terms: Vec<Columns>,
    /// The columns of each term.
    pub(super) ranges: Vec<Range<usize>>,
}

/// The columns of one term.
#[derive(Clone, Debug)]
enum Columns {
    /// Combinations of levels.
    Combinations {
        factors: Vec<Factor>,
        covariates: Vec<Covariate>,
        /// The combinations seen, as numbers in the mixed radix of the factors' levels.
        keys: Vec<u64>,
        /// Each row's column.
        places: Vec<u32>,
    },
    /// Given by the caller.
    Given { labels: Vec<String>, rows: Vec<Vec<(usize, f64)>> },
}

impl RandomDesign {
    /// Gathers the columns of every term.
    pub(super) fn new(terms: &[Random], rows: usize) -> Result<Self, MixedFault> {
        let names = terms.iter().map(|term| term.name.clone()).collect();
        let terms = terms.iter().map(|term| Columns::new(term, rows)).collect::<Result<Vec<_>, _>>()?;
        let mut ranges: Vec<Range<usize>> = Vec::with_capacity(terms.len());
        for term in &terms {
            let start = ranges.last().map_or(0, |range| range.end);
            ranges.push(start..start + term.count());
        }
        Ok(Self { names, terms, ranges })
    }

    /// The terms' names.
    pub(super) fn names(&self) -> &[String] {
        &self.names
    }

    /// The place of a term by name.
    pub(super) fn place(&self, name: &str) -> Option<usize> {
        self.names.iter().position(|own| own == name)
    }

    /// Labels of a term's columns.
    pub(super) fn labels(&self, term: usize) -> Vec<String> {
        match &self.terms[term] {
            Columns::Given { labels, .. } => labels.clone(),
            Columns::Combinations { factors, keys, .. } => {
                keys.iter().map(|key| combination(factors, *key)).collect()
            }
        }
    }

    /// How many columns there are in all.
    pub(super) fn count(&self) -> usize {
        self.ranges.last().map_or(0, |range| range.end)
    }

    /// Adds a row's entries, columns counted from `first`.
    pub(super) fn add_row(&self, row: usize, first: usize, to: &mut SparseRows) {
        for (term, range) in self.terms.iter().zip(&self.ranges) {
            match term {
                Columns::Given { rows, .. } => {
                    rows[row].iter().for_each(|(column, value)| to.add(first + range.start + column, *value));
                }
                Columns::Combinations { covariates, places, .. } => {
                    let value: f64 = covariates.iter().map(|covariate| covariate.values[row]).product();
                    to.add(first + range.start + places[row] as usize, value);
                }
            }
        }
    }

    /// How a term without covariates parts the rows: each row's group, numbered as they first come.
    pub(super) fn partition(&self, term: usize) -> Option<Vec<u32>> {
        match &self.terms[term] {
            Columns::Combinations { covariates, places, keys, .. } if covariates.is_empty() => {
                Some(first_come(places, keys.len()))
            }
            _ => None,
        }
    }
}

impl Columns {
    fn new(term: &Random, rows: usize) -> Result<Self, MixedFault> {
        match &term.columns {
            RandomColumns::Product(variables) => Ok(Self::combinations(variables, rows)),
            RandomColumns::Given { labels, rows: given } => {
                Self::given(&term.name, labels.clone(), given.clone())
            }
        }
    }

    fn combinations(variables: &[Variable], rows: usize) -> Self {
        let (mut factors, mut covariates) = (Vec::new(), Vec::new());
        for variable in variables {
            match variable {
                Variable::Factor(factor) => factors.push(factor.clone()),
                Variable::Covariate(covariate) => covariates.push(covariate.clone()),
            }
        }
        let key = |row: usize| {
            let add = |key: u64, factor: &Factor| {
                key.wrapping_mul(factor.levels().len() as u64).wrapping_add(factor.codes()[row] as u64)
            };
            factors.iter().fold(0_u64, add)
        };
        let row_keys: Vec<u64> = (0..rows).map(key).collect();
        let mut keys = row_keys.clone();
        keys.sort_unstable();
        keys.dedup();
        let place = |key: &u64| keys.partition_point(|own| own < key) as u32;
        let places = row_keys.iter().map(place).collect();
        Self::Combinations { factors, covariates, keys, places }
    }

    fn given(name: &str, labels: Vec<String>, mut rows: Vec<Vec<(usize, f64)>>) -> Result<Self, MixedFault> {
        for (row, entries) in rows.iter_mut().enumerate() {
            entries.sort_unstable_by_key(|(column, _)| *column);
            let name = || name.to_owned();
            if entries.iter().any(|(column, _)| labels.len() <= *column) {
                return Err(MixedFault::NoSuchColumn { name: name(), columns: labels.len(), row });
            }
            let twice = entries.windows(2).any(|pair| pair[0].0 == pair[1].0);
            if twice || entries.iter().any(|(_, value)| !value.is_finite()) {
                return Err(MixedFault::NotUsable { name: name(), row });
            }
        }
        Ok(Self::Given { labels, rows })
    }

    fn count(&self) -> usize {
        match self {
            Self::Combinations { keys, .. } => keys.len(),
            Self::Given { labels, .. } => labels.len(),
        }
    }
}

/// The levels of a combination, joined as a product.
fn combination(factors: &[Factor], mut key: u64) -> String {
    let mut parts: Vec<&str> = Vec::with_capacity(factors.len());
    for factor in factors.iter().rev() {
        let radix = factor.levels().len().max(1) as u64;
        parts.push(factor.levels().get((key % radix) as usize).map_or("", String::as_str));
        key /= radix;
    }
    parts.reverse();
    parts.join(" x ")
}

/// Renumbers groups in the order in which they first come.
pub(super) fn first_come(groups: &[u32], count: usize) -> Vec<u32> {
    let mut numbers = vec![u32::MAX; count];
    let mut next = 0;
    let number = |group: &u32| {
        let own = &mut numbers[*group as usize];
        if *own == u32::MAX {
            *own = next;
            next += 1;
        }
        *own
    };
    groups.iter().map(number).collect()
}
