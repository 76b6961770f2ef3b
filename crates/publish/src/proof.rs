//! The proof sheet: what to look at before the catalogue is printed.
//!
//! Fill a [`Proof`] and hand it to [`proof`]. First stands what there is of each kind and what to do
//! about it, then every variety with its marks. Words arrive worded; they are never read as markup.

mod copy;

pub use crate::catalogue::Paper;
use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
use jiff::civil::Date;

/// Everything that a proof sheet says.
#[derive(Clone, Debug)]
pub struct Proof {
    /// The house's name.
    pub house: String,
    /// The day it is printed. The same input and the same day give the same bytes.
    pub printed_on: Date,
    /// What the list amounts to: `12 marks on 7 of 68 varieties`.
    pub summary: String,
    /// Each kind of mark that there is, the gravest first.
    pub kinds: Vec<KindOfMark>,
    /// Varieties with marks, by name.
    pub varieties: Vec<Marked>,
    /// Font files of the house's own, for names in writing that the shipped fonts lack.
    pub house_fonts: Vec<Vec<u8>>,
}

/// One kind of mark.
#[derive(Clone, Debug)]
pub struct KindOfMark {
    /// Its name: `claim contradicted`.
    pub name: String,
    /// How many there are: `5 marks, 4 varieties`.
    pub counts: String,
    /// What it means for the catalogue.
    pub means: String,
    /// What to do about it.
    pub remedy: String,
    /// The varieties that carry it.
    pub varieties: Vec<String>,
}

/// A variety with its marks.
#[derive(Clone, Debug)]
pub struct Marked {
    /// Its name.
    pub name: String,
    /// Its marks, the gravest first.
    pub marks: Vec<Mark>,
}

/// One mark.
#[derive(Clone, Debug)]
pub struct Mark {
    /// Its kind.
    pub kind: String,
    /// What it is about.
    pub words: String,
    /// The records behind it, where there are any.
    pub records: Vec<String>,
    /// The cheapest thing to do about it.
    pub step: Option<String>,
}

/// Sets the proof sheet and returns it as a tagged PDF.
///
/// The same `proof` and `paper` give the same bytes on every machine.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a fault in
/// this program and not in what was asked.
pub fn proof(proof: &Proof, paper: Paper) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&proof.house_fonts)?;
    let copy = copy::copy(proof, paper, &fonts);
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    let identity = format!("locule proof sheet of {}", proof.house);
    typesetting::typeset(&Job { template: Template::Proof, data, identity }, &fonts)
}

/// Which of these texts hold signs that neither the shipped fonts nor the house's can draw.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font.
pub fn undrawable(texts: &[&str], house_fonts: &[Vec<u8>]) -> Result<Vec<bool>, TypesettingFault> {
    let fonts = Fonts::with(house_fonts)?;
    Ok(texts.iter().map(|text| fonts.lacks_any(text)).collect())
}
