//! The seed room: what is known of a lot, how long it keeps, and what may be printed on its packet.
//!
//! Values in, values out: it knows counts, days and shares, not where they are kept or who asks.
//!
//! Reading order: [`germination`] (a test, its replicates, and the law's minimum), [`sequential`] (testing in small steps).

pub mod germination;
pub mod sequential;
