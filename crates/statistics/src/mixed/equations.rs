//! The mixed-model equations of one model: what does not change while variances are sought.
//!
//! Random effects are scaled, `u = sqrt(variance) v`, so that the matrix is `S W'R^-1W S + (0, I)` with `S` the
//! scales: a variance of zero leaves a one on the diagonal. `W'R^-1W` is a sum of fixed sparse matrices, one a
//! piece of the residual's structure, so a new point costs no pass over the rows.

use super::cholesky::{Layout, Pattern};
use super::fixed_design::FixedDesign;
use super::random_design::{RandomDesign, first_come};
use super::residual::{Cell, Classes, Parameter, ParameterKind, Residual, Scaling, Structure};
use super::sparse_rows::SparseRows;
use super::{MixedFault, Model};
use crate::component::Why;
use crate::nested::Likelihood;
use std::ops::Range;
use std::sync::Arc;

/// Share of the response's sum of squares below which what is left is rounding.
const ROUNDING: f64 = 1e-24;

/// A model's equations.
#[derive(Debug)]
pub(super) struct Equations {
    /// Fixed columns, random ones, then one for each unit of the structure. The model's rows, then the units'.
    pub(super) rows: SparseRows,
    /// The response less what the fixed columns say without the random part: better conditioned.
    pub(super) response: Vec<f64>,
    /// What was taken off, as fixed coefficients.
    pub(super) offset: Vec<f64>,
    /// How many fixed columns.
    pub(super) fixed: usize,
    /// How many rows the model has itself.
    pub(super) observed: usize,
    /// How many units the structure has beyond them.
    pub(super) units: usize,
    /// Columns of each random term, counted with the fixed ones.
    pub(super) terms: Vec<Range<usize>>,
    /// The residual's structure.
    pub(super) structure: Arc<dyn Structure>,
    /// Its parameters.
    pub(super) residual: Vec<Parameter>,
    /// Its pieces.
    pub(super) pieces: Vec<Vec<Cell>>,
    /// `W' M_k y` of each piece.
    pub(super) right: Vec<Vec<f64>>,
    /// The equations of all effects.
    pub(super) whole: System,
    /// Those of the random effects alone, for the full likelihood; `None` where it is not asked for, or where there are
    /// no random effects.
    pub(super) random_only: Option<System>,
    /// Terms that cannot be told, and why.
    pub(super) untold: Vec<Option<Why>>,
    likelihood: Likelihood,
}

/// Pattern, fixed numbers and layout of one matrix.
#[derive(Debug)]
pub(super) struct System {
    /// The pattern.
    pub(super) pattern: Pattern,
    /// Of each piece: places in the pattern and numbers.
    pub(super) entries: Vec<Vec<(u32, f64)>>,
    /// Order and layout of its factor.
    pub(super) layout: Layout,
    /// Which of its columns are free of a variance of their own.
    pub(super) extent: Extent,
}

/// How many columns a matrix has, and how many of them have no variance of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Extent {
    /// All columns.
    pub(super) columns: usize,
    /// The first so many are fixed effects.
    pub(super) fixed: usize,
    /// The last so many are units of the structure, whose covariance is in its rows.
    pub(super) units: usize,
}

/// Refuses a model whose lists disagree or hold what is no number.
pub(super) fn check(model: &Model) -> Result<(), MixedFault> {
    let rows = model.response.len();
    let usable = |name: &str, values: &[f64], least: f64| {
        if values.len() != rows {
            return Err(MixedFault::Lengths { rows, name: name.to_owned(), other: values.len() });
        }
        let bad = values.iter().position(|value| !value.is_finite() || *value <= least);
        bad.map_or(Ok(()), |row| Err(MixedFault::NotUsable { name: name.to_owned(), row }))
    };
    usable("the response", &model.response, f64::NEG_INFINITY)?;
    model.weights.as_deref().map_or(Ok(()), |weights| usable("the weights", weights, 0.0))?;
    let fixed = model.fixed.iter().flat_map(|term| &term.variables);
    let random = model.random.iter().flat_map(|term| match &term.columns {
        super::terms::RandomColumns::Product(variables) => variables.as_slice(),
        super::terms::RandomColumns::Given { .. } => &[],
    });
    for variable in fixed.chain(random) {
        if variable.rows() != rows {
            let name = variable.name().to_owned();
            return Err(MixedFault::Lengths { rows, name, other: variable.rows() });
        }
        if let super::terms::Variable::Covariate(covariate) = variable {
            usable(&covariate.name, &covariate.values, f64::NEG_INFINITY)?;
        }
    }
    for term in &model.random {
        if let super::terms::RandomColumns::Given { rows: given, .. } = &term.columns
            && given.len() != rows
        {
            return Err(MixedFault::Lengths { rows, name: term.name.clone(), other: given.len() });
        }
    }
    Ok(())
}

