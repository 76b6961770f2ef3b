//! Packet labels and lot cards as a packer meets them.

mod poppler;
mod sample_labels;

use jiff::civil::date;
use publish::catalogue::TypesettingFault;
use publish::lot_cards::{LotCard, LotCards, Paper, lot_cards};
use publish::packet_labels::packet_labels;
use sample_labels::{labels, roll, sheet};
use uuid::Uuid;

/// Points in a millimetre: 72 to the inch of 25.4 mm.
const POINTS: f64 = 72.0 / 25.4;

/// Every statement that must stand on a label, in one text without line breaks.
fn must(number: &str) -> [String; 6] {
    [
        "Below Standard. Germination 74 %, hard seed 0 %.".to_owned(),
        "30 seeds, net 90 mg (0.0032 oz)".to_owned(),
        format!("Lot 31-{number}"),
        "tested January 2032".to_owned(),
        "Packed for 2032".to_owned(),
        "Long Furrow Seed, 4 Ferry Road, Low Barn #1 <b>".to_owned(),
    ]
}

#[test]
fn every_packet_has_its_own_label_whole() {
    let pdf = packet_labels(&labels(3, 7), &sheet()).unwrap();
    let Some(text) = poppler::text(&pdf) else { return };
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for number in ["000", "001", "002"] {
        for words in must(number) {
            let times = text.matches(&words).count();
            assert!(0 < times && times % 7 == 0, "{words}: {times} times in {text}");
        }
    }
    let pages = poppler::words(&pdf).unwrap();
    assert_eq!(pages.len(), 3, "21 labels, ten a sheet");
    for (page, labels) in pages.iter().zip([10, 10, 1]) {
        let lots = page.words.iter().filter(|placed| placed.word.starts_with("31-"));
        let mut cells: Vec<usize> =
            lots.map(|placed| (0..10).find(|at| lies_on(placed, *at)).unwrap()).collect();
        cells.sort_unstable();
        assert_eq!(cells, (0..labels).collect::<Vec<_>>(), "one lot number a label");
    }
}

/// Whether a word lies on a label of the sample sheet.
fn lies_on(placed: &poppler::PlacedWord, at: usize) -> bool {
    let (left, top) = (4.0 + (at % 2) as f64 * 106.3, 12.7 + (at / 2) as f64 * 50.8);
    left * POINTS <= placed.left
        && placed.right <= (left + 101.6) * POINTS
        && top * POINTS <= placed.top
        && placed.bottom <= (top + 50.8) * POINTS
}

/// 7 CFR 201.29: "Below Standard" in 8 point or more, however small the rest is set. Poppler's box of a word is as high as
/// the font's ascent and descent, which for every shipped font is more than its size.
#[test]
fn what_the_law_wants_large_is_large_on_small_labels_too() {
    for stock in [sheet(), roll(76.2, 50.8), roll(50.0, 70.0), roll(66.7, 25.4)] {
        let pdf = packet_labels(&labels(1, 1), &stock).unwrap();
        let Some(pages) = poppler::words(&pdf) else { return };
        let words = &pages[0].words;
        let high =
            |word: &str| words.iter().find(|placed| placed.word == word).map(|one| one.bottom - one.top);
        assert!(8.0 <= high("Below").unwrap(), "{:?}", high("Below"));
        let inside = |placed: &poppler::PlacedWord| {
            0.0 <= placed.left && placed.right <= pages[0].width && placed.bottom <= pages[0].height
        };
        assert!(words.iter().all(inside));
    }
}

#[test]
fn a_roll_is_a_label_a_page() {
    let pdf = packet_labels(&labels(2, 3), &roll(76.2, 50.8)).unwrap();
    let Some(pages) = poppler::words(&pdf) else { return };
    assert_eq!(pages.len(), 6);
    assert!((pages[0].width - 76.2 * POINTS).abs() < 0.1 && (pages[0].height - 50.8 * POINTS).abs() < 0.1);
}

#[test]
fn stock_that_is_too_small_is_refused() {
    match packet_labels(&labels(1, 1), &roll(30.0, 15.0)) {
        Err(TypesettingFault::NoRoom(variety)) => assert!(!variety.is_empty()),
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_same_packets_give_the_same_bytes() {
    let once = || packet_labels(&labels(2, 2), &sheet()).unwrap();
    assert_eq!(once(), once());
}

#[test]
fn a_lot_card_tells_its_lot_and_leaves_room_for_a_pencil() {
    let card = |number: usize| LotCard {
        number: format!("31-{number:03}"),
        variety: "Amber Lantern <b>".to_owned(),
        lot: Uuid::from_u128(number as u128),
        parts: vec![
            ("Held".to_owned(), vec!["42.5 g in the jar".to_owned()]),
            ("Nothing".to_owned(), Vec::new()),
            ("Germination".to_owned(), vec!["89% of 400 seeds, January 2032".to_owned(); 30]),
        ],
    };
    let cards = LotCards {
        house: "Long Furrow Seed".to_owned(),
        printed_on: date(2032, 2, 1),
        cards: (1..=8).map(card).collect(),
        house_fonts: Vec::new(),
    };
    for paper in [Paper::A4, Paper::UsLetter] {
        let pdf = lot_cards(&cards, paper).unwrap();
        let Some(pages) = poppler::words(&pdf) else { return };
        assert_eq!(pages.len(), 2, "six a sheet");
        let said = |number: &str| {
            pages.iter().flat_map(|page| &page.words).filter(|placed| placed.word == number).count()
        };
        assert!((1..=8).all(|number| said(&format!("31-{number:03}")) == 1));
        assert!(!pages.iter().flat_map(|page| &page.words).any(|placed| placed.word == "Nothing"));
    }
}
