//! Mixed models of any terms: agreement with published data and other programs, and what must hold of any answer.
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

mod alpha_spring_oats;
mod augmented_meadowfoam;
mod edges;
mod maize_counties;
mod oats_split_plot;
mod plain;
mod printed_trials;
mod properties;
mod structured;
mod trial;
