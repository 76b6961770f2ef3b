//! Packet labels: the label of every packet of a packing run, on sheets of label stock or on a roll.
//!
//! Fill [`PacketLabels`] and hand it to [`packet_labels`]. Words arrive worded and are never read as markup; what must stand
//! on a label comes with the least size of its type, and is never left off: stock that is too small for it is refused. What
//! is only good to know is set as long as there is room: first the sowing notes are left off, then the facts, then the
//! portrait.

mod copy;

use crate::catalogue::Portrait;
pub use crate::stakes::LabelSheet;
use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
use jiff::civil::Date;
use record::length::Millimetres;
use uuid::Uuid;

/// What labels are printed on.
#[derive(Clone, Debug, PartialEq)]
pub enum LabelStock {
    /// Sheets of labels.
    Sheet(LabelSheet),
    /// A roll of labels, one a page.
    Roll(LabelRoll),
}

/// A roll of labels, all of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct LabelRoll {
    /// Its name, by size: `3 x 2 in roll`.
    pub name: String,
    /// Width of a label, across the roll.
    pub width: Millimetres,
    /// Height of a label.
    pub height: Millimetres,
}

impl LabelStock {
    /// Its name, by size.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Sheet(sheet) => &sheet.name,
            Self::Roll(roll) => &roll.name,
        }
    }

    /// Labels of one page.
    #[must_use]
    pub fn labels(&self) -> usize {
        match self {
            Self::Sheet(sheet) => sheet.labels().max(1),
            Self::Roll(_) => 1,
        }
    }
}

/// Everything that the labels of a packing run say.
#[derive(Clone, Debug)]
pub struct PacketLabels {
    /// The house's name.
    pub house: String,
    /// The day they are printed. The same input and the same day give the same bytes.
    pub printed_on: Date,
    /// The labels, each as often as there are packets of it.
    pub labels: Vec<(PacketLabel, u32)>,
    /// Font files of the house's own.
    pub house_fonts: Vec<Vec<u8>>,
}

/// The label of a packet.
#[derive(Clone, Debug)]
pub struct PacketLabel {
    /// The variety, as the label's heading.
    pub variety: String,
    /// The kind, under it: `Tomato seed`.
    pub kind: String,
    /// What its code says.
    pub code: Code,
    /// Its number, for who cannot see the code.
    pub lot_number: String,
    /// The variety's portrait; `None` where too little is measured to draw one.
    pub portrait: Option<Portrait>,
    /// What is told of the variety.
    pub facts: Vec<Fact>,
    /// What must stand on it.
    pub statements: Vec<Statement>,
    /// Sowing notes.
    pub sowing: Vec<String>,
}

/// What the code of a label says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Code {
    /// The lot's identifier.
    Lot(Uuid),
    /// The address of the variety's page on the web.
    Page(String),
}

/// Something told of a variety.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fact {
    /// In words.
    pub words: String,
    /// What stands behind it.
    pub backing: Backing,
}

/// What stands behind a fact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Backing {
    /// Evidence; set upright.
    Evidence,
    /// Nothing that was seen here, as its words say; set in italics.
    Nothing,
}

/// Something that must stand on a label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Statement {
    /// In words.
    pub words: String,
    /// The least size of its type in points.
    pub points: u8,
    /// How it is set.
    pub weight: Weight,
}

/// How a statement is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// As the rest.
    Plain,
    /// Conspicuously.
    Bold,
}

/// Sets the labels and returns them as a tagged PDF.
///
/// The same `labels` and `stock` give the same bytes on every machine.
///
/// # Errors
/// [`TypesettingFault::NoRoom`] with the first variety whose label is too small for what must stand on it;
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a fault in this program and not in
/// what was asked.
pub fn packet_labels(labels: &PacketLabels, stock: &LabelStock) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&labels.house_fonts)?;
    let copy = copy::copy(labels, stock, &fonts);
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    let identity = format!("locule packet labels of {} on {}", labels.house, labels.printed_on);
    typesetting::typeset(&Job { template: Template::PacketLabels, data, identity }, &fonts)
}
