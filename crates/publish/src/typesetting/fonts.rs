//! The fonts at hand: those that ship, then the house's own.

use crate::typesetting::TypesettingFault;
use std::collections::HashSet;
use std::sync::{Arc, LazyLock};
use typst::foundations::Bytes;
use typst::layout::Abs;
use typst::text::{Font, FontBook, FontVariant, FontVariations};
use typst::utils::LazyHash;

/// The families in which a page is set, in the order in which they are tried for each letter. The
/// mathematical one has signs that the others lack.
const SHIPPED_FAMILIES: [&str; 4] =
    ["Libertinus Serif", "New Computer Modern", "New Computer Modern Math", "DejaVu Sans Mono"];

/// The size at which fonts are asked what they draw; the answer is the same at any.
const TEXT_POINTS: f64 = 10.0;

/// Fonts, and the book in which the typesetter looks them up.
pub(crate) struct Fonts {
    pub(super) fonts: Vec<Font>,
    pub(super) book: LazyHash<FontBook>,
    families: Vec<Family>,
}

/// The fonts of one name: upright, italic, semibold.
struct Family {
    name: String,
    /// What each of its fonts can draw; a letter that the italic lacks would be missing in an alias.
    letters: HashSet<u32>,
}

/// Read once: opening them takes longer than setting a page.
static SHIPPED: LazyLock<Arc<Fonts>> = LazyLock::new(|| {
    let fonts = typst_assets::fonts().flat_map(|file| Font::iter(Bytes::new(file))).collect();
    Arc::new(Fonts::of(fonts, SHIPPED_FAMILIES.map(str::to_owned).to_vec()))
});

impl Fonts {
    /// The shipped fonts, and after them the house's own.
    ///
    /// # Errors
    /// [`TypesettingFault::UnreadableFont`] at the first file that holds no font.
    pub(crate) fn with(house_fonts: &[Vec<u8>]) -> Result<Arc<Self>, TypesettingFault> {
        if house_fonts.is_empty() {
            return Ok(Arc::clone(&SHIPPED));
        }
        let mut fonts = SHIPPED.fonts.clone();
        let mut families = SHIPPED_FAMILIES.map(str::to_owned).to_vec();
        for (index, file) in house_fonts.iter().enumerate() {
            let found: Vec<Font> = Font::iter(Bytes::new(file.clone())).collect();
            if found.is_empty() {
                return Err(TypesettingFault::UnreadableFont { position: index + 1 });
            }
            families.extend(found.iter().map(|font| font.info().family.to_string()));
            fonts.extend(found);
        }
        families.dedup();
        Ok(Arc::new(Self::of(fonts, families)))
    }

    /// The families to set in, in order.
    pub(crate) fn families(&self) -> Vec<&str> {
        self.families.iter().map(|family| family.name.as_str()).collect()
    }

    /// Whether some family has a picture for every one of these characters, so that a letter and its
    /// marks come from one font.
    pub(super) fn cover(&self, letter: &str) -> bool {
        let drawn = |family: &Family| letter.chars().all(|part| family.letters.contains(&u32::from(part)));
        self.families.iter().any(drawn)
    }

    fn of(fonts: Vec<Font>, names: Vec<String>) -> Self {
        let families =
            names.into_iter().map(|name| Family { letters: letters(&fonts, &name), name }).collect();
        let book = LazyHash::new(FontBook::from_fonts(&fonts));
        Self { fonts, book, families }
    }
}

/// What every font of a family can draw.
fn letters(fonts: &[Font], family: &str) -> HashSet<u32> {
    let of_family = fonts.iter().filter(|font| font.info().family == family);
    let each = of_family.map(drawn);
    each.reduce(|all, next| all.intersection(&next).copied().collect()).unwrap_or_default()
}

/// What a font really draws: its table of coverage also lists characters that lead to the empty box.
fn drawn(font: &Font) -> HashSet<u32> {
    let usual =
        font.clone().instantiate(FontVariant::default(), Abs::pt(TEXT_POINTS), &FontVariations::default());
    let is_drawn = |code: &u32| {
        let glyph = char::from_u32(*code).and_then(|character| usual.ttf().glyph_index(character));
        glyph.is_some_and(|glyph| glyph.0 != 0)
    };
    font.info().coverage.iter().filter(is_drawn).collect()
}
