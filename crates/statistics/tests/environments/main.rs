//! Varieties in several environments: agreement with R, with one stage, and with the slow way.
//!
//! The data are read in place from the oracles folder (`LOCULE_ORACLES`, else `shared/oracles` beside the
//! checkout); a test whose data are missing says so and leaves.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test stops at what it cannot read, and says what it leaves out"
)]

#[path = "../published/oracles.rs"]
#[expect(dead_code, reason = "shared with the published tests, which use more of it")]
mod oracles;

#[path = "../mixed/plain.rs"]
#[expect(dead_code, reason = "shared with the tests of mixed models, which use more of it")]
mod plain;

mod factor_analytic;
mod maize;
mod two_stages;
