//! Agreement with published data and with values worked out elsewhere, one file a source.
//!
//! The data are read in place from the oracles folder (`LOCULE_ORACLES`, else `shared/oracles` beside the
//! checkout); a test whose data are missing says so and leaves.

mod oracles;

mod alpha_spring_oats;
mod augmented_meadowfoam;
mod oats_split_plot;
