//! Sales records: kept, read back day by day, withdrawn, restored, and brought up from the form before.

use crate::ground::{act, add_varieties, new_file, on_both};
use jiff::civil::{Date, date};
use ledger::batch::Sha256;
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::sales::{SaleRow, SalesFile, SalesNumber, SalesState};
use record::id::Id;
use record::sale::Sale;
use record::variety::Variety;
use rusqlite::Connection;
use tempfile::TempDir;

fn file(content: u8, shop: &str, first: Date, last: Date) -> SalesFile {
    let sha256 = Sha256([content; 32]);
    SalesFile {
        name: format!("sales-{content}.csv"),
        sha256,
        shop: shop.to_owned(),
        first,
        last,
        left_out: 2,
    }
}

fn sale(row: u64, variety: Id<Variety>, on: Date, packets: i32) -> SaleRow {
    SaleRow { row, sale: Sale { variety, on, packets } }
}

const WINTER: (Date, Date) = (date(2031, 1, 1), date(2031, 3, 31));

#[test]
fn a_record_is_read_back_as_it_was_kept() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let ids = add_varieties(&mut ledger, &["Amber Lantern", "Brindle"]);
        let rows = [
            sale(2, ids[0], date(2031, 1, 5), 12),
            sale(3, ids[1], date(2031, 2, 1), 3),
            sale(9, ids[0], date(2031, 2, 1), -2),
        ];
        let number = ledger.keep_sales(&act(1), &file(1, "Stall", WINTER.0, WINTER.1), &rows).unwrap();
        let kept = ledger.sales().unwrap();
        assert_eq!(kept.sales, rows.map(|row| row.sale));
        assert_eq!(kept.covered, Some(WINTER));
        let info = ledger.sales_records().unwrap().remove(0);
        assert_eq!((info.number, info.rows, info.packets, info.state), (number, 3, 13, SalesState::Standing));
        assert_eq!(info.file, file(1, "Stall", WINTER.0, WINTER.1));
        assert!(ledger.verify().unwrap().is_sound());
    });
}

/// The newest file of a shop tells the days that it covers; another shop's sales stand beside it.
#[test]
fn a_day_is_told_once_a_shop() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let id = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let (january, february) = (date(2031, 1, 5), date(2031, 2, 5));
        let early = [sale(2, id, january, 10), sale(3, id, february, 20)];
        ledger.keep_sales(&act(1), &file(1, "Stall", january, february), &early).unwrap();
        let later = [sale(2, id, february, 21)];
        let second =
            ledger.keep_sales(&act(2), &file(2, " stall", date(2031, 2, 1), WINTER.1), &later).unwrap();
        ledger
            .keep_sales(&act(3), &file(3, "Post", february, february), &[sale(2, id, february, 5)])
            .unwrap();
        let packets = |ledger: &mut Ledger| {
            ledger.sales().unwrap().sales.iter().map(|sale| sale.packets).collect::<Vec<_>>()
        };
        assert_eq!(packets(&mut ledger), [10, 21, 5]);
        ledger.withdraw_sales(second, &act(4)).unwrap();
        assert_eq!(packets(&mut ledger), [10, 20, 5]);
        assert!(matches!(ledger.withdraw_sales(second, &act(5)), Err(LedgerFault::NoSuchSales(_))));
        ledger.restore_sales(second, &act(6)).unwrap();
        assert_eq!(packets(&mut ledger), [10, 21, 5]);
        assert!(matches!(ledger.restore_sales(second, &act(7)), Err(LedgerFault::NoSuchSales(_))));
        assert!(ledger.verify().unwrap().is_sound());
    });
}

#[test]
fn the_same_file_is_taken_once() {
    on_both(|location| {
        let mut ledger = Ledger::open(location).unwrap();
        let id = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        let rows = [sale(2, id, WINTER.0, 1)];
        let own = file(1, "Stall", WINTER.0, WINTER.1);
        let first = ledger.keep_sales(&act(1), &own, &rows).unwrap();
        let again = ledger.keep_sales(&act(2), &own, &rows);
        assert!(matches!(again, Err(LedgerFault::SalesTakenAlready(by)) if by == first));
        ledger.withdraw_sales(first, &act(3)).unwrap();
        assert_eq!(ledger.sales_taken(own.sha256).unwrap(), None);
        assert_eq!(ledger.keep_sales(&act(4), &own, &rows).unwrap(), SalesNumber(2));
        assert!(matches!(ledger.restore_sales(first, &act(5)), Err(LedgerFault::SalesTakenAlready(_))));
        let nameless = file(9, " - ", WINTER.0, WINTER.1);
        assert!(matches!(ledger.keep_sales(&act(6), &nameless, &rows), Err(LedgerFault::Nameless)));
    });
}

/// A ledger of the form before gains the new tables, and its varieties are there still.
#[test]
fn a_ledger_of_the_form_before_is_brought_up() {
    let folder = TempDir::new().unwrap();
    let location = new_file(&folder);
    add_varieties(&mut Ledger::open(&location).unwrap(), &["Amber Lantern", "Brindle"]);
    let file = Connection::open(folder.path().join("ledger.db")).unwrap();
    file.execute_batch(crate::WITHOUT_SALES).unwrap();
    file.execute_batch(crate::WITHOUT_WHAT_CAME_AFTER_SALES).unwrap();
    file.execute_batch("DELETE FROM form WHERE number >= 6;").unwrap();
    drop(file);
    let mut ledger = Ledger::open(&location).unwrap();
    assert_eq!((ledger.varieties().unwrap().len(), ledger.sales().unwrap().covered), (2, None));
    assert!(ledger.verify().unwrap().is_sound());
}

#[test]
fn verifying_finds_sales_that_were_changed() {
    for damage in [
        "UPDATE sale SET packets = 13",
        "DELETE FROM sale",
        "UPDATE sales_record SET last_day = 20320101",
        "UPDATE sales_record SET left_out = 0",
    ] {
        let folder = TempDir::new().unwrap();
        let mut ledger = Ledger::open(&new_file(&folder)).unwrap();
        let id = add_varieties(&mut ledger, &["Amber Lantern"])[0];
        ledger
            .keep_sales(&act(1), &self::file(1, "Stall", WINTER.0, WINTER.1), &[sale(2, id, WINTER.0, 12)])
            .unwrap();
        let file = Connection::open(folder.path().join("ledger.db")).unwrap();
        let refused = file.execute_batch(damage).unwrap_err().to_string();
        assert!(refused.contains("only ever added to"), "{damage}: {refused}");
        for table in ["sale", "sales_record"] {
            file.execute_batch(&format!("DROP TRIGGER {table}_no_UPDATE; DROP TRIGGER {table}_no_DELETE;"))
                .unwrap();
        }
        assert!(ledger.verify().unwrap().is_sound());
        file.execute_batch(damage).unwrap();
        let verified = ledger.verify().unwrap();
        let found: Vec<_> = verified.checks.iter().flat_map(|check| &check.findings).collect();
        assert!(
            found.iter().any(|found| found.contains("sales record 1 was changed")),
            "{damage}: {found:?}"
        );
    }
}
