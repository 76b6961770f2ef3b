//! How far a garden falls short in one year: what the table eats first, then the best kitchen days of what is left.
//!
//! One kitchen wish after the other takes its best weeks, the tightest first. Where two of them want the same weeks of one
//! class that may not be the best sharing out, so a year that is met here is met, and one that is not may yet be. Start at
//! [`Wants::short`].

use super::request::{Request, Wish};
use super::supply::Supply;
use std::ops::Range;

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

    /// The weeks that anything of a class is taken from.
    pub(super) fn weeks(&self, class: usize) -> Range<usize> {
        let served = self.served.get(class).into_iter().flatten();
        let taken = served.map(|wish| {
            let keeps = if let Wish::Kitchen { keeps, .. } = wish { *keeps } else { 0 };
            wish.weeks().start().saturating_sub(keeps)..wish.weeks().end() + 1
        });
        taken.reduce(|one, other| one.start.min(other.start)..one.end.max(other.end)).unwrap_or(0..0)
    }

    /// Whether a year in which a class lacks nothing lacks nothing with more fruit of it: so it is where one kitchen at most
    /// takes from it, and nothing is kept: else one day may then take the weeks that another needs.
    pub(super) fn stay_met(&self, class: usize) -> bool {
        let mut served = self.served.get(class).into_iter().flatten();
        let mut kitchens = 0;
        served.all(|wish| {
            kitchens += usize::from(matches!(wish, Wish::Kitchen { .. }));
            kitchens <= 1 && !matches!(wish, Wish::Kitchen { keeps: 1.., .. })
        })
    }

    /// The parts of its wishes that a class lacks in a year, added up; nothing where all are met.
    ///
    /// # Shape
    /// `borne`: kilograms in each week. What is left of them afterwards stays there.
    pub(super) fn short(&self, class: usize, borne: &mut [f64]) -> f64 {
        let served = self.served.get(class).into_iter().flatten();
        let mut days = Vec::new();
        let missing: f64 = served.map(|wish| serve(wish, borne, &mut days)).sum();
        if missing < NOTHING { 0.0 } else { missing }
    }

    /// A wish's kitchen days of a year in the order of the season, after those that are served before it: the week of each and
    /// its kilograms.
    pub(super) fn days(&self, class: usize, wanted: &Wish, borne: &[f64]) -> Vec<(usize, f64)> {
        let (mut left, mut days) = (borne.to_vec(), Vec::new());
        for wish in self.served.get(class).into_iter().flatten() {
            days.clear();
            serve(wish, &mut left, &mut days);
            if std::ptr::eq(*wish, wanted) {
                break;
            }
        }
        days.sort_by_key(|(week, _)| *week);
        days
    }
}

/// How much more a wish's days could take than it needs; what is eaten week by week has nothing to spare.
fn spare(wish: &Wish) -> f64 {
    match wish {
        Wish::Fresh { .. } => f64::NEG_INFINITY,
        Wish::Kitchen { kilograms, days, a_day, .. } => f64::from(*days) * a_day / kilograms,
    }
}

/// Takes what a wish needs out of what is left, adds its kitchen days, and tells the part of it that is missing.
fn serve(wish: &Wish, left: &mut [f64], cooked: &mut Vec<(usize, f64)>) -> f64 {
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
        Wish::Kitchen { kilograms, window, days, a_day, keeps, .. } => {
            let days = usize::try_from(*days).unwrap_or(usize::MAX).min(window.clone().count());
            let (mut missing, before) = (*kilograms, cooked.len());
            // The best weeks one by one: days are few, so that this is sooner done than sorting.
            while cooked.len() - before < days && 0.0 < missing {
                let mut best: Option<(usize, f64)> = None;
                for week in window.clone() {
                    let could = at_hand(left, week, *keeps).iter().sum::<f64>().min(*a_day);
                    let is_free = || !cooked.iter().skip(before).any(|(other, _)| *other == week);
                    if best.is_none_or(|(_, most)| most < could) && is_free() {
                        best = Some((week, could));
                    }
                }
                let Some((week, could)) = best else { break };
                let put_up = could.min(missing);
                missing -= put_up;
                let mut wanted = put_up;
                // The oldest first.
                for borne in at_hand(left, week, *keeps) {
                    let used = borne.min(wanted);
                    *borne -= used;
                    wanted -= used;
                }
                cooked.push((week, put_up));
            }
            missing / kilograms
        }
    }
}

/// Fruit that a kitchen day has at hand: that of its own week and of those before that keeps so long.
fn at_hand(left: &mut [f64], week: usize, keeps: usize) -> &mut [f64] {
    left.get_mut(week.saturating_sub(keeps)..=week).unwrap_or_default()
}
