//! A seed book: many lots with their tests and movements in one typed file, taken all together or not at all.
//!
//! Start at [`read`], then [`take`]. `raw` is the file's shape.

mod raw;

use super::fault::SeedRoomFault;
use super::typed::{self, Counts};
use super::writing::{self, Founding, Parents};
use crate::fault::HouseFault;
use crate::folder::House;
use crate::typed_file::{FileFault, Text};
use jiff::civil::Date;
use ledger::batch::Act;
use ledger::fault::LedgerFault;
use ledger::ledger::Ledger;
use ledger::lots::LotToFound;
use ledger::names::label_key;
use raw::{File, LotFile, PacketsFile, TestFile};
use record::germination::{GerminationTest, Made};
use record::lot::{
    ITSELF, Inspection, LotKeeping, LotNote, LotOrigin, MoistureReading, Packing, SeedWeighing,
};
use record::season::Season;
use record::stock::{Movement, Place};
use seedroom::stock::balances;
use std::collections::BTreeMap;
use toml::Spanned;

pub use raw::schema;

type Read<T> = Result<T, Box<FileFault>>;

/// Reads the text of a seed book named `file`.
///
/// # Errors
/// [`HouseFault::TypedFile`] with the line and the field.
pub fn read(file: &str, text: &str) -> Result<Vec<Founding>, HouseFault> {
    let text = Text { file, text };
    let whole = || {
        let help = "see docs/seed-room.md for a whole file, or docs/json/seed-book-1.json for its shape";
        let book: File = text.parsed(help)?;
        book.lot.iter().map(|lot| founding(&text, lot)).collect::<Read<Vec<Founding>>>()
    };
    whole().map_err(|fault: Box<FileFault>| HouseFault::from(*fault))
}

/// Founds every lot of a book, all of them or none, and tells how many.
///
/// # Errors
/// As [`writing::found`]; nothing is founded where a name is not known, a number is taken or seed cannot be moved so.
pub fn take(house: &House, book: Vec<Founding>, act: &Act) -> Result<usize, HouseFault> {
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let mut places: BTreeMap<String, usize> = BTreeMap::new();
    let mut lots: Vec<LotToFound> = Vec::with_capacity(book.len());
    for (place, lot) in book.into_iter().enumerate() {
        let moved: Vec<Movement> = lot.notes.iter().filter_map(moved).collect();
        balances(&moved).map_err(|refused| writing::refused(&lot.number, &refused))?;
        if places.contains_key(&label_key(&lot.number)) {
            return Err(SeedRoomFault::NumberTaken(lot.number).into());
        }
        let sown_from = lot.sown_from.as_ref().and_then(|number| places.get(&label_key(number)).copied());
        let parents = match (&lot.sown_from, sown_from) {
            (None, _) => Parents::NotTold,
            (Some(_), Some(_)) => Parents::FoundedWithIt,
            (Some(number), None) => Parents::Of(writing::lot_named(&mut ledger, number)?.id),
        };
        places.insert(label_key(&lot.number), place);
        let (lot, notes) = writing::ready(&mut ledger, lot, parents)?;
        lots.push(LotToFound { lot, notes, sown_from });
    }
    let done = ledger.found_lots(&lots, act, &mut |moved| balances(moved).is_ok());
    done.map_err(|fault| match fault {
        LedgerFault::LotThere(number) => SeedRoomFault::NumberTaken(number).into(),
        fault => HouseFault::from(fault),
    })?;
    Ok(lots.len())
}

fn moved(note: &LotNote) -> Option<Movement> {
    match note {
        LotNote::Movement(moved) => Some(*moved),
        _ => None,
    }
}

fn founding(text: &Text<'_>, lot: &Spanned<LotFile>) -> Read<Founding> {
    let file = lot.get_ref();
    let on = day(text, &file.on)?;
    let season = Season::new(*file.season.get_ref()).ok_or_else(|| {
        let fault = format!("{} is no season's year", file.season.get_ref());
        Box::new(text.fault(&file.season.span(), fault, "write the year of harvest in four figures"))
    })?;
    let mass = said(text, &file.seed, typed::mass)?;
    let came_in = Movement { lot: ITSELF, on, from: Place::Origin, to: Place::Jar, mass };
    let mut notes = vec![LotNote::Movement(came_in)];
    if let Some(sample) = &file.file_sample {
        let mass = said(text, sample, typed::mass)?;
        let kept_back = Movement { lot: ITSELF, on, from: Place::Jar, to: Place::FileSample, mass };
        notes.push(LotNote::Movement(kept_back));
    }
    notes.extend(keeping(text, file, on)?);
    notes.extend(measured(text, file, on)?);
    for test in &file.test {
        notes.push(LotNote::Germination(tested(text, test)?));
    }
    for packets in &file.packets {
        notes.extend(packed(text, packets)?.into_iter().map(LotNote::Movement));
    }
    for inspected in &file.inspected {
        let off_types = inspected.off_types.iter().map(|one| said(text, one, typed::off_type));
        notes.push(LotNote::Inspection(Inspection {
            on: day(text, &inspected.on)?,
            plants: inspected.plants,
            off_types: off_types.collect::<Read<_>>()?,
        }));
    }
    Ok(Founding {
        number: file.number.trim().to_owned(),
        variety: file.variety.clone(),
        season,
        origin: origin(text, file)?,
        plot: file.grow_out.clone().zip(file.plot.clone()),
        sown_from: file.sown_from.clone(),
        notes,
    })
}

