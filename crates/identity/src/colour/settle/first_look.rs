//! The first look at the colour of an unknown: what would its outside, its flesh or its skin tell?
//!
//! Every look is told with how sure the colour outside is expected to be after it. Start at [`looks`].

use super::{Leading, Reads, Tried, drawn, step};
use crate::call::{Action, SETTLED_AT, Step, WORTH_A_LOOK};
use crate::colour::ColourModel;
use crate::colour::belief::ColourBelief;
use crate::colour::evidence::PatchColours;

/// Every look that was not taken yet, the cheapest first; nothing where the colour is settled.
///
/// # Shape
/// `fruits`: how many there are to look at; more than ten count as ten.
pub(crate) fn looks(
    belief: &ColourBelief,
    read: &PatchColours,
    model: &ColourModel,
    fruits: usize,
) -> Vec<Step> {
    let now = Leading::of(&belief.triples).exterior;
    if SETTLED_AT <= now {
        return Vec::new();
    }
    let truths = drawn(belief.triples.0.iter().flatten().copied());
    let tried = Tried { belief, model, reached: Vec::new() };
    let look = |(action, reads, words): (Action, Reads, &'static str)| {
        let draws = truths.iter().zip(&model.noise.0);
        let after = draws.map(|(truth, noise)| tried.after(*truth, reads, fruits, noise));
        step(action, words, after.map(|after| Leading::of(&after).exterior).collect())
    };
    let steps = on_offer(read, fruits).into_iter().map(look);
    steps.filter(|step| now + WORTH_A_LOOK <= step.expected.get()).collect()
}

fn on_offer(read: &PatchColours, fruits: usize) -> Vec<(Action, Reads, &'static str)> {
    let count = u32::try_from(fruits).unwrap_or(u32::MAX);
    let unread = |words: &[u32]| words.iter().all(|count| *count == 0);
    let mut open = Vec::new();
    if unread(&read.exterior) && read.measured_exterior.is_empty() {
        open.push((Action::ReadColour(count), Reads::Outside, "Note its colour outside."));
    }
    if unread(&read.skin) {
        let words = "Peel it and hold the skin to the light: clear or yellow?";
        open.push((Action::PeelSkin(count), Reads::Skin, words));
    }
    if unread(&read.flesh) && read.measured_flesh.is_empty() {
        open.push((Action::ReadColour(count), Reads::Flesh, "Cut it and note the colour of the flesh."));
    }
    open
}
