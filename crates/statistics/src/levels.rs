//! Which of three nested levels can be told apart.
//!
//! Every level has comparisons of its own: outer groups with each other, inner groups of one outer group,
//! rows of one inner group, each less what the fixed effects explain. Their number is the level's degrees
//! of freedom. A level without any, and without a prior, is left out, and the answer says why.

use crate::climb::PerLevel;
use crate::component::{Prior, Why};

/// Why each level (outer, inner, residual) is left out, if it is; `None` where nothing can be compared.
///
/// A level is told by comparisons of its own or by a prior. Where the residual is not, its variance takes in
/// that of the next level that can be compared. Where the inner level is not, the outer's takes in the
/// inner's.
pub(crate) fn left_out(
    compared: &PerLevel<bool>,
    priors: &PerLevel<Option<Prior>>,
) -> Option<PerLevel<Option<Why>>> {
    let [outer_told, inner_told, residual_told] = [0, 1, 2].map(|level: usize| {
        compared.get(level).copied().unwrap_or(false) || priors.get(level).is_some_and(Option::is_some)
    });
    let [outers, inners, _] = *compared;
    let swallowed = |level_prior: Option<Prior>| level_prior.is_none().then_some(Why::NotSeparable);
    let untold = |told: bool, why: Why| (!told).then_some(why);
    match (residual_told, inners, outers) {
        (true, _, _) => {
            let inner = if outer_told { Why::NotSeparable } else { Why::NothingToCompare };
            Some([untold(outer_told, Why::NothingToCompare), untold(inner_told, inner), None])
        }
        (false, true, _) => Some([untold(outer_told, Why::NothingToCompare), swallowed(priors[1]), None]),
        (false, false, true) => Some([swallowed(priors[0]), untold(inner_told, Why::NotSeparable), None]),
        (false, false, false) => None,
    }
}
