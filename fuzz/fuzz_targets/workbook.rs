//! Any bytes behind a zip's first ones: refused or opened, in bounded memory. Seed it with real workbooks.
#![no_main]

use intake::file::{Content, open};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let package = [b"PK\x03\x04".as_slice(), bytes].concat();
    let _ = open("any.xlsx", Content::Bytes(package.into()));
    let _ = open("any.ods", Content::Bytes(bytes.into()));
});
