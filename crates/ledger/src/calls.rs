//! The calls as they were last worked out: a cache that can be thrown away, never evidence.

use crate::evidence::EvidenceStamp;
use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use record::id::Id;
use record::share::Share;
use record::variety::Variety;

/// What a call is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CallSubject {
    /// Plant habit.
    Habit,
    /// Fruit class.
    FruitClass,
    /// Colour.
    Colour,
}

/// A call as it is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct StoredCall {
    /// Whose call.
    pub variety: Id<Variety>,
    /// What about.
    pub subject: CallSubject,
    /// The verdict, or nothing where the variety lies between or has no evidence.
    pub verdict: Option<String>,
    /// The verdict's probability, or that of the likeliest.
    pub probability: Share,
    /// Whether it is contested.
    pub contested: bool,
    /// The evidence it was made from.
    pub evidence: EvidenceStamp,
    /// A key of everything else it depends on: guide, spread across the house, method.
    pub guide: u64,
    /// The whole call, in the form that the house gives it.
    pub detail: String,
}

impl Ledger {
    /// Keeps calls, each in the place of the one kept before for its variety and subject.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchVariety`], or what the disk or server refuses.
    pub fn keep_calls(&mut self, calls: &[StoredCall]) -> Result<(), LedgerFault> {
        unimplemented!("{calls:?}")
    }

    /// Every kept call of varieties that stand, by variety and subject.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn calls(&mut self) -> Result<Vec<StoredCall>, LedgerFault> {
        unimplemented!()
    }

    /// One variety's kept calls, by subject.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn calls_of(&mut self, variety: Id<Variety>) -> Result<Vec<StoredCall>, LedgerFault> {
        unimplemented!("{variety}")
    }

    /// Forgets every kept call.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn forget_calls(&mut self) -> Result<(), LedgerFault> {
        unimplemented!()
    }
}
