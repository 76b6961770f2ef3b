//! Which column of a table of sales holds what, by its headings or by what somebody says.

use super::{SalesFault, order_of};
use crate::cells::ColumnReader;
use crate::day::{self, DateOrder, Evidence};
use crate::headings::folded;
use crate::table::{Row, Table};
use std::ops::ControlFlow;

/// What somebody says of a table of sales where its headings do not.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SaysOfSales {
    /// The heading over the days.
    pub day: Option<String>,
    /// The heading over what was sold.
    pub item: Option<String>,
    /// The heading over the packets.
    pub quantity: Option<String>,
    /// Which of day and month comes first.
    pub dates: Option<DateOrder>,
}

/// The columns of a table of sales; those that it lacks read as empty.
#[derive(Clone, Copy, Debug)]
pub(super) struct Columns {
    pub(super) day: ColumnReader,
    pub(super) item: ColumnReader,
    pub(super) lot: ColumnReader,
    pub(super) quantity: ColumnReader,
    /// Whether packets were sold or came back.
    pub(super) back: ColumnReader,
    /// What became of the order.
    pub(super) status: ColumnReader,
}

/// The columns, with the row of their headings.
pub(super) struct Found {
    pub(super) columns: Columns,
    pub(super) heading_row: u64,
    pub(super) headings: Vec<String>,
}

/// Rows from the top among which headings are looked for.
const TOP_ROWS: u32 = 30;

const DAY: &[&str] = &[
    "date",
    "day",
    "sold on",
    "sale date",
    "date of sale",
    "date sold",
    "order date",
    "ordered on",
    "date ordered",
    "date of order",
    "transaction date",
    "invoice date",
    "posted",
    "when",
];
const ITEM: &[&str] = &[
    "variety",
    "item",
    "product",
    "item name",
    "product name",
    "item title",
    "product title",
    "title",
    "description",
    "item description",
    "sold",
    "what",
    "seed",
    "article",
    "cultivar",
];
const LOT: &[&str] = &["lot", "lot number", "lot no", "seed lot"];
const QUANTITY: &[&str] = &[
    "quantity",
    "qty",
    "packets",
    "packets sold",
    "packs",
    "quantity sold",
    "qty sold",
    "sold quantity",
    "number sold",
    "units",
    "units sold",
    "items sold",
    "net quantity",
    "quantity ordered",
    "pieces",
    "count",
    "number of packets",
    "how many",
];
const BACK: &[&str] = &["type", "kind", "transaction", "transaction type", "sale or return"];
const STATUS: &[&str] = &["status", "order status", "state", "order state"];
/// Headings that stand over sales and over no notes of a garden.
const PLAIN: &[&str] = &[
    "sale date",
    "date of sale",
    "date sold",
    "order date",
    "date ordered",
    "date of order",
    "transaction date",
    "invoice date",
    "packets sold",
    "quantity sold",
    "qty sold",
    "units sold",
    "items sold",
    "net quantity",
    "quantity ordered",
    "order",
    "order number",
    "order no",
    "invoice",
    "invoice number",
    "price",
    "unit price",
    "amount",
    "total",
    "customer",
    "buyer",
    "net sales",
    "gross sales",
    "postage",
    "shipping",
];

