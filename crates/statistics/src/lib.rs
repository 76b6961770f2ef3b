//! Numbers for growers' data: variance components, means with honest errors, intervals, curves, draws.
//!
//! This crate knows no tomato and no file: values in, values out, the same on every run. The science
//! crates stand on it. Start where the question is:
//!
//! * "How far do seasons, plants and fruits of one variety differ, over the whole house?"
//!   [`variety_means`]
//! * "What is this treatment's mean, given blocks and plots within blocks?" [`nested`]
//! * "And over sites, seasons, rows and columns of a bed, crossed and nested?" [`mixed`]
//! * "And where the ground itself is uneven?" [`spatial`]
//! * "Over several gardens and seasons, which varieties keep their rank?" [`environments`]
//! * "How many fruits, what share cracked, how many sprouted?" [`counts`]
//! * "Straight line, or levelling off?" [`curves`], weighed by [`information`]
//! * "When, if all I know is between which two picks?" [`censored`]
//! * "How many will this one sell, of a hundred that each sold a few?" [`rates`]
//! * "Which whole numbers are best under these rules?" [`integer_program`]; "can so few keep so many scenarios?"
//!   [`kept_scenarios`]
//! * "How sure is a share seen 3 times in 10?" [`intervals`]; "how likely is 3 in 10 or fewer?" [`binomial`]
//! * "How does a share fall with time, as sprouting does in storage?" [`probit`]
//! * "Does one plant of these ten not belong to the others?" [`outlying`]
//! * "Are these two kinds under one name?" [`two_groups`]
//! * "Which of forty differ, when all are looked at together?" [`multiplicity`]; "and how many plots would tell?"
//!   [`power`]; for one comparison planned beforehand [`students_t`]
//! * "How often would a true value drawn from this posterior fall in that class?" [`draws`]
//! * "Which treatment should stand in which plot, and what will the blocks cost?" [`design`]
//!
//! [`component`] is what both mixed models answer with; [`logarithms`] keeps sums of tiny
//! probabilities from vanishing.

pub mod component;
pub mod counts;
pub mod environments;
pub mod mixed;
pub mod nested;
pub mod spatial;
pub mod variety_means;

pub mod curves;
pub mod information;

pub mod binomial;
pub mod censored;
pub mod intervals;
pub mod logarithms;
pub mod normal;
pub mod outlying;
pub mod probit;
pub mod rates;
pub mod two_groups;

pub mod multiplicity;
pub mod power;
pub mod students_t;

pub mod draws;

pub mod design;
pub mod integer_program;
pub mod kept_scenarios;

mod chebyshev;
mod climb;
mod estimated_spread;
mod levels;
mod matrix;
mod quadrature;
mod roots;
