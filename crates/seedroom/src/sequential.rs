//! Testing in small steps: stop early where the first seeds or plants already tell.
//!
//! A few seeds at a time cost less seed and less bench than 400 at once, if their owner knows how often such a test errs. A
//! [`Plan`] says after each step whether to accept, reject or go on; [`chances`] tells exactly how often each end is reached
//! at any true share. [`Lines::wald`] draws the usual straight borders, and [`plan_between`] makes a plan of them that ends.
//!
//! "Faults" are what is counted: seeds that did not sprout, plants that are off-types.

use record::share::Share;
use statistics::binomial::Binomial;

/// Two straight borders: accept at or under the lower, reject at or over the upper.
///
/// # Source
/// Wald, Sequential Analysis, 1947, chapter 5 (from memory, unverified).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lines {
    /// Faults that each one looked at adds to both borders.
    pub slope: f64,
    /// Where the lower border starts; below nothing.
    pub accept_from: f64,
    /// Where the upper border starts; above nothing.
    pub reject_from: f64,
}

/// What a plan is to tell apart, and how often it may err.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// Share of faults in a lot that should be accepted.
    pub good: Share,
    /// Share of faults in a lot that should be rejected; more than `good`.
    pub bad: Share,
    /// How often a good lot may be rejected.
    pub good_rejected: Share,
    /// How often a bad lot may be accepted.
    pub bad_accepted: Share,
}

/// Why no plan can be drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlanFault {
    /// The two shares do not lie apart, or lie at nothing or at all.
    #[error("the good share must be above 0 and below the bad one, and that below 1")]
    NotApart,
    /// The errors leave nothing to tell.
    #[error("both errors must be above 0, and together below 1")]
    Errors,
    /// A plan of no steps, or of an empty one.
    #[error("a plan needs at least one step, and each step at least one to look at")]
    NoSteps,
}

impl Lines {
    /// Draws the borders.
    ///
    /// # Errors
    /// [`PlanFault`] for shares that do not lie apart and for errors that cannot be held.
    pub fn wald(wanted: Wanted) -> Result<Self, PlanFault> {
        let (good, bad) = (wanted.good.get(), wanted.bad.get());
        let (alpha, beta) = (wanted.good_rejected.get(), wanted.bad_accepted.get());
        if !(0.0 < good && good < bad && bad < 1.0) {
            return Err(PlanFault::NotApart);
        }
        if !(0.0 < alpha && 0.0 < beta && alpha + beta < 1.0) {
            return Err(PlanFault::Errors);
        }
        let (for_fault, for_sound) = ((bad / good).ln(), ((1.0 - good) / (1.0 - bad)).ln());
        let whole = for_fault + for_sound;
        Ok(Self {
            slope: for_sound / whole,
            accept_from: (beta / (1.0 - alpha)).ln() / whole,
            reject_from: ((1.0 - beta) / alpha).ln() / whole,
        })
    }

    /// The most faults of `looked_at` at which to accept; `None` while even none are too many.
    #[must_use]
    pub fn accept_at(self, looked_at: u32) -> Option<u32> {
        count(self.accept_from + self.slope * f64::from(looked_at), f64::floor)
    }

    /// The fewest faults of `looked_at` at which to reject.
    #[must_use]
    pub fn reject_at(self, looked_at: u32) -> u32 {
        count(self.reject_from + self.slope * f64::from(looked_at), f64::ceil).unwrap_or(0)
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "no less than nothing is kept")]
fn count(border: f64, rounded: fn(f64) -> f64) -> Option<u32> {
    let whole = rounded(border);
    (0.0 <= whole).then_some(whole as u32)
}

/// One step of a plan: so many more are looked at, then the faults of all steps together decide.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    /// How many more are looked at.
    pub more: u32,
    /// Accept at this many faults or fewer; `None` where a step cannot accept.
    pub accept_at: Option<u32>,
    /// Reject at this many faults or more.
    pub reject_at: u32,
}

/// Steps in order. Where the last leaves a gap between accepting and rejecting, a test may end without a verdict.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    steps: Vec<Step>,
}

