//! A germination test in small steps that stops early, with how often it errs.

use super::fault::SeedRoomFault;
use record::share::{Share, WholePercent};
pub use seedroom::sequential::Step;
use seedroom::sequential::{Ends, Plan, PlanFault, Wanted, chances, plan_between};

/// How often a good lot may fail, and a poor one pass. Common practice, no source.
const GOOD_REJECTED: WholePercent = WholePercent::of::<5>();
const POOR_ACCEPTED: WholePercent = WholePercent::of::<10>();

/// What the steps are to tell apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    /// Germination of a lot that should pass.
    pub good: WholePercent,
    /// Germination of a lot that should not.
    pub poor: WholePercent,
    /// Seeds laid out in each step.
    pub at_once: u32,
    /// Most steps.
    pub most: u32,
}

/// Most steps and most seeds of one that are planned. Common practice, no source.
const MOST_STEPS: u32 = 40;
const MOST_SEEDS: u32 = 400;

/// Steps, and how they end for lots of several germinations.
#[derive(Clone, Debug, PartialEq)]
pub struct Steps {
    /// The plan; what it counts are seeds that did not sprout.
    pub plan: Plan,
    /// Germination in whole per cent, and how the plan ends there.
    pub ends: Vec<(WholePercent, Ends)>,
}

/// Plans a test in steps.
///
/// # Errors
/// [`SeedRoomFault::NotRead`] where the two cannot be told apart so.
pub fn steps(asked: Asked) -> Result<Steps, SeedRoomFault> {
    let refuse = |reason: String, remedy: &str| SeedRoomFault::NotRead {
        value: format!("{} seeds, {} times", asked.at_once, asked.most),
        reason,
        remedy: remedy.to_owned(),
    };
    if MOST_STEPS < asked.most || MOST_SEEDS < asked.at_once {
        return Err(refuse("more than anybody counts".to_owned(), "plan up to 40 steps of up to 400 seeds"));
    }
    let wanted = Wanted {
        good: asked.good.share().rest(),
        bad: asked.poor.share().rest(),
        good_rejected: GOOD_REJECTED.share(),
        bad_accepted: POOR_ACCEPTED.share(),
    };
    let sizes: Vec<u32> = (0..asked.most).map(|_| asked.at_once).collect();
    let plan = plan_between(wanted, &sizes).map_err(|fault| refuse(fault.to_string(), remedy(fault)))?;
    let told = [asked.good, asked.poor].into_iter().chain(TOLD);
    let mut told: Vec<WholePercent> = told.collect();
    told.sort_unstable();
    told.dedup();
    let ends = told.into_iter().map(|truly| (truly, chances(&plan, rest(truly)))).collect();
    Ok(Steps { plan, ends })
}

/// Germinations that are told beside those asked for.
const TOLD: [WholePercent; 4] =
    [WholePercent::of::<70>(), WholePercent::of::<80>(), WholePercent::of::<85>(), WholePercent::of::<95>()];

fn rest(sprouts: WholePercent) -> Share {
    sprouts.share().rest()
}

fn remedy(fault: PlanFault) -> &'static str {
    match fault {
        PlanFault::NotApart => "write a good germination under 100 and above the poor one, such as 90 and 75",
        PlanFault::Errors | PlanFault::NoSteps => "write at least one step of at least one seed",
    }
}
