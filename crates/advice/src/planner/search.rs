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
use super::watch::{Unwatched, Watch};
use super::year::Wants;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use rayon::prelude::{IntoParallelIterator, ParallelIterator};

mod few_varieties;

/// Times that plants are pulled out and put in anew: past some hundreds little is gained.
const TRIES: u32 = 500;
/// The same where the answer is only whether there is a garden.
const TRIES_QUICKLY: u32 = 30;
/// The same where a garden is given, and little is changed.
const TRIES_AGAIN: u32 = 25;
/// Years of choices that are looked at before the search ends: a count and not a clock, so that every machine stops at the
/// same place. Each of the two searches has so many, some second's worth.
const EFFORT: usize = 20_000_000;
/// The same where the answer is only whether there is a garden.
const EFFORT_QUICKLY: usize = 1_000_000;
/// The same where a garden is given.
const EFFORT_AGAIN: usize = 600_000;
/// How many more plants than the best a garden may have that is gone on from: 3 in 100 more. A choice of ours.
const STRAYS: f64 = 1.03;
/// What the draws of each search are seeded by; any numbers would do.
const SEEDS: [u64; 2] = [7, 8];
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
///
/// Two searches go their own ways from one garden, and the better end is taken.
pub(super) fn search(supply: &Supply, request: &Request, watch: &dyn Watch) -> Option<Vec<u32>> {
    from_nothing(supply, request, (TRIES, EFFORT), watch)
}

/// Looks for any garden that meets a request, in little time.
pub(super) fn search_quickly(supply: &Supply, request: &Request) -> Option<Vec<u32>> {
    from_nothing(supply, request, (TRIES_QUICKLY, EFFORT_QUICKLY), &Unwatched)
}

fn from_nothing(
    supply: &Supply,
    request: &Request,
    most: (u32, usize),
    watch: &dyn Watch,
) -> Option<Vec<u32>> {
    let wants = Wants::of(supply, request);
    let listed = shortlist(supply, request, &wants);
    let empty = Garden::empty(supply, request, &wants, &listed);
    let mut first = empty.clone();
    first.put_in();
    let few = few_varieties::planted(&empty);
    let better = if few.worth() < first.worth() { few } else { first };
    let ends: Vec<(Worth, Vec<u32>)> =
        SEEDS.into_par_iter().map(|seed| better.clone().improved(seed, most, watch)).collect();
    let best = ends.into_iter().reduce(|one, other| if other.0 < one.0 { other } else { one });
    best.and_then(met)
}

/// Tells of a garden that lacks nothing.
fn tell(watch: &dyn Watch, [missing, ..]: Worth, plants: &[u32]) {
    if missing <= 0.0 {
        watch.found(plants.iter().sum());
    }
}

