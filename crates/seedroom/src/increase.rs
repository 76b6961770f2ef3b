//! Increase: growing a lot to make more, weighing and counting its seed, filling its packets.
//!
//! [`harvest`] says how many fruits and plants so many packets take, and what seed to expect, by what [`own`] lots gave; [`weight`] makes a
//! thousand-seed weight of replicate weighings and a count of a mass; [`packets`] how full to fill so that few packets are
//! short, and how many seeds to sow for so many plants; [`filling`] what goes into the packets of one lot and what their
//! label can say.

pub mod filling;
pub mod harvest;
pub mod own;
pub mod packets;
pub mod weight;
