//! Germination tests: what was counted, whether replicates agree, what the law makes of it, and what can be claimed.
//!
//! [`counted`] adds a test up; [`tolerance`] says whether its replicates agree; [`compare`] sets two tests, or a label and
//! a test, side by side; [`judge`] puts a test to a minimum; [`claim`] says how sure any of it is.

pub mod claim;
pub mod compare;
pub mod counted;
pub mod judge;
pub mod tolerance;

use record::share::WholePercent;

/// Seeds that a germination test of pure seed takes. Source: 7 CFR 201.54 (February 2020).
pub const TEST_SEEDS: u32 = 400;

/// Most seeds of one replicate. Source: 7 CFR 201.54 (February 2020): "100 or fewer".
pub const REPLICATE_SEEDS: u32 = 100;

/// Days from laying out to the first count of tomato. Source: 7 CFR 201.58 (2015), table 2.
pub const FIRST_COUNT_DAYS: i32 = 5;

/// Days from laying out to the final count of tomato. Source: 7 CFR 201.58 (2015), table 2.
pub const FINAL_COUNT_DAYS: i32 = 14;

/// Least share of tomato seed, hard seed among it, that need not be told. Source: 7 CFR 201.31 (59 FR 64491).
pub const TOMATO_STANDARD: WholePercent = WholePercent::of::<75>();

/// How sure a printed interval or claim is: 95 in 100. Common practice, no source.
pub const SURE: WholePercent = WholePercent::of::<95>();
