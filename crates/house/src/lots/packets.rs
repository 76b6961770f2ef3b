//! The packing run: lots or varieties to packets, their stock moved, their labels printed, all or nothing.
//!
//! Start at [`print`]. A label that leaves out what a jurisdiction's guide asks for, or tells it too late, is not printed, and
//! the rule is named. With [`Book::OutOfTheJar`] the packets are booked too, while the ledger holds the pen; the labels lie
//! where they are wanted only when the books have taken them.

mod chosen;
mod label;
mod telling;

use super::fault::SeedRoomFault;
use super::law::Law;
use super::{LotSeen, writing};
use crate::claims::Judge;
use crate::fault::HouseFault;
use crate::folder::{self, House};
use crate::forecast::Place as Garden;
use crate::list;
use jiff::civil::Date;
use label::Common;
use ledger::batch::Act;
use ledger::ledger::Ledger;
use publish::packet_labels::{self, LabelStock, PacketLabel, PacketLabels};
use record::id::Id;
use record::lot::{ITSELF, Lot, LotNote};
use record::stock::{Movement, Place};
pub use seedroom::increase::filling::{Contents, Filling};
use seedroom::label::guide::{self, Guide, Status};
pub use seedroom::label::made::packed_for;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// Packets that are wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wanted {
    /// The number of a lot, or a variety, whose lots are taken by the age of their tests.
    pub of: String,
    /// How many.
    pub packets: u32,
}

/// Whether packets are filled and booked, or only labelled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Book {
    /// Labels alone; the packets are there already.
    LabelsOnly,
    /// The packets are filled out of the jar, and booked.
    OutOfTheJar,
}

/// What is asked of a packing run.
#[derive(Clone, Debug)]
pub struct Run {
    /// The packets.
    pub wanted: Vec<Wanted>,
    /// What each holds.
    pub contents: Contents,
    /// Whose law the labels are put to.
    pub law: Law,
    /// What they are printed on.
    pub stock: LabelStock,
    /// The year that they are packed for.
    pub packed_for: i16,
    /// The garden or station whose calendar tells when to sow; what holds anywhere, if none.
    pub sown_at: Option<Garden>,
    /// Whether the packets are booked.
    pub book: Book,
    /// The day of packing.
    pub today: Date,
}

/// Where labels are written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum To {
    /// To this file; what stood there is replaced.
    File(PathBuf),
    /// Among the house's printed sheets, under a name that no other run has.
    OwnName,
}

/// Packets of one lot, labelled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Packed {
    /// The lot's number.
    pub lot: String,
    /// The variety.
    pub variety: String,
    /// How many.
    pub packets: u32,
    /// How each is filled.
    pub filling: Filling,
    /// What its label says, line by line.
    pub label: Vec<String>,
}

/// A packing run that was printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printed {
    /// The file.
    pub file: PathBuf,
    /// Its size in bytes.
    pub bytes: u64,
    /// Labels in it.
    pub labels: u64,
    /// Sheets of labels that they take, or labels of a roll.
    pub sheets: u64,
    /// The packets, lot by lot.
    pub packed: Vec<Packed>,
    /// By whose rules the labels were made, with what each guide says beside its answer.
    pub rules: Vec<String>,
    /// Rules that they were put to and whose text was not seen.
    pub unverified: Vec<String>,
}

/// Most labels of one run: more are a slip of the pen. A choice of ours.
const MOST_LABELS: u32 = 50_000;

/// Reads what is wanted: `31-014=40`, `Drip Stone=25`, or a name alone for so many.
///
/// # Errors
/// [`SeedRoomFault::NotRead`] where the packets are no number.
pub fn wanted(typed: &str, else_packets: u32) -> Result<Wanted, SeedRoomFault> {
    let (of, packets) = match typed.rsplit_once('=') {
        Some((of, packets)) => (of, packets.trim().parse().ok()),
        None => (typed, Some(else_packets)),
    };
    let fault = || SeedRoomFault::NotRead {
        value: typed.to_owned(),
        reason: format!("the packets are no number from 1 to {MOST_LABELS}"),
        remedy: "write a lot or variety and its packets, such as 31-014=40 or \"Drip Stone=25\"".to_owned(),
    };
    let packets = packets.filter(|packets| (1..=MOST_LABELS).contains(packets)).ok_or_else(fault)?;
    Ok(Wanted { of: of.trim().to_owned(), packets })
}

