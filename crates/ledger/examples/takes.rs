//! Takes one file of invented fruit into a ledger and tells how far it has come, so that a test can
//! kill it at a chosen moment.
//!
//! Usage: takes FILE-OR-URL NAME ROWS

#![expect(clippy::print_stdout, reason = "the test reads how far it has come")]

use jiff::Timestamp;
use ledger::batch::{BatchKind, Sha256, Source};
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::location::Location;
use record::fruit::FruitSample;
use record::mass::Grams;
use record::note::Note;
use record::season::Season;
use record::subject::Subject;
use std::env;
use std::error::Error;
use std::num::NonZeroU32;
use std::path::PathBuf;

/// Rows between two lines that tell how far it has come.
const TOLD_EVERY: u32 = 500;

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = env::args().skip(1);
    let mut next = || arguments.next().ok_or("usage: takes FILE-OR-URL NAME ROWS");
    let (place, name, rows) = (next()?, next()?, next()?.parse()?);
    let location = match place.starts_with("postgres://") {
        true => Location::Postgres(place),
        false => Location::File(PathBuf::from(place)),
    };
    take(&mut Ledger::open(&location)?, &name, rows)?;
    Ok(())
}

fn take(ledger: &mut Ledger, name: &str, rows: u32) -> Result<(), LedgerFault> {
    let varieties = ledger.varieties()?;
    let source = Source {
        who: "Ansel".to_owned(),
        at: Timestamp::UNIX_EPOCH,
        kind: BatchKind::FruitSamples,
        file_name: Some(name.to_owned()),
        sheet: None,
        sha256: Some(content(name)),
        headings: Vec::new(),
        reading: None,
        why: None,
    };
    let begun = ledger.begin_batch(&source);
    if let Err(LedgerFault::TakenAlready(_)) = begun {
        return Ok(());
    }
    let mut writer = begun?;
    for (row, variety) in (0..rows).zip(varieties.iter().cycle()) {
        if row % TOLD_EVERY == 0 {
            println!("row {row}");
        }
        if let Some(season) = Season::new(2031) {
            let subject = Subject { variety: variety.id, season, plot: None, plant: None };
            writer.add_note(u64::from(row) + 2, &Note::Fruit(fruit(subject, row)), &[])?;
        }
    }
    println!("committing");
    writer.commit()?;
    println!("committed");
    Ok(())
}

/// Files of different names hold different things: their names stand for them.
fn content(name: &str) -> Sha256 {
    let mut sha256 = [0; 32];
    sha256.iter_mut().zip(name.bytes()).for_each(|(to, from)| *to = from);
    Sha256(sha256)
}

fn fruit(subject: Subject, row: u32) -> FruitSample {
    FruitSample {
        subject,
        sampled_on: None,
        fruit_count: NonZeroU32::MIN,
        weight: Grams::new(f64::from(row % 90) + 10.0),
        length: None,
        width: None,
        neck_width: None,
        locules: None,
        soluble_solids: None,
        dry_matter: None,
        lobes: None,
        cracking: None,
        catfacing: None,
        exterior: None,
        flesh: None,
        skin: None,
    }
}
