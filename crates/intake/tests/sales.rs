//! Sales as shops and tills write them out.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use intake::day::DateOrder;
use intake::file::{Content, open};
use intake::roster::Roster;
use intake::sales::{LotsOf, SalesFault, SalesRead, SaysOfSales, is_plainly_of_sales, lot_key, read};
use intake::table::Table;
use jiff::civil::date;
use record::id::Id;
use record::variety::Variety;
use uuid::Uuid;

fn id(number: u128) -> Id<Variety> {
    Id::from_uuid(Uuid::from_u128(number))
}

fn roster() -> Roster {
    let mut roster = Roster::new();
    for (number, name, aliases) in [
        (1, "Amber Lantern", vec!["Lantern"]),
        (2, "Quince Rose", vec![]),
        (3, "Amber", vec![]),
        (4, "Brindle 25", vec![]),
    ] {
        let aliases = aliases.into_iter().map(str::to_owned).collect();
        roster.add_variety(
            &Variety { id: id(number), name: name.to_owned(), aliases, claims: Vec::new() },
            None,
        );
    }
    roster
}

fn table(text: &str) -> Table {
    open("sales.csv", Content::Bytes(text.as_bytes().to_vec().into())).unwrap().remove(0)
}

fn taken(text: &str, says: &SaysOfSales) -> Result<SalesRead, SalesFault> {
    let lots: LotsOf = [(lot_key("30-014"), id(2))].into_iter().collect();
    read(&table(text), &roster(), &lots, says)
}

#[track_caller]
fn sold(text: &str) -> Vec<(u64, u128, i32)> {
    let read = taken(text, &SaysOfSales::default()).unwrap();
    assert_eq!(read.faults, []);
    read.sales.iter().map(|sale| (sale.row, sale.sale.variety.uuid().as_u128(), sale.sale.packets)).collect()
}

#[test]
fn a_plain_file_is_read() {
    let text = "Date,Variety,Packets\n2031-01-05,Amber Lantern,3\n2031-01-06,lantern,2\n\n2031-02-01,Quince Rose,-1\n";
    assert_eq!(sold(text), [(2, 1, 3), (3, 1, 2), (5, 2, -1)]);
    let read = taken(text, &SaysOfSales::default()).unwrap();
    assert_eq!(read.days, Some((date(2031, 1, 5), date(2031, 2, 1))));
    assert!(!is_plainly_of_sales(&table(text)), "picks may have such headings too");
}

/// Titles above the headings, times behind the days, buyers beside them, packets by words and by lot.
#[test]
fn a_shop_s_file_is_read() {
    let text = "Orders of the winter\n\n\
        Order;Order date;Customer;Item;Lot;Qty;Status;Type\n\
        1001;2031-01-05 10:12:00;A. Buyer;Amber Lantern tomato seeds (25 seeds);;2;paid;sale\n\
        1001;2031-01-05 10:12:00;A. Buyer;Tomato – Quince Rose, packet of 30;;1;paid;\n\
        1002;2031-01-07T09:00;B. Buyer;mystery;30-014;4;shipped;\n\
        1003;2031-01-08;C. Buyer;Amber Lantern;;9;cancelled;\n\
        1004;2031-01-09;D. Buyer;Amber Lantern;;1;paid;refund\n\
        1005;2031-01-09;D. Buyer;Brindle 25;;(2);paid;\n";
    assert_eq!(sold(text), [(4, 1, 2), (5, 2, 1), (6, 2, 4), (8, 1, -1), (9, 4, -2)]);
    assert!(is_plainly_of_sales(&table(text)));
    assert_eq!(taken(text, &SaysOfSales::default()).unwrap().void, 1);
}

/// `Amber Giant` is not `Amber`: only words of the trade may stand round a name.
#[test]
fn no_variety_is_taken_for_another() {
    let text = "date,item,quantity\n2031-01-05,Amber Giant,3\n2031-01-06,Gift card,1\n2031-01-06,Quince Ros,2\n2031-01-07,Amber seeds,4\n";
    let read = taken(text, &SaysOfSales::default()).unwrap();
    assert_eq!(read.sales.len(), 1);
    assert_eq!(read.sales[0].sale.variety, id(3));
    let others: Vec<_> = read.others.iter().map(|other| (other.item.as_str(), other.rows)).collect();
    assert_eq!(others.len(), 3);
    let near = read.others.iter().find(|other| other.item == "Quince Ros").unwrap();
    assert_eq!(near.suggestion.as_ref().unwrap().nearest, "Quince Rose");
}

#[test]
fn faults_name_row_column_value_and_remedy() {
    let text = "date,variety,packets\n2031-01-05,Amber,two\n2031-13-05,Amber,2\n,Amber,2\n2031-01-05,,2\n2031-01-05,Amber,1.5\n2031-01-05,Amber,\n";
    let read = taken(text, &SaysOfSales::default()).unwrap();
    let told: Vec<_> = read
        .faults
        .iter()
        .map(|fault| (fault.row, fault.column.as_deref().unwrap_or(""), fault.value.as_str()))
        .collect();
    let expected = [
        (2, "packets", "two"),
        (3, "date", "2031-13-05"),
        (4, "date", ""),
        (5, "variety", ""),
        (6, "packets", "1.5"),
        (7, "packets", ""),
    ];
    assert_eq!(told, expected);
    assert!(read.faults.iter().all(|fault| !fault.remedy.is_empty()));
}

#[test]
fn dates_of_three_numbers_need_their_order() {
    let text = "date,variety,packets\n3/4/2031,Amber,2\n5/6/2031,Amber,1\n";
    let read = taken(text, &SaysOfSales::default()).unwrap();
    assert_eq!((read.sales.len(), read.faults.len()), (0, 2));
    assert!(read.faults[0].remedy.contains("--dates"));
    let says = SaysOfSales { dates: Some(DateOrder::MonthFirst), ..SaysOfSales::default() };
    assert_eq!(taken(text, &says).unwrap().sales[0].sale.on, date(2031, 3, 4));
    // One day above 12 settles the column.
    let settled = "date,variety,packets\n3/4/2031,Amber,2\n25/6/2031,Amber,1\n";
    assert_eq!(taken(settled, &SaysOfSales::default()).unwrap().sales[0].sale.on, date(2031, 4, 3));
}

#[test]
fn columns_can_be_named() {
    let text = "made,good,n\n2031-01-05,Amber,2\n";
    let fault = taken(text, &SaysOfSales::default()).unwrap_err();
    assert!(matches!(fault, SalesFault::NoHeadings("a column of days")));
    let named = |heading: &str| Some(heading.to_owned());
    let says = SaysOfSales { day: named("made"), item: named("good"), quantity: named("N"), dates: None };
    assert_eq!(taken(text, &says).unwrap().sales.len(), 1);
    let wrong = SaysOfSales { quantity: named("much"), ..says };
    assert!(matches!(taken(text, &wrong), Err(SalesFault::NoSuchColumn(_))));
}
