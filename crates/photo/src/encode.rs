//! A measured picture as the bytes of a JPEG, to be drawn upon.
//!
//! Start at [`jpeg`].

use crate::plane::Plane;
use image::codecs::jpeg::JpegEncoder;
use image::{ExtendedColorType, ImageError};

/// Good enough to be looked at and a tenth of the size.
const QUALITY: u8 = 82;

/// Writes a picture as a JPEG.
///
/// # Errors
/// What the encoder refuses: a side of more than 65,535 pixels.
pub fn jpeg(pixels: &Plane<[u8; 3]>) -> Result<Vec<u8>, ImageError> {
    let side = |pixels: usize| u32::try_from(pixels).unwrap_or(u32::MAX);
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, QUALITY).encode(
        pixels.cells().as_flattened(),
        side(pixels.width()),
        side(pixels.height()),
        ExtendedColorType::Rgb8,
    )?;
    Ok(bytes)
}
