//! What a planted garden brings: week by week in poor, middling and good years, and when its kitchen days fall.
//!
//! Start at [`weekly`] and [`kitchen_days`].

use super::model::years_needed;
use super::request::{Request, Wish};
use super::supply::Supply;
use super::year::Wants;
use record::share::Share;
use std::ops::RangeInclusive;

/// Years of 100 that stay below what is told: a poor one, a middling one, a good one.
pub const TOLD: [f64; 3] = [0.1, 0.5, 0.9];

/// One number in a poor, a middling and a good year.
pub type Range = [f64; 3];

/// Kilograms of a class in each week, from so many plants of each choice.
///
/// # Shape
/// One range a week of the supply.
#[must_use]
pub fn weekly(supply: &Supply, plants: &[u32], class: &str) -> Vec<Range> {
    (0..supply.weeks())
        .map(|week| {
            let years = (0..supply.years()).map(|year| borne(supply, plants, class, year, week));
            told(years.collect())
        })
        .collect()
}

/// Kilograms that the plants of one choice bring in the whole season, each year for itself.
#[must_use]
pub fn season(supply: &Supply, choice: usize) -> Range {
    told((0..supply.years()).map(|year| supply.in_year(year, choice).iter().sum()).collect())
}

/// In how many of the sampled years all wishes are met.
#[must_use]
pub fn years_met(supply: &Supply, request: &Request, plants: &[u32]) -> usize {
    let wants = Wants::of(supply, request);
    let is_met = |year: &usize| {
        let mut classes = wants.classes.iter().enumerate();
        classes.all(|(place, class)| wants.short(place, &mut in_weeks(supply, plants, class, *year)) <= 0.0)
    };
    (0..supply.years()).filter(is_met).count()
}

/// One kitchen day of a wish, over the years that have it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KitchenDay {
    /// Its week in an early, a middling and a late year.
    pub week: [usize; 3],
    /// Kilograms put up on it, in a poor, middling and good year.
    pub kilograms: Range,
    /// Years that have such a day.
    pub years: usize,
}

/// The kitchen days of a wish in the order of the season; none for what is eaten.
///
/// # Shape
/// At most as many as the wish allows. The first is the first of each year, and so on.
#[must_use]
pub fn kitchen_days(supply: &Supply, request: &Request, plants: &[u32], wish: usize) -> Vec<KitchenDay> {
    let wants = Wants::of(supply, request);
    let Some(wanted @ Wish::Kitchen { class, .. }) = request.wishes.get(wish) else { return Vec::new() };
    let Some(place) = wants.classes.iter().position(|one| one == class) else { return Vec::new() };
    let mut days: Vec<Vec<(usize, f64)>> = Vec::new();
    for year in 0..supply.years() {
        let own = wants.days(place, wanted, &in_weeks(supply, plants, class, year)).into_iter();
        let own = own.filter(|(_, kilograms)| NOTHING < *kilograms);
        for (day, told) in own.enumerate() {
            match days.get_mut(day) {
                Some(years) => years.push(told),
                None => days.push(vec![told]),
            }
        }
    }
    days.into_iter().map(day).collect()
}

/// Kilograms that nobody puts up for themselves. Common practice, no source.
const NOTHING: f64 = 0.05;

fn day(years: Vec<(usize, f64)>) -> KitchenDay {
    let mut weeks: Vec<usize> = years.iter().map(|(week, _)| *week).collect();
    weeks.sort_unstable();
    let week = TOLD.map(|share| weeks.get(place(share, weeks.len())).copied().unwrap_or_default());
    KitchenDay { week, years: years.len(), kilograms: told(years.into_iter().map(|(_, own)| own).collect()) }
}

fn in_weeks(supply: &Supply, plants: &[u32], class: &str, year: usize) -> Vec<f64> {
    (0..supply.weeks()).map(|week| borne(supply, plants, class, year, week)).collect()
}

fn borne(supply: &Supply, plants: &[u32], class: &str, year: usize, week: usize) -> f64 {
    let choices = supply.choices().iter().zip(plants).enumerate();
    choices
        .filter(|(_, (choice, plants))| 0 < **plants && choice.class == class)
        .map(|(choice, (_, plants))| f64::from(*plants) * supply.kilograms(year, choice, week))
        .sum()
}

/// Quantiles of type 1: numbers that came.
fn told(mut years: Vec<f64>) -> Range {
    years.sort_by(f64::total_cmp);
    TOLD.map(|share| years.get(place(share, years.len())).copied().unwrap_or(0.0))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "a place among some dozens of years"
)]
fn place(share: f64, count: usize) -> usize {
    ((share * count as f64).ceil() as usize).saturating_sub(1)
}

/// Plants of one choice that a household has of a kind: a week in which so many bring too little is not of the season.
/// Common practice, no source.
const FEW_PLANTS: f64 = 4.0;

/// The weeks in which a few plants of the best choice for each bring so many kilograms of a class in enough years; nothing
/// where they never do.
///
/// # Shape
/// From the first such week to the last, so a week between may bring less.
#[must_use]
pub fn weeks_that_bear(
    supply: &Supply,
    class: &str,
    sure: Share,
    kilograms: f64,
) -> Option<RangeInclusive<usize>> {
    let years = years_needed(sure, supply.years());
    let bears = |week: usize| {
        let of_year = |year: &usize| {
            let own = supply.choices().iter().enumerate().filter(|(_, choice)| choice.class == class);
            let best = own.map(|(choice, _)| supply.kilograms(*year, choice, week)).fold(0.0, f64::max);
            kilograms <= FEW_PLANTS * best
        };
        years <= (0..supply.years()).filter(of_year).count()
    };
    let mut weeks = (0..supply.weeks()).filter(|week| bears(*week));
    let first = weeks.next()?;
    Some(first..=weeks.next_back().unwrap_or(first))
}
