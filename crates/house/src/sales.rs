//! Sales: files of shops and tills taken in, and what they say of demand.
//!
//! [`take`] reads a file and keeps its packets by day and variety, no buyer and no price; [`records`] lists the files,
//! [`turn`] withdraws or restores one, and [`expected`] says what each variety is expected to sell.

use crate::fault::HouseFault;
use crate::folder::House;
use crate::opened::{Given, fingerprint};
use crate::roster;
use intake::file;
use intake::sales::{LotsOf, SalesRead, lot_key, read};
pub use intake::sales::{OtherItem, SaleFault, SaysOfSales};
use jiff::civil::Date;
use ledger::batch::Act;
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
pub use ledger::lots::Turn;
use ledger::sales::{SaleRow, SalesFile, SalesKept};
pub use ledger::sales::{SalesInfo, SalesNumber, SalesState};
use record::id::Id;
use record::variety::Variety;
use sowing::demand::Sold;
pub use sowing::demand::{Demand, Level};
pub use sowing::selling::{Days, MonthPart, SellingYears};
use std::collections::HashMap;

/// What is said of a file of sales.
#[derive(Clone, Debug)]
pub struct SalesGiven {
    /// The file.
    pub file: Given,
    /// Whose sales it tells; the same shop's files tell each day once [default: the shop].
    pub shop: Option<String>,
    /// What its headings do not say.
    pub says: SaysOfSales,
    /// The days that it covers, where it began or ended with days without a sale.
    pub covers: (Option<Date>, Option<Date>),
}

/// Whether a file is kept, or only looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Intent {
    /// It is kept.
    Keep,
    /// Nothing is stored.
    Look,
}

/// What became of a file of sales, or would.
#[derive(Clone, Debug, PartialEq)]
pub struct SalesTaken {
    /// The file's name.
    pub file: String,
    /// Whose sales it tells.
    pub shop: String,
    /// What it holds.
    pub read: SalesRead,
    /// The days that it covers.
    pub days: (Date, Date),
    /// Packets, less those that came back.
    pub packets: i64,
    /// How many varieties.
    pub varieties: usize,
    /// What became of it.
    pub outcome: SalesOutcome,
}

/// What became of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SalesOutcome {
    /// It was kept under this number.
    Kept(SalesNumber),
    /// It was only looked at.
    Looked,
    /// This very file was taken before, under this number; nothing was added.
    TakenBefore(SalesNumber),
}

/// Why a file of sales cannot be taken.
#[derive(Debug, thiserror::Error)]
pub enum SalesTrouble {
    /// It is no table of sales.
    #[error("{file}: {fault}")]
    NotSales {
        /// The file.
        file: String,
        /// Why.
        fault: intake::sales::SalesFault,
    },
    /// None of its rows is a sale of the house's varieties.
    #[error("{file}: no row is a sale of a variety of this house{first}")]
    NoSale {
        /// The file.
        file: String,
        /// The first row's fault or item, as words.
        first: String,
    },
    /// The days it is said to cover leave out some of its own.
    #[error("{file}: it holds sales from {first} to {last}, which is more than it is said to cover")]
    CoversLess {
        /// The file.
        file: String,
        /// Its first day.
        first: Date,
        /// Its last day.
        last: Date,
    },
    /// A table of sales among tables of notes.
    #[error("{0}: a table of sales, which is taken on its own")]
    IsOfSales(String),
    /// Nothing is known of sales yet.
    #[error("no sales are known yet, so there is nothing to expect demand by")]
    NoneKnown,
    /// Too little is known of sales.
    #[error("sales cannot be forecast: {0}")]
    TooFew(#[from] sowing::demand::NoDemand),
}

impl SalesTrouble {
    /// What to do about it.
    #[must_use]
    pub fn help(&self) -> &'static str {
        match self {
            Self::NotSales { fault, .. } => fault.remedy(),
            Self::NoSale { .. } => {
                "bring in your varieties first, or give their names as the shop writes them with locule names accept"
            }
            Self::IsOfSales(_) => "take it with locule sales take FILE, or on the page Bring in, Sales",
            Self::CoversLess { .. } => "leave --from and --to out, or set them wider",
            Self::NoneKnown | Self::TooFew(_) => "take a file of sales with locule sales take FILE",
        }
    }
}

/// The shop where nobody names one.
pub const SHOP: &str = "the shop";