impl Plan {
    /// Takes one step or more, none of them empty.
    ///
    /// # Errors
    /// [`PlanFault::NoSteps`] else.
    pub fn new(steps: Vec<Step>) -> Result<Self, PlanFault> {
        if steps.is_empty() || steps.iter().any(|step| step.more == 0) {
            return Err(PlanFault::NoSteps);
        }
        Ok(Self { steps })
    }

    /// The steps.
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// What to do after the first steps have shown so many faults, each number the faults of one step.
    #[must_use]
    pub fn after(&self, faults: &[u32]) -> Next {
        let mut all = 0_u32;
        for (step, faults) in self.steps.iter().zip(faults) {
            all = all.saturating_add(*faults);
            match step.says(all) {
                Says::Accept => return Next::Accept,
                Says::Reject => return Next::Reject,
                Says::GoOn => {}
            }
        }
        self.steps.get(faults.len()).map_or(Next::NoVerdict, |step| Next::LookAt(step.more))
    }
}

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// Stop: few enough faults.
    Accept,
    /// Stop: too many faults.
    Reject,
    /// Look at so many more.
    LookAt(u32),
    /// The plan has ended between the borders.
    NoVerdict,
}

enum Says {
    Accept,
    Reject,
    GoOn,
}

impl Step {
    fn says(&self, faults: u32) -> Says {
        if self.reject_at <= faults {
            Says::Reject
        } else if self.accept_at.is_some_and(|most| faults <= most) {
            Says::Accept
        } else {
            Says::GoOn
        }
    }
}

/// Makes a plan of given steps between Wald's borders; its last step always decides, halfway between them.
///
/// Cutting the borders off at the last step costs a little of what they promise: ask [`chances`] what is left.
///
/// # Errors
/// [`PlanFault`] as [`Lines::wald`] and [`Plan::new`].
pub fn plan_between(wanted: Wanted, steps: &[u32]) -> Result<Plan, PlanFault> {
    let lines = Lines::wald(wanted)?;
    let mut looked_at = 0_u32;
    let mut step = |(place, more): (usize, &u32)| {
        looked_at = looked_at.saturating_add(*more);
        let (accept_at, reject_at) = (lines.accept_at(looked_at), lines.reject_at(looked_at));
        if place + 1 < steps.len() {
            return Step { more: *more, accept_at, reject_at };
        }
        let middle = 0.5 * (lines.accept_from + lines.reject_from) + lines.slope * f64::from(looked_at);
        let accept_at = count(middle, f64::floor);
        Step { more: *more, accept_at, reject_at: accept_at.map_or(0, |most| most.saturating_add(1)) }
    };
    Plan::new(steps.iter().enumerate().map(&mut step).collect())
}

/// How a plan ends at one true share of faults.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends {
    /// The chance of accepting.
    pub accepted: Share,
    /// The chance of rejecting.
    pub rejected: Share,
    /// The chance of ending without a verdict.
    pub undecided: Share,
    /// How many are looked at on the mean.
    pub looked_at: f64,
}

/// Works out exactly how a plan ends at a true share of faults.
#[must_use]
pub fn chances(plan: &Plan, faulty: Share) -> Ends {
    let mut open = vec![1.0];
    let (mut accepted, mut rejected, mut looked_at) = (0.0, 0.0, 0.0);
    for step in plan.steps() {
        looked_at += f64::from(step.more) * open.iter().sum::<f64>();
        open = added(&open, &Binomial { trials: step.more, share: faulty }.chances());
        for (faults, chance) in (0_u32..).zip(&mut open) {
            let ended = match step.says(faults) {
                Says::Accept => &mut accepted,
                Says::Reject => &mut rejected,
                Says::GoOn => continue,
            };
            *ended += std::mem::take(chance);
        }
    }
    let share = |chance: f64| Share::new(chance.clamp(0.0, 1.0)).unwrap_or(Share::NONE);
    Ends {
        accepted: share(accepted),
        rejected: share(rejected),
        undecided: share(open.iter().sum()),
        looked_at,
    }
}

/// Chances of the sum of two independent counts.
fn added(first: &[f64], second: &[f64]) -> Vec<f64> {
    let mut sums = vec![0.0; first.len() + second.len() - 1];
    for (place, one) in first.iter().enumerate().filter(|(_, one)| 0.0 < **one) {
        sums.iter_mut().skip(place).zip(second).for_each(|(sum, other)| *sum += one * other);
    }
    sums
}
