//! The first look at one plant of an unknown: what would each thing that was not noted yet tell of its habit?
//!
//! Every look is told with how sure the call is expected to be after it. Start at [`looks`].

use super::{drawn, leading, tried};
use crate::call::{Action, SETTLED_AT, Step, WORTH_A_LOOK};
use crate::habit::HabitModel;
use crate::habit::belief::{Belief, Line, PatchOdds, Weights};

/// What can be seen of one plant, from the cheapest to the dearest.
const ON_OFFER: [(Line, (Action, &str)); 4] = [
    (Line::Leaves, (Action::CountLeaves(1), "Count the leaves between its trusses.")),
    (
        Line::Stems,
        (
            Action::FollowStems(1),
            "Follow its main stem until it ends in a truss or frost comes; note the trusses.",
        ),
    ),
    (Line::HeightCurve, (Action::MeasureHeights(1), "Measure its height once a week until frost.")),
    (Line::Ripening, (Action::CountPicks(1), "Weigh or count every pick of it until frost.")),
];

/// Every look at one plant that was not taken yet, the cheapest first; nothing where the habit is settled.
pub(crate) fn looks(belief: &Belief, odds: &[PatchOdds], model: &HabitModel) -> Vec<Step> {
    let now = leading(belief);
    if SETTLED_AT <= now {
        return Vec::new();
    }
    let (truths, weights) = (drawn(belief), Weights::of_next(odds, &model.guide));
    let open = |line: Line| !odds.iter().any(|odds| odds.has(line));
    let open = ON_OFFER.iter().filter(|(line, _)| open(*line));
    let steps = open.map(|(_, candidate)| tried(candidate, &truths, belief, weights, model));
    steps.filter(|step| now + WORTH_A_LOOK <= step.expected.get()).collect()
}
