//! The sowing list: which varieties the next grow-out should hold, and how many plots of each.
//!
//! Values in, values out: it knows counts, days, chances and plots, not where they are kept or who asks.
//!
//! Reading order: [`selling`] (selling years, and how sales fall on their months) -> [`demand`] (what each variety is
//! expected to sell); [`stock`] (packets that a lot makes) -> [`need`] (what speaks for growing a variety, in packets) -> [`choice`] (the best use of the ground).

pub mod selling;

pub mod demand;

pub mod stock;

pub mod need;

pub mod choice;
