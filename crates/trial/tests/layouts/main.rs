//! Layouts of real ground: what must hold of any, a few worked out by hand, and the words that tell of them.

#![expect(clippy::unwrap_used, reason = "a test that cannot make its input should stop")]

mod made;

mod bed_maps;
mod by_hand;
mod properties;
mod refused;
mod told;