/// Prints the labels of a packing run, and books its packets where that is asked: all of it or nothing.
///
/// # Errors
/// [`SeedRoomFault`] for what cannot be packed or labelled, with the rule; what the guides, the ledger or the disk refuse.
pub fn print(house: &House, run: &Run, to: &To, act: &Act) -> Result<Printed, HouseFault> {
    let guides = guides(house, run.law)?;
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let chosen = ledger.at_one_moment(|ledger| chosen::chosen(house, ledger, run, &guides))?;
    let all = list::everyone(&mut ledger)?;
    let common = Common {
        judge: Judge::of(&crate::guides::read(&crate::guides::accepted(&mut ledger)?)?),
        units: house.settings.units,
        sowing: label::sowing(house, run)?,
        pages: label::pages(house, &all),
    };
    let mut labels = Vec::with_capacity(chosen.len());
    let mut packed = Vec::with_capacity(chosen.len());
    for (of, packets, filling) in &chosen {
        let known = label::known(house, of, *filling, run);
        let statements = label::lawful(&known, &guides, of, run.today)?;
        let variety = all.iter().find(|listed| listed.variety.id == of.lot.variety);
        labels.push((label::label(of, variety, &statements, &common), *packets));
        packed.push(Packed {
            lot: of.lot.number.clone(),
            variety: of.variety.clone(),
            packets: *packets,
            filling: *filling,
            label: statements.into_iter().map(|statement| statement.words).collect(),
        });
    }
    let pdf = set(house, run, labels)?;
    let file = written(house, run, to, &pdf, || book(&mut ledger, run, &chosen, act))?;
    Ok(printed(&file, &pdf, run, packed, &guides))
}

/// Writes the labels and books their packets, both or neither, and tells the file.
fn written(
    house: &House,
    run: &Run,
    to: &To,
    pdf: &[u8],
    book: impl FnOnce() -> Result<(), HouseFault>,
) -> Result<PathBuf, HouseFault> {
    match to {
        To::File(file) => folder::write_with(file, pdf, book).map(|()| file.clone()),
        To::OwnName => under_a_free_name(house, run.today, pdf, book),
    }
}

/// Writes the labels beside their place, books, and gives them a name that was free: of two runs at once neither writes over
/// the other's labels, and a run that is killed leaves no empty ones.
fn under_a_free_name(
    house: &House,
    today: Date,
    pdf: &[u8],
    book: impl FnOnce() -> Result<(), HouseFault>,
) -> Result<PathBuf, HouseFault> {
    let part = house.printed().join(format!("labels-{today}-{}.part", Uuid::now_v7()));
    let named = fs::write(&part, pdf)
        .map_err(|fault| HouseFault::file(&part, fault))
        .and_then(|()| book())
        .and_then(|()| named(house, today, &part));
    // What is left of it is the other name of the same file, or of no use; the first fault is the one to tell.
    let _ = fs::remove_file(&part);
    named
}

fn named(house: &House, today: Date, part: &Path) -> Result<PathBuf, HouseFault> {
    let mut number = 1_u32;
    loop {
        let file = house.printed().join(format!("labels-{today}-{number}.pdf"));
        match give_name(part, &file) {
            Ok(()) => return Ok(file),
            Err(fault) if fault.kind() == ErrorKind::AlreadyExists => number = number.saturating_add(1),
            Err(fault) => return Err(HouseFault::file(&file, fault)),
        }
    }
}