impl Equations {
    /// Sets up the equations.
    pub(super) fn new(
        model: &Model,
        design: &FixedDesign,
        random: &RandomDesign,
        likelihood: Likelihood,
    ) -> Result<Self, MixedFault> {
        let structure = structure(model)?;
        let fixed = design.kept.len();
        let observed = model.response.len();
        let shown = structure.units();
        let units = shown.len();
        let rows = beside(design, random, observed, &shown);
        if model.response.len() <= fixed {
            return Err(MixedFault::TooFewRows { rows: model.response.len(), columns: fixed });
        }
        let weights = model.weights.as_deref();
        let offset = design.plain_fit(&model.response, weights);
        let mut response = left_over(&rows, &model.response, &offset);
        response.resize(observed + units, 0.0);
        let squares = |numbers: &[f64]| numbers.iter().map(|number| number * number).sum::<f64>();
        if squares(&response) <= ROUNDING * squares(&model.response) {
            return Err(MixedFault::NoSpread);
        }
        let pieces = structure.pieces();
        let extent = Extent { columns: fixed + random.count() + units, fixed, units };
        let columns = extent.columns;
        let right = pieces.iter().map(|piece| rows.transposed_times(&times(piece, &response), columns));
        let right = right.collect();
        let whole = System::new(&rows, &pieces, extent).ok_or(MixedFault::NotFound)?;
        let random_only = match likelihood {
            Likelihood::Restricted => None,
            Likelihood::Full if columns == fixed => None,
            Likelihood::Full => Some(System::of_random(&rows, &pieces, extent)?),
        };
        let terms = random.ranges.iter().map(|range| range.start + fixed..range.end + fixed).collect();
        let residual = structure.parameters();
        let untold = untold(model, random);
        Ok(Self {
            rows,
            response,
            offset,
            fixed,
            observed,
            units,
            terms,
            structure,
            residual,
            pieces,
            right,
            whole,
            random_only,
            untold,
            likelihood,
        })
    }

    /// Which likelihood is to be made best.
    pub(super) fn likelihood(&self) -> Likelihood {
        self.likelihood
    }

    /// How many parameters: a variance a random term, then the residual's.
    pub(super) fn parameter_count(&self) -> usize {
        self.terms.len() + self.residual.len()
    }

    /// Whether a parameter is a variance.
    pub(super) fn is_variance(&self, parameter: usize) -> bool {
        let residual = parameter.checked_sub(self.terms.len()).map(|at| &self.residual[at]);
        residual.is_none_or(|parameter| parameter.kind == ParameterKind::Variance)
    }

    /// Whether the residual has one variance and nothing else.
    pub(super) fn has_one_residual_variance(&self) -> bool {
        matches!(self.residual.as_slice(), [Parameter { kind: ParameterKind::Variance, .. }])
    }

    /// Names of the residual's parameters.
    pub(super) fn residual_names(&self) -> Vec<String> {
        self.residual.iter().map(|parameter| parameter.name.clone()).collect()
    }

    /// How many effects: fixed, then random, then units.
    pub(super) fn size(&self) -> usize {
        self.terms.last().map_or(self.fixed, |range| range.end) + self.units
    }

    /// Columns of the structure's units.
    pub(super) fn unit_columns(&self) -> Range<usize> {
        self.size() - self.units..self.size()
    }

