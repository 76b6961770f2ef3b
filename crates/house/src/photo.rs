//! Fruit measured on a photograph that shows them beside the printed scale card.
//!
//! Start at [`look`], which measures and draws; [`filed::file_away`] takes what was accepted as fruit samples of a plot, and
//! [`card::print`] prints the card. Nothing is kept by looking.

pub mod card;
pub mod changes;
mod cut;
pub mod fault;
pub mod filed;
mod plots;
mod shown;

use crate::fault::HouseFault;
use crate::folder::House;
use crate::opened::{self, Content, Given};
use crate::progress::Progress;
use changes::Change;
pub use cut::{Counted, CutFace, ToldBy};
use drawing::svg::Svg;
use fault::PhotoFault;
use jiff::civil::Date;
use ledger::batch::Sha256;
use ledger::ledger::Ledger;
use photo::card::KNOWN;
use photo::decode::decode;
pub use photo::exposure::NoColour;
use photo::measure::{Form, Fruit, Measured, Reason, Wishes, at_working_size, measure};
pub use photo::refusal::Refusal;
pub use photo::solid::{Axis, Told};
pub use photo::spread::Give;
pub use plots::PlotSaid;
use rayon::iter::{IntoParallelRefIterator, ParallelIterator};
use record::colour::{Lab, Pattern};
use record::length::Millimetres;
use record::mass::Grams;
pub use shown::write;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::{fs, io};

/// How long the line on the card should be, mm.
const LINE: f64 = 70.0;

/// What somebody who looked at a photograph says of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    /// How long the line of the printed card is by a rule; 70 mm where nobody held one to it.
    pub line: Option<Millimetres>,
    /// Fruit that are not to count, by number.
    pub left_out: BTreeSet<u32>,
    /// How fruits' stems lie, by number.
    pub stems: BTreeMap<u32, Told>,
    /// Parts that are two fruit, or of which two are one, in the order in which it was said.
    pub changes: Vec<Change>,
    /// How many locules cut faces have, by number.
    pub locules: BTreeMap<u32, u32>,
}

/// A photograph that was measured.
#[derive(Debug)]
pub struct Seen {
    /// The file's name.
    pub name: String,
    /// By which the photograph is known again.
    pub sha256: Sha256,
    /// The day that it was taken, where the camera wrote it.
    pub taken_on: Option<Date>,
    /// The card in it.
    pub card: &'static str,
    /// The plot that the card was printed for, where its strip says one that the house has.
    pub plot: Option<PlotSaid>,
    /// Degrees between the way the camera looked and straight down.
    pub tilt: f64,
    /// The camera's height above the sheet.
    pub height: Millimetres,
    /// The fruit, by number.
    pub fruit: Vec<SeenFruit>,
    /// Parts that are no fruit that is measured: why, and their numbers.
    pub left_out: Vec<(&'static str, Vec<u32>)>,
    /// What was said of it.
    pub said: Said,
    /// Why nothing is said of colours, where nothing is.
    pub no_colour: Option<NoColour>,
    /// What was measured, drawn to lie over the photograph.
    pub drawing: Svg,
    /// The photograph as it was measured, as a JPEG.
    pub jpeg: Vec<u8>,
    measured: Measured,
}

/// A fruit of a photograph.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenFruit {
    /// Its number on the drawing.
    pub number: u32,
    /// Greatest width across the stem.
    pub width: Millimetres,
    /// What is seen of it beside, by how it lies.
    pub lies: Lies,
    /// The skin's colour.
    pub colour: Option<Lab>,
    /// Its pattern, where one is seen.
    pub pattern: Option<Pattern>,
    /// Whether it counts.
    pub standing: Standing,
}

/// Whether a fruit counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is taken as a fruit sample.
    Counts,
    /// Somebody left it out.
    LeftOut,
}

/// How a fruit lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lies {
    /// On its side.
    OnItsSide(Side),
    /// On its blossom end or its stem: of its length and weight nothing is seen.
    Standing {
        /// How many lobes it has; 0 is smooth.
        lobes: u32,
    },
    /// Cut across, its face up: of its length and weight nothing is seen, but its locules are.
    Cut(CutFace),
}

/// What is seen of a fruit on its side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// Along the stem.
    pub length: Millimetres,
    /// Width a quarter down from the stem's end, or from the narrower one where the stem's is not seen.
    pub neck_width: Millimetres,
    /// Weight, from the volume.
    pub weight: Grams,
    /// Whether the stem's axis is known.
    pub axis: Axis,
    /// By how much the truth may lie on either side of length, width and weight, nine times in ten.
    pub give: Give,
}