/// Gives a file a second name that was free; on a disk that knows no second names, the name is taken first and filled then.
fn give_name(part: &Path, file: &Path) -> io::Result<()> {
    match fs::hard_link(part, file) {
        Err(fault) if fault.kind() != ErrorKind::AlreadyExists => {
            fs::File::create_new(file)?;
            fs::rename(part, file)
        }
        done => done,
    }
}

/// Lots with the packets of each and how they are filled.
type Chosen = Vec<(LotSeen, u32, Filling)>;

fn set(house: &House, run: &Run, labels: Vec<(PacketLabel, u32)>) -> Result<Vec<u8>, HouseFault> {
    let labels = PacketLabels {
        house: house.settings.name.clone(),
        printed_on: run.today,
        labels,
        house_fonts: Vec::new(),
    };
    Ok(packet_labels::packet_labels(&labels, &run.stock)?)
}

/// Books the packets out of their jars, all of them or none.
fn book(ledger: &mut Ledger, run: &Run, chosen: &Chosen, act: &Act) -> Result<(), HouseFault> {
    if run.book == Book::LabelsOnly {
        return Ok(());
    }
    let mut notes: Vec<(Id<Lot>, LotNote)> = Vec::with_capacity(chosen.len());
    for (of, packets, filling) in chosen {
        let mass = super::typed::packets(*packets, filling.fill)?;
        let to = Place::Packets(filling.fill);
        let moved = Movement { lot: ITSELF, on: run.today, from: Place::Jar, to, mass };
        notes.push((of.lot.id, LotNote::Movement(moved)));
    }
    let number = |lot: Id<Lot>| {
        let own = chosen.iter().find(|(of, ..)| of.lot.id == lot);
        own.map(|(of, ..)| of.lot.number.clone()).unwrap_or_default()
    };
    writing::note_all(ledger, &notes, number, act)
}

fn printed(file: &Path, pdf: &[u8], run: &Run, packed: Vec<Packed>, guides: &[Guide]) -> Printed {
    let labels = packed.iter().map(|packed| u64::from(packed.packets)).sum::<u64>();
    let per_sheet = u64::try_from(run.stock.labels()).unwrap_or(1).max(1);
    let unverified = guides.iter().flat_map(|guide| &guide.asked).map(|asked| &asked.rule);
    let unverified = unverified.filter(|rule| rule.status == Status::Unverified);
    let rule = |guide: &Guide| format!("{} (as of {}). {}", guide.jurisdiction, guide.as_of, guide.notice);
    let mut unverified: Vec<String> = unverified.map(|rule| rule.source.clone()).collect();
    unverified.dedup();
    Printed {
        file: file.to_owned(),
        bytes: u64::try_from(pdf.len()).unwrap_or(u64::MAX),
        labels,
        sheets: labels.div_ceil(per_sheet),
        packed,
        rules: guides.iter().map(rule).collect(),
        unverified,
    }
}

/// The guides of a law: a state's stand beside the federal one.
fn guides(house: &House, law: Law) -> Result<Vec<Guide>, HouseFault> {
    let files = match law {
        Law::Kentucky => vec![Law::UnitedStates.file(), law.file()],
        law => vec![law.file()],
    };
    files.into_iter().map(|file| guide(house, file)).collect()
}

/// A packet guide: the house's own where it has that file, else the shipped one.
///
/// # Errors
/// A guide's fault; what the disk refuses.
pub(super) fn guide(house: &House, file: &str) -> Result<Guide, HouseFault> {
    let own = house.folder.join(file);
    let text = match fs::read_to_string(&own) {
        Ok(text) => text,
        Err(fault) if fault.kind() == ErrorKind::NotFound => {
            let shipped = guide::SHIPPED.iter().find(|(shipped, _)| *shipped == file);
            shipped.map(|(_, text)| (*text).to_owned()).unwrap_or_default()
        }
        Err(fault) => return Err(HouseFault::file(&own, fault)),
    };
    Ok(guide::read(file, &text).map_err(SeedRoomFault::from)?)
}
