//! Seed plants among other varieties, by the shipped guide.

#![expect(clippy::unwrap_used, reason = "what a test works with may stop it")]

use record::length::Millimetres;
use seedroom::trueness::isolation::apart::{Reach, apart};
use seedroom::trueness::isolation::{KnownBy, SHIPPED, read};

#[track_caller]
fn agrees(fruit_class: &str, others: usize, bed_feet: f64, (feet, reach): (f64, Reach)) {
    let (file, text) = SHIPPED;
    let guide = read(file, text).unwrap();
    // A foot is 304.8 mm. Source: NIST SP 811 (2008), Appendix B.8.
    let bed = Millimetres::new(bed_feet * 304.8);
    let found = apart(&guide, ("Amber Post", Some(fruit_class)), others, bed).unwrap();
    assert!((found.flower.away.get() - feet * 304.8).abs() < 1e-6, "{:?}", found.flower.away);
    assert_eq!(found.reach, reach, "{fruit_class} in a bed of {bed_feet} ft");
}

/// Most tomatoes want 100 ft and currants 200 ft: guides/isolation.toml, with its sources.
#[test]
fn a_bed_holds_the_distance_or_does_not() {
    agrees("slicer", 3, 50.0, (100.0, Reach::BeyondTheBeds));
    agrees("slicer", 3, 100.0, (100.0, Reach::WithinABed));
    agrees("currant", 1, 100.0, (200.0, Reach::BeyondTheBeds));
    agrees("currant", 1, 200.0, (200.0, Reach::WithinABed));
    agrees("currant", 0, 20.0, (200.0, Reach::Alone));
}

#[test]
fn without_a_bed_nothing_is_far_enough() {
    let (file, text) = SHIPPED;
    let found = apart(&read(file, text).unwrap(), ("Amber Post", None), 1, None).unwrap();
    assert_eq!((found.known_by, found.reach), (KnownBy::Nothing, Reach::BeyondTheBeds));
}
