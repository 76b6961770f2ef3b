//! Packets beside the label law, as the seed-lot facts cite it, and guides that cannot be read.

#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot work out")]

use jiff::civil::{Date, date};
use proptest::prelude::*;
use record::mass::{Grams, Ounces};
use record::share::WholePercent;
use seedroom::dates::Month;
use seedroom::germination::TOMATO_STANDARD;
use seedroom::label::check::{LabelFault, below_standard_words, check};
use seedroom::label::guide::{Guide, SHIPPED, Status, read};
use seedroom::label::{Item, Packet, Printed, Says, Tested, Trait};

const SHIPPED_ON: Date = date(2026, 5, 1);

fn guide(place: usize) -> Guide {
    let (file, text) = SHIPPED.get(place).unwrap();
    read(file, text).unwrap()
}

fn percent(percent: u8) -> WholePercent {
    WholePercent::new(percent).unwrap()
}

fn pounds(pounds: f64) -> Grams {
    Ounces::new(16.0 * pounds).and_then(Ounces::to_grams).unwrap()
}

fn printed(says: Says) -> Printed {
    Printed { says, points: 8 }
}

fn packet(holds: Grams, germination: u8) -> Packet {
    let germination = percent(germination);
    let label = [Item::NameAndAddress, Item::Kind, Item::Variety].map(|item| printed(Says::Other(item)));
    Packet {
        holds,
        tested: Some(Tested {
            month: Month::new(2026, 3).unwrap(),
            germination,
            hard: percent(0),
            towards_standard: germination,
        }),
        traits: vec![],
        label: label.to_vec(),
    }
}

fn with(mut packet: Packet, says: &[Says]) -> Packet {
    packet.label.extend(says.iter().map(|says| printed(*says)));
    packet
}

fn faults(packet: &Packet, guide: &Guide) -> Vec<LabelFault> {
    check(packet, guide, SHIPPED_ON).into_iter().map(|finding| finding.fault).collect()
}

fn missing(items: &[Item]) -> LabelFault {
    LabelFault::Missing(vec![items.to_vec()])
}

/// Case 1: 7 CFR 201.29 and 201.31, a packet of 20 g at 74 and at 75 in 100.
#[test]
fn a_packet_below_standard_says_so() {
    let small = Grams::new(20.0).unwrap();
    assert_eq!(faults(&packet(small, 75), &guide(0)), []);
    let below = packet(small, 74);
    let wanted = [missing(&[Item::BelowStandard]), missing(&[Item::Germination, Item::HardSeed])];
    assert_eq!(faults(&below, &guide(0)), wanted);
    let words = below_standard_words(&below.tested.unwrap(), TOMATO_STANDARD);
    assert_eq!(words.unwrap(), "Below Standard. Germination 74 %, hard seed 0 %.");
    let says = [Says::Other(Item::BelowStandard), Says::Germination(percent(74)), Says::HardSeed(percent(0))];
    let mut told = with(below, &says);
    assert_eq!(faults(&told, &guide(0)), []);
    told.label.iter_mut().filter(|line| line.says == says[0]).for_each(|line| line.points = 7);
    let small = LabelFault::TooSmall { item: Item::BelowStandard, points: 7, least: 8 };
    assert_eq!(faults(&told, &guide(0)), [small]);
    // Hard seed counts towards the standard: 70 and 5 in 100 need no words.
    let tested =
        Tested { germination: percent(70), hard: percent(5), ..packet(pounds(0.1), 75).tested.unwrap() };
    assert_eq!(below_standard_words(&tested, TOMATO_STANDARD), None);
}

/// Case 6: 7 CFR 201.30b over one pound, and Kentucky at any weight.
#[test]
fn lot_numbers_are_asked_for() {
    let told = [
        Says::Germination(percent(80)),
        Says::HardSeed(percent(0)),
        Says::TestMonth(Month::new(2026, 3).unwrap()),
    ];
    let bare = |weight: f64| with(packet(pounds(weight), 80), &told);
    assert_eq!(faults(&bare(1.5), &guide(0)), [missing(&[Item::LotNumber])]);
    assert_eq!(faults(&bare(1.0), &guide(0)), []);
    assert_eq!(faults(&bare(1.0), &guide(1)), [missing(&[Item::LotNumber])]);
    assert_eq!(faults(&with(bare(1.0), &[Says::Other(Item::LotNumber)]), &guide(1)), []);
}

/// Case 2 and 3 on a label: 7 CFR 201.30a, tested in March 2026.
#[test]
fn tests_go_out_of_date() {
    let open = packet(pounds(0.1), 80);
    let told = |packet: &Packet, on| -> Vec<LabelFault> {
        check(packet, &guide(0), on).into_iter().map(|finding| finding.fault).collect()
    };
    assert_eq!(told(&open, date(2026, 8, 31)), []);
    let last = date(2026, 8, 31);
    assert_eq!(told(&open, date(2026, 9, 1)), [LabelFault::TestOutOfDate { last }]);
    assert_eq!(told(&open, date(2026, 2, 28)), [LabelFault::TestOutOfDate { last }]);
    let says = [Says::Other(Item::Sealed), Says::TestMonth(Month::new(2026, 3).unwrap())];
    let sealed = with(Packet { traits: vec![Trait::Sealed], ..open.clone() }, &says);
    assert_eq!(told(&sealed, date(2028, 3, 31)), []);
    assert_eq!(told(&sealed, date(2028, 4, 1)), [LabelFault::TestOutOfDate { last: date(2028, 3, 31) }]);
    assert_eq!(told(&Packet { tested: None, ..open }, date(2026, 5, 1)), [LabelFault::Untested]);
}

