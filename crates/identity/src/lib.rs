//! What a variety is: evidence and a guide in, a call with its probability out.
//!
//! A seed house prints three things of every variety: its fruit class, its habit and its colour. This
//! crate makes each of them a [`call::Call`]: a verdict, how sure it is, the rule that decided, and what
//! to measure next. The rules are not in the code but in the house's guides ([`guide`]), which the owner
//! edits. Values in, values out: no file, clock or ledger is known here.
//!
//! Reading order: [`call`] for what comes out, [`guide`] for what decides; then, for fruit,
//! [`sums`] (what the scale and the callipers said, by plant) -> [`spread`] (how far seasons, plants and
//! fruits of this house differ) -> [`fruit_class`] (the call) -> [`settle`] (what to measure next).

pub mod call;
pub mod guide;

pub mod claims;
pub mod ellipsoid;
pub mod facts;
pub mod first_ripe;
pub mod fruit_class;
pub mod over_plots;
pub mod plant_height;
pub mod settle;
pub mod spread;
pub mod sums;
pub mod unlike;

pub mod habit;

pub mod ciede2000;
pub mod colour;

pub mod descriptors;

pub mod typical;

pub mod unknown;
