//! A drawing as a picture file: PNG, set by the same library that sets drawings in our PDFs.
//!
//! For a shop's page, a letter or a message, where an SVG is not taken. Start at [`png`]. The ground is
//! left clear, so that the picture stands on any paper; lettering is set in the shipped fonts, so that
//! the same drawing gives the same bytes on every machine.

use drawing::svg::Svg;
use resvg::tiny_skia::{ColorU8, Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb};
use std::sync::{Arc, LazyLock};

/// Most pixels of a picture across or down; beyond it a file is no picture for a page. A choice of ours.
const MOST_PIXELS: f64 = 16_000.0;

/// Dots for each CSS pixel of the drawing: 1 on an old screen, 3 on a sharp one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sharpness {
    /// One dot a pixel.
    Plain,
    /// Three dots a pixel.
    Sharp,
}

impl Sharpness {
    fn factor(self) -> f64 {
        match self {
            Self::Plain => 1.0,
            Self::Sharp => 3.0,
        }
    }
}

/// Why a picture could not be made. All are faults of this program: the drawing is ours.
#[derive(Debug, thiserror::Error)]
pub enum PictureFault {
    /// The drawing is no SVG that can be read back.
    #[error("the drawing cannot be read back: {0}")]
    Drawing(#[from] resvg::usvg::Error),
    /// The drawing has no size, or more than a picture can have.
    #[error("a picture of {width:.0} by {height:.0} dots cannot be made")]
    Size {
        /// Dots across.
        width: f64,
        /// Dots down.
        height: f64,
    },
    /// The picture could not be written down.
    #[error("the picture cannot be written: {0}")]
    Encoding(String),
}

/// The shipped fonts, read once.
static FONTS: LazyLock<Arc<fontdb::Database>> = LazyLock::new(|| {
    let mut fonts = fontdb::Database::new();
    typst_assets::fonts().for_each(|file| fonts.load_font_data(file.to_vec()));
    fonts.set_serif_family("Libertinus Serif");
    Arc::new(fonts)
});

/// Makes a PNG of a drawing, on a clear ground.
///
/// The picture is the drawing's width and height times the sharpness, rounded up to whole dots.
///
/// # Errors
/// [`PictureFault`], which is our fault for drawings that are not absurdly large.
pub fn png(svg: &Svg, sharpness: Sharpness) -> Result<Vec<u8>, PictureFault> {
    let tree = Tree::from_str(svg.markup(), &options())?;
    let factor = sharpness.factor();
    let (width, height) = (svg.width().get() * factor, svg.height().get() * factor);
    let mut dots = sheet(width, height)?;
    #[expect(clippy::cast_possible_truncation, reason = "1 or 3")]
    let scale = factor as f32;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut dots.as_mut());
    dots.encode_png().map_err(|fault| PictureFault::Encoding(fault.to_string()))
}

/// Red, green and blue of a photograph that a drawing is laid over, row by row.
#[derive(Clone, Copy, Debug)]
pub struct Ground<'a> {
    /// Columns.
    pub width: u32,
    /// Rows.
    pub height: u32,
    /// Three bytes a pixel.
    pub pixels: &'a [[u8; 3]],
}

/// Makes a PNG of a drawing laid over a photograph, as large as the photograph.
///
/// # Errors
/// [`PictureFault`], which is our fault for drawings that are as large as their photograph.
pub fn png_over(svg: &Svg, ground: Ground<'_>) -> Result<Vec<u8>, PictureFault> {
    let tree = Tree::from_str(svg.markup(), &options())?;
    let mut dots = sheet(f64::from(ground.width), f64::from(ground.height))?;
    for (dot, [red, green, blue]) in dots.pixels_mut().iter_mut().zip(ground.pixels) {
        *dot = ColorU8::from_rgba(*red, *green, *blue, u8::MAX).premultiply();
    }
    resvg::render(&tree, Transform::identity(), &mut dots.as_mut());
    dots.encode_png().map_err(|fault| PictureFault::Encoding(fault.to_string()))
}

fn options() -> Options<'static> {
    Options { fontdb: Arc::clone(&FONTS), font_family: "Libertinus Serif".to_owned(), ..Options::default() }
}

fn sheet(width: f64, height: f64) -> Result<Pixmap, PictureFault> {
    let fault = || PictureFault::Size { width, height };
    if MOST_PIXELS < width.max(height) {
        return Err(fault());
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held to 16,000 above")]
    let [across, down] = [width, height].map(|dots| dots.ceil().max(0.0) as u32);
    Pixmap::new(across, down).ok_or_else(fault)
}
