//! What stands in the way where there is no plan: demands that cannot all be met, and the least that frees each.
//!
//! Start at [`Conflict`].

use super::model::{Answer, Found, Goal, SolverStopped, solve};
use super::plan::is_small;
use super::request::{Demand, Request};
use super::search::search_quickly;
use super::supply::Supply;
use super::watch::Watch;

mod loosened;

/// Demands that cannot all be met, none of which could be left out of the quarrel.
///
/// Found by leaving out one demand after the other for good where the rest still quarrels: what is left is smallest in
/// that no part of it was found to quarrel, though another quarrel may have fewer.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    /// The demands, each with what would free the whole request.
    pub demands: Vec<Freed>,
}

/// A demand and the least change of it alone that makes the whole request possible.
#[derive(Clone, Debug, PartialEq)]
pub struct Freed {
    /// The demand.
    pub demand: Demand,
    /// What would free the request.
    pub way: Way,
}

/// What changing one demand alone does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// The least change that frees the request.
    Least(Change),
    /// A change that frees it; perhaps less would do.
    Enough(Change),
    /// No change of this demand alone frees it.
    NotAlone,
    /// Not found out in as many steps as may be taken.
    Unsettled,
}

/// A change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// The most kilograms that can be had of the wish, in its own measure.
    Kilograms(f64),
    /// Square metres of bed.
    Bed(f64),
    /// Containers.
    Containers(u32),
    /// Varieties.
    Varieties(u32),
    /// Years that can be met.
    Years(u32),
    /// Do without the wanted variety.
    DoWithout,
}

/// Finds the conflict of a request that has no plan, or of which none was found; nothing where that was stopped.
///
/// # Errors
/// [`SolverStopped`] where the solver fails.
pub(super) fn conflict(
    supply: &Supply,
    request: &Request,
    watch: &dyn Watch,
) -> Result<Option<Conflict>, SolverStopped> {
    let mut quarrel = request.demands();
    for demand in request.demands() {
        if watch.is_stopped() {
            return Ok(None);
        }
        let rest: Vec<Demand> = quarrel.iter().copied().filter(|other| *other != demand).collect();
        let still = if is_small(supply) {
            matches!(solve(supply, request, &rest, Goal::FewestPlants)?, Answer::Nothing)
        } else {
            search_quickly(supply, &loosened::held_to(request, &rest)).is_none()
        };
        if still {
            quarrel = rest;
        }
    }
    let freed = |demand| {
        if is_small(supply) {
            change(supply, request, demand)
        } else {
            Ok(Freed { demand, way: loosened::way(supply, request, demand) })
        }
    };
    let demands = quarrel.into_iter().map(freed).collect::<Result<_, SolverStopped>>()?;
    Ok((!watch.is_stopped()).then_some(Conflict { demands }))
}

fn change(supply: &Supply, request: &Request, demand: Demand) -> Result<Freed, SolverStopped> {
    let rest: Vec<Demand> = request.demands().into_iter().filter(|other| *other != demand).collect();
    let way = match solve(supply, request, &rest, Goal::NearestTo(demand))? {
        Answer::Found(found) if found.is_least() => Way::Least(told(demand, &found)),
        Answer::Found(found) => Way::Enough(told(demand, &found)),
        Answer::Nothing => Way::NotAlone,
        Answer::Unsettled(_) => Way::Unsettled,
    };
    Ok(Freed { demand, way })
}

fn told(demand: Demand, found: &Found) -> Change {
    let reached = found.reached.abs();
    match demand {
        Demand::Wish(_) => Change::Kilograms(reached),
        Demand::Bed => Change::Bed(reached),
        Demand::Containers => Change::Containers(whole(reached)),
        Demand::MostVarieties => Change::Varieties(whole(reached)),
        Demand::Sure => Change::Years(whole(reached)),
        Demand::Wanted(_) => Change::DoWithout,
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a count that the solver keeps whole"
)]
fn whole(number: f64) -> u32 {
    number.round() as u32
}
