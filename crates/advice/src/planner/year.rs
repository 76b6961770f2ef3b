//! How far a garden falls short in one year: what the table eats first, then the best kitchen days of what is left.
//!
//! One kitchen wish after the other takes its best weeks, the tightest first. Where two of them want the same weeks of one
//! class that may not be the best sharing out, so a year that is met here is met, and one that is not may yet be. Start at
//! [`Wants::short`].

use super::request::{Request, Wish};
use super::supply::Supply;

/// Wishes by the class that they go to, in the order in which they are served.
pub(super) struct Wants<'a> {
    /// The classes that are wished for.
    pub(super) classes: Vec<&'a str>,
    /// The class of each choice; nothing for one that nobody wishes for.
    pub(super) of_choice: Vec<Option<usize>>,
    served: Vec<Vec<&'a Wish>>,
}

/// Part of a wish below which nothing is missing: far less than shows on a kitchen's scale.
const NOTHING: f64 = 1e-7;

impl<'a> Wants<'a> {
    /// Sorts the wishes of a request.
    pub(super) fn of(supply: &Supply, request: &'a Request) -> Self {
        let mut classes: Vec<&str> = request.wishes.iter().map(Wish::class).collect();
        classes.sort_unstable();
        classes.dedup();
        let place = |class: &str| classes.iter().position(|one| *one == class);
        let of_choice = supply.choices().iter().map(|choice| place(&choice.class)).collect();
        let served = classes
            .iter()
            .map(|class| {
                let mut own: Vec<&Wish> =
                    request.wishes.iter().filter(|wish| wish.class() == *class).collect();
                own.sort_by(|one, other| spare(one).total_cmp(&spare(other)));
                own
            })
            .collect();
        Self { classes, of_choice, served }
    }

    /// The parts of its wishes that a class lacks in a year, added up; nothing where all are met.
    ///
    /// # Shape
    /// `borne`: kilograms in each week. What is left of them afterwards stays there.
    pub(super) fn short(&self, class: usize, borne: &mut [f64]) -> f64 {
        let served = self.served.get(class).into_iter().flatten();
        let missing: f64 = served.map(|wish| serve(wish, borne)).sum();
        if missing < NOTHING { 0.0 } else { missing }
    }

    /// Kilograms that a wish's kitchen days take in a year, week by week, after those that are served before it.
    pub(super) fn taken(&self, class: usize, wanted: &Wish, borne: &[f64]) -> Vec<f64> {
        let mut left = borne.to_vec();
        for wish in self.served.get(class).into_iter().flatten() {
            let before = left.clone();
            serve(wish, &mut left);
            if std::ptr::eq(*wish, wanted) {
                return before.iter().zip(&left).map(|(before, left)| before - left).collect();
            }
        }
        vec![0.0; borne.len()]
    }
}

/// How much more a wish's days could take than it needs; what is eaten week by week has nothing to spare.
fn spare(wish: &Wish) -> f64 {
    match wish {
        Wish::Fresh { .. } => f64::NEG_INFINITY,
        Wish::Kitchen { kilograms, days, a_day, .. } => f64::from(*days) * a_day / kilograms,
    }
}

/// Takes what a wish needs out of what is left, and tells the part of it that is missing.
fn serve(wish: &Wish, left: &mut [f64]) -> f64 {
    match wish {
        Wish::Fresh { kilograms, weeks, .. } => {
            let mut missing = 0.0;
            for week in left.get_mut(weeks.clone()).unwrap_or_default() {
                let eaten = week.min(*kilograms);
                missing += kilograms - eaten;
                *week -= eaten;
            }
            missing / kilograms
        }
        Wish::Kitchen { kilograms, window, days, a_day, .. } => {
            let days = usize::try_from(*days).unwrap_or(usize::MAX);
            let weeks = left.get_mut(window.clone()).unwrap_or_default();
            let (mut missing, mut cooked) = (*kilograms, Vec::with_capacity(days.min(weeks.len())));
            // The best weeks one by one: days are few, so that this is sooner done than sorting.
            while cooked.len() < days.min(weeks.len()) && 0.0 < missing {
                let mut best: Option<(usize, f64)> = None;
                for (week, kilograms) in weeks.iter().enumerate() {
                    let could = kilograms.min(*a_day);
                    if best.is_none_or(|(_, most)| most < could) && !cooked.contains(&week) {
                        best = Some((week, could));
                    }
                }
                let Some((week, could)) = best else { break };
                let put_up = could.min(missing);
                missing -= put_up;
                if let Some(left) = weeks.get_mut(week) {
                    *left -= put_up;
                }
                cooked.push(week);
            }
            missing / kilograms
        }
    }
}
