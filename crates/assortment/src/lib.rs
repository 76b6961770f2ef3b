//! The list taken as a whole: which varieties are alike, where it has gaps and where it is crowded.
//!
//! A house asks three things of its list that no single variety can answer: what to offer instead of one
//! that is sold out ([`standins`]), what it does not have though all round it is there, and where it grows
//! the same thing twice ([`gaps`]). All three count a contested variety by its probabilities and not by its
//! verdict. Values in, values out: it knows traits and distances, not who asks, where they are kept or how
//! they were called.
//!
//! Reading order: [`likeness`] (how alike two things are over mixed traits) -> [`kinds`] (names and how far
//! apart they lie) -> [`profile`] (the traits of one variety) -> [`standins`] -> [`reasons`] (why, in words)
//! -> [`gaps`].

pub mod kinds;
pub mod likeness;
pub mod profile;

pub mod reasons;
pub mod standins;

pub mod gaps;
