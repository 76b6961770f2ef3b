//! The seed room: what is known of a lot, how long it keeps, and what may be printed on its packet.
//!
//! Values in, values out: it knows counts, days and shares, not where they are kept or who asks.
//!
//! Reading order: [`germination`] (a test, its replicates, and the law's minimum) and [`sequential`] (testing in small
//! steps); [`dates`] (how long a test may be told) and [`viability`] (when a lot will fall under the minimum);
//! [`trueness`] (off-types, certified classes, parents); [`increase`] (plants for packets, seed weights, filling);
//! [`label`] (what a packet must show) and [`stock`] (seed moved from place to place); and [`account`], which makes of one
//! lot's notes all that they come to.

pub mod germination;
pub mod sequential;

pub mod dates;
pub mod viability;

pub mod trueness;

pub mod increase;
pub mod label;
pub mod stock;

pub mod account;
