//! Any two lines as headings and a row: a layout, or a reason why not; then taken.
#![no_main]

use intake::file::{Content, open};
use intake::layout::Answers;
use intake::recognise::recognise;
use intake::roster::Roster;
use intake::take::take;
use libfuzzer_sys::fuzz_target;
use std::ops::ControlFlow;

fuzz_target!(|text: &str| {
    let file = format!("variety,{text}");
    let Ok(tables) = open("any.csv", Content::Bytes(file.as_bytes().into())) else { return };
    for table in &tables {
        let Ok(layout) = recognise(table, &[], &Answers::default()) else { continue };
        let again = recognise(table, &[], &layout.settled());
        assert!(again.is_ok_and(|again| again.kind == layout.kind));
        let today = jiff::civil::date(2032, 1, 15);
        let _ = take(table, &layout, &Roster::new(), today, &mut |_| ControlFlow::Continue(()));
    }
});
