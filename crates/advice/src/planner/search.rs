//! A good garden, soon: plants are added where they help most, then part of them is pulled out and put in anew, again and
//! again, and the better garden is kept.
//!
//! It proves nothing. It gives the integer program a garden to beat, which is most of its work, and breaks ties that the
//! program leaves open: of gardens with as many plants it keeps the one with more favourites, then with less glut. The same
//! values give the same garden. Start at [`search`].

use super::model::{MOST_PLANTS, years_needed};
use super::request::Request;
use super::shortlist::shortlist;
use super::supply::{Room, Supply};
use super::year::Wants;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

mod few_varieties;

/// Times that plants are pulled out and put in anew: past some hundreds little is gained.
const TRIES: u32 = 1_000;
/// The same where the answer is only whether there is a garden.
const TRIES_QUICKLY: u32 = 60;
/// The same where a garden is given, and little is changed.
const TRIES_AGAIN: u32 = 25;
/// Years of choices that are looked at before the search ends: a count and not a clock, so that every machine stops at the
/// same place. Some three seconds'.
const EFFORT: usize = 40_000_000;
/// The same where the answer is only whether there is a garden.
const EFFORT_QUICKLY: usize = 2_000_000;
/// The same where a garden is given.
const EFFORT_AGAIN: usize = 600_000;
/// How many more plants than the best a garden may have that is gone on from: 3 in 100 more. A choice of ours.
const STRAYS: f64 = 1.03;
/// What the draws are seeded by; any number would do.
const SEED: u64 = 7;
/// Square metres that rounding may be out by.
const ROUNDING: f64 = 1e-9;

/// A garden and how it does.
#[derive(Clone)]
struct Garden<'a> {
    supply: &'a Supply,
    request: &'a Request,
    wants: &'a Wants<'a>,
    /// Choices that are looked among.
    listed: &'a [usize],
    plants: Vec<u32>,
    /// Kilograms by year, class and week.
    borne: Vec<f64>,
    /// What is missing, by year and class.
    short: Vec<f64>,
    needed: usize,
    most_varieties: usize,
    /// Years of choices that were looked at.
    looked: usize,
}

/// How good a garden is, less being better: what is missing, plants, those that are no favourites, kilograms in all.
type Worth = [f64; 4];

/// Looks for a garden of few plants that meets a request; nothing where it found none, which proves nothing.
pub(super) fn search(supply: &Supply, request: &Request) -> Option<Vec<u32>> {
    from_nothing(supply, request, TRIES, EFFORT)
}

/// Looks for any garden that meets a request, in little time.
pub(super) fn search_quickly(supply: &Supply, request: &Request) -> Option<Vec<u32>> {
    from_nothing(supply, request, TRIES_QUICKLY, EFFORT_QUICKLY)
}

fn from_nothing(supply: &Supply, request: &Request, tries: u32, effort: usize) -> Option<Vec<u32>> {
    let wants = Wants::of(supply, request);
    let listed = shortlist(supply, request, &wants);
    let empty = Garden::empty(supply, request, &wants, &listed);
    let mut first = empty.clone();
    first.put_in();
    let few = few_varieties::planted(&empty);
    let better = if few.worth() < first.worth() { few } else { first };
    better.improved(tries, effort)
}

/// The same from a garden on, in little time.
pub(super) fn search_from(supply: &Supply, request: &Request, plants: &[u32]) -> Option<Vec<u32>> {
    let wants = Wants::of(supply, request);
    let listed = shortlist(supply, request, &wants);
    let mut first = Garden::empty(supply, request, &wants, &listed);
    for (choice, plants) in plants.iter().enumerate() {
        let is_barred =
            supply.choices().get(choice).is_none_or(|choice| request.barred.contains(&choice.variety));
        if 0 < *plants && !is_barred {
            first.change(choice, i32::try_from(*plants).unwrap_or(0));
        }
    }
    first.put_in();
    first.improved(TRIES_AGAIN, EFFORT_AGAIN)
}

impl<'a> Garden<'a> {
    fn empty(supply: &'a Supply, request: &'a Request, wants: &'a Wants<'a>, listed: &'a [usize]) -> Self {
        let (years, classes, weeks) = (supply.years(), wants.classes.len(), supply.weeks());
        let borne = vec![0.0; years * classes * weeks];
        let mut none = vec![0.0; weeks];
        let short = (0..years * classes).map(|place| wants.short(place % classes, &mut none)).collect();
        let plants = vec![0; supply.choices().len()];
        let needed = years_needed(request.sure, years);
        let most_varieties = usize::try_from(request.most_varieties).unwrap_or(usize::MAX);
        Self { supply, request, wants, listed, plants, borne, short, needed, most_varieties, looked: 0 }
    }

