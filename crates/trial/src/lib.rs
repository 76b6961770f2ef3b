//! Grow-outs that can be compared: how plots are laid out, and what they say of one variety beside another.
//!
//! Values in, values out. The mathematics is in `statistics`; here are beds, plots, checks and verdicts.
//! [`ground`] is the garden and the plots that fit into it; [`layout`] says which variety stands where, what that
//! can tell apart, and what a change by hand costs. [`traits`] makes one number of a plot's notes, and [`compare`]
//! sets varieties beside each other by them.

pub mod ground;
pub mod layout;

pub mod compare;
pub mod spread;
pub mod traits;

pub mod due;
pub mod walk;