/// Takes a file of sales, or looks at it.
///
/// # Errors
/// [`SalesTrouble`]; a file that cannot be opened; what the ledger refuses.
pub fn take(house: &House, given: &SalesGiven, intent: Intent, act: &Act) -> Result<SalesTaken, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let name = given.file.name.clone();
    let unopened = |fault| HouseFault::Open { file: name.clone(), fault };
    let sha256 = fingerprint(&given.file.content).map_err(|cause| unopened(cause.into()))?;
    let tables = file::open(&name, given.file.content.clone()).map_err(unopened)?;
    let roster = roster::gather(&mut ledger)?;
    let lots = lots_of(&mut ledger)?;
    let mut found: Option<SalesRead> = None;
    let mut fault = None;
    for table in &tables {
        match read(table, &roster, &lots, &given.says) {
            Ok(read) => found = Some(found.take().map_or(read.clone(), |all| together(all, read))),
            Err(none) => fault = fault.or(Some(none)),
        }
    }
    let read = match (found, fault) {
        (Some(read), _) => read,
        (None, Some(fault)) => return Err(SalesTrouble::NotSales { file: name, fault }.into()),
        (None, None) => return Err(SalesTrouble::NoSale { file: name, first: String::new() }.into()),
    };
    let taken = judged(given, read)?;
    if let Some(before) = ledger.sales_taken(sha256)? {
        return Ok(SalesTaken { outcome: SalesOutcome::TakenBefore(before), ..taken });
    }
    let outcome = match intent {
        Intent::Look => SalesOutcome::Looked,
        Intent::Keep => keep(&mut ledger, &taken, sha256, act)?,
    };
    Ok(SalesTaken { outcome, ..taken })
}

fn keep(
    ledger: &mut Ledger,
    taken: &SalesTaken,
    sha256: ledger::batch::Sha256,
    act: &Act,
) -> Result<SalesOutcome, HouseFault> {
    let rows: Vec<SaleRow> =
        taken.read.sales.iter().map(|one| SaleRow { row: one.row, sale: one.sale }).collect();
    let file = SalesFile {
        name: taken.file.clone(),
        sha256,
        shop: taken.shop.clone(),
        first: taken.days.0,
        last: taken.days.1,
        left_out: left_out(&taken.read),
    };
    match ledger.keep_sales(act, &file, &rows) {
        Ok(number) => Ok(SalesOutcome::Kept(number)),
        // Another took it while this one waited for the pen.
        Err(LedgerFault::SalesTakenAlready(by)) => Ok(SalesOutcome::TakenBefore(by)),
        Err(fault) => Err(fault.into()),
    }
}

/// Rows that a reading left out: at fault, of other things, or void.
#[must_use]
pub fn left_out(read: &SalesRead) -> u32 {
    let others: u32 = read.others.iter().map(|other| other.rows).sum();
    u32::try_from(read.faults.len()).unwrap_or(u32::MAX).saturating_add(others).saturating_add(read.void)
}

/// Sheets of one workbook, as one.
fn together(mut all: SalesRead, more: SalesRead) -> SalesRead {
    all.sales.extend(more.sales);
    all.faults.extend(more.faults);
    all.others.extend(more.others);
    all.void += more.void;
    all.days = match (all.days, more.days) {
        (Some((first, last)), Some((other_first, other_last))) => {
            Some((first.min(other_first), last.max(other_last)))
        }
        (days, others) => days.or(others),
    };
    all
}

fn judged(given: &SalesGiven, read: SalesRead) -> Result<SalesTaken, HouseFault> {
    let file = given.file.name.clone();
    let Some((first, last)) = read.days.filter(|_| !read.sales.is_empty()) else {
        return Err(SalesTrouble::NoSale { file, first: first_of(&read) }.into());
    };
    let days = (given.covers.0.unwrap_or(first), given.covers.1.unwrap_or(last));
    if first < days.0 || days.1 < last {
        return Err(SalesTrouble::CoversLess { file, first, last }.into());
    }
    let mut varieties: Vec<Id<Variety>> = read.sales.iter().map(|one| one.sale.variety).collect();
    varieties.sort_unstable();
    varieties.dedup();
    let shop =
        given.shop.as_deref().map(str::trim).filter(|shop| !shop.is_empty()).unwrap_or(SHOP).to_owned();
    Ok(SalesTaken {
        file,
        shop,
        days,
        packets: read.sales.iter().map(|one| i64::from(one.sale.packets)).sum(),
        varieties: varieties.len(),
        read,
        outcome: SalesOutcome::Looked,
    })
}

