//! A plan: plants of each choice, how near it is to the least, and what each choice is there for.
//!
//! Start at [`plan`].

use super::alternatives::{Alternative, alternatives};
use super::bound::least_plants;
use super::conflict::{Conflict, conflict};
pub use super::model::SolverStopped;
use super::model::{Answer, Goal, solve, years_needed};
use super::proof::proven;
use super::request::{Request, RequestFault};
use super::search::{search, search_from};
use super::supply::{Room, Supply};
use super::watch::{Ended, Unheard, Unwatched, Watch};
use rayon::prelude::{IntoParallelIterator, ParallelIterator};

/// A plan that meets a request.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Plants of each choice, in the order of the choices.
    pub plants: Vec<u32>,
    /// Plants in all.
    pub total: u32,
    /// No plan has fewer plants than this.
    pub at_least: u32,
    /// Square metres of bed taken.
    pub bed: f64,
    /// Containers taken.
    pub containers: u32,
    /// How the search for it ended.
    pub ended: Ended,
    /// Years that must be met, and that the plan was made to meet.
    pub years: usize,
    /// What each planted choice is there for.
    pub reasons: Vec<Reason>,
    /// Varieties that could stand in the place of one of them for nearly as few plants.
    pub alternatives: Vec<Alternative>,
}

/// What a planted choice is there for.
#[derive(Clone, Debug, PartialEq)]
pub struct Reason {
    /// The choice, by its place.
    pub choice: usize,
    /// For each wish, kilograms that its plants bear in the weeks of the wish, in the middle year; nothing where the class
    /// is another.
    pub bears: Vec<f64>,
    /// What the plan would come to if the choice bore nothing.
    pub without: Without,
}

/// What would come of it if a choice bore nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Without {
    /// A plan of so many plants in all would do, or perhaps of fewer.
    Takes(u32),
    /// There would be no plan.
    Impossible,
    /// Not found out in as many steps as may be taken.
    Unsettled,
    /// The search was stopped before it was tried.
    NotTried,
}

/// What comes of a request.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// A plan.
    Planned(Plan),
    /// No plan, and why not.
    Impossible(Conflict),
    /// No plan was found in as many steps as may be taken, nor that there is none; what seems to stand in the way.
    NotFound(Conflict),
    /// The search was stopped before a plan was found, or what stands in the way of one.
    Stopped,
}

/// Why a request was not answered.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlanFault {
    /// The request cannot be read.
    #[error(transparent)]
    Request(#[from] RequestFault),
    /// The solver failed.
    #[error(transparent)]
    Solver(#[from] SolverStopped),
}

/// Plans a garden, or says what stands in the way.
///
/// The same values give the same plan: no clock is asked, and what is drawn is drawn from one seed. A plan is looked for
/// first and then held against what no plan can go under: what each class takes in single years, and the integer program.
///
/// # Errors
/// [`PlanFault`] where the request cannot be read or the solver fails.
pub fn plan(supply: &Supply, request: &Request) -> Result<Outcome, PlanFault> {
    plan_watched(supply, request, &Unwatched)
}

/// The same as [`plan`], told to whoever watches as it goes on. Once it is stopped the best garden found is the plan, and what no
/// garden can go under is what was shown by then.
///
/// # Errors
/// As [`plan`].
pub fn plan_watched(supply: &Supply, request: &Request, watch: &dyn Watch) -> Result<Outcome, PlanFault> {
    request.checked(supply)?;
    let (mut plants, mut bound) = match search(supply, request, watch) {
        Some(plants) => (plants, 0),
        None => match settled(supply, request, least_plants(supply, request, watch))? {
            _ if watch.is_stopped() => return Ok(Outcome::Stopped),
            Answer::Found(found) => (found.plants, least(u32::MAX, found.bound)),
            Answer::Nothing => return in_the_way(supply, request, watch, Outcome::Impossible),
            Answer::Unsettled(_) => return in_the_way(supply, request, watch, Outcome::NotFound),
        },
    };
    let (reasons, alternatives) = loop {
        watch.found(plants.iter().sum());
        let (reasons, without) = reasons(supply, request, &plants, watch)?;
        let (alternatives, others) = alternatives(supply, request, &plants, watch);
        // Trying out what could be done without or changed may come upon a garden of fewer plants: then that is the plan.
        if let Some(better) = fewest(without.into_iter().chain(others), &plants) {
            plants = better;
            continue;
        }
        let (proven, shown) = proven(supply, request, (&plants, bound), watch);
        bound = shown;
        if proven == plants {
            break (reasons, alternatives);
        }
        plants = proven;
    };
    let total: u32 = plants.iter().sum();
    let (bed, containers) = room(supply, &plants);
    let at_least = bound.min(total);
    let (years, ended) = (years_needed(request.sure, supply.years()), Ended::of(watch));
    Ok(Outcome::Planned(Plan {
        plants,
        total,
        at_least,
        bed,
        containers,
        ended,
        years,
        reasons,
        alternatives,
    }))
}

/// What stands in the way of a plan, unless the search for that is stopped.
fn in_the_way(
    supply: &Supply,
    request: &Request,
    watch: &dyn Watch,
    said: fn(Conflict) -> Outcome,
) -> Result<Outcome, PlanFault> {
    Ok(conflict(supply, request, watch)?.map_or(Outcome::Stopped, said))
}

/// Choices x years x weeks up to which the integer program answers what the search does not, in some seconds.
const SMALL: usize = 2_000;

/// Whether the integer program can be asked about all of it.
pub(super) fn is_small(supply: &Supply) -> bool {
    supply.choices().len() * supply.years() * supply.weeks() <= SMALL
}

/// Whether there is a plan, where the search found none: by the whole program if that is small, else by the number that single
/// years rule out fewer plants than.
fn settled(supply: &Supply, request: &Request, bound: f64) -> Result<Answer, SolverStopped> {
    if is_small(supply) {
        return solve(supply, request, &request.demands(), Goal::FewestPlants);
    }
    Ok(if bound.is_infinite() { Answer::Nothing } else { Answer::Unsettled(bound) })
}

/// Fewest plants that are not ruled out: plants are whole.
pub(super) fn least(total: u32, bound: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "from 0 to the plan's own plants"
    )]
    // A thousandth of a plant below, so that rounding cannot claim one too many.
    let least = (bound - 1e-3).ceil().max(0.0) as u32;
    least.min(total)
}

