//! Sales as shops and tills write them out: a day, what was sold, and how many packets.
//!
//! Of a row only the day, the variety and the number of packets are read: buyers, addresses and prices are left where they
//! are. What is sold is found by a variety's name or alias, alone or among words such as `tomato seeds, 25`, or by the
//! number of a lot. Start at [`read`].

mod columns;
mod item;

use crate::cells::{CellFault, ColumnReader};
use crate::day::DateOrder;
use crate::rejection::RowFault;
use crate::roster::Roster;
use crate::suggestion::Suggestion;
use crate::table::{ReadFault, Row, Table};
use crate::words::Words;
pub use columns::SaysOfSales;
use columns::{Columns, Found};
use item::Sold;
use jiff::civil::Date;
use record::id::Id;
use record::sale::Sale;
use record::variety::{Variety, name_key};
use std::collections::{BTreeMap, HashMap};
use std::ops::ControlFlow;

/// A sale, with its row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SaleRead {
    /// The row's number in the file, from 1.
    pub row: u64,
    /// The sale.
    pub sale: Sale,
}

/// A row that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SaleFault {
    /// The row's number in the file, from 1.
    pub row: u64,
    /// The heading of the column at fault, where one is.
    pub column: Option<String>,
    /// The cell at fault.
    pub value: String,
    /// The reason.
    pub fault: RowFault,
    /// What to do about it, in lower case with no full stop.
    pub remedy: String,
}

/// Something sold that is no variety of the house.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherItem {
    /// What the file calls it.
    pub item: String,
    /// How many rows do.
    pub rows: u32,
    /// Packets of it.
    pub packets: i64,
    /// The known name that is nearest to it.
    pub suggestion: Option<Suggestion>,
}

/// What a table of sales holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SalesRead {
    /// Headings, with what each was read as.
    pub columns: Vec<(String, &'static str)>,
    /// Sales, in the order of their rows.
    pub sales: Vec<SaleRead>,
    /// Rows that could not be read.
    pub faults: Vec<SaleFault>,
    /// What is no variety of the house, most rows first.
    pub others: Vec<OtherItem>,
    /// Rows of orders that were cancelled, or of nothing.
    pub void: u32,
    /// The first and last day of any row.
    pub days: Option<(Date, Date)>,
}

/// Why a table is none of sales.
#[derive(Debug, thiserror::Error)]
pub enum SalesFault {
    /// No row among the first has headings for a day, something sold and a number.
    #[error("no heading row says the day, what was sold, and how many: {0} was not found")]
    NoHeadings(&'static str),
    /// A column that was named is not there.
    #[error("there is no column {0:?}")]
    NoSuchColumn(String),
    /// The file could not be read to the end.
    #[error(transparent)]
    Read(#[from] ReadFault),
}

impl SalesFault {
    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> &'static str {
        match self {
            Self::NoHeadings(_) => {
                "give it headings such as date, variety, packets, or name the columns: --day, --item, --quantity"
            }
            Self::NoSuchColumn(_) => "write the heading as the file does",
            Self::Read(_) => "see whether the file is whole, and take it again",
        }
    }
}

/// Varieties by the folded numbers of their lots.
pub type LotsOf = HashMap<String, Id<Variety>>;

/// The key of a lot's number in [`LotsOf`].
#[must_use]
pub fn lot_key(number: &str) -> String {
    name_key(number)
}

/// Words that say that packets came back.
const BACK: &Words<bool> = &[
    (true, &["refund", "refunded", "return", "returned", "credit", "credit note", "brought back"]),
    (false, &["sale", "sold", "order", "purchase", "charge", "payment", "invoice"]),
];
/// Words that say that an order came to nothing.
const VOID: &Words<bool> = &[
    (
        true,
        &["cancelled", "canceled", "void", "voided", "failed", "draft", "refunded", "returned", "expired"],
    ),
    (
        false,
        &[
            "paid",
            "complete",
            "completed",
            "shipped",
            "fulfilled",
            "sent",
            "open",
            "pending",
            "sale",
            "sold",
            "posted",
            "packed",
            "delivered",
        ],
    ),
];

/// Reads a table of sales.
///
/// # Errors
/// [`SalesFault`] of a table that is none; rows at fault are told in [`SalesRead::faults`].
pub fn read(
    table: &Table,
    roster: &Roster,
    lots: &LotsOf,
    says: &SaysOfSales,
) -> Result<SalesRead, SalesFault> {
    let Found { columns, heading_row, headings } = columns::find(table, says)?;
    let mut reading =
        Reading { columns, headings, roster, lots, read: SalesRead::default(), others: BTreeMap::new() };
    reading.read.columns = columns::told(&columns, &reading.headings);
    table.walk(&mut |row| {
        if heading_row < row.number && !row.is_blank() {
            reading.take(&row);
        }
        ControlFlow::Continue(())
    })?;
    Ok(reading.done())
}

/// Whether a table has headings of sales that nothing but sales has.
#[must_use]
pub fn is_plainly_of_sales(table: &Table) -> bool {
    columns::is_plain(table)
}

struct Reading<'r> {
    columns: Columns,
    headings: Vec<String>,
    roster: &'r Roster,
    lots: &'r LotsOf,
    read: SalesRead,
    others: BTreeMap<String, OtherItem>,
}

