//! Many comparisons at once: how often would at least one of them mislead?
//!
//! Twenty varieties against one check give one false "better" in a season by chance alone if each is judged on
//! its own. Everything here judges a whole family of comparisons together.
//!
//! * "Which of these differ from the check?" [`check`]: Dunnett's comparisons, with the contrasts' own correlation.
//! * "Which pairs differ?" [`pairs`]: Tukey and Kramer's comparisons, on the [`studentised`] range.
//! * "I have p values from anywhere": [`steps`], Holm's step-down rule.
//! * "Show it in a table": [`letters`], where means that share a letter were not told apart.
//!
//! [`contrasts`] turns means and their covariance into differences. [`rectangle`] is the multivariate t
//! chance behind [`check`]; `power` in the crate's root asks the question before anything is planted.

pub mod contrasts;

pub mod check;
pub mod pairs;
pub mod steps;

pub mod letters;

pub mod rectangle;
pub mod studentised;

mod one_factor;
mod points;
