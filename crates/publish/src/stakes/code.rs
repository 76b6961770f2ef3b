//! The code on a stake, jar or packet: a QR symbol as one path.

use fast_qr::{ECL, QRBuilder};
use std::fmt::Write;
use uuid::Uuid;

/// Clear modules round a symbol. Source: ISO/IEC 18004, quiet zone of four modules; from memory, unverified.
const QUIET: usize = 4;

/// The QR symbol of a plot's identifier, as an SVG document of one path on clear ground; `None` never, as an
/// identifier has always the same short length.
///
/// It says `URN:UUID:` and the identifier in capitals, which is the same URN in the alphabet that makes the smallest
/// symbol.
///
/// # Source
/// RFC 9562 (`urn:uuid`, case-insensitive on input) and RFC 8141 (the scheme and namespace are case-insensitive).
#[must_use]
pub fn code(plot: Uuid) -> Option<String> {
    code_of(&plot.urn().to_string().to_uppercase())
}

/// The QR symbol of any text, likewise; `None` of text that no symbol holds.
#[must_use]
pub fn code_of(text: &str) -> Option<String> {
    let symbol = QRBuilder::new(text).ecl(ECL::M).build().ok()?;
    let size = symbol.size;
    let mut path = String::new();
    for row in 0..size {
        let dark = |column: usize| {
            let modules = symbol.data.get(row * size + column);
            column < size && modules.is_some_and(|module| module.value())
        };
        let mut column = 0;
        while column < size {
            let length = (column..size).take_while(|at| dark(*at)).count();
            if 0 < length {
                // Writing to a string cannot fail.
                let _ = write!(path, "M{} {}h{length}v1h-{length}z", column + QUIET, row + QUIET);
            }
            column += length.max(1);
        }
    }
    let side = size + 2 * QUIET;
    Some(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\"><path d=\"{path}\"/></svg>"
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Dots that one module takes in the picture that is read back.
    const DOTS: usize = 6;

    /// Another library reads what ours wrote, from the picture of the very path.
    #[test]
    fn a_reader_reads_the_plots_identifier() {
        for number in [0, 1, u128::MAX, 0x0192_f0c1_7a4b_7c3d_8e5f_6071_8293_a4b5] {
            let plot = Uuid::from_u128(number);
            let svg = code(plot).unwrap();
            assert_eq!(read_back(&svg).to_lowercase(), format!("urn:uuid:{plot}"));
        }
        let page = "https://example.org/list/varieties/drip-stone.html#lot-31-014";
        assert_eq!(read_back(&code_of(page).unwrap()), page);
        assert_eq!(code_of(&"a".repeat(5000)), None);
    }

    fn read_back(svg: &str) -> String {
        let tree = resvg::usvg::Tree::from_str(svg, &resvg::usvg::Options::default()).unwrap();
        let side = tree.size().width() as usize * DOTS;
        let mut picture = resvg::tiny_skia::Pixmap::new(side as u32, side as u32).unwrap();
        picture.fill(resvg::tiny_skia::Color::WHITE);
        let scale = resvg::tiny_skia::Transform::from_scale(DOTS as f32, DOTS as f32);
        resvg::render(&tree, scale, &mut picture.as_mut());
        let grey = |x: usize, y: usize| picture.pixel(x as u32, y as u32).unwrap().red();
        let mut prepared = rqrr::PreparedImage::prepare_from_greyscale(side, side, grey);
        prepared.detect_grids()[0].decode().unwrap().1
    }
}
