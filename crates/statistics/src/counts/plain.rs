//! A model without groupings: Newton's steps on the fixed effects, where every search begins.

use super::checked::Checked;
use super::family::{Law, Row, Scale};
use crate::matrix::dot;

/// Steps and halvings at most. A cell with nothing in it takes one step for each factor e of its mean.
const MOST_STEPS: u32 = 60;
const MOST_HALVINGS: u32 = 30;

/// Where the effects count as found: the gain in log-likelihood that a further step promises.
const SETTLED: f64 = 1e-13;

/// Fixed effects that fit best when groups do not differ; nothing where the model cannot be started.
pub(super) fn fixed_effects(checked: &Checked<'_>, law: &Law) -> Option<Vec<f64>> {
    let mut effects = start(checked, law)?;
    let mut now = rows(checked, law, &effects)?;
    for _ in 0..MOST_STEPS {
        let slopes: Vec<f64> = now.iter().map(|row| row.slope).collect();
        let weights: Vec<f64> = now.iter().map(|row| row.weight).collect();
        let uphill = checked.against(&slopes);
        let Some(factor) = checked.crossed(&weights).cholesky() else { break };
        let step = factor.solve(&uphill);
        if dot(&uphill, &step) <= SETTLED {
            break;
        }
        let Some((better, there)) = along(checked, law, &effects, &step, total(&now)) else { break };
        (effects, now) = (better, there);
    }
    Some(effects)
}

/// The first of ever shorter steps that is better.
fn along(
    checked: &Checked<'_>,
    law: &Law,
    effects: &[f64],
    step: &[f64],
    reached: f64,
) -> Option<(Vec<f64>, Vec<Row>)> {
    let mut length = 1.0;
    for _ in 0..MOST_HALVINGS {
        let better: Vec<f64> = effects.iter().zip(step).map(|(own, way)| own + length * way).collect();
        let there = rows(checked, law, &better).filter(|there| reached < total(there));
        if let Some(there) = there {
            return Some((better, there));
        }
        length *= 0.5;
    }
    None
}

fn total(rows: &[Row]) -> f64 {
    rows.iter().map(|row| row.log_likelihood).sum()
}

/// Every row at given fixed effects; `None` where a mean is beyond numbers.
fn rows(checked: &Checked<'_>, law: &Law, effects: &[f64]) -> Option<Vec<Row>> {
    let places = checked.fixed_part(effects);
    let row = |(at, place): (usize, &f64)| {
        law.row(checked.seen[at], checked.looked_at[at], *place).times(checked.weights[at])
    };
    let rows: Vec<Row> = places.iter().enumerate().map(row).collect();
    total(&rows).is_finite().then_some(rows)
}

/// Least squares of the counts on the model's scale, each moved a little inwards so that 0 has a logarithm.
fn start(checked: &Checked<'_>, law: &Law) -> Option<Vec<f64>> {
    let wanted = |at: usize| {
        let (seen, looked_at) = (checked.seen[at], checked.looked_at[at]);
        match law.scale() {
            Scale::Log => (seen + 0.1).ln() - checked.offset[at],
            Scale::LogOdds => ((seen + 0.5) / (looked_at - seen + 0.5)).ln() - checked.offset[at],
        }
    };
    // Rows weigh by their curvature there, so that one large count outweighs ten zeros.
    let weight = |at: usize| {
        let (seen, looked_at) = (checked.seen[at], checked.looked_at[at]);
        let curvature = match law.scale() {
            Scale::Log => seen + 0.1,
            Scale::LogOdds => (seen + 0.5) * (looked_at - seen + 0.5) / (looked_at + 1.0),
        };
        if 0.0 < looked_at { checked.weights[at] * curvature } else { 0.0 }
    };
    let weights: Vec<f64> = (0..checked.rows()).map(weight).collect();
    let right: Vec<f64> = (0..checked.rows()).map(|at| weights[at] * wanted(at)).collect();
    Some(checked.crossed(&weights).cholesky()?.solve(&checked.against(&right)))
}
