//! Which trend suits the plots best: the same varieties over each, judged by Akaike's criterion.

use super::splines::Segments;
use super::{Nugget, Plane, SpatialFault, SpatialFit, Trend, Trial, fit};
use crate::mixed::tests::akaike;
use crate::mixed::{Going, MixedFault, Progress};
use crate::nested::Likelihood;

/// One trend and how it did.
#[derive(Debug)]
pub struct Candidate {
    /// The trend.
    pub trend: Trend,
    /// Its fit and Akaike's criterion, the smaller the better; or why there is none.
    pub outcome: Result<(SpatialFit, f64), SpatialFault>,
}

/// Trends worth trying on a bed, simple ones first.
#[must_use]
pub fn usual(trial: &Trial) -> Vec<Trend> {
    vec![
        Trend::Level,
        Trend::RowsAndColumns,
        Trend::Splines(Segments::of(&trial.bed)),
        Trend::Autoregression(Nugget::LeftOut),
        Trend::Autoregression(Nugget::Estimated),
    ]
}

/// Fits every trend and puts the best first; those that could not be fitted come last.
///
/// Restricted criteria may only be compared where the fixed part is the same, so if one of the trends needs the plane,
/// all are fitted over it.
///
/// # Errors
/// [`MixedFault::Stopped`] where whoever watched said stop.
pub fn choose(
    trial: &Trial,
    trends: &[Trend],
    watch: &mut dyn FnMut(Trend, &Progress) -> Going,
) -> Result<Vec<Candidate>, MixedFault> {
    let needs_plane = trends.iter().any(|trend| matches!(trend, Trend::Splines(_)));
    let plane = if needs_plane { Plane::Fixed } else { trial.plane };
    let trial = Trial { plane, ..trial.clone() };
    let mut candidates = Vec::with_capacity(trends.len());
    for trend in trends {
        let fitted = fit(&trial, *trend, Likelihood::Restricted, &mut |progress| watch(*trend, progress));
        let outcome = match fitted {
            Err(SpatialFault::Mixed(MixedFault::Stopped)) => return Err(MixedFault::Stopped),
            Err(fault) => Err(fault),
            Ok(fitted) => {
                let criterion = akaike(&fitted.fit);
                Ok((fitted, criterion))
            }
        };
        candidates.push(Candidate { trend: *trend, outcome });
    }
    let rank = |candidate: &Candidate| candidate.outcome.as_ref().map_or(f64::INFINITY, |(_, own)| *own);
    candidates.sort_by(|one, other| rank(one).total_cmp(&rank(other)));
    Ok(candidates)
}
