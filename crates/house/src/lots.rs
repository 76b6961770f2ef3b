//! Lots of seed: every lot with its account on a day, and the books written in.
//!
//! Start at [`all`] and [`one`]; [`law`] says whose law they are judged by; [`book`] takes many lots from a file, [`writing`]
//! founds lots, writes notes of them down and takes entries back; [`orders`] fills an order from the lots that may be sold;
//! [`packets`] fills packets and prints their labels, and [`cards`] prints a card for every jar; [`kept`] says how long
//! records and samples are kept, and [`isolation`] whether its seed may have crossed; [`typed`] reads what people type of seed, and [`telling`] has the words that every screen
//! tells it in.

pub mod book;
pub mod cards;
pub mod fault;
pub mod isolation;
pub mod kept;
pub mod law;
pub mod numbers;
pub mod orders;
pub mod packets;
mod shelves;
pub mod steps;
pub mod telling;
pub mod typed;
pub mod writing;

use self::fault::SeedRoomFault;
use self::law::{Asked, JudgedBy, judged_by};
use crate::fault::HouseFault;
use crate::folder::House;
use ledger::batch::Act;
use ledger::ledger::Ledger;
pub use ledger::lots::{EntryNumber, EntryState, LotEntry};
use ledger::names::label_key;
use record::growout::Plot;
use record::id::Id;
use record::lot::{Lot, LotNote};
use record::variety::Variety;
pub use seedroom::account::ageing::{Ageing, Warmth};
pub use seedroom::account::tested::TestJudged;
pub use seedroom::account::true_to_type::{TrueToType, TypeVerdict};
use seedroom::account::{self, GoesBy};
pub use seedroom::account::{Account, LotState};
pub use seedroom::dates::HermeticFault;
pub use seedroom::germination::claim::OfMinimum;
pub use seedroom::germination::compare::LawSays;
pub use seedroom::germination::counted::{Counted, Shortfall};
pub use seedroom::germination::judge::{Standing, Verdict};
pub use seedroom::germination::tolerance::{Agreement, RangeVerdict, Yardstick};
pub use seedroom::trueness::classes::{Class, ClassFault};
use std::collections::HashMap;

/// A lot, and all that is known of it.
#[derive(Clone, Debug, PartialEq)]
pub struct LotSeen {
    /// The lot.
    pub lot: Lot,
    /// Its variety's name.
    pub variety: String,
    /// The plot that it was grown in, with its grow-out.
    pub plot: Option<String>,
    /// The number of the lot that its parents were sown from.
    pub sown_from: Option<String>,
    /// Its account.
    pub account: Account,
    /// Its entries, the oldest first, the withdrawn ones too.
    pub entries: Vec<LotEntry>,
}

/// Lots, with what they were judged by.
#[derive(Clone, Debug, PartialEq)]
pub struct Lots {
    /// By number.
    pub lots: Vec<LotSeen>,
    /// What they were judged by.
    pub by: JudgedBy,
}

/// Every lot, by number.
///
/// # Errors
/// What the ledger refuses.
pub fn all(house: &House, asked: Asked) -> Result<Lots, HouseFault> {
    let by = judged_by(house, asked)?;
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let books = ledger.at_one_moment(Books::read)?;
    Ok(Lots { lots: books.seen(by.goes_by(asked))?, by })
}

/// Lots with seed in the house that wait for a test, the most urgent first: those never tested, those to test again, then
/// by the day on which the next test should be laid out.
///
/// # Errors
/// What the ledger refuses.
pub fn to_test(house: &House, asked: Asked) -> Result<Lots, HouseFault> {
    let Lots { mut lots, by } = all(house, asked)?;
    lots.retain(|seen| seen.account.state != LotState::Gone);
    lots.sort_by_key(|seen| match seen.account.state {
        LotState::Untested => (0, None),
        LotState::TestAgain => (1, None),
        _ => (2, seen.account.test_due),
    });
    Ok(Lots { lots, by })
}

/// One lot, with what it was judged by.
///
/// # Errors
/// [`SeedRoomFault::NoSuchLot`]; what the ledger refuses.
pub fn one(house: &House, number: &str, asked: Asked) -> Result<(LotSeen, JudgedBy), HouseFault> {
    let Lots { lots, by } = all(house, asked)?;
    let wanted = label_key(number);
    let known: Vec<String> = lots.iter().map(|seen| seen.lot.number.clone()).collect();
    let found = lots.into_iter().find(|seen| label_key(&seen.lot.number) == wanted);
    let none = || SeedRoomFault::NoSuchLot { number: number.to_owned(), known };
    Ok(found.map(|seen| (seen, by)).ok_or_else(none)?)
}

/// All that the books hold, as it stood at one moment.
struct Books {
    lots: Vec<Lot>,
    entries: Vec<LotEntry>,
    varieties: HashMap<Id<Variety>, String>,
    plots: HashMap<Id<Plot>, String>,
}

impl Books {
    fn read(ledger: &mut Ledger) -> Result<Self, HouseFault> {
        let grow_outs: HashMap<_, _> =
            ledger.grow_outs()?.into_iter().map(|grow_out| (grow_out.id, grow_out.name)).collect();
        let plots = ledger.plots()?.into_iter().map(|plot| {
            let grow_out = grow_outs.get(&plot.grow_out).cloned().unwrap_or_default();
            (plot.id, format!("{} of {grow_out}", plot.label))
        });
        let plots = plots.collect();
        let varieties = ledger.varieties()?.into_iter().map(|variety| (variety.id, variety.name)).collect();
        Ok(Self { lots: ledger.lots()?, entries: ledger.lot_entries(None)?, varieties, plots })
    }

    fn seen(self, by: GoesBy) -> Result<Vec<LotSeen>, HouseFault> {
        let numbers: HashMap<Id<Lot>, String> =
            self.lots.iter().map(|lot| (lot.id, lot.number.clone())).collect();
        let mut entries: HashMap<Id<Lot>, Vec<LotEntry>> = HashMap::new();
        for entry in self.entries {
            entries.entry(entry.lot).or_default().push(entry);
        }
        let mut all = Vec::with_capacity(self.lots.len());
        for lot in self.lots {
            let entries = entries.remove(&lot.id).unwrap_or_default();
            let account = account::account(&lot, &standing(&entries), by);
            all.push(LotSeen {
                variety: self.varieties.get(&lot.variety).cloned().unwrap_or_default(),
                plot: lot.origin.plot.and_then(|plot| self.plots.get(&plot).cloned()),
                sown_from: lot.origin.sown_from.and_then(|from| numbers.get(&from).cloned()),
                account: account.map_err(|refused| writing::refused(&lot.number, &refused))?,
                lot,
                entries,
            });
        }
        Ok(all)
    }
}

fn standing(entries: &[LotEntry]) -> Vec<LotNote> {
    let standing = entries.iter().filter(|entry| entry.state == EntryState::Standing);
    standing.filter_map(|entry| entry.note.clone()).collect()
}

/// Who withdrew an entry, when and why, where somebody did.
#[must_use]
pub fn withdrawn(entry: &LotEntry) -> Option<&Act> {
    match &entry.state {
        EntryState::Withdrawn(act) => Some(act),
        EntryState::Standing => None,
    }
}
