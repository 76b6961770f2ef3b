//! Lot cards: a card for the jar of every lot, with its number, what is known of it, a code, and lines for a pencil.
//!
//! Fill [`LotCards`] and hand it to [`lot_cards`]. Words arrive worded and are never read as markup.

mod copy;

pub use crate::catalogue::Paper;
use crate::typesetting::{self, Fonts, Job, Template, TypesettingFault};
use jiff::civil::Date;
use uuid::Uuid;

/// Cards to print.
#[derive(Clone, Debug)]
pub struct LotCards {
    /// The house's name.
    pub house: String,
    /// The day they are printed. The same input and the same day give the same bytes.
    pub printed_on: Date,
    /// The cards.
    pub cards: Vec<LotCard>,
    /// Font files of the house's own.
    pub house_fonts: Vec<Vec<u8>>,
}

/// One card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LotCard {
    /// The lot's number.
    pub number: String,
    /// The variety.
    pub variety: String,
    /// The lot's identifier, for the code.
    pub lot: Uuid,
    /// What is known, each as what it is about and its lines; parts without lines are left out.
    pub parts: Vec<(String, Vec<String>)>,
}

/// Sets the cards, six a sheet, and returns them as a tagged PDF.
///
/// # Errors
/// [`TypesettingFault::UnreadableFont`] where a house font is no font; every other variant is a fault in this program and not in
/// what was asked.
pub fn lot_cards(cards: &LotCards, paper: Paper) -> Result<Vec<u8>, TypesettingFault> {
    let fonts = Fonts::with(&cards.house_fonts)?;
    let copy = copy::copy(cards, paper, &fonts);
    let data = serde_json::to_vec(&copy).map_err(TypesettingFault::Data)?;
    let identity = format!("locule lot cards of {} on {}", cards.house, cards.printed_on);
    typesetting::typeset(&Job { template: Template::LotCards, data, identity }, &fonts)
}
