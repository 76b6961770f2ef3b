//! Evidence for calls: the records that count, variety by variety, as a stream.
//!
//! A record counts where its batch stands, it is neither withdrawn nor replaced, and it is not
//! doubted or its doubts were confirmed. Only one variety's records are in memory at a time.

use crate::fault::LedgerFault;
use crate::ledger::Ledger;
use record::colour::ColourReading;
use record::fruit::FruitSample;
use record::height::HeightReading;
use record::id::Id;
use record::pick::Pick;
use record::stage::StageNote;
use record::variety::Variety;
use std::ops::ControlFlow;

/// Whose evidence to read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// Every variety's.
    Everyones,
    /// One variety's.
    Only(Id<Variety>),
}

/// One variety's records of one noun.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gathered<'a, Record> {
    /// The variety.
    pub variety: Id<Variety>,
    /// Its records that count, in the order they came in. Never empty, unless all were set aside.
    pub records: &'a [Record],
    /// How many more are doubted and wait to be looked at.
    pub set_aside: u64,
}

/// A number that changes whenever the evidence that counts for one variety changes, and comes back
/// when the change is undone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EvidenceStamp(pub u64);

/// How much there is about one variety, of what stands, doubted or not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Amount {
    /// Fruit samples.
    pub fruit_samples: u64,
    /// Picks.
    pub picks: u64,
    /// Height readings.
    pub heights: u64,
    /// Stage notes.
    pub stages: u64,
    /// Colour readings.
    pub colours: u64,
    /// Of all these, how many are doubted and not confirmed.
    pub set_aside: u64,
}

/// One variety's stamp and amount of evidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EvidenceOf {
    /// The variety.
    pub variety: Id<Variety>,
    /// Its stamp.
    pub stamp: EvidenceStamp,
    /// How much there is.
    pub amount: Amount,
}

impl Ledger {
    /// The stamp and amount of evidence of every variety that stands, also of those without any.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn evidence_stamps(&mut self) -> Result<Vec<EvidenceOf>, LedgerFault> {
        unimplemented!()
    }

    /// Fruit samples, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn fruit_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, FruitSample>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        let _ = (whose, each);
        unimplemented!()
    }

    /// Picks, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn picks_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, Pick>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        let _ = (whose, each);
        unimplemented!()
    }

    /// Height readings, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn heights_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, HeightReading>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        let _ = (whose, each);
        unimplemented!()
    }

    /// Stage notes, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn stages_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, StageNote>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        let _ = (whose, each);
        unimplemented!()
    }

    /// Colour readings, variety by variety, until `each` breaks off.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn colours_by_variety(
        &mut self,
        whose: Whose,
        each: &mut dyn FnMut(Gathered<'_, ColourReading>) -> ControlFlow<()>,
    ) -> Result<(), LedgerFault> {
        let _ = (whose, each);
        unimplemented!()
    }
}
