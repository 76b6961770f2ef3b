//! Any text as a weather file: refused, or read into what can be used. Its body is that of `crates/ripening/tests/mutated.rs`.
#![no_main]

use libfuzzer_sys::fuzz_target;

#[path = "../../crates/ripening/tests/readers/mod.rs"]
mod readers;

fuzz_target!(|text: &str| readers::read_all(text));