/// 7 CFR 201.31a and 201.30; Kentucky's choice between a year and a test.
#[test]
fn treatment_hard_seed_and_years_are_asked_for() {
    let plain = packet(pounds(0.1), 80);
    let treated = Packet { traits: vec![Trait::Treated], ..plain.clone() };
    assert_eq!(faults(&treated, &guide(0)), [missing(&[Item::Treatment])]);
    assert_eq!(
        faults(&with(plain.clone(), &[Says::Germination(percent(80))]), &guide(0)),
        [missing(&[Item::HardSeed])]
    );
    let more = with(plain.clone(), &[Says::Germination(percent(81)), Says::HardSeed(percent(0))]);
    let fault =
        LabelFault::MoreThanTested { item: Item::Germination, printed: percent(81), tested: percent(80) };
    assert_eq!(faults(&more, &guide(0)), [fault]);
    let lot = with(plain, &[Says::Other(Item::LotNumber)]);
    let either = LabelFault::Missing(vec![vec![Item::PackedFor], vec![Item::Germination, Item::TestMonth]]);
    assert_eq!(faults(&lot, &guide(1)), [either]);
    assert_eq!(faults(&with(lot.clone(), &[Says::PackedFor(2026)]), &guide(1)), []);
    let over = LabelFault::PackedForIsOver { year: 2025 };
    assert_eq!(faults(&with(lot, &[Says::PackedFor(2025)]), &guide(1)), [over]);
}

/// What was not read is marked so: all of the European guide, and some of the federal one.
#[test]
fn unverified_rules_are_marked() {
    let unverified =
        |guide: &Guide| guide.asked.iter().filter(|asked| asked.rule.status == Status::Unverified).count();
    assert_eq!(unverified(&guide(2)), guide(2).asked.len());
    assert_eq!(unverified(&guide(0)), 3);
    assert_eq!(unverified(&guide(1)), 0);
    let found = check(&packet(pounds(0.1), 80), &guide(2), SHIPPED_ON);
    assert_eq!(found.len(), 5);
    assert!(found.iter().all(|finding| finding.rule.status == Status::Unverified));
}

#[test]
fn what_is_no_guide_is_told_with_its_line() {
    let (file, text) = SHIPPED[0];
    let told = |from: &str, to: &str| read(file, &text.replacen(from, to, 1)).unwrap_err();
    let item = told("\"lot-number\"", "\"lot-no\"");
    assert_eq!(item.fault, "no label shows that");
    assert!(item.help.contains("lot-number"));
    let line = text.lines().position(|line| line.contains("\"lot-number\"")).unwrap() + 1;
    assert_eq!(item.to_string(), format!("guides/packets-us.toml, line {line}: no label shows that"));
    assert_eq!(told("[\"treated\"]", "[\"dusted\"]").fault, "seed has no such trait");
    assert_eq!(told("percent = 75", "percent = 175").fault, "that is no per cent");
    assert_eq!(told("open = 5", "open = 0").fault, "no test is told so long");
    assert_eq!(told("over-lb = 1.0", "over-lb = -1.0").fault, "no packet weighs that");
    assert_eq!(told("[[\"lot-number\"]]", "[[]]").fault, "nothing is asked for");
    assert_eq!(told("\"7 CFR 201.34\"", "\" \"").fault, "the demand has no source");
    assert!(told("points = 8", "size = 8").fault.contains("unknown field"));
}

proptest! {
    /// Whatever a guide's text holds, reading it answers.
    #[test]
    fn no_text_breaks_the_reader(text in any::<String>(), at in 0..2000_usize, cut in 0..200_usize) {
        let _ = read("packets", &text);
        let shipped = SHIPPED[0].1;
        let broken: String = shipped.chars().take(at).chain(text.chars()).chain(shipped.chars().skip(at + cut)).collect();
        let _ = read("packets", &broken);
    }

    /// Printing more never makes a demand unmet that was met.
    #[test]
    fn more_on_a_label_is_never_missed(place in 0..3_usize, items in prop::collection::vec(0..17_usize, 0..8), germination in 60..90_u8) {
        let items: Vec<Says> = items.into_iter().map(|at| Says::Other(seedroom::label::ITEMS[at].0)).collect();
        let missed = |packet: &Packet| -> usize {
            let of = |fault: &LabelFault| matches!(fault, LabelFault::Missing(_));
            faults(packet, &guide(place)).iter().filter(|fault| of(fault)).count()
        };
        let bare = packet(pounds(0.1), germination);
        // Telling germination asks for hard seed beside it.
        let more = with(with(bare.clone(), &items), &[Says::HardSeed(percent(0))]);
        prop_assert!(missed(&more) <= missed(&bare));
    }
}
