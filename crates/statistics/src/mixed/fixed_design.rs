//! Fixed terms as columns, and which of them are aliased.
//!
//! A factor in a term is coded by its levels but the first where the term without that factor is in the
//! model too, by all its levels otherwise. So an interaction beside its main effects has the columns that it
//! adds and no more. A column that those before it already say is aliased: it is left out, and remembered, so
//! that a mean that would need it is said not to be estimable.

use super::MixedFault;
use super::aliasing::{Plain, Solver, plain};
use super::residual::Cell;
use super::sparse_rows::SparseRows;
use super::terms::{Factor, Fixed, Variable};

/// The fixed columns of a model.
#[derive(Debug)]
pub(super) struct FixedDesign {
    /// The terms.
    pub(super) terms: Vec<Fixed>,
    /// All columns, aliased ones too.
    pub(super) columns: Vec<Column>,
    /// Columns that are kept.
    pub(super) kept: Vec<usize>,
    /// Columns that those kept before them say.
    pub(super) aliased: Vec<Alias>,
    rows: SparseRows,
    /// Each column's place among those kept.
    places: Vec<Option<usize>>,
    solver: Solver,
}

/// One fixed column.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Column {
    /// The term it is of.
    pub(super) term: usize,
    /// For each variable of the term: the level that it stands for, or `None` for a covariate.
    pub(super) cell: Vec<Option<usize>>,
}

/// A column that is a combination of kept ones.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Alias {
    /// The column.
    pub(super) column: usize,
    /// Its share of each kept column.
    pub(super) shares: Vec<f64>,
}

impl FixedDesign {
    /// Codes the terms and finds aliased columns.
    pub(super) fn new(terms: &[Fixed], rows: usize, weights: Option<&[f64]>) -> Result<Self, MixedFault> {
        let mut columns = Vec::new();
        let codings: Vec<Vec<Coding<'_>>> = terms.iter().map(|term| codings(term, terms)).collect();
        let mut firsts = Vec::with_capacity(terms.len());
        for (term, coding) in codings.iter().enumerate() {
            firsts.push(columns.len());
            columns.extend(cells(coding).into_iter().map(|cell| Column { term, cell }));
        }
        let written = written(&codings, &firsts, rows);
        let Plain { kept, aliased, solver } = plain(&written, columns.len(), weights)?;
        let mut places = vec![None; columns.len()];
        for (place, column) in kept.iter().enumerate() {
            places[*column] = Some(place);
        }
        Ok(Self { terms: terms.to_vec(), columns, kept, aliased, rows: written, places, solver })
    }

    /// Adds a row's kept columns.
    pub(super) fn add_row(&self, row: usize, to: &mut SparseRows) {
        for (column, value) in self.rows.row(row) {
            if let Some(place) = self.places[column] {
                to.add(place, value);
            }
        }
    }

    /// Place of a column among those kept.
    pub(super) fn place(&self, column: usize) -> Option<usize> {
        self.places[column]
    }

    /// What a column is of.
    pub(super) fn name(&self, column: usize) -> String {
        let Column { term, cell } = &self.columns[column];
        let part = |(variable, level): (&Variable, &Option<usize>)| match (variable, level) {
            (Variable::Factor(factor), Some(level)) => {
                format!("{} {}", factor.name(), factor.levels()[*level])
            }
            (variable, _) => variable.name().to_owned(),
        };
        let variables = &self.terms[*term].variables;
        if variables.is_empty() {
            return "intercept".to_owned();
        }
        variables.iter().zip(cell).map(part).collect::<Vec<_>>().join(" x ")
    }

    /// Kept coefficients by weighted least squares, without the random part.
    pub(super) fn plain_fit(&self, response: &[f64], weights: Option<&[f64]>) -> Vec<f64> {
        let weight = |row: usize| weights.map_or(1.0, |weights| weights[row]);
        let weighted: Vec<f64> = response.iter().enumerate().map(|(row, own)| weight(row) * own).collect();
        let all = self.rows.transposed_times(&weighted, self.columns.len());
        self.solver.solve(self.kept.iter().map(|column| all[*column]).collect())
    }
}

/// How one variable of a term is coded.
#[derive(Clone, Copy)]
enum Coding<'a> {
    /// Levels from this one on.
    Levels { factor: &'a Factor, first: usize },
    /// The number itself.
    Covariate(&'a [f64]),
}

impl Coding<'_> {
    fn count(self) -> usize {
        match self {
            Self::Levels { factor, first } => factor.levels().len().saturating_sub(first),
            Self::Covariate(_) => 1,
        }
    }
}

/// Codes a term's variables: without the first level where the rest of the term is in the model too.
fn codings<'a>(term: &'a Fixed, terms: &[Fixed]) -> Vec<Coding<'a>> {
    let names = |term: &Fixed, without: Option<usize>| {
        let variables = term.variables.iter().enumerate().filter(|(at, _)| Some(*at) != without);
        let mut names: Vec<String> = variables.map(|(_, variable)| variable.name().to_owned()).collect();
        names.sort();
        names
    };
    let coding = |(at, variable): (usize, &'a Variable)| match variable {
        Variable::Covariate(covariate) => Coding::Covariate(&covariate.values),
        Variable::Factor(factor) => {
            let rest = names(term, Some(at));
            let rest_is_in = terms.iter().any(|other| names(other, None) == rest);
            Coding::Levels { factor, first: usize::from(rest_is_in) }
        }
    };
    term.variables.iter().enumerate().map(coding).collect()
}

/// The cells of a term, the first variable's level changing fastest.
fn cells(codings: &[Coding<'_>]) -> Vec<Vec<Option<usize>>> {
    let count: usize = codings.iter().map(|coding| coding.count()).product();
    let cell = |mut number: usize| {
        let level = |coding: &Coding<'_>| {
            let own = number % coding.count();
            number /= coding.count();
            match coding {
                Coding::Levels { first, .. } => Some(first + own),
                Coding::Covariate(_) => None,
            }
        };
        codings.iter().map(level).collect()
    };
    (0..count).map(cell).collect()
}

/// Writes every row's columns.
fn written(codings: &[Vec<Coding<'_>>], firsts: &[usize], rows: usize) -> SparseRows {
    let mut written = SparseRows::with_room(rows, rows * codings.len());
    for row in 0..rows {
        for (coding, first) in codings.iter().zip(firsts) {
            if let Some((place, value)) = entry(coding, row)
                && value != 0.0
            {
                written.add(first + place, value);
            }
        }
        written.end_row();
    }
    written
}

/// A row's column within a term and the number there; `None` for a first level left out.
fn entry(codings: &[Coding<'_>], row: usize) -> Option<(usize, f64)> {
    let (mut place, mut stride, mut value) = (0, 1, 1.0);
    for coding in codings {
        match coding {
            Coding::Covariate(values) => value *= values[row],
            Coding::Levels { factor, first } => {
                place += stride * factor.codes()[row].checked_sub(*first)?;
                stride *= coding.count();
            }
        }
    }
    Some((place, value))
}

/// The weights as a diagonal.
pub(super) fn weighing(rows: usize, weights: Option<&[f64]>) -> Vec<Cell> {
    let weight = |row: usize| weights.map_or(1.0, |weights| weights[row]);
    (0..rows).map(|row| Cell { row, other: row, value: weight(row) }).collect()
}