    /// Whether variances may be multiplied to suit the response.
    pub(super) fn follows_response(&self) -> bool {
        self.structure.scaling() == Scaling::WithResponse
    }

    /// Rows that speak of variances: all, less the fixed columns under the restricted likelihood.
    pub(super) fn degrees(&self) -> f64 {
        let taken = if self.likelihood == Likelihood::Restricted { self.fixed } else { 0 };
        (self.observed - taken) as f64
    }

    /// The equations of the random effects alone, worked out now if the likelihood did not want them.
    pub(super) fn random_system(&self) -> Option<System> {
        let extent = Extent { columns: self.size(), fixed: self.fixed, units: self.units };
        System::of_random(&self.rows, &self.pieces, extent).ok()
    }
}

impl System {
    /// Multiplies the columns out, piece by piece.
    pub(super) fn new(rows: &SparseRows, pieces: &[Vec<Cell>], extent: Extent) -> Option<Self> {
        let columns = extent.columns;
        let turned = rows.transposed(columns);
        let weighted: Vec<SparseRows> = pieces.iter().map(|piece| product(piece, rows)).collect();
        let mut pattern = Pattern { starts: vec![0], rows: Vec::new() };
        let mut entries = vec![Vec::new(); pieces.len()];
        let mut sums = vec![0.0; columns];
        let mut seen = vec![usize::MAX; columns];
        for column in 0..columns {
            let start = pattern.rows.len();
            seen[column] = column;
            pattern.rows.push(column as u32);
            for weighted in &weighted {
                for (row, _) in turned.row(column) {
                    for (other, _) in weighted.row(row) {
                        if column < other && seen[other] != column {
                            seen[other] = column;
                            pattern.rows.push(other as u32);
                        }
                    }
                }
            }
            pattern.rows[start..].sort_unstable();
            pattern.starts.push(pattern.rows.len() as u32);
            for (weighted, entries) in weighted.iter().zip(&mut entries) {
                for (row, value) in turned.row(column) {
                    weighted.row(row).for_each(|(other, number)| sums[other] += value * number);
                }
                for (place, row) in pattern.rows.iter().enumerate().skip(start) {
                    let sum = std::mem::take(&mut sums[*row as usize]);
                    if sum != 0.0 {
                        entries.push((place as u32, sum));
                    }
                }
                for (row, _) in turned.row(column) {
                    weighted.row(row).for_each(|(other, _)| sums[other] = 0.0);
                }
            }
        }
        let layout = Layout::new(&pattern)?;
        Some(Self { pattern, entries, layout, extent })
    }

    /// The equations of the random columns alone.
    fn of_random(rows: &SparseRows, pieces: &[Vec<Cell>], extent: Extent) -> Result<Self, MixedFault> {
        let part = rows.part_from(extent.fixed);
        let extent = Extent { columns: extent.columns - extent.fixed, fixed: 0, ..extent };
        Self::new(&part, pieces, extent).ok_or(MixedFault::NotFound)
    }

    /// The numbers of the matrix.
    ///
    /// # Shape
    /// `coefficients`: one a piece. `scale`: one a column.
    pub(super) fn values(&self, coefficients: &[f64], scale: &[f64]) -> Vec<f64> {
        let mut values = vec![0.0; self.pattern.rows.len()];
        for (entries, coefficient) in self.entries.iter().zip(coefficients) {
            for (place, value) in entries {
                values[*place as usize] += coefficient * value;
            }
        }
        for column in 0..self.pattern.size() {
            let range = self.pattern.column(column);
            for (value, row) in values[range.clone()].iter_mut().zip(&self.pattern.rows[range.clone()]) {
                *value *= scale[column] * scale[*row as usize];
            }
            if (self.extent.fixed..self.extent.columns - self.extent.units).contains(&column) {
                values[range.start] += 1.0;
            }
        }
        values
    }
}

