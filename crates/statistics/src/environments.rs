//! Varieties in several environments: how each does in every one, and which of them keep their rank.
//!
//! Variances and interactions by environment are mixed models as any ([`crate::mixed`], with
//! [`crate::mixed::residual::Residual::By`] where environments differ in spread). Here is what goes beyond:
//!
//! * [`two_stages`]: means of every environment first, then all together, each weighed by what stands behind it;
//! * [`factor_analytic`]: one hidden quality of the environments to which varieties answer more or less;
//! * [`joint_regression`]: how steeply each variety answers to good environments.

#![expect(clippy::indexing_slicing, reason = "matrices and lists of a length set a few lines above")]

pub mod factor_analytic;
pub mod joint_regression;
pub mod two_stages;
