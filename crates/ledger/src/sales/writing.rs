//! Bringing sales records in, withdrawing and restoring them.

use crate::batch::Act;
use crate::batch::Sha256;
use crate::fault::LedgerFault;
use crate::kept::keys::new_uuid;
use crate::kept::print::Print;
use crate::kept::values::record_head;
use crate::ledger::Ledger;
use crate::names::label_key;
use crate::sales::{SaleRow, SalesFile, SalesNumber, standing_of_file};
use crate::store::session::{Copied, Session, Table};
use crate::store::value::Value;
use crate::undo::{Undoings, write_down};
use crate::varieties::standing_number;
use record::id::Id;
use record::variety::Variety;
use std::collections::HashMap;

/// Undoings of records.
const UNDOINGS: Undoings = Undoings { table: "sales_undoing", what: "record" };

static SALES: Table = Table {
    name: "sale",
    columns: &["record", "place", "source_row", "sold_on", "variety", "packets"],
    copied: Copied::First,
};

impl Ledger {
    /// Keeps the sales of a file, as one transaction.
    ///
    /// # Errors
    /// [`LedgerFault::SalesTakenAlready`] where a standing record comes from this very file; [`LedgerFault::Nameless`] of a
    /// shop without letter or figure; [`LedgerFault::NoSuchVariety`]; what the disk or server refuses.
    pub fn keep_sales(
        &mut self,
        act: &Act,
        file: &SalesFile,
        sales: &[SaleRow],
    ) -> Result<SalesNumber, LedgerFault> {
        if !file.shop.chars().any(char::is_alphanumeric) {
            return Err(LedgerFault::Nameless);
        }
        self.store.writing(|session| {
            // Only whoever holds the pen can be sure: another may have taken it while this one waited.
            match standing_of_file(session, file.sha256)? {
                Some(by) => Err(LedgerFault::SalesTakenAlready(by)),
                None => add_record(session, act, file, sales),
            }
        })
    }

    /// Withdraws a record, so that those before it count again.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchSales`] where none of that number stands, or what the disk or server refuses.
    pub fn withdraw_sales(&mut self, record: SalesNumber, act: &Act) -> Result<(), LedgerFault> {
        self.store.writing(|session| {
            let sql = "SELECT count(*) FROM standing_sales WHERE number = $1";
            match session.first(sql, &[record.0.into()], |row| row.whole(0))?.unwrap_or(0) {
                0 => Err(LedgerFault::NoSuchSales(record)),
                _ => write_down(session, &UNDOINGS, record.0, "withdrawn", act),
            }
        })
    }

    /// Restores a record that was withdrawn.
    ///
    /// # Errors
    /// [`LedgerFault::NoSuchSales`] where none of that number is withdrawn; [`LedgerFault::SalesTakenAlready`] where its file
    /// was taken again; what the disk or server refuses.
    pub fn restore_sales(&mut self, record: SalesNumber, act: &Act) -> Result<(), LedgerFault> {
        self.store.writing(|session| {
            let sql = "SELECT sha256 FROM sales_record
                WHERE number = $1 AND number NOT IN (SELECT number FROM standing_sales)";
            let file = session.first(sql, &[record.0.into()], |row| row.bytes(0).map(Sha256))?;
            let file = file.ok_or(LedgerFault::NoSuchSales(record))?;
            match standing_of_file(session, file)? {
                Some(by) => Err(LedgerFault::SalesTakenAlready(by)),
                None => write_down(session, &UNDOINGS, record.0, "restored", act),
            }
        })
    }
}

fn add_record(
    session: &mut Session<'_>,
    act: &Act,
    file: &SalesFile,
    sales: &[SaleRow],
) -> Result<SalesNumber, LedgerFault> {
    let number = session.next_number("sales_record")?;
    let (uuid, key) = (new_uuid(act.at), label_key(&file.shop));
    let mut known: HashMap<Id<Variety>, i64> = HashMap::new();
    let mut rows = Vec::with_capacity(sales.len());
    for (place, row) in (1_i64..).zip(sales) {
        let variety = match known.get(&row.sale.variety) {
            Some(variety) => *variety,
            None => standing_number(session, row.sale.variety)?,
        };
        known.insert(row.sale.variety, variety);
        rows.push(values_of(place, row, variety));
    }
    let own = own(file, &key);
    let print = rows.iter().fold(Print::new().add(&own), |print, row| print.add(row)).done();
    let values: Vec<Value<'_>> = record_head(number, &uuid, act, print).into_iter().chain(own).collect();
    session.execute(
        "INSERT INTO sales_record (number, uuid, who, at_us, print, file_name, sha256, shop, shop_key, first_day,
            last_day, left_out) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)",
        &values,
    )?;
    for [place, row, sold_on, variety, packets] in rows {
        session.add(&SALES, &[number.into(), place, row, sold_on, variety, packets])?;
    }
    Ok(SalesNumber(u32::try_from(number).unwrap_or(u32::MAX)))
}

/// The columns of a record that its print is made of, before its sales.
fn own<'a>(file: &'a SalesFile, key: &'a str) -> [Value<'a>; 7] {
    [
        file.name.as_str().into(),
        Value::Bytes(&file.sha256.0),
        file.shop.as_str().into(),
        key.into(),
        file.first.into(),
        file.last.into(),
        file.left_out.into(),
    ]
}

fn values_of<'a>(place: i64, row: &SaleRow, variety: i64) -> [Value<'a>; 5] {
    let number = i64::try_from(row.row).unwrap_or(i64::MAX);
    [place.into(), number.into(), row.sale.on.into(), variety.into(), i64::from(row.sale.packets).into()]
}
