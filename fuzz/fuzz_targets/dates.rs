//! Any text as a day: refused, or a day that is evidence for no other order than it was read in.
#![no_main]

use intake::day::{self, DateOrder, Evidence};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|cell: &str| {
    let first = day::day(cell, Some(DateOrder::DayFirst), None);
    let second = day::day(cell, Some(DateOrder::MonthFirst), None);
    if let (Ok(first), Ok(second)) = (&first, &second) {
        let (order, _) = day::evidence(cell);
        assert!(order == Evidence::Either || first == second);
    }
});
