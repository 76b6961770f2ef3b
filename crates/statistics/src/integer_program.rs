//! Integer programs: whole numbers under linear rules, and what is proven of the best found.
//!
//! It leans on a solver by branch and bound; steps are counted and not timed, so that every machine stops at the same place.
//! Start at [`solve`].

use good_lp::{Constraint, Expression, ProblemVariables, SolverModel};
use microlp::{Error, Solution, SolveOptions, SolveOutcome, TerminationReason};
use record::share::Share;

/// A program: what is made as small as can be, and under which rules.
pub struct Program {
    /// The variables.
    pub variables: ProblemVariables,
    /// What is made small.
    pub objective: Expression,
    /// The rules.
    pub rules: Vec<Constraint>,
}

/// When the search may end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stop {
    /// The share of the best that an answer may be off.
    pub gap: Share,
    /// Most linear programs it may take.
    pub most_nodes: u64,
}

/// What the solver has to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// Numbers that keep the rules.
    Found(Found),
    /// No numbers keep them.
    Nothing,
    /// It found none in as many steps as it may take, and has not shown that there are none. If there are any, what is made
    /// small is at least this.
    Unsettled(f64),
}

/// What the solver found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The variables, in the order in which they were added.
    pub values: Vec<f64>,
    /// What is made small.
    pub reached: f64,
    /// No answer is smaller than this.
    pub bound: f64,
}

/// The solver stopped for no reason of the program's.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the solver stopped: {0}")]
pub struct SolverStopped(pub String);

/// Solves a program.
///
/// # Errors
/// [`SolverStopped`] for anything but an answer or its absence.
pub fn solve(program: Program, stop: Stop) -> Result<Answer, SolverStopped> {
    let mut options = SolveOptions::default();
    options.node_limit = Some(stop.most_nodes);
    options.mip_gap = stop.gap.get();
    let Program { variables, objective, rules } = program;
    let problem = variables.minimise(objective).using(good_lp::microlp).with_all(rules);
    match problem.as_inner().solve_with(options) {
        Ok(SolveOutcome::Solution(solution)) => Ok(Answer::Found(found(&solution))),
        Ok(stopped @ SolveOutcome::Interrupted(_)) => {
            Ok(Answer::Unsettled(stopped.stats().best_bound.unwrap_or(f64::NEG_INFINITY)))
        }
        Err(Error::Infeasible) => Ok(Answer::Nothing),
        Err(fault) => Err(SolverStopped(fault.to_string())),
    }
}

fn found(solution: &Solution) -> Found {
    let reached = solution.objective();
    let bound = match solution.termination_reason() {
        TerminationReason::ProvenOptimal => reached,
        _ => solution.stats().best_bound.unwrap_or(f64::NEG_INFINITY),
    };
    Found { values: solution.iter().map(|(_, value)| value).collect(), reached, bound }
}
