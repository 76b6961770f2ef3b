//! Somebody who watches a plan being looked for, and may stop it: what was found by then is the answer.
//!
//! The planner asks no clock. Whoever watches may have one, and say that time is up; a plan that was stopped is the only one that
//! differs from one day to the next.

/// Somebody who watches.
pub trait Watch: Sync {
    /// A garden of so many plants was found that keeps every wish.
    fn found(&self, plants: u32);
    /// It was shown that no garden has fewer plants than so many.
    fn bound(&self, at_least: u32);
    /// Whether the best garden found so far will do.
    fn is_stopped(&self) -> bool;
}

/// Nobody watches, and nobody stops it.
#[derive(Clone, Copy, Debug)]
pub struct Unwatched;

impl Watch for Unwatched {
    fn found(&self, _plants: u32) {}
    fn bound(&self, _at_least: u32) {}
    fn is_stopped(&self) -> bool {
        false
    }
}

/// How a search ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// It took all its steps.
    Whole,
    /// Whoever watched it stopped it.
    Stopped,
}

impl Ended {
    /// How one ends that is watched like this.
    pub(super) fn of(watch: &dyn Watch) -> Self {
        if watch.is_stopped() { Self::Stopped } else { Self::Whole }
    }
}

/// Somebody who may stop a plan, and is not told of another that is looked for beside it.
pub(super) struct Unheard<'a>(pub(super) &'a dyn Watch);

impl Watch for Unheard<'_> {
    fn found(&self, _plants: u32) {}
    fn bound(&self, _at_least: u32) {}
    fn is_stopped(&self) -> bool {
        self.0.is_stopped()
    }
}
