//! Is it true to type? Off-types counted, what they allow to be said, and how many plants it takes.
//!
//! Nothing here ever says "true": a count gives an upper limit. [`off_types`] holds the acceptance numbers and their risks,
//! [`plot`] the plants of a plot that do not measure up with the others, [`parents`] the plants that keep a rare allele,
//! [`mixture`] two kinds under one name, [`plants`] both of them for the fruit of one grow-out; [`classes`] holds the certified
//! classes' figures, and [`isolation`] the distance that suits a flower.

pub mod classes;
pub mod isolation;
pub mod mixture;
pub mod off_types;
pub mod parents;
pub mod plants;
pub mod plot;
