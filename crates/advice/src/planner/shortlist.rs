//! Choices worth looking among, where there are many: those that bear most of a class in the weeks that are wished for.
//!
//! A garden of few plants is made of these; that no other choice could do better is not claimed here, and what no garden
//! can go under is worked out over all of them. Start at [`shortlist`].

use super::request::Request;
use super::supply::{Choice, Supply};
use super::year::Wants;
use std::collections::BTreeSet;

/// Choices that are looked among without a shortlist. A choice of ours.
const FEW: usize = 24;
/// Choices of a class and wave that are listed for all its weeks together. A choice of ours.
const OVERALL: usize = 8;
/// The same for each of its weeks: the early and the late are seldom the heaviest. A choice of ours.
const A_WEEK: usize = 2;

/// Places of the choices worth looking among, in their order.
pub(super) fn shortlist(supply: &Supply, request: &Request, wants: &Wants<'_>) -> Vec<usize> {
    let choices = supply.choices();
    if choices.len() <= FEW {
        return (0..choices.len()).collect();
    }
    let named = |name: &String| request.wanted.contains(name) || request.favourites.contains(name);
    let own = choices.iter().enumerate().filter(|(_, choice)| named(&choice.variety));
    let mut listed: BTreeSet<usize> = own.map(|(place, _)| place).collect();
    let waves: BTreeSet<u32> = choices.iter().map(|choice| choice.wave).collect();
    for (class, wave) in
        (0..wants.classes.len()).flat_map(|class| waves.iter().map(move |wave| (class, *wave)))
    {
        let is_own = |(place, choice): &(usize, &Choice)| {
            choice.wave == wave && wants.of_choice.get(*place) == Some(&Some(class))
        };
        let of_class: Vec<usize> =
            choices.iter().enumerate().filter(is_own).map(|(place, _)| place).collect();
        let weeks = weeks_of(request, wants.classes.get(class).copied().unwrap_or_default());
        let overall = |place: usize| weeks.iter().map(|week| of_week(supply, place, *week)).sum();
        listed.extend(most(&of_class, OVERALL, overall));
        for week in &weeks {
            listed.extend(most(&of_class, A_WEEK, |place| of_week(supply, place, *week)));
        }
    }
    listed.into_iter().collect()
}

/// Places of the choices of each class that bear most of it in all weeks that are wished for, in their order.
pub(super) fn best_overall(supply: &Supply, request: &Request, wants: &Wants<'_>) -> Vec<usize> {
    let mut found = BTreeSet::new();
    for (class, name) in wants.classes.iter().enumerate() {
        let own = wants.of_choice.iter().enumerate().filter(|(_, of)| **of == Some(class));
        let own: Vec<usize> = own.map(|(place, _)| place).collect();
        let weeks = weeks_of(request, name);
        found.extend(most(&own, OVERALL, |place| {
            weeks.iter().map(|week| of_week(supply, place, *week)).sum()
        }));
    }
    found.into_iter().collect()
}

/// Weeks in which anything of a class is wished for.
fn weeks_of(request: &Request, class: &str) -> BTreeSet<usize> {
    request.wishes.iter().filter(|wish| wish.class() == class).flat_map(|wish| wish.weeks()).collect()
}

/// Kilograms of a choice in a week, over all years.
fn of_week(supply: &Supply, place: usize, week: usize) -> f64 {
    (0..supply.years()).map(|year| supply.kilograms(year, place, week)).sum()
}

/// So many of the places, those with the greatest number first.
fn most(places: &[usize], count: usize, of: impl Fn(usize) -> f64) -> Vec<usize> {
    let mut ranked: Vec<(f64, usize)> = places.iter().map(|place| (of(*place), *place)).collect();
    ranked.sort_by(|one, other| other.0.total_cmp(&one.0).then(one.1.cmp(&other.1)));
    ranked.into_iter().take(count).map(|(_, place)| place).collect()
}
