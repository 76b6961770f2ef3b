//! A number of plants that no garden is under: what each class of fruit takes in each year alone, put together over the years
//! that must be met.
//!
//! A plant belongs to one class, so the classes' plants add up; and the years that are met are the same for all classes. Start
//! at [`least_plants`].

use super::model::{fewest_in, years_needed};
use super::plan::least;
use super::request::{Request, Wish};
use super::supply::{Room, Supply};
use super::watch::Watch;
use rayon::prelude::{IntoParallelIterator, ParallelIterator};
use std::collections::BTreeSet;

/// No garden that keeps the request has fewer plants than this; infinite where there is none at all.
///
/// A year whose program the solver could not go on with, as happens where numbers are nearly alike, rules nothing out.
pub(super) fn least_plants(supply: &Supply, request: &Request, watch: &dyn Watch) -> f64 {
    let needed = years_needed(request.sure, supply.years());
    if needed == 0 {
        return 0.0;
    }
    let classes: BTreeSet<&str> = request.wishes.iter().map(Wish::class).collect();
    let years: Vec<usize> = (0..supply.years()).collect();
    let (mut each, mut together_least) = (Vec::new(), 0.0);
    for class in classes {
        each.push(in_each_year(supply, request, class, watch));
        together_least = together(&each, &years, needed);
        if together_least.is_finite() {
            watch.bound(least(u32::MAX, together_least));
        }
    }
    if places(supply, request) < together_least { f64::INFINITY } else { together_least }
}

/// The fewest plants that a class takes in each year alone; none in the years that were left when it was stopped.
fn in_each_year(supply: &Supply, request: &Request, class: &str, watch: &dyn Watch) -> Vec<f64> {
    let own = supply.of_class(class);
    let is_own = |name: &String| own.choices().iter().any(|choice| choice.variety == *name);
    let alone = Request {
        wishes: request.wishes.iter().filter(|wish| wish.class() == class).cloned().collect(),
        wanted: request.wanted.iter().filter(|name| is_own(name)).cloned().collect(),
        ..request.clone()
    };
    let of_year = |year| {
        if watch.is_stopped() {
            return 0.0;
        }
        let fewest = fewest_in(&own, &alone, year).map_or(0.0, |fewest| fewest.unwrap_or(f64::INFINITY));
        // A thousandth of a plant below, so that rounding cannot claim one too many.
        (fewest - 1e-3).ceil().max(0.0)
    };
    (0..supply.years()).into_par_iter().map(of_year).collect()
}

/// The least sum of one number a class, such that in so many of the years no class takes more than its own.
///
/// # Shape
/// `each`: a class's years. `years`: those that may still be among the met ones.
fn together(each: &[Vec<f64>], years: &[usize], needed: usize) -> f64 {
    let Some((own, rest)) = each.split_first() else {
        return if needed <= years.len() { 0.0 } else { f64::INFINITY };
    };
    let takes = |class: &[f64], year: &usize| class.get(*year).copied().unwrap_or(f64::INFINITY);
    let at_least = |class: &Vec<f64>| {
        let mut own: Vec<f64> = years.iter().map(|year| takes(class, year)).collect();
        own.sort_by(f64::total_cmp);
        needed.checked_sub(1).and_then(|place| own.get(place).copied()).unwrap_or(f64::INFINITY)
    };
    let others: f64 = rest.iter().map(at_least).sum();
    let mut numbers: Vec<f64> =
        years.iter().map(|year| takes(own, year)).filter(|own| own.is_finite()).collect();
    numbers.sort_by(f64::total_cmp);
    numbers.dedup();
    let from = at_least(own);
    let mut best = f64::INFINITY;
    for number in numbers.into_iter().filter(|number| from <= *number) {
        if best <= number + others {
            break;
        }
        let kept: Vec<usize> = years.iter().copied().filter(|year| takes(own, year) <= number).collect();
        best = best.min(number + together(rest, &kept, needed));
    }
    best
}

/// Plants that have room at all.
fn places(supply: &Supply, request: &Request) -> f64 {
    let areas = supply.choices().iter().filter_map(|choice| match choice.room {
        Room::Bed(area) => Some(area),
        Room::Container => None,
    });
    let smallest = areas.fold(f64::INFINITY, f64::min);
    // A thousandth of a place more, so that no rounding costs one.
    (request.bed / smallest + 1e-3).floor() + f64::from(request.containers)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_years_are_met_for_all_classes() {
        // Each class alone keeps two years of three with 1 plant, but no two years are easy for both.
        let each = [vec![1.0, 1.0, 9.0], vec![9.0, 1.0, 1.0]];
        assert_eq!(together(&each, &[0, 1, 2], 1), 2.0);
        assert_eq!(together(&each, &[0, 1, 2], 2), 10.0);
        assert_eq!(together(&each, &[0, 1, 2], 3), 18.0);
    }

    #[test]
    fn a_class_that_no_year_bears_has_no_garden() {
        let each = [vec![1.0, f64::INFINITY], vec![1.0, 1.0]];
        assert_eq!(together(&each, &[0, 1], 1), 2.0);
        assert_eq!(together(&each, &[0, 1], 2), f64::INFINITY);
    }
}
