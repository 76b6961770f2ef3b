//! Sales records: the packets that a shop's file tells, by day and variety. No buyer and no price is kept.
//!
//! A record is never edited. Files of one shop may overlap: each day is told by the newest standing record that covers it. A
//! record can be withdrawn and restored. Start at [`Ledger::sales`].

pub(crate) mod changed;
mod writing;

use crate::batch::{Act, Sha256};
use crate::fault::LedgerFault;
use crate::kept::keys;
use crate::ledger::Ledger;
use crate::store::row::Row;
use crate::store::session::Session;
use crate::store::value::Value;
use jiff::civil::Date;
use record::sale::Sale;
use record::variety::Variety;
use std::collections::HashMap;
use std::fmt;

/// The number of a sales record, counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SalesNumber(pub u32);

impl fmt::Display for SalesNumber {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(to)
    }
}

/// The file that a record comes from, and what it covers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SalesFile {
    /// Its name, without its folder.
    pub name: String,
    /// Its SHA-256, by which the same file is known again.
    pub sha256: Sha256,
    /// Whose sales it tells: a shop's page, a market stall.
    pub shop: String,
    /// The first day that it covers.
    pub first: Date,
    /// The last day that it covers.
    pub last: Date,
    /// Rows that were left out.
    pub left_out: u32,
}

/// A sale with the row of its file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SaleRow {
    /// The row, as its file counts them.
    pub row: u64,
    /// The sale.
    pub sale: Sale,
}

/// A sales record, without its sales.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SalesInfo {
    /// Its number.
    pub number: SalesNumber,
    /// The file.
    pub file: SalesFile,
    /// Who brought it and when.
    pub brought: Act,
    /// Rows that it holds.
    pub rows: u64,
    /// Packets, less those that came back.
    pub packets: i64,
    /// Whether it stands.
    pub state: SalesState,
}

/// Whether a record stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SalesState {
    /// It stands.
    Standing,
    /// Somebody withdrew it; it can be restored.
    Withdrawn(Act),
}

/// Sales that count, and the days that are covered.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SalesKept {
    /// By record and row.
    pub sales: Vec<Sale>,
    /// The first and last day that standing records cover; `None` where there are none.
    pub covered: Option<(Date, Date)>,
}

/// The newest undoing of a record is `u`.
const RECORDS: &str = "SELECT r.number, r.file_name, r.sha256, r.shop, r.first_day, r.last_day, r.left_out, r.who, r.at_us,
    coalesce(s.many, 0), coalesce(s.packets, 0), u.action, u.who, u.at_us, u.why
    FROM sales_record r
    LEFT JOIN (SELECT record, count(*) AS many, CAST(sum(packets) AS BIGINT) AS packets FROM sale GROUP BY record) s
        ON s.record = r.number
    LEFT JOIN sales_undoing u ON u.number = (SELECT max(number) FROM sales_undoing WHERE record = r.number)
    ORDER BY r.number";

impl Ledger {
    /// Every record, oldest first, the withdrawn ones too.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn sales_records(&mut self) -> Result<Vec<SalesInfo>, LedgerFault> {
        self.store.rows(RECORDS, &[], info)
    }

    /// The standing record that comes from this very file, if there is one.
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn sales_taken(&mut self, file: Sha256) -> Result<Option<SalesNumber>, LedgerFault> {
        standing_of_file(&mut self.store.session(), file)
    }

    /// The sales that count: of each shop and day, those of the newest standing record that covers it. Sales of varieties
    /// that no longer stand are left out. Ask within [`Ledger::at_one_moment`].
    ///
    /// # Errors
    /// What the disk or server refuses.
    pub fn sales(&mut self) -> Result<SalesKept, LedgerFault> {
        let sql = "SELECT number, shop_key, first_day, last_day FROM sales_record
            WHERE number IN (SELECT number FROM standing_sales) ORDER BY number";
        let standing: Vec<(i64, String, Date, Date)> =
            self.store.rows(sql, &[], |row| Ok((row.whole(0)?, row.words(1)?, row.day(2)?, row.day(3)?)))?;
        let mut later: HashMap<i64, Vec<(Date, Date)>> = HashMap::new();
        for (at, (number, shop, ..)) in standing.iter().enumerate() {
            let newer = standing.iter().skip(at + 1).filter(|(_, other, ..)| other == shop);
            later.insert(*number, newer.map(|(_, _, first, last)| (*first, *last)).collect());
        }
        let first = standing.iter().map(|(_, _, first, _)| *first).min();
        let covered = first.zip(standing.iter().map(|(.., last)| *last).max());
        let sql = "SELECT s.record, v.uuid, s.sold_on, s.packets FROM sale s
            JOIN variety v ON v.number = s.variety AND v.batch IN (SELECT number FROM standing_batch)
            WHERE s.record IN (SELECT number FROM standing_sales) ORDER BY s.record, s.place";
        let rows = self.store.rows(sql, &[], |row| {
            let (record, on) = (row.whole(0)?, row.day(2)?);
            let told_later = later.get(&record).into_iter().flatten();
            let counts = !told_later.clone().any(|(first, last)| *first <= on && on <= *last);
            let packets = i32::try_from(row.whole(3)?).unwrap_or_default();
            Ok(counts.then_some(Sale { variety: keys::id::<Variety>(row, 1)?, on, packets }))
        })?;
        Ok(SalesKept { sales: rows.into_iter().flatten().collect(), covered })
    }
}

fn standing_of_file(session: &mut Session<'_>, file: Sha256) -> Result<Option<SalesNumber>, LedgerFault> {
    let sql = "SELECT number FROM sales_record WHERE sha256 = $1
        AND number IN (SELECT number FROM standing_sales) ORDER BY number DESC";
    session.first(sql, &[Value::Bytes(&file.0)], |row| row.small(0).map(SalesNumber))
}

fn info(row: &Row<'_>) -> Result<SalesInfo, LedgerFault> {
    let state = match row.text_or_none(11)? {
        Some("withdrawn") => SalesState::Withdrawn(Act {
            who: row.words(12)?,
            at: row.moment(13)?,
            why: row.words_or_none(14)?,
        }),
        _ => SalesState::Standing,
    };
    Ok(SalesInfo {
        number: SalesNumber(row.small(0)?),
        file: SalesFile {
            name: row.words(1)?,
            sha256: Sha256(row.bytes(2)?),
            shop: row.words(3)?,
            first: row.day(4)?,
            last: row.day(5)?,
            left_out: row.small(6)?,
        },
        brought: Act { who: row.words(7)?, at: row.moment(8)?, why: None },
        rows: row.count(9)?,
        packets: row.whole(10)?,
        state,
    })
}
