//! Typesetting: a template and its data in, a PDF out. The only module that names typst.
//!
//! The typesetter is given a closed world: the templates of this crate, the fonts it ships, and one
//! file of data. It reads no disk, no network and no clock, so the same job gives the same bytes.

mod fonts;
mod legible;
mod press;

pub(crate) use fonts::Fonts;
pub(crate) use press::{Job, Template, typeset};

/// Why a document could not be set.
#[derive(Debug, thiserror::Error)]
pub enum TypesettingFault {
    /// A house font that cannot be read as a font.
    #[error("house font {position} is not a font that can be read")]
    UnreadableFont {
        /// Which of the house's fonts, counted from 1.
        position: usize,
    },
    /// Something whose words have no room on what it is to be printed on.
    #[error("what must stand on {0} has no room")]
    NoRoom(String),
    /// The data could not be written down for the typesetter. Our fault.
    #[error("cannot hand the data to the typesetter: {0}")]
    Data(#[source] serde_json::Error),
    /// The template failed on its data. Our fault.
    #[error("the template failed: {0}")]
    Template(String),
    /// The PDF could not be written. Our fault.
    #[error("cannot write the PDF: {0}")]
    Pdf(String),
}
