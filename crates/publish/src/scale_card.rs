//! The scale card: printed once on stiff paper and laid beside fruit that is photographed to be measured.
//!
//! What lies where is told in millimetres of the card by whoever looks for it in photographs; this file only sets it on a
//! page, at its true size. Fill [`ScaleCard`] and hand it to [`scale_card`].

pub use crate::catalogue::Paper;
use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
use jiff::civil::Date;
use serde::Serialize;

/// A card to print. Places are millimetres from its top left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct ScaleCard {
    /// The house's name.
    pub house: String,
    /// The day it is printed. The same input and the same day give the same bytes.
    pub printed_on: Date,
    /// Width and height.
    pub size: [f64; 2],
    /// What is printed, in the order in which it is laid on: later areas cover earlier ones.
    pub areas: Vec<Area>,
    /// The ends of the line that tells how true the printer drew.
    pub line: [[f64; 2]; 2],
    /// What is written over the card's head: what it is for, and whose plot it belongs to.
    pub head: Vec<String>,
    /// How it is used, a sentence a line, below the card.
    pub advice: Vec<String>,
    /// Font files of the house's own.
    pub house_fonts: Vec<Vec<u8>>,
}

/// A rectangle of one colour.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Area {
    /// Left, top, width, height.
    pub place: [f64; 4],
    /// `#rrggbb`.
    pub colour: String,
}

#[derive(Serialize)]
struct Copy<'a> {
    families: Vec<String>,
    paper: &'static str,
    house: String,
    year: i16,
    month: i8,
    day: i8,
    size: [f64; 2],
    areas: &'a [Area],
    line: [[f64; 2]; 2],
    head: Vec<String>,
    advice: Vec<String>,
}

/// Sets the card on one page at its true size and returns it as a tagged PDF.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a fault in this program and not in
/// what was asked.
pub fn scale_card(card: &ScaleCard, paper: Paper) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&card.house_fonts)?;
    let legible = |lines: &[String]| lines.iter().map(|line| fonts.legible(line)).collect();
    let copy = Copy {
        families: fonts.families().into_iter().map(str::to_owned).collect(),
        paper: paper.typst_name(),
        house: fonts.legible(&card.house),
        year: card.printed_on.year(),
        month: card.printed_on.month(),
        day: card.printed_on.day(),
        size: card.size,
        areas: &card.areas,
        line: card.line,
        head: legible(&card.head),
        advice: legible(&card.advice),
    };
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    let identity = format!("locule scale card of {} on {}", card.house, card.printed_on);
    typesetting::typeset(&Job { template: Template::ScaleCard, data, identity }, &fonts)
}
