//! Memory stays flat however long the file or the line. One test, so that nothing else runs beside it.

#![allow(clippy::unwrap_used, reason = "what a test works with may stop it")]

mod house;

use intake::file::{Content, open};
use intake::layout::Answers;
use intake::recognise::recognise;
use intake::take::{Tally, take};
use std::io::{BufWriter, Write};
use std::ops::ControlFlow;
use std::path::Path;

/// Most memory that the process ever held, in kilobytes; `None` where the system does not tell.
fn peak() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.trim().strip_suffix("kB")?.trim().parse().ok()
}

fn taken(path: &Path) -> Tally {
    let table = open("samples.csv", Content::Path(path.to_owned())).unwrap().remove(0);
    let layout = recognise(&table, &[], &Answers::default()).unwrap();
    let roster = house::roster();
    take(&table, &layout, &roster, house::TODAY, &mut |_| ControlFlow::Continue(())).unwrap()
}

#[test]
fn memory_is_flat() {
    let Some(before) = peak() else {
        println!("left out: memory, since this system has no /proc/self/status");
        return;
    };
    let file = tempfile::NamedTempFile::new().unwrap();
    let mut to = BufWriter::new(&file);
    to.write_all(b"variety,season,weight (g),notes\n").unwrap();
    for _ in 0..500_000 {
        to.write_all(b"Amber Bell,2031,170.5,\"weighed, and cut\"\nNann,2031,1.5,\n").unwrap();
    }
    // A line of 128 MB, and a quote that never closes before it.
    to.write_all(b"\"Nan,2031,1.5,\n").unwrap();
    for _ in 0..128 {
        to.write_all(&[b'x'; 1 << 20]).unwrap();
    }
    to.write_all(b"\nNan,2031,1.5,\n").unwrap();
    to.flush().unwrap();
    let written = peak().unwrap().max(before);
    let tally = taken(file.path());
    assert_eq!((tally.rows, tally.taken, tally.rejected), (1_000_003, 500_001, 500_002));
    let grown = peak().unwrap() - written;
    assert!(grown < 24 * 1024, "{grown} kB more");
}
