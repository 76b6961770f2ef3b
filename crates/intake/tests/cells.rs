//! Cells to values: units and numbers against published figures, then everything growers write.

#![allow(clippy::unwrap_used, reason = "what a test works with may stop it")]

use intake::number::{self, DecimalMark, Evidence, NumberFault};
use intake::unit::{self, LengthUnit, MassUnit, MeasureFault};

const POINT: Option<DecimalMark> = Some(DecimalMark::Point);
const COMMA: Option<DecimalMark> = Some(DecimalMark::Comma);

/// `within` is half a unit of the last printed digit.
#[track_caller]
fn mass_agrees(cell: &str, grams: f64, within: f64) {
    let mass = unit::mass(cell, None, None).unwrap().get();
    assert!((mass - grams).abs() <= within, "{cell}: {mass} g is not {grams} g");
}

#[track_caller]
fn length_agrees(cell: &str, millimetres: f64, within: f64) {
    let length = unit::length(cell, None, None).unwrap().get();
    assert!((length - millimetres).abs() <= within, "{cell}: {length} mm is not {millimetres} mm");
}

/// NIST Handbook 44, Appendix C, "Units of mass": 1 ounce avoirdupois = 28.349 523 125 g exactly, 1 pound =
/// 453.592 37 g exactly = 16 ounces; and 1 gram = 0.035 ounce avoirdupois (rounded there).
#[test]
fn masses_agree_with_handbook_44() {
    mass_agrees("1 oz", 28.349_523_125, 0.5e-9);
    mass_agrees("1 lb", 453.592_37, 0.5e-5);
    mass_agrees("16 oz", 453.592_37, 0.5e-5);
    mass_agrees("1 kg", 1000.0, 0.5e-9);
    // Half a unit of its last digit is 0.0005 oz, which is 0.0142 g.
    mass_agrees("0.035 oz", 1.0, 0.0142);
}

/// NIST SP 811 (2008), Appendix B.8: inch = 2.54 E-02 m, foot = 3.048 E-01 m, both exact.
#[test]
fn lengths_agree_with_sp_811() {
    length_agrees("1 in", 25.4, 0.5e-9);
    length_agrees("1 ft", 304.8, 0.5e-9);
    length_agrees("2.54 cm", 25.4, 0.5e-9);
    length_agrees("0.3048 m", 304.8, 0.5e-9);
}

#[test]
fn masses_are_read_as_growers_write_them() {
    let ounce = 28.349_523_125;
    for (cell, grams) in [
        ("58g", 58.0),
        ("58 G", 58.0),
        ("~58g", 58.0),
        ("ca. 58 gm", 58.0),
        ("about 58 grams", 58.0),
        ("58,5 g", 58.5),
        ("0,058 kg", 58.0),
        ("2.1 oz", 2.1 * ounce),
        ("2.1oz.", 2.1 * ounce),
        ("1 lb 3 oz", 19.0 * ounce),
        ("1lb3oz", 19.0 * ounce),
        ("1 lb., 3 1/2 oz", 19.5 * ounce),
        ("1½ oz", 1.5 * ounce),
        ("½ oz", 0.5 * ounce),
        ("3/4 lb", 12.0 * ounce),
        ("2 kg 300 g", 2300.0),
        ("1.234,5 g", 1234.5),
        ("1,234.5 g", 1234.5),
        ("1\u{a0}234,5 g", 1234.5),
        ("1\u{202f}234 g", 1234.0),
        ("1'234.5 g", 1234.5),
    ] {
        mass_agrees(cell, grams, 1e-9);
    }
}

#[test]
fn lengths_are_read_as_growers_write_them() {
    for (cell, millimetres) in [
        ("6,3 cm", 63.0),
        ("63mm", 63.0),
        ("2 1/4 in", 57.15),
        ("2-1/4 in", 57.15),
        ("2¼\"", 57.15),
        ("2 ¼ inches", 57.15),
        ("2 1/4”", 57.15),
        ("4' 6\"", 1371.6),
        ("4'6", 1371.6),
        ("4 ft 6 in", 1371.6),
        ("4′ 6½″", 1384.3),
        ("5'", 1524.0),
        ("1 m 20 cm", 1200.0),
        ("1.2 m", 1200.0),
    ] {
        length_agrees(cell, millimetres, 1e-9);
    }
}