impl SeenFruit {
    /// What is seen from its side, where it lies on it.
    #[must_use]
    pub fn side(&self) -> Option<Side> {
        match self.lies {
            Lies::OnItsSide(side) => Some(side),
            Lies::Standing { .. } | Lies::Cut(_) => None,
        }
    }

    /// What is seen of its cut face, where it is cut.
    #[must_use]
    pub fn cut(&self) -> Option<CutFace> {
        match self.lies {
            Lies::Cut(face) => Some(face),
            Lies::OnItsSide(_) | Lies::Standing { .. } => None,
        }
    }

    /// Its lobes, where it is seen along its axis; 0 is smooth.
    #[must_use]
    pub fn lobes(&self) -> Option<u32> {
        match self.lies {
            Lies::Standing { lobes } | Lies::Cut(CutFace { lobes, .. }) => Some(lobes),
            Lies::OnItsSide(_) => None,
        }
    }

    /// Whether length and width can be told from each other, or are so alike that it does not matter.
    #[must_use]
    pub fn is_shape_known(&self) -> bool {
        self.side().is_none_or(|side| {
            let ratio = side.length.get() / self.width.get().max(f64::MIN_POSITIVE);
            side.axis == Axis::Known || (ALIKE.recip()..=ALIKE).contains(&ratio)
        })
    }
}

/// Length and width that differ by less than this factor are one and the same to a calliper (facts of the made pictures: the
/// axis of such fruit cannot be found, and their length and width are each known to about 1 mm).
const ALIKE: f64 = 1.04;

/// Measures the fruit on a photograph.
///
/// # Errors
/// [`PhotoFault`] where the file is no photograph, or none that can be measured, with the reason and what to do;
/// [`PhotoFault::NoSuchFruit`] where something is said of a number that is not there; what the ledger or the disk refuses.
pub fn look(house: &House, given: &Given, said: &Said) -> Result<Seen, HouseFault> {
    let (sha256, bytes) = read(given)?;
    let picture =
        decode(&bytes).map_err(|fault| PhotoFault::NoPicture { file: given.name.clone(), fault })?;
    let line = said.line.or(Millimetres::new(LINE)).unwrap_or(Millimetres::NONE);
    let wishes = Wishes { cards: &KNOWN, line, stems: &said.stems, changes: &said.changes };
    let measured = measure(&picture, &wishes)
        .map_err(|refusal| PhotoFault::Refused { file: given.name.clone(), refusal })?;
    let fruit: Vec<SeenFruit> = measured.fruit.iter().filter_map(|fruit| seen(fruit, said)).collect();
    refuse_strangers(said, &fruit)?;
    let mut ledger = Ledger::open(&house.ledger_location())?;
    let plot = match measured.code {
        Some(code) => plots::of_tag(&mut ledger, code.tag)?,
        None => None,
    };
    Ok(Seen {
        name: given.name.clone(),
        sha256,
        taken_on: picture.taken_on,
        card: measured.card.name,
        plot,
        tilt: measured.pose.camera.tilt(),
        height: Millimetres::new(measured.pose.camera.height()).unwrap_or(Millimetres::NONE),
        left_out: reasons(&measured),
        said: said.clone(),
        no_colour: measured.no_colour,
        drawing: shown::drawn(&measured, &fruit, None),
        jpeg: shown::jpeg(&measured.pixels)?,
        fruit,
        measured,
    })
}

/// The photograph as it is measured, as a JPEG: upright, and no larger than is measured on.
///
/// # Errors
/// [`PhotoFault`] where the file is no photograph; what the disk refuses.
pub fn picture(given: &Given) -> Result<Vec<u8>, HouseFault> {
    let (_, bytes) = read(given)?;
    let picture =
        decode(&bytes).map_err(|fault| PhotoFault::NoPicture { file: given.name.clone(), fault })?;
    Ok(shown::jpeg(&at_working_size(&picture).0)?)
}

/// The photographs among what was named: files as they are, and of folders every JPEG and PNG file in them, by name.
///
/// # Errors
/// [`PhotoFault::NoneInFolder`] for a folder without any; what the disk refuses.
pub fn found(named: &[PathBuf]) -> Result<Vec<PathBuf>, HouseFault> {
    let mut all = Vec::new();
    for path in named {
        if !path.is_dir() {
            all.push(path.clone());
            continue;
        }
        let inside = fs::read_dir(path).map_err(|fault| HouseFault::file(path, fault))?;
        let inside: Result<Vec<PathBuf>, io::Error> = inside.map(|entry| Ok(entry?.path())).collect();
        let mut inside = inside.map_err(|fault| HouseFault::file(path, fault))?;
        inside.retain(|file| is_picture(file) && file.is_file());
        if inside.is_empty() {
            return Err(PhotoFault::NoneInFolder { folder: path.display().to_string() }.into());
        }
        inside.sort();
        all.append(&mut inside);
    }
    Ok(all)
}

