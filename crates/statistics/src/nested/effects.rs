//! The random effects: each group's predicted distance from what the fixed columns say.

use super::terms::Solution;
use super::{Effect, GroupEffect};

/// The outer groups' predicted effects.
pub(super) fn outer_effects(solution: &Solution<'_>) -> Vec<GroupEffect> {
    let groups = solution.table.outers.iter().zip(&solution.outers);
    let effects = groups.map(|(outer, sums)| {
        let explained = solution.factor.inverse_form(&solution.outer_columns(sums));
        let effect = predicted(solution.variances[0], solution.pull(sums), sums.weight - explained);
        GroupEffect { outer: outer.number, inner: None, effect }
    });
    effects.collect()
}

/// The inner groups' predicted effects.
pub(super) fn inner_effects(solution: &Solution<'_>) -> Vec<GroupEffect> {
    let groups = solution.table.outers.iter().zip(&solution.outers);
    let effects = groups.flat_map(|(outer, sums)| {
        outer.cells.iter().map(move |cell| {
            let told = solution.cell(cell, sums);
            let left = told.own - solution.factor.inverse_form(&told.columns);
            let effect = predicted(solution.variances[1], told.residual, left);
            GroupEffect { outer: outer.number, inner: Some(cell.inner), effect }
        })
    });
    effects.collect()
}

/// A prediction `v 1'Py` and the root of its error variance `v - v^2 1'P1`.
fn predicted(variance: f64, residual: f64, information: f64) -> Effect {
    let error = (variance - variance * variance * information).max(0.0);
    Effect { estimate: variance * residual, standard_error: error.sqrt() }
}
