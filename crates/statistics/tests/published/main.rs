//! Agreement with published data and with values worked out elsewhere, one file a source.
//!
//! The data are read in place from the oracles folder (`LOCULE_ORACLES`, else `shared/oracles` beside the
//! checkout); a test whose data are missing says so and leaves.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test stops at what it cannot read, and says what it leaves out"
)]

mod oracles;

mod alpha_spring_oats;
mod augmented_meadowfoam;
mod binomial;
mod counts;
mod designs;
mod heading_weekly;
mod lme4_nested;
mod multiplicity;
mod oats_split_plot;
mod powers;
mod soybean_growth;
mod tomato_sites;
mod tries;
mod two_groups;
