//! What must hold of any answer: agreement with slow, plain versions, and what a change of input must do.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test stops at what it cannot work out")]

mod dense;
mod house;

mod censored;
mod chance;
mod counts;
mod curves;
mod designs;
mod multiplicity;
mod nested;
mod spread;