/// What was typed in the words that the seed room reads, told by line where it cannot be read.
fn said<T>(
    text: &Text<'_>,
    written: &Spanned<String>,
    read: impl Fn(&str) -> Result<T, SeedRoomFault>,
) -> Read<T> {
    read(written.get_ref()).map_err(|fault| {
        let help = fault.help().to_owned();
        Box::new(text.fault(&written.span(), fault.to_string(), &help))
    })
}

fn day(text: &Text<'_>, written: &Spanned<String>) -> Read<Date> {
    written.get_ref().trim().parse().map_err(|_| {
        let fault = format!("{:?} is no day", written.get_ref());
        Box::new(text.fault(&written.span(), fault, "write it as 2031-09-20"))
    })
}

fn origin(text: &Text<'_>, file: &LotFile) -> Read<LotOrigin> {
    Ok(LotOrigin {
        harvested_on: file.harvested.as_ref().map(|on| day(text, on)).transpose()?,
        parents: file.parents,
        isolation: file.isolation.as_ref().map(|far| said(text, far, typed::distance)).transpose()?,
        extraction: file.extraction.clone(),
        drying: file.drying.clone(),
        treatment: file.treatment.clone(),
        ..LotOrigin::default()
    })
}

fn keeping(text: &Text<'_>, file: &LotFile, since: Date) -> Read<Option<LotNote>> {
    if file.location.is_none() && file.warmth.is_none() && file.packing.is_none() {
        return Ok(None);
    }
    let packing = |written: &Spanned<String>| match written.get_ref().trim() {
        "open" => Ok(Packing::Open),
        "hermetic" => Ok(Packing::Hermetic),
        other => {
            let fault = format!("{other:?} is no way of packing");
            Err(Box::new(text.fault(&written.span(), fault, "write open or hermetic")))
        }
    };
    Ok(Some(LotNote::Keeping(LotKeeping {
        since,
        location: file.location.clone(),
        temperature: file.warmth.as_ref().map(|warm| said(text, warm, typed::warmth)).transpose()?,
        packing: file.packing.as_ref().map(packing).transpose()?.unwrap_or(Packing::Open),
        vapour_g: None,
    })))
}

fn measured(text: &Text<'_>, file: &LotFile, on: Date) -> Read<Vec<LotNote>> {
    let mut notes = Vec::new();
    if !file.weighed.is_empty() {
        let masses = file.weighed.iter().map(|mass| said(text, mass, typed::mass)).collect::<Read<_>>()?;
        let seeds_each = file.seeds_weighed.unwrap_or(SEEDS_WEIGHED);
        notes.push(LotNote::Weighing(SeedWeighing { on, seeds_each, masses }));
    }
    if let Some(moisture) = &file.moisture {
        notes
            .push(LotNote::Moisture(MoistureReading { on, moisture: said(text, moisture, typed::percent)? }));
    }
    Ok(notes)
}

/// Seeds of a replicate that is weighed. Source: International Rules for Seed Testing, chapter 10, eight replicates of 100; from
/// memory, unverified.
const SEEDS_WEIGHED: u32 = 100;

fn tested(text: &Text<'_>, test: &Spanned<TestFile>) -> Read<GerminationTest> {
    let file = test.get_ref();
    let counts = Counts {
        seeds_each: file.seeds,
        normal: file.normal.clone(),
        abnormal: file.abnormal.clone(),
        hard: file.hard.clone(),
        first: file.first.clone(),
    };
    let fault = |fault: SeedRoomFault| {
        let help = fault.help().to_owned();
        Box::new(text.fault(&test.span(), fault.to_string(), &help))
    };
    let made = GerminationTest {
        begun_on: day(text, &file.begun)?,
        first_counted_on: file.first_counted.as_ref().map(|on| day(text, on)).transpose()?,
        counted_on: day(text, &file.counted)?,
        made: if file.laboratory { Made::Laboratory } else { Made::InHouse },
        replicates: typed::replicates(&counts).map_err(fault)?,
    };
    typed::in_order(made).map_err(fault)
}

/// Packets filled out of the jar, and those of them that were sold.
fn packed(text: &Text<'_>, packets: &PacketsFile) -> Read<Vec<Movement>> {
    let on = day(text, &packets.on)?;
    let fill = said(text, &packets.of, |words| typed::fill(typed::mass(words)?))?;
    let seed = |count: u32| {
        typed::packets(count, fill).map_err(|fault| {
            let help = fault.help().to_owned();
            Box::new(text.fault(&packets.of.span(), fault.to_string(), &help))
        })
    };
    let place = Place::Packets(fill);
    let move_on = |on, from, to, count| {
        Ok::<_, Box<FileFault>>(Movement { lot: ITSELF, on, from, to, mass: seed(count)? })
    };
    let mut moved = vec![move_on(on, Place::Jar, place, packets.count)?];
    if 0 < packets.sold {
        let sold_by = packets.sold_by.as_ref().map_or(Ok(on), |day_| day(text, day_))?;
        moved.push(move_on(sold_by, place, Place::Sold, packets.sold)?);
    }
    Ok(moved)
}