/// A piece of the residual's inverse times a vector.
pub(super) fn times(piece: &[Cell], vector: &[f64]) -> Vec<f64> {
    let mut product = vec![0.0; vector.len()];
    for cell in piece {
        product[cell.row] += cell.value * vector[cell.other];
        if cell.row != cell.other {
            product[cell.other] += cell.value * vector[cell.row];
        }
    }
    product
}

/// A piece times the rows.
fn product(piece: &[Cell], rows: &SparseRows) -> SparseRows {
    let mut sources: Vec<Vec<(usize, f64)>> = vec![Vec::new(); rows.rows()];
    for cell in piece {
        sources[cell.row].push((cell.other, cell.value));
        if cell.row != cell.other {
            sources[cell.other].push((cell.row, cell.value));
        }
    }
    let mut product = SparseRows::with_room(rows.rows(), rows.rows());
    for sources in &sources {
        // Columns may come twice: sums over them are taken by whoever reads the row.
        for (source, weight) in sources {
            rows.row(*source).for_each(|(column, value)| product.add(column, weight * value));
        }
        product.end_row();
    }
    product
}

/// Fixed columns, random columns and units beside each other; under the model's rows one row a unit.
fn beside(design: &FixedDesign, random: &RandomDesign, count: usize, shown: &[Vec<usize>]) -> SparseRows {
    let first = design.kept.len() + random.count();
    let mut parts = vec![Vec::new(); count];
    for (unit, rows) in shown.iter().enumerate() {
        rows.iter().for_each(|row| parts[*row].push(first + unit));
    }
    let mut rows = SparseRows::with_room(count + shown.len(), count * (2 + random.names().len()));
    for (row, units) in parts.iter().enumerate() {
        design.add_row(row, &mut rows);
        random.add_row(row, design.kept.len(), &mut rows);
        units.iter().for_each(|column| rows.add(*column, 1.0));
        rows.end_row();
    }
    for unit in 0..shown.len() {
        rows.add(first + unit, 1.0);
        rows.end_row();
    }
    rows
}

/// The response less the fixed columns' part.
fn left_over(rows: &SparseRows, response: &[f64], offset: &[f64]) -> Vec<f64> {
    let part = |row: usize| -> f64 {
        rows.row(row).filter(|(column, _)| *column < offset.len()).map(|(c, v)| v * offset[c]).sum()
    };
    response.iter().enumerate().map(|(row, number)| number - part(row)).collect()
}

/// The residual's structure.
fn structure(model: &Model) -> Result<Arc<dyn Structure>, MixedFault> {
    let rows = model.response.len();
    let weights = model.weights.clone().unwrap_or_else(|| vec![1.0; rows]);
    match &model.residual {
        Residual::Alike => Ok(Arc::new(Classes::new(vec!["residual".to_owned()], vec![0; rows], weights))),
        Residual::Structured(structure) => Ok(Arc::clone(structure)),
        Residual::By(factor) => {
            if factor.codes().len() != rows {
                let (name, other) = (factor.name().to_owned(), factor.codes().len());
                return Err(MixedFault::Lengths { rows, name, other });
            }
            if let Some(level) = (0..factor.levels().len()).find(|level| !factor.codes().contains(level)) {
                let level = factor.levels()[level].clone();
                return Err(MixedFault::EmptyLevel { name: factor.name().to_owned(), level });
            }
            let names = factor.levels().iter().map(|level| format!("residual {level}")).collect();
            Ok(Arc::new(Classes::new(names, factor.codes().to_vec(), weights)))
        }
    }
}

/// Terms that part the rows as another term does, or one by one.
fn untold(model: &Model, random: &RandomDesign) -> Vec<Option<Why>> {
    let rows = model.response.len();
    let alone: Vec<u32> = (0..rows as u32).collect();
    let alone = first_come(&alone, rows);
    let alike = model.weights.is_none() && !matches!(model.residual, Residual::Structured(_));
    let mut seen: Vec<Vec<u32>> = if alike { vec![alone] } else { Vec::new() };
    let judge = |term| {
        let partition = random.partition(term)?;
        let again = seen.contains(&partition);
        seen.push(partition);
        again.then_some(Why::NotSeparable)
    };
    (0..random.names().len()).map(judge).collect()
}
