//! The packet guide of one jurisdiction: what its law asks of a label, as TOML that the house may edit.
//!
//! Start at [`read`]. [`SHIPPED`] are the guides that come with the program.

mod raw;

use super::{Item, Trait};
use record::mass::Grams;
use record::share::WholePercent;

/// The shipped guides: file name and text.
pub const SHIPPED: [(&str, &str); 3] = [
    ("guides/packets-us.toml", include_str!("../../../../guides/packets-us.toml")),
    ("guides/packets-us-ky.toml", include_str!("../../../../guides/packets-us-ky.toml")),
    ("guides/packets-eu.toml", include_str!("../../../../guides/packets-eu.toml")),
];

/// What one jurisdiction asks of packets.
#[derive(Clone, Debug, PartialEq)]
pub struct Guide {
    /// Whose law it is.
    pub jurisdiction: String,
    /// Up to when its text was looked at, such as `April 2026`.
    pub as_of: String,
    /// What every check says beside its answer.
    pub notice: String,
    /// Least germination, hard seed with it, that needs no words.
    pub standard: Option<(WholePercent, Rule)>,
    /// Calendar months that a test may be old at shipment, open and sealed.
    pub test_months: Option<(TestMonths, Rule)>,
    /// What is asked for.
    pub asked: Vec<Asked>,
}

/// How old a test may be, in calendar months after the month of the test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TestMonths {
    /// In packets that breathe.
    pub open: i16,
    /// In hermetically sealed ones.
    pub sealed: i16,
}

/// Where something stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rule {
    /// The citation.
    pub source: String,
    /// Whether its text was seen.
    pub status: Status,
}

/// Whether the text of a rule was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// The rule's own text was read.
    Read,
    /// Only told by others or remembered: check it before relying on it.
    Unverified,
}

/// One demand.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// Ways to meet it, each a list of items that must all be there; at least one, none empty.
    pub ways: Vec<Vec<Item>>,
    /// It holds for more seed than this.
    pub over: Option<Grams>,
    /// It holds for this much seed or less.
    pub up_to: Option<Grams>,
    /// It holds for seed of all these traits.
    pub of: Vec<Trait>,
    /// Least size of its type in points.
    pub points: Option<u8>,
    /// Where it stands.
    pub rule: Rule,
}

/// A fault in a guide, with its place and what to do about it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{file}, line {line}: {fault}")]
pub struct PacketGuideFault {
    /// The guide's file name.
    pub file: String,
    /// The line, counted from 1.
    pub line: usize,
    /// What is wrong.
    pub fault: String,
    /// What to do about it.
    pub help: String,
}

/// Reads a packet guide's text.
///
/// # Errors
/// [`PacketGuideFault`] at the first line that is no TOML, has an unknown key, item or trait, or lacks a source.
pub fn read(file: &str, text: &str) -> Result<Guide, PacketGuideFault> {
    raw::read(file, text)
}