/// The plants of a garden that lacks nothing.
fn met((worth, plants): (Worth, Vec<u32>)) -> Option<Vec<u32>> {
    let [missing, ..] = worth;
    (missing <= 0.0).then_some(plants)
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
    let [seed, _] = SEEDS;
    met(first.improved(seed, (TRIES_AGAIN, EFFORT_AGAIN), &Unwatched))
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

    /// The best garden of so many tries, or of those before it was stopped.
    fn improved(self, seed: u64, (tries, effort): (u32, usize), watch: &dyn Watch) -> (Worth, Vec<u32>) {
        let mut draws = ChaCha8Rng::seed_from_u64(seed);
        let mut kept = (self.worth(), self.plants.clone());
        let mut best = self;
        tell(watch, kept.0, &kept.1);
        for _ in 0..tries {
            if watch.is_stopped() {
                break;
            }
            let mut other = best.clone();
            other.pull_out(&mut draws);
            other.put_in();
            let looked = other.looked;
            let (was, now) = (best.worth(), other.worth());
            if now < kept.0 {
                kept = (now, other.plants.clone());
                tell(watch, kept.0, &kept.1);
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
        kept
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
        let classes = self.wants.classes.len().max(1);
        self.least_of(short.chunks_exact(classes).map(|year| year.iter().sum()).collect())
    }

    /// What so many years lack as must be met, those that lack least.
    fn least_of(&self, mut years: Vec<f64>) -> f64 {
        if let Some(last) = self.needed.checked_sub(1).filter(|last| *last < years.len()) {
            years.select_nth_unstable_by(last, f64::total_cmp);
        }
        years.iter().take(self.needed).sum()
    }

    /// What is missing where a class lacks other parts of its wishes, year by year.
    fn missing_with(&self, class: usize, lacks: &[f64]) -> f64 {
        let years = self.short.chunks_exact(self.wants.classes.len().max(1)).zip(lacks);
        let of_year = |(year, lacks): (&[f64], &f64)| {
            // In the order of the classes, so that the sum is the very same as that of the garden itself.
            let own = year.iter().enumerate();
            own.map(|(place, short)| if place == class { *lacks } else { *short }).sum()
        };
        self.least_of(years.map(of_year).collect())
    }

    /// The class of a choice, where anybody wishes for it.
    fn class_of(&self, choice: usize) -> Option<usize> {
        self.wants.of_choice.get(choice).copied().flatten()
    }

    /// What a class would lack in each year with plants more of a choice of it, or less where the number is negative.
    ///
    /// A year that lacks nothing mostly lacks nothing with more fruit either ([`Wants::stay_met`]), and is not looked at again.
    fn short_with(&self, (class, choice): (usize, usize), plants: f64) -> Vec<f64> {
        let (classes, weeks) = (self.wants.classes.len(), self.supply.weeks());
        let lacks = self.short.iter().skip(class).step_by(classes.max(1));
        let mut borne = vec![0.0; weeks];
        let stay_met = 0.0 <= plants && self.wants.stay_met(class);
        let wished = self.wants.weeks(class);
        let of_year = |(year, lacks): (usize, &f64)| {
            if stay_met && *lacks <= 0.0 {
                return 0.0;
            }
            let place = (year * classes + class) * weeks;
            let bears = self.supply.in_year(year, choice).get(wished.clone()).unwrap_or_default();
            let now = self.borne.get(place + wished.start..place + wished.end).unwrap_or_default();
            let own = borne.get_mut(wished.clone()).unwrap_or_default();
            for (borne, (now, bears)) in own.iter_mut().zip(now.iter().zip(bears)) {
                *borne = (now + plants * bears).max(0.0);
            }
            self.wants.short(class, &mut borne)
        };
        lacks.enumerate().map(of_year).collect()
    }

    /// Puts plants of a choice in, or takes them out where the number is negative.
    fn change(&mut self, choice: usize, by: i32) {
        if let Some(plants) = self.plants.get_mut(choice) {
            *plants = plants.saturating_add_signed(by);
        }
        let Some(class) = self.class_of(choice) else { return };
        let lacks = self.short_with((class, choice), f64::from(by));
        let (classes, weeks) = (self.wants.classes.len(), self.supply.weeks());
        let short = self.short.iter_mut().skip(class).step_by(classes.max(1));
        short.zip(lacks).for_each(|(own, lacks)| *own = lacks);
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
        // What a class would lack with one plant more of a choice holds until the class itself changes.
        let mut kept: Vec<Option<Vec<f64>>> = vec![None; self.supply.choices().len()];
        loop {
            let missing = self.missing(&self.short);
            if missing <= 0.0 {
                return;
            }
            let mut best: Option<(f64, usize)> = None;
            for choice in self.listed.iter().copied() {
                let Some((class, lacks)) = self.class_of(choice).zip(kept.get_mut(choice)) else { continue };
                let lacks = lacks.get_or_insert_with(|| self.short_with((class, choice), 1.0));
                let helps = missing - self.missing_with(class, lacks);
                let is_best = best.is_none_or(|(most, _)| most < helps);
                if 0.0 < helps && is_best && self.has_room(choice) {
                    best = Some((helps, choice));
                }
            }
            let Some((_, choice)) = best else { return };
            self.looked += self.listed.len() * self.supply.years();
            self.change(choice, 1);
            let class = self.class_of(choice);
            let changed = (0..).zip(&mut kept).filter(|(other, _)| self.class_of(*other) == class);
            changed.for_each(|(_, lacks)| *lacks = None);
        }
    }

    /// Takes out what is not needed.
    fn thin(&mut self) {
        for choice in (0..self.plants.len()).rev() {
            while self.plants.get(choice).is_some_and(|plants| 0 < *plants) && !self.must_stay(choice) {
                if let Some(class) = self.class_of(choice) {
                    let lacks = self.short_with((class, choice), -1.0);
                    if self.missing(&self.short) < self.missing_with(class, &lacks) {
                        break;
                    }
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
