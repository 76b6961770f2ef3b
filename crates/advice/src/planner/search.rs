//! A good garden, soon: plants are added where they help most, then part of them is pulled out and put in anew, again and
//! again, and the better garden is kept.
//!
//! It proves nothing. It gives the integer program a garden to beat, which is most of its work, and breaks ties that the
//! program leaves open: of gardens with as many plants it keeps the one with more favourites, then with less glut. The same
//! values give the same garden. Start at [`search`].

use super::model::{MOST_PLANTS, years_needed};
use super::request::Request;
use super::supply::{Room, Supply};
use super::year::Wants;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Times that plants are pulled out and put in anew: past a few hundred little is gained on the gardens of the tests.
const TRIES: u32 = 300;
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
    plants: Vec<u32>,
    /// Kilograms by year, class and week.
    borne: Vec<f64>,
    /// What is missing, by year and class.
    short: Vec<f64>,
    needed: usize,
}

/// How good a garden is, less being better: what is missing, plants, those that are no favourites, kilograms in all.
type Worth = [f64; 4];

/// Looks for a garden of few plants that meets a request; nothing where it found none, which proves nothing.
pub(super) fn search(supply: &Supply, request: &Request) -> Option<Vec<u32>> {
    let wants = Wants::of(supply, request);
    let mut best = Garden::empty(supply, request, &wants);
    best.plant_wanted();
    best.fill();
    best.thin();
    let mut draws = ChaCha8Rng::seed_from_u64(SEED);
    let mut kept = (best.worth(), best.clone());
    for _ in 0..TRIES {
        let mut other = best.clone();
        other.pull_out(&mut draws);
        other.plant_wanted();
        other.fill();
        other.thin();
        let (was, now) = (best.worth(), other.worth());
        if now <= was {
            best = other;
        }
        if now < kept.0 {
            kept = (now, best.clone());
        }
    }
    let ([missing, ..], found) = kept;
    (missing <= 0.0).then_some(found.plants)
}

impl<'a> Garden<'a> {
    fn empty(supply: &'a Supply, request: &'a Request, wants: &'a Wants<'a>) -> Self {
        let (years, classes, weeks) = (supply.years(), wants.classes.len(), supply.weeks());
        let borne = vec![0.0; years * classes * weeks];
        let none = vec![0.0; weeks];
        let short = (0..years * classes).map(|place| wants.short(place % classes, &none)).collect();
        let plants = vec![0; supply.choices().len()];
        let needed = years_needed(request, years);
        Self { supply, request, wants, plants, borne, short, needed }
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
        years.sort_by(f64::total_cmp);
        years.iter().take(self.needed).sum()
    }

    /// What each year would lack with one plant more of a choice, or one less.
    fn short_with(&self, choice: usize, plants: f64) -> Option<Vec<f64>> {
        let class = (*self.wants.of_choice.get(choice)?)?;
        let (classes, weeks) = (self.wants.classes.len(), self.supply.weeks());
        let mut short = self.short.clone();
        for (year, own) in short.chunks_exact_mut(classes).enumerate() {
            let place = (year * classes + class) * weeks;
            let bears = self.supply.in_year(year, choice);
            let now = self.borne.get(place..place + weeks)?.iter().zip(bears);
            let borne: Vec<f64> = now.map(|(now, bears)| (now + plants * bears).max(0.0)).collect();
            *own.get_mut(class)? = self.wants.short(class, &borne);
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
            && !(is_new && usize::try_from(self.request.most_varieties).is_ok_and(|most| most <= names.len()))
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
            let best = (0..self.plants.len()).filter_map(helps);
            let Some((_, choice)) =
                best.max_by(|one, other| one.0.total_cmp(&other.0).then(other.1.cmp(&one.1)))
            else {
                return;
            };
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

    /// Pulls out some plants: of one choice all, or a few of any.
    fn pull_out(&mut self, draws: &mut ChaCha8Rng) {
        let standing = |garden: &Self| -> Vec<usize> {
            let own = garden.plants.iter().enumerate().filter(|(_, plants)| 0 < **plants);
            own.map(|(choice, _)| choice).collect()
        };
        let own = standing(self);
        if own.is_empty() {
            return;
        }
        let whole = draws.random_range(0..3) == 0;
        let total: u32 = self.plants.iter().sum();
        if whole {
            let choice = own.get(draws.random_range(0..own.len())).copied().unwrap_or_default();
            while self.plants.get(choice).is_some_and(|plants| 0 < *plants) {
                self.change(choice, -1);
            }
            return;
        }
        for _ in 0..draws.random_range(1..=(total / 2).max(1)) {
            let own = standing(self);
            if own.is_empty() {
                return;
            }
            let choice = own.get(draws.random_range(0..own.len())).copied().unwrap_or_default();
            self.change(choice, -1);
        }
    }
}
