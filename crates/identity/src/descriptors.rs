//! A variety coded in the open descriptor standards: the state's number and its wording.
//!
//! The same evidence that the calls rest on is told again in the words of the UPOV tomato guideline and
//! of the Bioversity (IPGRI) descriptors, so that other keepers and offices can read it. What the house
//! does not measure, or what a standard judges by example varieties, is said to be not coded, with the
//! reason. Start at [`code`].

use crate::colour::ColourCall;
use crate::guide::standards::{Standards, Status};
use crate::habit::HabitCall;
use crate::habit::evidence::HabitEvidence;
use crate::sums::FruitSums;
use record::share::Share;

/// What is known of one variety.
#[derive(Clone, Copy, Debug)]
pub struct Described<'a> {
    /// Its habit call.
    pub habit: &'a HabitCall,
    /// The evidence of the habit call, for plant counts and truss counts.
    pub walks: &'a HabitEvidence,
    /// Its colour call.
    pub colour: &'a ColourCall,
    /// Its fruits.
    pub fruit: &'a FruitSums,
}

/// One characteristic of one standard, coded or not.
#[derive(Clone, Debug, PartialEq)]
pub struct Coding {
    /// The standard, such as `UPOV TG/44`.
    pub standard: String,
    /// The characteristic in the standard's words.
    pub characteristic: String,
    /// The state, the figure, or why there is none.
    pub coded: Coded,
    /// What the standard asks for and the evidence falls short of, each in one sentence.
    pub shortfalls: Vec<String>,
}

/// How a characteristic came out.
#[derive(Clone, Debug, PartialEq)]
pub enum Coded {
    /// A state of the standard's own list.
    State {
        /// The state's number.
        note: u32,
        /// The state's wording.
        wording: String,
        /// How far number and wording were checked against the standard.
        status: Status,
        /// How sure the state is.
        share: Share,
        /// What it was coded from, in words.
        basis: String,
    },
    /// The standard asks for the figure itself.
    Figure {
        /// The figure with its unit.
        words: String,
        /// How far it was checked that the standard asks for this.
        status: Status,
    },
    /// Not coded.
    NotCoded {
        /// Why, in one sentence.
        why: String,
    },
}

/// Codes one variety in every characteristic of every standard, in the table's order.
#[must_use]
pub fn code(described: &Described<'_>, standards: &Standards) -> Vec<Coding> {
    let _ = (described, standards);
    Vec::new()
}
