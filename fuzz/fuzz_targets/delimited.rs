//! Any bytes as a file: refused, or walked to the end with rows numbered from 1.
#![no_main]

use intake::file::{Content, open};
use libfuzzer_sys::fuzz_target;
use std::ops::ControlFlow;

fuzz_target!(|bytes: &[u8]| {
    let Ok(tables) = open("any.csv", Content::Bytes(bytes.into())) else { return };
    for table in tables {
        let mut last = 0;
        let walked = table.walk(&mut |row| {
            assert!(last < row.number);
            last = row.number;
            let _ = row.cells().map(|cell| cell.text.len()).sum::<usize>();
            ControlFlow::Continue(())
        });
        assert!(walked.is_ok());
    }
});
