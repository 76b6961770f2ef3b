//! The gauge: how sure a call is, as a rule of ink, broken where the call is contested.

use crate::scale::Pixels;
use crate::svg::Svg;
use record::share::Share;

/// One verdict and its probability.
#[derive(Clone, Debug, PartialEq)]
pub struct VerdictShare {
    /// The verdict in words, such as `plum`.
    pub verdict: String,
    /// Its probability.
    pub share: Share,
}

/// Draws every verdict's probability, one line each, as given (house order: likeliest first).
///
/// `contested` breaks the first line's rule.
#[must_use]
pub fn gauge(verdicts: &[VerdictShare], contested: bool, width: Pixels) -> Svg {
    let _ = (verdicts, contested);
    crate::svg::Canvas::new("x","").finish("x", crate::svg::Role::Picture, "", width.get(), width.get())
}

/// Draws one rule alone, for a row of a table: as long as the call is certain.
#[must_use]
pub fn rule(verdict: &VerdictShare, contested: bool, width: Pixels) -> Svg {
    let _ = (verdict, contested);
    crate::svg::Canvas::new("x","").finish("x", crate::svg::Role::Picture, "", width.get(), width.get())
}
