//! The fonts at hand: those that ship, then the house's own.

use crate::typesetting::TypesettingFault;
use std::sync::LazyLock;
use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

/// Fonts and the book in which the typesetter looks them up.
#[derive(Clone)]
pub(crate) struct Fonts {
    pub(super) fonts: Vec<Font>,
    pub(super) book: LazyHash<FontBook>,
}

/// Read once: opening them takes longer than setting a page.
static SHIPPED: LazyLock<Fonts> = LazyLock::new(|| {
    Fonts::of(typst_assets::fonts().flat_map(|file| Font::iter(Bytes::new(file))).collect())
});

impl Fonts {
    /// The shipped fonts, and after them the house's own.
    ///
    /// # Errors
    /// [`TypesettingFault::UnreadableFont`] at the first file that holds no font.
    pub(crate) fn with(house_fonts: &[Vec<u8>]) -> Result<Self, TypesettingFault> {
        if house_fonts.is_empty() {
            return Ok(SHIPPED.clone());
        }
        let mut fonts = SHIPPED.fonts.clone();
        for (index, file) in house_fonts.iter().enumerate() {
            let before = fonts.len();
            fonts.extend(Font::iter(Bytes::new(file.clone())));
            if fonts.len() == before {
                return Err(TypesettingFault::UnreadableFont { position: index + 1 });
            }
        }
        Ok(Self::of(fonts))
    }

    /// Whether some font has a picture for the character.
    pub(crate) fn cover(&self, character: char) -> bool {
        self.fonts.iter().any(|font| font.info().coverage.contains(u32::from(character)))
    }

    fn of(fonts: Vec<Font>) -> Self {
        let book = LazyHash::new(FontBook::from_fonts(&fonts));
        Self { fonts, book }
    }
}
