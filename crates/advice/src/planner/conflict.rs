//! What stands in the way where there is no plan: demands that cannot all be met, and the least that frees each.
//!
//! Start at [`Conflict`].

use super::model::{Goal, SolverStopped, solve};
use super::request::{Demand, Request};
use super::supply::Supply;

/// Demands that cannot all be met, none of which could be left out of the quarrel.
///
/// Found by leaving out one demand after the other for good where the rest still quarrels: what is left is smallest in
/// that no part of it quarrels, though another quarrel may have fewer.
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
    /// The change; `None` where no change of this demand alone frees the request.
    pub change: Option<Change>,
}

/// The least change.
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

/// Finds the conflict of a request that has no plan.
///
/// # Errors
/// [`SolverStopped`] where the solver fails.
pub(super) fn conflict(supply: &Supply, request: &Request) -> Result<Conflict, SolverStopped> {
    let mut quarrel = request.demands();
    for demand in request.demands() {
        let rest: Vec<Demand> = quarrel.iter().copied().filter(|other| *other != demand).collect();
        if solve(supply, request, &rest, Goal::FewestPlants)?.is_none() {
            quarrel = rest;
        }
    }
    let freed = |demand| Ok(Freed { demand, change: change(supply, request, demand)? });
    Ok(Conflict { demands: quarrel.into_iter().map(freed).collect::<Result<_, SolverStopped>>()? })
}

fn change(supply: &Supply, request: &Request, demand: Demand) -> Result<Option<Change>, SolverStopped> {
    let rest: Vec<Demand> = request.demands().into_iter().filter(|other| *other != demand).collect();
    let found = solve(supply, request, &rest, Goal::NearestTo(demand))?;
    Ok(found.map(|found| match demand {
        Demand::Wish(_) => Change::Kilograms(found.reached),
        Demand::Bed => Change::Bed(found.reached),
        Demand::Containers => Change::Containers(whole(found.reached)),
        Demand::MostVarieties => Change::Varieties(whole(found.reached)),
        Demand::Sure => Change::Years(whole(found.reached)),
        Demand::Wanted(_) => Change::DoWithout,
    }))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a count that the solver keeps whole"
)]
fn whole(number: f64) -> u32 {
    number.round() as u32
}
