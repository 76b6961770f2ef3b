//! Any text as a weight, a length, a percentage, a count: refused, or a finite measure.
#![no_main]

use intake::number::{self, DecimalMark};
use intake::unit::{self, LengthUnit, MassUnit};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|cell: &str| {
    for mark in [None, Some(DecimalMark::Point), Some(DecimalMark::Comma)] {
        let mass = unit::mass(cell, Some(MassUnit::Ounce), mark);
        assert!(mass.is_err() || mass.is_ok_and(|mass| mass.get().is_finite()));
        let length = unit::length(cell, Some(LengthUnit::Inch), mark);
        assert!(length.is_err() || length.is_ok_and(|length| length.get().is_finite()));
        let _ = unit::percent(cell, mark);
        let _ = number::count(cell, mark);
    }
    let _ = number::evidence(cell);
});