    /// Puts in what is wanted and missing, and takes out what is not needed.
    fn put_in(&mut self) {
        self.plant_wanted();
        self.fill();
        self.thin();
    }

    /// The best garden of so many tries; nothing where none of them lacks nothing.
    fn improved(self, tries: u32, effort: usize) -> Option<Vec<u32>> {
        let mut draws = ChaCha8Rng::seed_from_u64(SEED);
        let mut kept = (self.worth(), self.plants.clone());
        let mut best = self;
        for _ in 0..tries {
            let mut other = best.clone();
            other.pull_out(&mut draws);
            other.put_in();
            let looked = other.looked;
            let (was, now) = (best.worth(), other.worth());
            if now < kept.0 {
                kept = (now, other.plants.clone());
            }
            // A little worse than the best is gone on from too, so that one good garden is no dead end.
            let [missing, plants, ..] = kept.0;
            if now <= was || (now[0] <= missing && now[1] <= plants * STRAYS) {
                best = other;
            }
            best.looked = looked;
            if effort <= looked {
                break;
            }
        }
        let ([missing, ..], found) = kept;
        (missing <= 0.0).then_some(found)
    }

    fn worth(&self) -> Worth {
        let count = |choices: &dyn Fn(usize) -> bool| -> f64 {
            let own = self.plants.iter().enumerate().filter(|(choice, _)| choices(*choice));
            own.map(|(_, plants)| f64::from(*plants)).sum()
        };
        let favourite = |choice: usize| {
            let name = self.supply.choices().get(choice).map(|choice| &choice.variety);
            name.is_some_and(|name| self.request.favourites.contains(name))
        };
        let glut = self.borne.iter().sum();
        let without = self.request.wanted.iter().filter(|name| !self.stands(name)).count();
        let without = u32::try_from(without).map_or(f64::INFINITY, f64::from);
        [self.missing(&self.short) + without, count(&|_| true), count(&|choice| !favourite(choice)), glut]
    }

    /// What the years that must be met lack, those that lack least being taken for them.
    fn missing(&self, short: &[f64]) -> f64 {
        let classes = self.wants.classes.len();
        if classes == 0 {
            return 0.0;
        }
        let mut years: Vec<f64> = short.chunks_exact(classes).map(|year| year.iter().sum()).collect();
        if let Some(last) = self.needed.checked_sub(1).filter(|last| *last < years.len()) {
            years.select_nth_unstable_by(last, f64::total_cmp);
        }
        years.iter().take(self.needed).sum()
    }

    /// What each year would lack with one plant more of a choice, or one less.
    fn short_with(&self, choice: usize, plants: f64) -> Option<Vec<f64>> {
        let class = (*self.wants.of_choice.get(choice)?)?;
        let (classes, weeks) = (self.wants.classes.len(), self.supply.weeks());
        let mut short = self.short.clone();
        let mut borne = vec![0.0; weeks];
        for (year, own) in short.chunks_exact_mut(classes).enumerate() {
            let place = (year * classes + class) * weeks;
            let bears = self.supply.in_year(year, choice);
            let now = self.borne.get(place..place + weeks)?.iter().zip(bears);
            for (borne, (now, bears)) in borne.iter_mut().zip(now) {
                *borne = (now + plants * bears).max(0.0);
            }
            *own.get_mut(class)? = self.wants.short(class, &mut borne);
        }
        Some(short)
    }

    /// Puts plants of a choice in, or takes them out where the number is negative.
    fn change(&mut self, choice: usize, by: i32) {
        if let Some(plants) = self.plants.get_mut(choice) {
            *plants = plants.saturating_add_signed(by);
        }
        let Some(short) = self.short_with(choice, f64::from(by)) else { return };
        self.short = short;
        let Some(Some(class)) = self.wants.of_choice.get(choice).copied() else { return };
        let (classes, weeks) = (self.wants.classes.len(), self.supply.weeks());
        for year in 0..self.supply.years() {
            let place = (year * classes + class) * weeks;
            let bears = self.supply.in_year(year, choice);
            for (now, bears) in self.borne.iter_mut().skip(place).zip(bears) {
                *now = (*now + f64::from(by) * bears).max(0.0);
            }
        }
    }

    /// Whether a variety has a plant.
    fn stands(&self, name: &str) -> bool {
        let mut all = self.supply.choices().iter().zip(&self.plants);
        all.any(|(one, plants)| 0 < *plants && one.variety == name)
    }