impl Reading<'_> {
    fn take(&mut self, row: &Row<'_>) {
        match self.sale(row) {
            Ok(Some(sale)) => self.read.sales.push(SaleRead { row: row.number, sale }),
            Ok(None) => {}
            Err(fault) => self.refuse(row, fault),
        }
    }

    fn sale(&mut self, row: &Row<'_>) -> Result<Option<Sale>, CellFault> {
        let Columns { day, quantity, back, status, .. } = self.columns;
        if let Some(broken) = row.broken {
            return Err(RowFault::Broken(broken).into());
        }
        let void = word(status, row, VOID)?.unwrap_or(false);
        let packets = packets(quantity, row)?;
        let packets = if word(back, row, BACK)?.unwrap_or(false) { -packets.abs() } else { packets };
        if void || packets == 0 {
            self.read.void += 1;
            return Ok(None);
        }
        let on = day.day(row, None)?.ok_or_else(|| day.fault(RowFault::Missing("day")))?;
        let (first, last) = self.read.days.unwrap_or((on, on));
        self.read.days = Some((first.min(on), last.max(on)));
        Ok(self.variety(row, packets)?.map(|variety| Sale { variety, on, packets }))
    }

    /// The variety of a row, by its lot or by what was sold; what is none of the house's is counted.
    fn variety(&mut self, row: &Row<'_>, packets: i32) -> Result<Option<Id<Variety>>, CellFault> {
        let Columns { item, lot, .. } = self.columns;
        let lot = lot.text(row)?;
        if let Some(variety) = lot.and_then(|number| self.lots.get(&lot_key(number))) {
            return Ok(Some(*variety));
        }
        let Some(sold) = item.text(row)?.or(lot) else {
            return Err(item.fault(RowFault::Missing("variety")));
        };
        match item::variety_of(sold, self.roster) {
            Sold::Of(variety) => Ok(Some(variety)),
            Sold::OfSeveral => Err(item.fault(RowFault::SeveralVarieties(sold.to_owned()))),
            Sold::Other => {
                let other = self.others.entry(sold.to_owned()).or_insert_with(|| OtherItem {
                    item: sold.to_owned(),
                    rows: 0,
                    packets: 0,
                    suggestion: self.roster.nearest(item::bare(sold)),
                });
                other.rows += 1;
                other.packets += i64::from(packets);
                Ok(None)
            }
        }
    }

    fn refuse(&mut self, row: &Row<'_>, CellFault { place, fault }: CellFault) {
        let column = place.and_then(|place| self.headings.get(place)).cloned();
        let value = place.map_or_else(String::new, |place| row.cell(place).text.to_owned());
        let remedy = remedy(&fault);
        self.read.faults.push(SaleFault { row: row.number, column, value, fault, remedy });
    }

    fn done(mut self) -> SalesRead {
        self.read.others = self.others.into_values().collect();
        self.read.others.sort_by_key(|other| std::cmp::Reverse(other.rows));
        self.read
    }
}

/// Most packets of one row; more is a telephone number. Common practice, no source.
const MOST_PACKETS: f64 = 100_000.0;

fn packets(column: ColumnReader, row: &Row<'_>) -> Result<i32, CellFault> {
    let number = match column.text(row)? {
        // Books write what came back in brackets.
        Some(text) if text.starts_with('(') && text.ends_with(')') => {
            let within = text.trim_matches(['(', ')']);
            let read = crate::number::number(within, None).map_err(|fault| column.fault(fault))?;
            Some(-read)
        }
        _ => column.signed(row)?,
    };
    let number = number.ok_or_else(|| column.fault(RowFault::Missing("number of packets")))?;
    let whole = number.fract() == 0.0 && number.abs() <= MOST_PACKETS;
    #[expect(clippy::cast_possible_truncation, reason = "whole and in reach")]
    let packets = number as i32;
    let outside = || RowFault::Outside { value: number.to_string(), limits: "whole packets up to 100000" };
    whole.then_some(packets).ok_or_else(|| column.fault(outside()))
}

/// A word of a column that a row may leave empty or fill with words of its own.
fn word(column: ColumnReader, row: &Row<'_>, known: &Words<bool>) -> Result<Option<bool>, CellFault> {
    Ok(column.text(row)?.and_then(|text| crate::words::meaning(known, text)))
}

fn remedy(fault: &RowFault) -> String {
    match fault {
        RowFault::Day(fault) => match fault {
            crate::day::DayFault::Undecided(_) => "say --dates day-first or --dates month-first".to_owned(),
            fault => fault.remedy(),
        },
        RowFault::Number(fault) => fault.remedy(),
        RowFault::SeveralVarieties(_) => "write the name that only one variety has".to_owned(),
        RowFault::Missing(_) => "fill the cell, or take the row out".to_owned(),
        RowFault::Formula => "open the file once in the program that made it, and save it".to_owned(),
        _ => "mend the cell, and take the file again".to_owned(),
    }
}

/// Which of day and month comes first, by the whole column.
fn order_of(evidence: &[DateOrder]) -> Option<DateOrder> {
    let first = *evidence.first()?;
    evidence.iter().all(|order| *order == first).then_some(first)
}
