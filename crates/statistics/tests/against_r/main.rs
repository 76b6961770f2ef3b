//! Fresh designs, fitted here and by R on this machine, side by side.
//!
//! 200 seeds, simulated anew for each word in `LOCULE_FRESH` (any text; the same text gives the same designs).
//! Without R, or without one of its packages (Debian's `r-base-core` and `r-cran-lme4`, `-lmertest`, `-pbkrtest`, `-mass`,
//! `-multcomp`, `-jsonlite`), the tests say so and leave. One table of designs a file: a new model is a new file beside
//! its R script.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test stops at what it cannot read, and says what it leaves out"
)]

mod designs;
mod r;

mod counts;
mod ground;
mod mixed;
mod together;