#[track_caller]
fn refused(cell: &str, fault: impl FnOnce(String) -> MeasureFault) {
    let grams = Some(MassUnit::Gram);
    assert_eq!(unit::mass(cell, grams, None), Err(fault(cell.to_owned())));
}

#[test]
fn what_is_not_one_mass_is_refused() {
    let number = |fault: fn(String) -> NumberFault| move |cell| MeasureFault::Number(fault(cell));
    for range in ["50-60 g", "50–60", "50 to 60 g", "50 - 60", "50g-60g", "50..60"] {
        refused(range, number(NumberFault::Range));
    }
    for limit in ["<5", "> 30 g", "58+", "58?", "≤ 5 g"] {
        refused(limit, number(NumberFault::Limit));
    }
    for several in ["3 lb 4", "3 lb 4 kg", "58 60", "1 lb 20 oz", "1.5 lb 3 oz", "58, 60"] {
        refused(several, number(NumberFault::SeveralNumbers));
    }
    for none in ["heavy", "g", "#", "..", "1.2.3", "5 8 g g"] {
        assert!(unit::mass(none, Some(MassUnit::Gram), None).is_err(), "{none}");
    }
    refused("-58 g", number(NumberFault::Negative));
    refused("1,234", number(NumberFault::Undecided));
    refused("1.234 g", number(NumberFault::Undecided));
    refused("58 mm", MeasureFault::OtherMeasure);
    refused("2 stone", |cell| MeasureFault::UnknownUnit { cell, unit: "stone".to_owned() });
    refused("5 gr", |cell| MeasureFault::UnknownUnit { cell, unit: "gr".to_owned() });
    assert_eq!(unit::mass("58", None, None), Err(MeasureFault::NoUnit("58".to_owned())));
}

#[test]
fn the_unit_in_the_cell_goes_before_the_columns() {
    let ounces = Some(MassUnit::Ounce);
    assert_eq!(unit::mass("58 g", ounces, None).unwrap().get(), 58.0);
    assert_eq!(unit::mass("2", ounces, None).unwrap().get(), 56.699_046_25);
    assert_eq!(unit::length("2", Some(LengthUnit::Inch), None).unwrap().get(), 50.8);
}

#[test]
fn a_mark_is_evidence_only_where_it_can_be_one_thing() {
    let only = |mark| Evidence::Only(mark);
    for (numeral, evidence) in [
        ("58", Evidence::Nothing),
        ("6,3", only(DecimalMark::Comma)),
        ("6.3", only(DecimalMark::Point)),
        ("1,234", Evidence::Either),
        ("1.234", Evidence::Either),
        ("0,123", only(DecimalMark::Comma)),
        ("0.123", only(DecimalMark::Point)),
        ("1234,567", only(DecimalMark::Comma)),
        ("1,234.5", only(DecimalMark::Point)),
        ("1.234,5", only(DecimalMark::Comma)),
        ("1,234,567", only(DecimalMark::Point)),
        ("1.234.567", only(DecimalMark::Comma)),
        ("1.2.3", Evidence::Neither),
        ("1,23,456", Evidence::Neither),
    ] {
        assert_eq!(number::evidence(numeral), evidence, "{numeral}");
    }
}

#[test]
fn a_column_decides_what_a_cell_cannot() {
    assert_eq!(number::number("1,234", POINT), Ok(1234.0));
    assert_eq!(number::number("1,234", COMMA), Ok(1.234));
    assert_eq!(number::number("1.234", POINT), Ok(1.234));
    assert_eq!(number::number("1.234", COMMA), Ok(1234.0));
    assert_eq!(number::number("1,234", None), Err(NumberFault::Undecided("1,234".to_owned())));
}

#[test]
fn counts_are_whole_and_in_figures() {
    assert_eq!(number::count("3", None), Ok(3));
    assert_eq!(number::count("3.0", None), Ok(3));
    assert_eq!(number::count("1,204", POINT), Ok(1204));
    assert_eq!(number::count("three", None), Err(NumberFault::NotANumber("three".to_owned())));
    assert_eq!(number::count("2.5", None), Err(NumberFault::NotWhole("2.5".to_owned())));
    assert!(number::count("99999999999", None).is_err());
}

#[test]
fn percentages_may_carry_their_sign() {
    for cell in ["5.2", "5.2 %", "5,2°Bx", "5.2 ° brix", "5.2 BRIX"] {
        assert_eq!(unit::percent(cell, None).unwrap().get(), 5.2, "{cell}");
    }
    assert!(unit::percent("120 %", None).is_err());
}