/// What the first row says that was left out.
fn first_of(read: &SalesRead) -> String {
    match (read.faults.first(), read.others.first()) {
        (Some(fault), _) => format!(": row {}: {}", fault.row, fault.fault),
        (None, Some(other)) => format!(": {:?} is none", other.item),
        (None, None) => String::new(),
    }
}

fn lots_of(ledger: &mut Ledger) -> Result<LotsOf, HouseFault> {
    Ok(ledger.lots()?.into_iter().map(|lot| (lot_key(&lot.number), lot.variety)).collect())
}

/// Every file of sales, oldest first, the withdrawn ones too.
///
/// # Errors
/// What the ledger refuses.
pub fn records(house: &House) -> Result<Vec<SalesInfo>, HouseFault> {
    Ok(Ledger::open(&house.ledger_location())?.sales_records()?)
}

/// Withdraws a file of sales, or restores it.
///
/// # Errors
/// What the ledger refuses.
pub fn turn(house: &House, number: SalesNumber, turn: Turn, act: &Act) -> Result<(), HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    match turn {
        Turn::Withdrawn => ledger.withdraw_sales(number, act)?,
        Turn::Restored => ledger.restore_sales(number, act)?,
    }
    Ok(())
}

/// What varieties are expected to sell.
#[derive(Clone, Debug, PartialEq)]
pub struct Expected {
    /// What the sales say.
    pub demand: Demand,
    /// The days that they cover.
    pub covered: Days,
    /// Varieties in the order that [`Demand`] counts them, with their packets so far.
    pub varieties: Vec<(Id<Variety>, i64)>,
}

impl Expected {
    /// The place of a variety; one that is not there has none of its own.
    #[must_use]
    pub fn place(&self, variety: Id<Variety>) -> usize {
        self.varieties.iter().position(|(own, _)| *own == variety).unwrap_or(usize::MAX)
    }
}

/// Finds what is expected to sell.
///
/// # Errors
/// [`SalesTrouble::NoneKnown`], [`SalesTrouble::TooFew`]; what the ledger refuses.
pub fn expected(house: &House) -> Result<Expected, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    expected_in(&mut ledger)
}

pub(crate) fn expected_in(ledger: &mut Ledger) -> Result<Expected, HouseFault> {
    let SalesKept { sales, covered } = ledger.sales()?;
    let (first, last) = covered.ok_or(SalesTrouble::NoneKnown)?;
    let mut by_variety: HashMap<Id<Variety>, Sold> = HashMap::new();
    for sale in sales {
        by_variety.entry(sale.variety).or_default().push((sale.on, sale.packets));
    }
    let mut all: Vec<(Id<Variety>, Sold)> = by_variety.into_iter().collect();
    // In the same order on every run.
    all.sort_by_key(|(variety, _)| *variety);
    let packets = |sold: &Sold| sold.iter().map(|(_, packets)| i64::from(*packets)).sum();
    let varieties = all.iter().map(|(variety, sold)| (*variety, packets(sold))).collect();
    let sold: Vec<Sold> = all.into_iter().map(|(_, sold)| sold).collect();
    let covered = Days { first, last };
    let demand = Demand::of(SellingYears::FROM_JULY, &sold, covered).map_err(SalesTrouble::from)?;
    Ok(Expected { demand, covered, varieties })
}

/// A variety's year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YearOf {
    /// The variety.
    pub variety: Id<Variety>,
    /// Packets sold so far, less those that came back.
    pub sold: i64,
    /// Packets expected in a year like the last whole one.
    pub a_year: f64,
    /// Packets that one year in ten, five in ten and nine in ten stay under.
    pub next_year: [u32; 3],
}

impl Expected {
    /// What each variety that was sold is expected to sell in the selling year after the sales.
    #[must_use]
    pub fn a_year_of_each(&self) -> Vec<YearOf> {
        let next = self.demand.year_after(self.covered.last);
        let one = |(place, (variety, sold)): (usize, &(Id<Variety>, i64))| {
            let tenths = next.map(|days| self.demand.tenths(place, days)).unwrap_or_default();
            YearOf { variety: *variety, sold: *sold, a_year: self.demand.a_year(place), next_year: tenths }
        };
        self.varieties.iter().enumerate().map(one).collect()
    }
}
