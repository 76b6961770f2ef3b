//! Takes invented fruit into a new ledger, row by row as a file is read, and tells its speed and memory.
//!
//! Usage: adds LEDGER ROWS [CSV]
//!
//! With `CSV` it first writes the same rows there, so that another program can be given them.

#![expect(clippy::print_stdout, reason = "it is run for what it prints")]
#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a measurement may break off")]
#![expect(unreachable_pub, reason = "the module is shared with a bench")]

#[path = "../benches/ledger/invented.rs"]
mod invented;

use invented::{Planted, fruit, plant, source};
use ledger::evidence::Whose;
use ledger::ledger::Ledger;
use ledger::location::Location;
use record::note::Note;
use std::error::Error;
use std::fs::File;
use std::io::{BufWriter, Write};
use std::ops::ControlFlow;
use std::path::PathBuf;
use std::time::Instant;
use std::{env, fs};

/// As in the bench.
const VARIETIES: u32 = 10_000;

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = env::args().skip(1).collect();
    let (place, rows) = (&arguments[0], arguments[1].parse()?);
    let location = match place.starts_with("postgres://") {
        true => Location::Postgres(place.clone()),
        false => Location::File(PathBuf::from(place)),
    };
    let mut ledger = Ledger::create(&location)?;
    let planted = plant(&mut ledger, VARIETIES)?;
    if let Some(csv) = arguments.get(2) {
        write(csv, &planted, rows)?;
    }
    take(&mut ledger, &planted, rows)?;
    read(&mut ledger)
}

fn take(ledger: &mut Ledger, planted: &[Planted], rows: u32) -> Result<(), Box<dyn Error>> {
    let (began, worked) = (Instant::now(), processor_seconds());
    let mut writer = ledger.begin_batch(&source("f.csv"))?;
    for row in 0..rows {
        writer.add_note(u64::from(row) + 2, &Note::Fruit(fruit(planted, row)), &[])?;
    }
    writer.commit()?;
    let seconds = began.elapsed().as_secs_f64();
    let worked = processor_seconds() - worked;
    let (speed, alone) = (f64::from(rows) / seconds, f64::from(rows) / worked);
    println!("take_seconds {seconds:.3} rows_a_second {speed:.0}");
    println!(
        "take_processor_seconds {worked:.2} rows_a_processor_second {alone:.0} most_memory_kb {}",
        most_memory()
    );
    Ok(())
}

fn read(ledger: &mut Ledger) -> Result<(), Box<dyn Error>> {
    let (began, worked) = (Instant::now(), processor_seconds());
    let mut count = 0;
    ledger.fruit_by_variety(Whose::Everyones, &mut |gathered| {
        count += gathered.records.len();
        ControlFlow::Continue(())
    })?;
    let (seconds, worked) = (began.elapsed().as_secs_f64(), processor_seconds() - worked);
    println!(
        "read_seconds {seconds:.3} read_processor_seconds {worked:.2} records {count} most_memory_kb {}",
        most_memory()
    );
    Ok(())
}

/// Ticks in a second of processor time. Source: proc_pid_stat(5) and getconf CLK_TCK, 100 on Linux.
const TICKS: f64 = 100.0;

/// The processor time this process has used, its own and the system's for it, as Linux tells it; 0 elsewhere.
/// On a machine that is busy with other things it says more than the wall clock.
fn processor_seconds() -> f64 {
    let stat = fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after_name = stat.rsplit(')').next().unwrap_or_default();
    let ticks: Vec<f64> =
        after_name.split_whitespace().skip(11).take(2).filter_map(|tick| tick.parse().ok()).collect();
    ticks.iter().sum::<f64>() / TICKS
}

/// The most memory this process has held, as Linux tells it; 0 elsewhere.
fn most_memory() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.and_then(|line| line.split_whitespace().next()?.parse().ok()).unwrap_or(0)
}

/// The same rows as a table that a person could have typed.
fn write(csv: &str, planted: &[Planted], rows: u32) -> Result<(), Box<dyn Error>> {
    let mut out = BufWriter::new(File::create(csv)?);
    writeln!(out, "variety,season,plot,plant,date,weight_g,length_mm,width_mm,locules,brix,colour")?;
    let number = |id| planted.iter().position(|(variety, _)| *variety == id).unwrap_or(0) + 1;
    let (mut last, mut place) = (None, 0);
    for row in 0..rows {
        let fruit = fruit(planted, row);
        if last.replace(fruit.subject.variety) != Some(fruit.subject.variety) {
            place = number(fruit.subject.variety);
        }
        writeln!(
            out,
            "Invented {place},2031,{place},{},{},{},{},{},{},{},red",
            fruit.subject.plant.unwrap().0,
            fruit.sampled_on.unwrap(),
            fruit.weight.unwrap().get(),
            fruit.length.unwrap().get(),
            fruit.width.unwrap().get(),
            fruit.locules.unwrap(),
            fruit.soluble_solids.unwrap().get(),
        )?;
    }
    out.flush()?;
    Ok(())
}
