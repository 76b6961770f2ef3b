//! Any text as a guide: read, or refused with its place and a remedy, never a panic.

#![no_main]

use identity::guide::{colour, fruit, habit, standards};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let faults = [
        fruit::read("fruit.toml", text).err(),
        habit::read("habit.toml", text).err(),
        colour::read("colour.toml", text).err(),
        standards::read("descriptors.toml", text).err(),
    ];
    for fault in faults.into_iter().flatten() {
        assert!(0 < fault.line && !fault.help.is_empty());
    }
});
