//! Uneven ground: agreement with published trials and other programs, and what must hold of any bed.
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

mod properties;
mod wheat_nebraska;
mod wheat_serpentine;
