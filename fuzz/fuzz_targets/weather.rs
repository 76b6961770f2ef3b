//! Any text as a weather file: refused, or days that can be checked and asked for their frosts.
#![no_main]

use libfuzzer_sys::fuzz_target;
use ripening::frost::{self, Hemisphere};
use ripening::weather::{Days, ghcn, normals, quality, table};

fn used(days: Days) {
    let (days, _) = quality::checked(days);
    let _ = frost::chances(&frost::years(&days, 0.0, Hemisphere::North));
}

fuzz_target!(|text: &str| {
    if let Ok(read) = table::read(text, None) {
        used(read.days);
    }
    if let Ok((_, days)) = ghcn::read(text) {
        used(days);
    }
    if let Ok((_, days)) = ghcn::read_values(text) {
        used(days);
    }
    let _ = normals::read(text);
});
