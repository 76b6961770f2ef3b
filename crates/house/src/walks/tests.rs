//! A walk sheet that is filled and typed up comes in whole.

use super::*;
use crate::folder::create;
use crate::layout::{self, file};
use crate::opened::Given;
use crate::progress::Unwatched;
use crate::settings::Settings;
use crate::take::{KeepReading, Outcome, Request, take};
use jiff::Timestamp;
use jiff::civil::date;
use ledger::batch::Act;
use publish::walk_sheets::{Cell, Table};
use record::language::Units;

const LAYOUT: &str = r#"name = "2031 Home"
season = 2031
replicates = 2
varieties = ["Amber Lantern", "Quince Rose", "Low Barn"]
[planting]
plants = 4
between-plants = "50 cm"
between-rows = "60 cm"
[[garden]]
name = "Home"
bed = [{ name = "North", length = "6 m", width = "1.3 m" }]
"#;

fn act() -> Act {
    Act { who: "Wren".to_owned(), at: Timestamp::UNIX_EPOCH, why: None }
}

fn bring(house: &House, name: &str, text: &str) -> Vec<Outcome> {
    let request = Request {
        who: "Wren".to_owned(),
        at: Timestamp::UNIX_EPOCH,
        today: date(2031, 12, 1),
        asked: crate::asked::Asked::default(),
        keep_reading: KeepReading::Once,
        why: None,
    };
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(name);
    std::fs::write(&path, text).unwrap();
    let given = Given::at(&path);
    let taken = take(house, &[given], &request, &Unwatched).unwrap();
    assert!(taken.unreadable.is_empty(), "{:?}", taken.unreadable);
    taken.tables.into_iter().map(|table| table.outcome).collect()
}

/// What a walker might write under a heading.
fn written(heading: &str) -> &'static str {
    match heading {
        "First flower" | "First ripe" => "x",
        "Stem ended" => "no",
        "Off-type notes" => "potato leaf",
        "Weight (kg)" | "Weight (lb)" => "1.85",
        "Height (cm)" | "Height (in)" => "48",
        _ => "3",
    }
}

fn typed_up(grow_out: &str, table: &Table) -> String {
    let headings: Vec<&str> = table.columns.iter().map(|column| column.heading.as_str()).collect();
    let mut text = format!("{grow_out}\n{}\n", headings.join(","));
    for row in &table.rows {
        let cells = row.cells.iter().zip(&headings).map(|(cell, heading)| match cell {
            Cell::Printed(words) => words.as_str(),
            Cell::Open => written(heading),
            Cell::NotDue => "",
        });
        text.push_str(&cells.collect::<Vec<_>>().join(","));
        text.push('\n');
    }
    text
}

#[test]
fn a_filled_sheet_comes_in_whole() {
    for units in [Units::METRIC, Units::US] {
        let folder = tempfile::tempdir().unwrap();
        let settings = Settings {
            name: "Barn".to_owned(),
            units,
            keeper: "Wren".to_owned(),
            postgres: None,
            site: None,
            address: None,
            law: crate::lots::law::Law::default(),
            minimum: None,
            sells_to: None,
        };
        let house = create(&folder.path().join("house"), &settings, &act()).unwrap();
        bring(&house, "list.csv", "Variety\nAmber Lantern\nQuince Rose\nLow Barn\n");
        let wanted = file::read("layout.toml", LAYOUT).unwrap();
        let proposed = layout::propose(&house, &wanted, 1, &Unwatched).unwrap();
        layout::keep(&house, &proposed, &act()).unwrap();
        let day = date(2031, 8, 14);
        let sheets = gather(&house, "2031 home", day, &Parted::Whole).unwrap().sheets;
        assert_eq!(sheets.walks.len(), 1);
        let tables = &sheets.walks[0].tables;
        assert_eq!(tables.len(), 3, "nothing was noted yet, so everything is due");
        for table in tables {
            assert_eq!(table.rows.len(), 6);
            let outcomes = bring(&house, &format!("{}.csv", table.title), &typed_up("2031 Home", table));
            let [Outcome::Added { summary, .. }] = outcomes.as_slice() else { panic!("{outcomes:?}") };
            assert_eq!((summary.quarantined, summary.added.doubted), (0, 0), "{}", table.title);
            assert!(6 <= summary.added.notes(), "{}: {summary:?}", table.title);
        }
        let after = gather(&house, "2031 Home", day, &Parted::Whole);
        assert!(matches!(after, Err(HouseFault::NothingDue { .. })), "all of it was noted");
    }
}

#[test]
fn people_share_a_walk() {
    let plots = walk::shared(7, 3);
    assert_eq!(plots, [0..3, 3..5, 5..7]);
}