    /// Whether one plant more of a choice keeps to bed, containers and the count of varieties.
    fn has_room(&self, choice: usize) -> bool {
        let Some(own) = self.supply.choices().get(choice) else { return false };
        let all = || self.supply.choices().iter().zip(&self.plants);
        let mut names: Vec<&str> =
            all().filter(|(_, plants)| 0 < **plants).map(|(one, _)| one.variety.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        let is_new = !self.stands(&own.variety);
        let room = match own.room {
            Room::Bed(area) => {
                let taken: f64 = all()
                    .map(|(one, plants)| match one.room {
                        Room::Bed(area) => area * f64::from(*plants),
                        Room::Container => 0.0,
                    })
                    .sum();
                taken + area <= self.request.bed + ROUNDING
            }
            Room::Container => {
                let own = all().filter(|(one, _)| one.room == Room::Container);
                own.map(|(_, plants)| *plants).sum::<u32>() < self.request.containers
            }
        };
        room && !self.request.barred.contains(&own.variety)
            && self.plants.get(choice).is_some_and(|plants| *plants < MOST_PLANTS)
            && !(is_new && self.most_varieties <= names.len())
    }

    /// One plant of every variety that must have one, and bears most.
    fn plant_wanted(&mut self) {
        for name in &self.request.wanted {
            let own: Vec<usize> = self
                .supply
                .choices()
                .iter()
                .enumerate()
                .filter(|(_, choice)| choice.variety == *name)
                .map(|(place, _)| place)
                .collect();
            if own.iter().any(|choice| self.plants.get(*choice).is_some_and(|plants| 0 < *plants)) {
                continue;
            }
            let bears = |choice: usize| -> f64 {
                (0..self.supply.years()).flat_map(|year| self.supply.in_year(year, choice)).sum()
            };
            let best = own.into_iter().filter(|choice| self.has_room(*choice));
            if let Some(choice) = best.max_by(|one, other| bears(*one).total_cmp(&bears(*other))) {
                self.change(choice, 1);
            }
        }
    }

    /// Adds plants, each where it helps most, until nothing is missing or nothing helps.
    fn fill(&mut self) {
        loop {
            let missing = self.missing(&self.short);
            if missing <= 0.0 {
                return;
            }
            let helps = |choice: usize| {
                let short = self.short_with(choice, 1.0)?;
                let helps = missing - self.missing(&short);
                (0.0 < helps && self.has_room(choice)).then_some((helps, choice))
            };
            let best = self.listed.iter().copied().filter_map(helps);
            let Some((_, choice)) =
                best.max_by(|one, other| one.0.total_cmp(&other.0).then(other.1.cmp(&one.1)))
            else {
                return;
            };
            self.looked += self.listed.len() * self.supply.years();
            self.change(choice, 1);
        }
    }

    /// Takes out what is not needed.
    fn thin(&mut self) {
        for choice in (0..self.plants.len()).rev() {
            while self.plants.get(choice).is_some_and(|plants| 0 < *plants) && !self.must_stay(choice) {
                let Some(short) = self.short_with(choice, -1.0) else {
                    self.change(choice, -1);
                    continue;
                };
                if self.missing(&self.short) < self.missing(&short) {
                    break;
                }
                self.change(choice, -1);
            }
        }
    }

    /// Whether it is the last plant of a variety that must have one.
    fn must_stay(&self, choice: usize) -> bool {
        let Some(own) = self.supply.choices().get(choice) else { return true };
        let all = self.supply.choices().iter().zip(&self.plants);
        let plants: u32 = all.filter(|(one, _)| one.variety == own.variety).map(|(_, plants)| plants).sum();
        plants <= 1 && self.request.wanted.contains(&own.variety)
    }

    /// Pulls out some plants: of one choice all, or a few of one class, or a few of any.
    fn pull_out(&mut self, draws: &mut ChaCha8Rng) {
        let Some(one) = drawn(&self.standing(None), draws) else { return };
        if draws.random_range(0..3) == 0 {
            while self.plants.get(one).is_some_and(|plants| 0 < *plants) {
                self.change(one, -1);
            }
            return;
        }
        let class = self.wants.of_choice.get(one).copied().flatten();
        let among = if draws.random_range(0..2) == 0 { class } else { None };
        let own = self.standing(among);
        let plants: u32 = own.iter().filter_map(|choice| self.plants.get(*choice)).sum();
        for _ in 0..draws.random_range(1..=(plants / 2).max(1)) {
            let Some(choice) = drawn(&self.standing(among), draws) else { return };
            self.change(choice, -1);
        }
    }

    /// Choices that have plants, of one class or of any.
    fn standing(&self, class: Option<usize>) -> Vec<usize> {
        let of_class =
            |choice: usize| class.is_none() || self.wants.of_choice.get(choice).copied().flatten() == class;
        let own = self.plants.iter().enumerate().filter(|(choice, plants)| 0 < **plants && of_class(*choice));
        own.map(|(choice, _)| choice).collect()
    }
}

/// One of the choices, where there is one.
fn drawn(choices: &[usize], draws: &mut ChaCha8Rng) -> Option<usize> {
    if choices.is_empty() {
        return None;
    }
    choices.get(draws.random_range(0..choices.len())).copied()
}
