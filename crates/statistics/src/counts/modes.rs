//! The deviance at given parameters: group effects at their likeliest, integrated out by Laplace's approximation.
//!
//! Start at [`look`]. Parameters are, in order, a spread for each grouping (its sign is free and
//! means nothing, so that no spread is an ordinary point), the logarithm of the shape if there is one, and
//! the fixed effects.

use super::checked::Checked;
use super::family::{Law, Row};
use super::groups::{Groups, System};
use crate::matrix::dot;

/// A model with its groupings laid out; `spreads_free` says which spreads are searched for.
#[derive(Debug)]
pub(super) struct Ground<'a> {
    pub(super) checked: &'a Checked<'a>,
    pub(super) groups: &'a Groups,
    pub(super) shaped: Shaped,
    pub(super) law: Law,
}

/// Whether the law has a shape among the parameters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shaped {
    Yes,
    No,
}

/// Parameters taken apart.
#[derive(Clone, Debug)]
pub(super) struct Parts<'a> {
    pub(super) spreads: &'a [f64],
    pub(super) log_shape: Option<f64>,
    pub(super) fixed: &'a [f64],
}

/// What was found at one set of parameters.
#[derive(Debug)]
pub(super) struct Look {
    /// -2 log-likelihood.
    pub(super) deviance: f64,
    /// Group effects in units of their spread.
    pub(super) effects: Vec<f64>,
    /// Each row's place on the model's scale.
    pub(super) places: Vec<f64>,
    pub(super) rows: Vec<Row>,
    pub(super) law: Law,
    pub(super) system: System,
}

/// Newton steps for the group effects at most, and halvings of one step.
const MOST_STEPS: u32 = 100;
const MOST_HALVINGS: u32 = 40;

/// Where one step more finds the effects: the gain in log-likelihood that it promises. What is then left promises the
/// square of this, far under any rounding.
const NEAR: f64 = 1e-9;

/// Beyond this, places on the scale are not followed: means would leave the range of numbers.
const FARTHEST: f64 = 300.0;

