//! How long seed keeps: the viability equation, a lot's own decline, and when it falls under the minimum.
//!
//! `v = start - days / sigma`: `v` is the normal deviate (probit) of the share that sprouts, `start` its value on the first
//! day, and `sigma` the days in which it falls by one. [`storage`] moves sigma between temperatures and moistures, [`decline`]
//! fits start and sigma to a lot's dated tests, [`keeping`] says when the lot will pass the minimum, and how unsure that is.
//!
//! A forecast is for planning the next test. It is never printed on a label.

pub mod belief;
pub mod decline;
pub mod keeping;
pub mod storage;

use record::days::Days;
use record::share::Share;
use statistics::normal::{chance_below, quantile};

/// A course of decline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    /// Normal deviate of the share that sprouts on day 0; `Ki` of the equation.
    pub start: f64,
    /// Days in which the deviate falls by one; above 0.
    pub sigma_days: f64,
}

impl Course {
    /// The share that sprouts after so many days.
    #[must_use]
    pub fn share_after(self, days: Days) -> Share {
        let share = chance_below(self.start - days.get() / self.sigma_days);
        Share::new(share.clamp(0.0, 1.0)).unwrap_or(Share::NONE)
    }

    /// Days until the share falls to a minimum; 0 where it begins under it, `None` for a minimum of nothing or all, which
    /// the course never meets.
    ///
    /// # Examples
    /// From 95 in 100 with a sigma of 1000 days: 970 days to 75 in 100.
    #[must_use]
    pub fn days_to(self, minimum: Share) -> Option<Days> {
        let fall = self.start - quantile(minimum)?;
        Days::new((self.sigma_days * fall).max(0.0))
    }
}
