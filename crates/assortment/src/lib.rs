//! The list taken as a whole: which varieties are alike, where it has gaps and where it is crowded.
//!
//! Values in, values out: it knows traits and distances, not who asks, where they are kept or how they
//! were called.
