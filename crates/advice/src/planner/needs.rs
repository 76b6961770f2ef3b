//! What a year that is met needs, as sums of plants that must reach 1.
//!
//! The table's weeks are as they are. A kitchen's days are taken to suit every plant on its own, each with what it bears in its
//! own best weeks: a garden that is met has all of these, and one that has them need not be met. Start at [`needs`].

use super::request::{Request, Wish};
use super::supply::Supply;
use super::year::Wants;
use statistics::kept_scenarios::Sum;
use std::ops::RangeInclusive;

/// A need is eased by this part, which is more than what a year may lack and be met ([`super::year`]).
const EASED: f64 = 1e-6;

/// The needs of a year.
///
/// # Shape
/// `own`: places of the choices that may stand; sums go by the place among these. Needs that a single plant is far from come first.
pub(super) fn needs(supply: &Supply, request: &Request, own: &[usize], year: usize) -> Vec<Sum> {
    let wants = Wants::of(supply, request);
    let mut found = Vec::new();
    for (place, class) in wants.classes.iter().enumerate() {
        let of_class: Vec<(usize, &[f64])> = own
            .iter()
            .enumerate()
            .filter(|(_, choice)| supply.choices().get(**choice).is_some_and(|own| own.class == **class))
            .map(|(piece, choice)| (piece, supply.in_year(year, *choice)))
            .collect();
        let wishes: Vec<&Wish> = request.wishes.iter().filter(|wish| wish.class() == *class).collect();
        for wish in &wishes {
            match wish {
                Wish::Fresh { kilograms, weeks, .. } => {
                    found.extend(weeks.clone().map(|week| {
                        need(&of_class, *kilograms, |borne| borne.get(week).copied().unwrap_or(0.0))
                    }));
                }
                Wish::Kitchen { .. } => found.extend(kitchen(&of_class, wish)),
            }
        }
        if 1 < wishes.len() {
            let all: f64 = wishes.iter().map(|wish| in_all(wish)).sum();
            let weeks = wants.weeks(place);
            found.push(need(&of_class, all, |borne| borne.get(weeks.clone()).into_iter().flatten().sum()));
        }
    }
    found.sort_by(|one, other| easiest(one).total_cmp(&easiest(other)));
    found
}

/// Kilograms that a wish takes of a year.
fn in_all(wish: &Wish) -> f64 {
    match wish {
        Wish::Kitchen { kilograms, .. } => *kilograms,
        Wish::Fresh { kilograms, weeks, .. } => weeks.clone().map(|_| *kilograms).sum(),
    }
}

/// Needs of a kitchen: so many of its days, the poorest of them, put up what all others together leave at least.
fn kitchen(of_class: &[(usize, &[f64])], wish: &Wish) -> Vec<Sum> {
    let Wish::Kitchen { kilograms, window, days, a_day, keeps, .. } = wish else { return Vec::new() };
    let all = usize::try_from(*days).unwrap_or(usize::MAX).min(window.clone().count());
    let mut left = *kilograms;
    let mut found = Vec::new();
    for days in (1..=all).rev() {
        if left <= 0.0 {
            break;
        }
        found.push(need(of_class, left, |borne| best_days(borne, window, *keeps, days)));
        left -= a_day;
    }
    found
}

/// Kilograms that a plant has at hand on its best days, no two days counting the same fruit in all.
fn best_days(borne: &[f64], window: &RangeInclusive<usize>, keeps: usize, days: usize) -> f64 {
    let at_hand =
        |week: usize| borne.get(week.saturating_sub(keeps)..=week).into_iter().flatten().sum::<f64>();
    let mut weeks: Vec<f64> = window.clone().map(at_hand).collect();
    weeks.sort_by(|one, other| other.total_cmp(one));
    let of_all = borne.get(window.start().saturating_sub(keeps)..=*window.end());
    let most: f64 = of_all.into_iter().flatten().sum();
    weeks.into_iter().take(days).sum::<f64>().min(most)
}

/// A sum that reaches 1 where so many kilograms are borne. A plant counts no more than all of it, for plants are whole.
fn need(of_class: &[(usize, &[f64])], kilograms: f64, bears: impl Fn(&[f64]) -> f64) -> Sum {
    let part = |borne: &[f64]| (bears(borne) / kilograms * (1.0 + EASED)).min(1.0);
    of_class.iter().map(|(piece, borne)| (*piece, part(borne))).filter(|(_, part)| 0.0 < *part).collect()
}

/// The part of a need that its best plant has.
fn easiest(need: &Sum) -> f64 {
    need.iter().map(|(_, part)| *part).fold(0.0, f64::max)
}
