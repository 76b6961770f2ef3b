//! Which records move the result: residuals, leverage and Cook's distance, row by row.
//!
//! Variances are taken as found. For residuals with a structure of their own, leverage and distances need
//! more than the diagonal of its inverse and are left out.

use super::Fit;
use super::equations::Equations;
use super::look::dot;
use super::selected::Selected;

/// What one row says of the fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RowDiagnostic {
    /// Response less the fixed effects.
    pub marginal: f64,
    /// Response less fixed and random effects.
    pub conditional: f64,
    /// The conditional residual over its standard deviation; `None` where the model leaves the row no freedom.
    pub standardised: Option<f64>,
    /// How much a change of one in the response moves the row's own fitted value.
    pub leverage: Option<f64>,
    /// Cook's distance: how far the fixed effects move when the row is left out, in their own uncertainty.
    pub distance: Option<f64>,
}

/// Share of the residual variance below which a row has no freedom left.
const NO_FREEDOM: f64 = 1e-9;

/// Works out the diagnostics.
///
/// # Shape
/// Returns one a row, in order.
#[must_use]
pub fn diagnostics(fit: &Fit) -> Vec<RowDiagnostic> {
    let equations = &fit.equations;
    let random = random_part(fit);
    let freedom = freedoms(fit);
    let row = |row: usize| {
        let conditional = fit.point.errors[row];
        let mut told = RowDiagnostic {
            marginal: conditional + random[row],
            conditional,
            standardised: None,
            leverage: None,
            distance: None,
        };
        if let Some(freedom) = &freedom {
            freedom.fill(row, equations.fixed, &mut told);
        }
        told
    };
    (0..equations.observed).map(row).collect()
}

/// The random effects' part of every row.
fn random_part(fit: &Fit) -> Vec<f64> {
    let mut effects = fit.point.effects(&fit.equations);
    effects[..fit.equations.fixed].fill(0.0);
    fit.equations.rows.times(&effects)
}

/// For every row: inverse residual variance, and the diagonals of `P` and of `V^-1`.
struct Freedoms {
    precision: Vec<f64>,
    projected: Vec<f64>,
    whole: Vec<f64>,
}

impl Freedoms {
    fn fill(&self, row: usize, fixed: usize, told: &mut RowDiagnostic) {
        let (precision, projected) = (self.precision[row], self.projected[row]);
        told.leverage = Some(1.0 - projected / precision);
        if projected <= NO_FREEDOM * precision {
            return;
        }
        let scored = precision * told.conditional;
        told.standardised = Some(scored / projected.sqrt());
        let fixed_share = (self.whole[row] - projected).max(0.0);
        told.distance = (0 < fixed).then(|| (scored / projected).powi(2) * fixed_share / fixed as f64);
    }
}

/// The diagonals, for residuals that are independent.
fn freedoms(fit: &Fit) -> Option<Freedoms> {
    let equations = &fit.equations;
    let mut precision = vec![0.0; equations.response.len()];
    for (coefficient, piece) in fit.point.setting.coefficients.iter().zip(&equations.pieces) {
        for cell in piece {
            if cell.row != cell.other {
                return None;
            }
            precision[cell.row] += coefficient * cell.value;
        }
    }
    let all = fit.point.inverse(equations)?;
    let whole_layout = &equations.whole.layout;
    let projected = diagonal(fit, &precision, 0, |row, column| all.entry(whole_layout, row, column))?;
    let system = equations.random_system()?;
    let scale = &fit.point.scale[equations.fixed..];
    let factor =
        system.layout.factor(&system.pattern, &system.values(&fit.point.setting.coefficients, scale))?;
    let alone = Selected::new(&system.layout, &factor)?;
    let whole =
        diagonal(fit, &precision, equations.fixed, |row, column| alone.entry(&system.layout, row, column))?;
    Some(Freedoms { precision, projected, whole })
}

/// Diagonal of `R^-1 - R^-1 W B W' R^-1` with the columns from `first` on and the scaled inverse `B` of theirs.
fn diagonal(
    fit: &Fit,
    precision: &[f64],
    first: usize,
    entry: impl Fn(usize, usize) -> Option<f64>,
) -> Option<Vec<f64>> {
    let equations: &Equations = &fit.equations;
    let mut scaled: Vec<(usize, f64)> = Vec::new();
    let row = |row: usize| {
        scaled.clear();
        let columns = equations.rows.row(row).filter(|(column, _)| first <= *column);
        scaled.extend(columns.map(|(column, value)| (column - first, value * fit.point.scale[column])));
        let mut sum = 0.0;
        for (own, value) in &scaled {
            let across = scaled.iter().map(|(other, number)| Some(number * entry(*own, *other)?));
            sum += value * across.sum::<Option<f64>>()?;
        }
        Some(precision[row] - precision[row] * precision[row] * sum)
    };
    (0..precision.len()).map(row).collect()
}

/// Squares of the standardised residuals over their number: near one where the model holds.
#[must_use]
pub fn mean_square(rows: &[RowDiagnostic]) -> Option<f64> {
    let standardised: Vec<f64> = rows.iter().filter_map(|row| row.standardised).collect();
    (!standardised.is_empty()).then(|| dot(&standardised, &standardised) / standardised.len() as f64)
}