impl<'a> Ground<'a> {
    pub(super) fn parts<'p>(&self, parameters: &'p [f64]) -> Parts<'p> {
        let (spreads, rest) = parameters.split_at(self.groups.groupings());
        match (self.shaped, rest.split_first()) {
            (Shaped::Yes, Some((log_shape, fixed))) => Parts { spreads, log_shape: Some(*log_shape), fixed },
            _ => Parts { spreads, log_shape: None, fixed: rest },
        }
    }

    /// The law at these parameters.
    fn law_at(&self, log_shape: Option<f64>) -> Law {
        let most = self.checked.seen.iter().copied().fold(0.0, f64::max);
        log_shape.map_or_else(|| self.law.clone(), |log_shape| Law::with_shape(log_shape.exp(), most))
    }

    /// Works out the deviance, beginning the search for group effects at `start`; `None` where it is beyond numbers.
    pub(super) fn look(&self, parameters: &[f64], start: &[f64]) -> Option<Look> {
        let parts = self.parts(parameters);
        let law = self.law_at(parts.log_shape);
        let fixed = self.checked.fixed_part(parts.fixed);
        let mut now = self.stand(&law, &fixed, parts.spreads, start.to_vec())?;
        for _ in 0..MOST_STEPS {
            let slopes: Vec<f64> = now.rows.iter().map(|row| row.slope).collect();
            let mut step = self.groups.against(parts.spreads, &slopes);
            step.iter_mut().zip(&now.effects).for_each(|(slope, effect)| *slope -= effect);
            let uphill = step.clone();
            self.groups.solve(&self.system(parts.spreads, &now)?, &mut step);
            let gain = dot(&uphill, &step);
            if gain <= NEAR {
                // So near, one whole step squares what is left; roundings would only hide its gain.
                let effects = now.effects.iter().zip(&step).map(|(effect, way)| effect + way).collect();
                now = self.stand(&law, &fixed, parts.spreads, effects)?;
                break;
            }
            let Some(better) = self.along(&law, &fixed, parts.spreads, &now, &step) else { break };
            now = better;
        }
        let system = self.system(parts.spreads, &now)?;
        Some(now.finish(law, system))
    }

    /// The factored system of the group effects.
    fn system(&self, spreads: &[f64], now: &Stand) -> Option<System> {
        let weights: Vec<f64> = now.rows.iter().map(|row| row.weight).collect();
        self.groups.factor(spreads, &weights)
    }

    /// The first of ever shorter steps that is not worse; `None` where roundings hide any gain.
    fn along(&self, law: &Law, fixed: &[f64], spreads: &[f64], now: &Stand, step: &[f64]) -> Option<Stand> {
        let mut length = 1.0;
        for _ in 0..MOST_HALVINGS {
            let effects = now.effects.iter().zip(step).map(|(effect, way)| effect + length * way).collect();
            let there = self.stand(law, fixed, spreads, effects);
            if let Some(there) = there.filter(|there| there.penalised <= now.penalised) {
                return (there.effects != now.effects).then_some(there);
            }
            length *= 0.5;
        }
        None
    }

    /// Every row at given group effects.
    fn stand(&self, law: &Law, fixed: &[f64], spreads: &[f64], effects: Vec<f64>) -> Option<Stand> {
        let checked = self.checked;
        let places: Vec<f64> = fixed
            .iter()
            .enumerate()
            .map(|(row, place)| place + self.groups.part(row, spreads, &effects))
            .collect();
        if !places.iter().all(|place| place.abs() < FARTHEST) {
            return None;
        }
        let rows: Vec<Row> = places
            .iter()
            .enumerate()
            .map(|(row, place)| {
                law.row(checked.seen[row], checked.looked_at[row], *place).times(checked.weights[row])
            })
            .collect();
        let log_likelihood: f64 = rows.iter().map(|row| row.log_likelihood).sum();
        let penalised = dot(&effects, &effects) - 2.0 * log_likelihood;
        penalised.is_finite().then_some(Stand { effects, places, rows, penalised })
    }

    /// Slopes of the deviance by every parameter.
    pub(super) fn slopes(&self, parameters: &[f64], look: &Look) -> Option<Vec<f64>> {
        let parts = self.parts(parameters);
        let (count, groups) = (self.checked.rows(), self.groups);
        let inverse = groups.inverse(&look.system)?;
        let mut sums = vec![0.0; parts.spreads.len()];
        let mut by_spread = vec![0.0; parts.spreads.len()];
        let mut leverages = Vec::with_capacity(count);
        for (row, own) in look.rows.iter().enumerate() {
            leverages.push(inverse.row(row, parts.spreads, &mut sums));
            by_spread.iter_mut().zip(&sums).for_each(|(slope, sum)| *slope += 2.0 * own.weight * sum);
        }
        // How the determinant answers to the group effects, carried back to where they answer from.
        let bends: Vec<f64> = leverages.iter().zip(&look.rows).map(|(h, row)| h * row.bend).collect();
        let mut carried = groups.against(parts.spreads, &bends);
        groups.solve(&look.system, &mut carried);
        let back: Vec<f64> = (0..count).map(|row| groups.part(row, parts.spreads, &carried)).collect();
        let along: Vec<f64> = (0..count)
            .map(|row| bends[row] - look.rows[row].weight * back[row] - 2.0 * look.rows[row].slope)
            .collect();
        for (row, along) in along.iter().enumerate() {
            for (slope, column) in by_spread.iter_mut().zip(groups.row(row)) {
                *slope += look.effects[*column] * along + carried[*column] * look.rows[row].slope;
            }
        }
        let by_shape = parts.log_shape.map(|_| self.by_shape(look, &leverages, &back));
        Some(by_spread.into_iter().chain(by_shape).chain(self.checked.against(&along)).collect())
    }

    fn by_shape(&self, look: &Look, leverages: &[f64], back: &[f64]) -> f64 {
        let of_row = |row: usize| {
            let own = look.law.by_shape(self.checked.seen[row], look.places[row]);
            let slope = leverages[row] * own.weight + back[row] * own.slope - 2.0 * own.log_likelihood;
            self.checked.weights[row] * slope
        };
        (0..self.checked.rows()).map(of_row).sum()
    }
}

/// Rows at some group effects.
struct Stand {
    effects: Vec<f64>,
    places: Vec<f64>,
    rows: Vec<Row>,
    /// Squared effects less twice the log-likelihood.
    penalised: f64,
}

impl Stand {
    fn finish(self, law: Law, system: System) -> Look {
        let deviance = self.penalised + system.log_determinant;
        Look { deviance, effects: self.effects, places: self.places, rows: self.rows, law, system }
    }
}

impl Row {
    /// A row that counts so often.
    pub(super) fn times(self, weight: f64) -> Self {
        Self {
            log_likelihood: weight * self.log_likelihood,
            slope: weight * self.slope,
            weight: weight * self.weight,
            bend: weight * self.bend,
            expected_weight: weight * self.expected_weight,
        }
    }
}