/// Finds the columns.
///
/// # Errors
/// [`SalesFault`].
pub(super) fn find(table: &Table, says: &SaysOfSales) -> Result<Found, SalesFault> {
    let mut lacking = "a column of days";
    let mut found = None;
    let mut left = TOP_ROWS;
    table.walk(&mut |row| {
        match of_row(&row, says) {
            Ok(places) => found = Some((row.number, headings(&row), places)),
            Err(lacks) if !row.is_blank() && 1 < row.width() && lacking == "a column of days" => {
                lacking = lacks
            }
            Err(_) => {}
        }
        left -= 1;
        if found.is_some() || left == 0 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    })?;
    let Some((heading_row, headings, places)) = found else {
        let named = [&says.day, &says.item, &says.quantity].into_iter().flatten().next();
        return Err(
            named.map_or(SalesFault::NoHeadings(lacking), |named| SalesFault::NoSuchColumn(named.clone()))
        );
    };
    let at = |place: Option<usize>| ColumnReader::at(place.unwrap_or(usize::MAX), table.day_zero());
    let order = match says.dates {
        Some(order) => Some(order),
        None => dates(table, heading_row, places.day)?,
    };
    let columns = Columns {
        day: at(places.day).with_dates(order),
        item: at(places.item),
        lot: at(places.lot),
        quantity: at(places.quantity),
        back: at(places.back),
        status: at(places.status),
    };
    Ok(Found { columns, heading_row, headings })
}

/// Whether a table has headings of sales that nothing but sales has.
pub(super) fn is_plain(table: &Table) -> bool {
    let (mut plain, mut left) = (false, TOP_ROWS);
    let walked = table.walk(&mut |row| {
        left -= 1;
        if of_row(&row, &SaysOfSales::default()).is_ok() {
            plain = headings(&row).iter().any(|heading| PLAIN.contains(&folded(heading).as_str()));
            return ControlFlow::Break(());
        }
        if left == 0 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    });
    walked.is_ok() && plain
}

#[derive(Clone, Copy)]
struct Places {
    day: Option<usize>,
    item: Option<usize>,
    lot: Option<usize>,
    quantity: Option<usize>,
    back: Option<usize>,
    status: Option<usize>,
}

fn headings(row: &Row<'_>) -> Vec<String> {
    row.cells().map(|cell| cell.text.to_owned()).collect()
}

/// The places of a heading row, or what it lacks.
fn of_row(row: &Row<'_>, says: &SaysOfSales) -> Result<Places, &'static str> {
    let headings: Vec<String> = row.cells().map(|cell| folded(cell.text)).collect();
    let place = |said: &Option<String>, known: &[&str]| match said {
        Some(said) => headings.iter().position(|heading| *heading == folded(said)),
        None => known.iter().find_map(|known| headings.iter().position(|heading| heading == known)),
    };
    let places = Places {
        day: place(&says.day, DAY),
        item: place(&says.item, ITEM),
        lot: place(&None, LOT),
        quantity: place(&says.quantity, QUANTITY),
        back: place(&None, BACK),
        status: place(&None, STATUS),
    };
    if places.day.is_none() {
        Err("a column of days")
    } else if places.item.is_none() && places.lot.is_none() {
        Err("a column of what was sold")
    } else if places.quantity.is_none() {
        Err("a column of how many")
    } else {
        Ok(places)
    }
}

/// The order that the dates of a column can only be in.
fn dates(table: &Table, heading_row: u64, day: Option<usize>) -> Result<Option<DateOrder>, SalesFault> {
    let mut told = Vec::new();
    table.walk(&mut |row| {
        let cell = day.filter(|_| heading_row < row.number).map(|place| row.cell(place));
        if let Some(Evidence::Only(order)) = cell.map(|cell| day::evidence(cell.text).0) {
            told.push(order);
        }
        ControlFlow::Continue(())
    })?;
    Ok(order_of(&told))
}

/// Headings, with what each was read as.
pub(super) fn told(columns: &Columns, headings: &[String]) -> Vec<(String, &'static str)> {
    let uses = [
        (columns.day, "day"),
        (columns.item, "what was sold"),
        (columns.lot, "lot"),
        (columns.quantity, "packets"),
        (columns.back, "sold or brought back"),
        (columns.status, "what became of the order"),
    ];
    let place = |column: ColumnReader| column.fault(crate::rejection::RowFault::Formula).place;
    uses.into_iter()
        .filter_map(|(column, told)| Some((headings.get(place(column)?)?.clone(), told)))
        .collect()
}