fn room(supply: &Supply, plants: &[u32]) -> (f64, u32) {
    let choices = supply.choices().iter().zip(plants);
    choices.fold((0.0, 0), |(bed, containers), (choice, plants)| match choice.room {
        Room::Bed(area) => (bed + area * f64::from(*plants), containers),
        Room::Container => (bed, containers + plants),
    })
}

/// What each planted choice is there for, and the gardens that were found without it.
fn reasons(
    supply: &Supply,
    request: &Request,
    plants: &[u32],
    watch: &dyn Watch,
) -> Result<(Vec<Reason>, Vec<Vec<u32>>), SolverStopped> {
    let planted: Vec<(usize, &u32)> = (0..).zip(plants).filter(|(_, plants)| 0 < **plants).collect();
    let reasons = planted.into_par_iter().map(|(choice, own)| {
        let bears = bears(supply, request, choice, *own);
        let (without, garden) = without(supply, request, (plants, choice), watch)?;
        Ok((Reason { choice, bears, without }, garden))
    });
    let reasons = reasons.collect::<Result<Vec<_>, SolverStopped>>()?;
    let (reasons, gardens): (Vec<Reason>, Vec<Option<Vec<u32>>>) = reasons.into_iter().unzip();
    Ok((reasons, gardens.into_iter().flatten().collect()))
}

/// The garden of fewest plants, where one has fewer than the plan.
fn fewest(gardens: impl Iterator<Item = Vec<u32>>, plants: &[u32]) -> Option<Vec<u32>> {
    let total = |plants: &[u32]| plants.iter().sum::<u32>();
    gardens.min_by_key(|garden| total(garden)).filter(|garden| total(garden) < total(plants))
}

fn bears(supply: &Supply, request: &Request, choice: usize, plants: u32) -> Vec<f64> {
    let class = supply.choices().get(choice).map(|choice| choice.class.as_str());
    let wishes = request.wishes.iter();
    wishes
        .map(|wish| {
            if class != Some(wish.class()) {
                return 0.0;
            }
            let a_year = |year| wish.weeks().map(|week| supply.kilograms(year, choice, week)).sum::<f64>();
            let mut years: Vec<f64> = (0..supply.years()).map(a_year).collect();
            years.sort_by(f64::total_cmp);
            f64::from(plants) * years.get(years.len() / 2).copied().unwrap_or(0.0)
        })
        .collect()
}

/// Plans once more as if one choice bore nothing, and tells the garden.
fn without(
    supply: &Supply,
    request: &Request,
    (plants, choice): (&[u32], usize),
    watch: &dyn Watch,
) -> Result<(Without, Option<Vec<u32>>), SolverStopped> {
    if watch.is_stopped() {
        return Ok((Without::NotTried, None));
    }
    let rest = supply.without(choice);
    let mut others = plants.to_vec();
    if let Some(own) = others.get_mut(choice) {
        *own = 0;
    }
    let found = search_from(&rest, request, &others);
    if let Some(plants) = found {
        return Ok((Without::Takes(plants.iter().sum()), Some(plants)));
    }
    // The whole program of a small garden asks for no bound.
    let bound = if is_small(&rest) { 0.0 } else { least_plants(&rest, request, &Unheard(watch)) };
    let found = settled(&rest, request, bound)?;
    Ok(match found {
        Answer::Found(found) => (Without::Takes(found.plants.iter().sum()), Some(found.plants)),
        Answer::Nothing => (Without::Impossible, None),
        Answer::Unsettled(_) if watch.is_stopped() => (Without::NotTried, None),
        Answer::Unsettled(_) => (Without::Unsettled, None),
    })
}