fn is_picture(file: &Path) -> bool {
    let ending = file.extension().map(|ending| ending.to_string_lossy().to_lowercase());
    ending.is_some_and(|ending| ["jpg", "jpeg", "png"].contains(&ending.as_str()))
}

/// Does something with each of several files, on all cores, and tells how far it is.
///
/// # Shape
/// `files`: n of them. Returns n answers in their order.
pub fn each<F: Sync, T: Send>(
    files: &[F],
    story: impl Fn(&F) -> T + Sync,
    progress: &dyn Progress,
) -> Vec<T> {
    progress.begin("photographs", Some(files.len() as u64));
    let one = |file: &F| {
        let told = story(file);
        progress.advance(1);
        told
    };
    files.par_iter().map(one).collect()
}

/// The bytes of a photograph, within bounds, and its fingerprint.
fn read(given: &Given) -> Result<(Sha256, Vec<u8>), HouseFault> {
    let bytes = match &given.content {
        Content::Bytes(bytes) => bytes.to_vec(),
        Content::Path(path) => {
            let size = fs::metadata(path).map_err(|fault| HouseFault::file(path, fault))?.len();
            if MOST_BYTES < size {
                return Err(PhotoFault::TooLarge { file: given.name.clone() }.into());
            }
            fs::read(path).map_err(|fault| HouseFault::file(path, fault))?
        }
    };
    let cause = |cause| HouseFault::file(given.name.as_ref(), cause);
    Ok((opened::fingerprint(&given.content).map_err(cause)?, bytes))
}

/// Most bytes of a photograph: twice a phone's largest. A choice of ours.
const MOST_BYTES: u64 = 64 << 20;

fn seen(fruit: &Fruit, said: &Said) -> Option<SeenFruit> {
    let left_out = said.left_out.contains(&fruit.number);
    let (width, lies) = match fruit.form {
        Form::Standing { solid, lobes } => (solid.width, Lies::Standing { lobes }),
        Form::Cut(face) => {
            let told = said.locules.get(&fruit.number).copied();
            (face.width, Lies::Cut(cut::of_face(&face, told)?))
        }
        Form::Lying(solid) => {
            let (length, neck_width) =
                (Millimetres::new(solid.length)?, Millimetres::new(solid.neck * solid.width)?);
            let weight = fruit.weight()?;
            let give = fruit.spread?.give(weight)?;
            let side = Side { length, neck_width, weight, axis: solid.axis, give };
            (solid.width, Lies::OnItsSide(side))
        }
    };
    Some(SeenFruit {
        number: fruit.number,
        width: Millimetres::new(width)?,
        lies,
        colour: fruit.colour.and_then(|lab| Lab::new(lab.l, lab.a, lab.b)),
        pattern: fruit.pattern.map(|own| own.pattern).filter(|own| *own != Pattern::Plain),
        standing: if left_out { Standing::LeftOut } else { Standing::Counts },
    })
}

fn refuse_strangers(said: &Said, fruit: &[SeenFruit]) -> Result<(), PhotoFault> {
    let known: BTreeSet<u32> = fruit.iter().map(|fruit| fruit.number).collect();
    let gone = changes::gone(&said.changes);
    let named = said.left_out.iter().chain(said.stems.keys()).chain(said.locules.keys());
    let stranger = named.copied().find(|number| !known.contains(number) && !gone.contains(number));
    if let Some(number) = stranger {
        return Err(PhotoFault::NoSuchFruit { number, most: known.last().copied().unwrap_or(0) });
    }
    let cut: BTreeSet<u32> =
        fruit.iter().filter(|fruit| fruit.cut().is_some()).map(|fruit| fruit.number).collect();
    let whole = said.locules.keys().copied().find(|number| !cut.contains(number) && !gone.contains(number));
    match whole {
        Some(number) => Err(PhotoFault::NotCut { number }),
        None => Ok(()),
    }
}

fn reasons(measured: &Measured) -> Vec<(&'static str, Vec<u32>)> {
    let mut numbers: BTreeMap<&'static str, Vec<u32>> = BTreeMap::new();
    for part in &measured.left_out {
        numbers.entry(reason(part.why)).or_default().push(part.number);
    }
    numbers.into_iter().collect()
}

fn reason(why: Reason) -> &'static str {
    match why {
        Reason::Cropped => "runs out of the picture",
        Reason::OffSheet => "goes over the edge of the sheet",
        Reason::NotClosed => "has no closed outline",
        Reason::Bent => "is a shadow, or several fruit that touch",
    }
}
