//! Times known only to lie between two looks: a fruit that was green at one pick and gone at the next.
//!
//! A fruit picked on the 14th ripened at some moment since the pick before; one still green at frost would have
//! ripened later. [`fit`] takes such readings as they are: the likelihood of each is the chance
//! of what is known of it. Nothing is dated to the day of the pick, and nothing green is forgotten.
//!
//! `g(time) = X b + scale * e`, g the logarithm (or nothing, for [`Law::Normal`]) and e of a fixed law. Compare laws
//! by [`CensoredFit::aicc`]. What it does not do: differences between plants are not
//! told apart from differences between fruits.
//!
//! # Source
//! Standard theory of parametric survival (location and scale); tails are differenced as logarithms so that a
//! reading far out keeps its digits.

#![expect(clippy::indexing_slicing, reason = "lists of lengths that `fit` has verified")]

mod laws;
mod rows;
mod search;

use crate::information;
use crate::matrix::dot;
use crate::nested::Effect;
use laws::Standard;
use record::share::Share;

/// How times scatter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Law {
    /// Logarithms scatter normally.
    LogNormal,
    /// Weibull's law: logarithms scatter as the least of many.
    Weibull,
    /// Logarithms scatter logistically.
    LogLogistic,
    /// Gamma: waits for several rare events. `scale` is one over the root of their number.
    Gamma,
    /// Times themselves scatter normally, and may be negative.
    Normal,
}

impl Law {
    /// Every law.
    pub const ALL: [Self; 5] = [Self::LogNormal, Self::Weibull, Self::LogLogistic, Self::Gamma, Self::Normal];

    /// Whether times enter by their logarithm.
    fn takes_logarithms(self) -> bool {
        self != Self::Normal
    }
}

/// What is known of one time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// Before this.
    Before(f64),
    /// After the first, not after the second.
    Between(f64, f64),
    /// After this.
    After(f64),
}

/// Readings and what they may depend on.
///
/// # Shape
/// `readings`, `weights` and each column: n numbers.
#[derive(Clone, Copy, Debug)]
pub struct Model<'a> {
    /// The law.
    pub law: Law,
    /// The readings.
    pub readings: &'a [Reading],
    /// Fixed columns, an intercept among them.
    pub columns: &'a [Vec<f64>],
    /// How many fruits stand behind each reading.
    pub weights: Option<&'a [f64]>,
}

/// A fitted law.
#[derive(Clone, Debug, PartialEq)]
pub struct CensoredFit {
    /// Effects of the columns on the (logarithm of the) time.
    pub fixed: Vec<Effect>,
    /// Scale of the scatter.
    pub scale: f64,
    /// Standard error of the scale's logarithm.
    pub log_scale_error: f64,
    /// Covariances of the effects and, last, the scale's logarithm.
    pub covariance: Vec<Vec<f64>>,
    /// The greatest log-likelihood.
    pub log_likelihood: f64,
    law: Law,
    readings: f64,
}

/// Why a law could not be fitted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CensoredFault {
    /// Lists of different lengths, or none.
    #[error("{readings} readings need columns and weights of as many rows, but one has {other}")]
    Lengths {
        /// Readings given.
        readings: usize,
        /// Rows of the list that differs.
        other: usize,
    },
    /// A reading, column or weight that cannot be.
    #[error("row {row} (counted from 0) holds no time of this law, or a number that is not finite")]
    NotUsable {
        /// The row.
        row: usize,
    },
    /// No time has an end on both sides, so nothing tells how they scatter.
    #[error(
        "no reading lies between two times, or all lie between the same two: nothing tells how they scatter"
    )]
    NothingToTell,
    /// The likelihood has no top that could be reached.
    #[error("no best law was found: the readings do not tell every effect apart")]
    NotFound,
}

/// Fits a law by maximum likelihood: Newton's steps on exact second derivatives (differences, for the gamma).
///
/// # Errors
/// [`CensoredFault`] where lists do not fit together or the readings do not tell the law.
pub fn fit(model: &Model<'_>) -> Result<CensoredFit, CensoredFault> {
    search::best(&search::Ground::new(model)?)
}

impl CensoredFit {
    /// The time by which a share has come, in units of the readings, with its standard error.
    ///
    /// `values` are those of the columns. `None` unless there is one for each, and for a share of nothing or all.
    #[must_use]
    pub fn quantile(&self, values: &[f64], share: Share) -> Option<Effect> {
        let share = share.get();
        if values.len() != self.fixed.len() || !(0.0 < share && share < 1.0) {
            return None;
        }
        let location: f64 = self.fixed.iter().zip(values).map(|(own, x)| own.estimate * x).sum();
        let (place, by_log_scale) = Standard::of(self.law).place_of(share, self.scale.ln());
        let along: Vec<f64> = values.iter().copied().chain([by_log_scale]).collect();
        let variance: f64 = self.covariance.iter().zip(&along).map(|(row, x)| x * dot(row, &along)).sum();
        let (on_scale, error) = (location + place, variance.max(0.0).sqrt());
        Some(if self.law.takes_logarithms() {
            Effect { estimate: on_scale.exp(), standard_error: on_scale.exp() * error }
        } else {
            Effect { estimate: on_scale, standard_error: error }
        })
    }

    /// Akaike's criterion with the small-sample correction; `None` where there are too few readings for it.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count, cut to 32 bits")]
    pub fn aicc(&self) -> Option<f64> {
        let parameters = u32::try_from(self.fixed.len() + 1).ok()?;
        information::aicc(self.log_likelihood, parameters, self.readings as u32)
    }
}
