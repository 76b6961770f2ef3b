//! How near a garden is to the fewest plants: fewer and fewer short of it are shown to be too few.
//!
//! A garden of so many plants is held against what each class of fruit must bear in a year that is met ([`needs`]). So the number
//! that is shown may be below what the wishes truly take, and is never above. Start at [`proven`].

use super::harvest::years_met;
use super::model::{Answer as Solved, MOST_PLANTS, SolverStopped, beat, years_needed};
use super::needs::needs;
use super::plan::{is_small, least};
use super::request::Request;
use super::supply::{Choice, Room, Supply};
use super::watch::Watch;
use super::year::Wants;
use statistics::kept_scenarios::{Answer, Program, Search, Sum, can_keep, too_few};
use std::collections::BTreeSet;

/// Cells of tables that are worked on for a number of plants: a count and not a clock, so that every machine stops at the same
/// place. Two seconds' worth on two cores; half of it after each number that was not settled.
const WORK: u64 = 8_000_000_000;

/// A found garden, or a better one, and the number that no garden's plants are under.
pub(super) fn proven(
    supply: &Supply,
    request: &Request,
    (plants, shown): (&[u32], u32),
    watch: &dyn Watch,
) -> (Vec<u32>, u32) {
    let asked = Asked::of(supply, request);
    let mut work = WORK;
    let mut plants = plants.to_vec();
    let mut enough = near_enough(plants.iter().sum(), request);
    let mut shown = shown.max(asked.too_few(enough, watch) + 1);
    // Halfway first, which is soon shown, so that something is known; then all of it, and less again where that cannot be.
    let mut halfway = true;
    while shown < enough && !watch.is_stopped() {
        watch.bound(shown);
        let tried = if halfway { shown.midpoint(enough - 1) } else { enough - 1 };
        match asked.can_keep(tried, work, watch) {
            Answer::No => shown = tried + 1,
            Answer::Kept(found) if asked.is_garden(&found) => {
                plants = asked.in_all(&found);
                watch.found(plants.iter().sum());
                enough = near_enough(plants.iter().sum(), request);
            }
            Answer::Kept(_) | Answer::Unsettled => {
                enough = tried;
                work /= 2;
            }
        }
        halfway = enough == tried;
    }
    by_the_whole_program(supply, request, plants, shown)
}

/// The same of a small garden, whose whole program can be solved.
fn by_the_whole_program(supply: &Supply, request: &Request, plants: Vec<u32>, shown: u32) -> (Vec<u32>, u32) {
    let total: u32 = plants.iter().sum();
    if near_enough(total, request) <= shown || !is_small(supply) {
        return (plants, shown);
    }
    match beat(supply, request, total) {
        Ok(Solved::Found(found)) => (found.plants, shown.max(least(total, found.bound))),
        Ok(Solved::Nothing) => (plants, total),
        Ok(Solved::Unsettled(bound)) => (plants, shown.max(least(total, bound))),
        // A plan is at hand; a solver that cannot go on proves nothing of it.
        Err(SolverStopped(_)) => (plants, shown),
    }
}

/// The number of plants that must be shown to be the least, so that a garden of so many is as near to it as is asked.
fn near_enough(total: u32, request: &Request) -> u32 {
    least(total, f64::from(total) * (1.0 - request.gap.get()))
}

/// A request as pieces that keep scenarios: the choices that may be planted, and the sampled years.
struct Asked<'a> {
    supply: &'a Supply,
    request: &'a Request,
    /// Places of the choices that may be planted.
    own: Vec<usize>,
    program: Program,
    needed: usize,
}

impl<'a> Asked<'a> {
    fn of(supply: &'a Supply, request: &'a Request) -> Self {
        let wants = Wants::of(supply, request);
        let choices = supply.choices();
        let may_stand = |place: &usize| {
            choices.get(*place).is_some_and(|choice| {
                let is_wished = wants.of_choice.get(*place).is_some_and(Option::is_some);
                !request.barred.contains(&choice.variety)
                    && (is_wished || request.wanted.contains(&choice.variety))
            })
        };
        let own: Vec<usize> = (0..choices.len()).filter(may_stand).collect();
        let standing: Vec<&Choice> = own.iter().filter_map(|place| choices.get(*place)).collect();
        let names: BTreeSet<&str> = standing.iter().map(|choice| choice.variety.as_str()).collect();
        let kind = |choice: &&Choice| names.iter().position(|name| *name == choice.variety).unwrap_or(0);
        // What is wanted and of no class that is wished for is a group of its own.
        let class = |choice: &&Choice| {
            let place = wants.classes.iter().position(|class| *class == choice.class);
            place.unwrap_or(wants.classes.len())
        };
        let program = Program {
            most: vec![MOST_PLANTS; own.len()],
            groups: standing.iter().map(class).collect(),
            kinds: standing.iter().map(kind).collect(),
            most_kinds: usize::try_from(request.most_varieties).unwrap_or(usize::MAX),
            rules: rules(request, &standing),
            scenarios: (0..supply.years()).map(|year| needs(supply, request, &own, year)).collect(),
        };
        Self { supply, request, own, program, needed: years_needed(request.sure, supply.years()) }
    }

    fn search<'b>(&self, pieces: u32, work: u64, is_stopped: &'b (dyn Fn() -> bool + Sync)) -> Search<'b> {
        Search { pieces, keep: self.needed, work, is_stopped }
    }

    fn too_few(&self, enough: u32, watch: &dyn Watch) -> u32 {
        too_few(&self.program, &self.search(enough, WORK, &|| watch.is_stopped()))
    }

    fn can_keep(&self, plants: u32, work: u64, watch: &dyn Watch) -> Answer {
        can_keep(&self.program, &self.search(plants, work, &|| watch.is_stopped()))
    }

    /// The plants of every choice, from those that may be planted.
    fn in_all(&self, found: &[u32]) -> Vec<u32> {
        let mut all = vec![0; self.supply.choices().len()];
        for (place, plants) in self.own.iter().zip(found) {
            if let Some(own) = all.get_mut(*place) {
                *own = *plants;
            }
        }
        all
    }

    /// Whether the plants keep the request as it stands, and not only what was made of it.
    fn is_garden(&self, found: &[u32]) -> bool {
        self.needed <= years_met(self.supply, self.request, &self.in_all(found))
    }
}

/// Room, and plants of what is wanted.
fn rules(request: &Request, standing: &[&Choice]) -> Vec<(Sum, f64, f64)> {
    let taken = |of: &dyn Fn(&Choice) -> Option<f64>| -> Sum {
        let all = standing.iter().enumerate();
        all.filter_map(|(piece, choice)| of(choice).map(|takes| (piece, takes))).collect()
    };
    let bed = taken(&|choice| match choice.room {
        Room::Bed(area) => Some(area),
        Room::Container => None,
    });
    let containers = taken(&|choice| (choice.room == Room::Container).then_some(1.0));
    let mut rules = vec![
        (bed, f64::NEG_INFINITY, request.bed),
        (containers, f64::NEG_INFINITY, f64::from(request.containers)),
    ];
    rules.extend(
        request
            .wanted
            .iter()
            .map(|name| (taken(&|choice| (choice.variety == *name).then_some(1.0)), 1.0, f64::INFINITY)),
    );
    rules.retain(|(sum, ..)| !sum.is_empty());
    rules
}
