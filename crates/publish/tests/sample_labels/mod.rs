//! Invented packets to label: as many lots as are asked for, with portraits of the invented house.

#![expect(clippy::unwrap_used, reason = "the invented packets are made of known measures")]
#![allow(dead_code, reason = "each test asks for what it needs of it")]

#[path = "../sample_house/mod.rs"]
pub(crate) mod sample_house;

use jiff::civil::date;
use publish::packet_labels::{
    Backing, Code, Fact, LabelRoll, LabelSheet, LabelStock, PacketLabel, PacketLabels, Statement, Weight,
};
use publish::stakes::Paper;
use record::length::Millimetres;
use uuid::Uuid;

pub(crate) fn mm(length: f64) -> Millimetres {
    Millimetres::new(length).unwrap()
}

/// Two by five labels of 101.6 x 50.8 mm.
pub(crate) fn sheet() -> LabelStock {
    LabelStock::Sheet(LabelSheet {
        name: "4 x 2 in".to_owned(),
        paper: Paper::UsLetter,
        width: mm(101.6),
        height: mm(50.8),
        columns: 2,
        rows: 5,
        left: mm(4.0),
        top: mm(12.7),
        gap_across: mm(4.7),
        gap_down: mm(0.0),
    })
}

pub(crate) fn roll(width: f64, height: f64) -> LabelStock {
    LabelStock::Roll(LabelRoll { name: "roll".to_owned(), width: mm(width), height: mm(height) })
}

fn statement(words: &str, points: u8, weight: Weight) -> Statement {
    Statement { words: words.to_owned(), points, weight }
}

/// So many lots of as many packets each.
pub(crate) fn labels(lots: usize, packets: u32) -> PacketLabels {
    let house = sample_house::house(lots);
    let entries = house.sections.iter().flat_map(|section| &section.entries);
    let label = |(at, entry): (usize, &publish::catalogue::Entry)| {
        let fact = |words: &str, backing| Fact { words: words.to_owned(), backing };
        let label = PacketLabel {
            variety: entry.name.clone(),
            kind: "Tomato seed".to_owned(),
            code: Code::Lot(Uuid::from_u128(at as u128 + 1)),
            lot_number: format!("31-{at:03}"),
            portrait: entry.portrait.clone(),
            facts: vec![
                fact("a plum, determinate", Backing::Evidence),
                fact("said to be early; not proven here", Backing::Nothing),
            ],
            statements: vec![
                statement("Below Standard. Germination 74 %, hard seed 0 %.", 8, Weight::Bold),
                statement("30 seeds, net 90 mg (0.0032 oz)", 6, Weight::Plain),
                statement(&format!("Lot 31-{at:03}"), 6, Weight::Plain),
                statement("Germination 74%, hard seed 0%, tested January 2032", 6, Weight::Plain),
                statement("Packed for 2032", 6, Weight::Plain),
                statement("Long Furrow Seed, 4 Ferry Road, Low Barn #1 <b>", 6, Weight::Plain),
            ],
            sowing: vec!["Sow indoors 6 to 8 weeks before the last frost, 6 mm (1/4 in) deep.".to_owned()],
        };
        (label, packets)
    };
    PacketLabels {
        house: "Long Furrow Seed".to_owned(),
        printed_on: date(2032, 2, 1),
        labels: entries.enumerate().map(label).collect(),
        house_fonts: Vec::new(),
    }
}
