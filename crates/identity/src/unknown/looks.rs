//! What one more look would tell: each thing that could be measured or seen next, by what it is expected to do.
//!
//! A variety's call says what would settle it, over plants and seasons. Whoever holds an unknown tomato asks
//! something nearer: is it worth cutting it, or going back to look at the stem? Each look is tried out in
//! imagination, as for a variety, and all are told, the most telling first. Start at [`looks`].

use super::Evidence;
use crate::call::Step;
use crate::colour::{self, ColourModel};
use crate::fruit_class::{self, Draws};
use crate::guide::fruit::FruitGuide;
use crate::habit::{self, HabitModel};
use crate::spread::Spread;

/// What the looks are judged by.
#[derive(Clone, Copy, Debug)]
pub struct Rules<'a> {
    /// Classes.
    pub fruit: &'a FruitGuide,
    /// How far fruits, plants and seasons differ.
    pub spread: &'a Spread,
    /// Chances.
    pub draws: &'a Draws,
    /// Habits.
    pub habit: &'a HabitModel,
    /// Colours.
    pub colour: &'a ColourModel,
}

/// What could be looked at next; of each call the most telling look first.
#[derive(Clone, Debug, PartialEq)]
pub struct Looks {
    /// For the fruit class.
    pub class: Vec<Step>,
    /// For the habit.
    pub habit: Vec<Step>,
    /// For the colour.
    pub colour: Vec<Step>,
}

/// Tries out every look that has not been taken yet.
///
/// # Shape
/// `fruits`: how many there are to cut and measure. A call that is settled already has no looks, and a look
/// that would tell next to nothing is left out.
#[must_use]
pub fn looks(evidence: &Evidence, fruits: u32, by: &Rules<'_>) -> Looks {
    Looks {
        class: best_first(fruit_class::looks(&evidence.fruit, by.spread, by.fruit, by.draws, fruits)),
        habit: best_first(habit::looks(&evidence.habit, by.habit)),
        colour: best_first(colour::looks(&evidence.colour, by.colour, fruits)),
    }
}

/// Stable, so that of equals the cheaper stays first.
fn best_first(mut steps: Vec<Step>) -> Vec<Step> {
    steps.sort_by(|one, other| other.expected.get().total_cmp(&one.expected.get()));
    steps
}
