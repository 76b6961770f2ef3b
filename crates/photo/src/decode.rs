//! Bytes of a JPEG or PNG to an upright picture and what the camera said of its lens, within bounded memory.
//!
//! A picture's size is read and refused before any of its pixels are. Start at [`decode`].

use crate::plane::Plane;
use exif::{Exif, In, Tag, Value};
use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};
use jiff::civil::Date;
use std::io::Cursor;

/// Most pixels of a side. Phones' sensors reach 16,320 (common practice, no source).
const LONGEST_SIDE: u32 = 20_000;
/// Most pixels in all: twice a 50-megapixel phone's.
const MOST_PIXELS: u64 = 100_000_000;
/// Most bytes the decoder may ask for: three a pixel, and as much again for its own work.
const MOST_BYTES: u64 = 2 * 3 * MOST_PIXELS;

/// Most bytes of what the camera wrote beside the picture: a JPEG's segment holds no more, and phones write 30 kB.
const MOST_WRITTEN: usize = 1 << 16;

/// An upright picture.
#[derive(Clone, Debug)]
pub struct Picture {
    /// Red, green and blue of every pixel, as an sRGB screen shows them.
    pub pixels: Plane<[u8; 3]>,
    /// The lens as if on 36 mm wide film, in millimetres, where the camera wrote it.
    pub focal_on_film: Option<f64>,
    /// The day it was taken, where the camera wrote it.
    pub taken_on: Option<Date>,
}

/// Why bytes are no picture that can be measured.
#[derive(Debug, thiserror::Error)]
pub enum NoPicture {
    /// Neither kind that is read.
    #[error("this is neither a JPEG nor a PNG picture")]
    OtherKind,
    /// More pixels than any phone takes.
    #[error("the picture is {width} by {height} pixels, more than is read")]
    TooLarge {
        /// Columns.
        width: u32,
        /// Rows.
        height: u32,
    },
    /// Damaged or cut short.
    #[error("the picture cannot be read to its end: {0}")]
    Damaged(String),
}

/// Decodes a JPEG or PNG, turns it upright as its EXIF says, and reads the focal length.
///
/// # Errors
/// [`NoPicture`] with what is wrong; nothing is decoded of a picture that is too large.
pub fn decode(bytes: &[u8]) -> Result<Picture, NoPicture> {
    let mut reader =
        ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(|_| NoPicture::OtherKind)?;
    if !matches!(reader.format(), Some(ImageFormat::Jpeg | ImageFormat::Png)) {
        return Err(NoPicture::OtherKind);
    }
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_BYTES);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(damaged)?;
    let (width, height) = decoder.dimensions();
    if LONGEST_SIDE < width.max(height) || MOST_PIXELS < u64::from(width) * u64::from(height) {
        return Err(NoPicture::TooLarge { width, height });
    }
    let beside = decoder.exif_metadata().ok().flatten().filter(|raw| raw.len() <= MOST_WRITTEN);
    let written = beside.and_then(|raw| exif::Reader::new().read_raw(raw).ok());
    let orientation = decoder.orientation().map_err(damaged)?;
    let mut picture = DynamicImage::from_decoder(decoder).map_err(damaged)?;
    picture.apply_orientation(orientation);
    let upright = picture.into_rgb8();
    let (width, height) = (upright.width() as usize, upright.height() as usize);
    let cells = upright.pixels().map(|pixel| pixel.0).collect();
    let pixels = Plane::of_cells(width, height, cells).ok_or(NoPicture::OtherKind)?;
    let focal_on_film = written.as_ref().and_then(focal);
    let taken_on = written.as_ref().and_then(taken_on);
    Ok(Picture { pixels, focal_on_film, taken_on })
}

fn damaged(fault: image::ImageError) -> NoPicture {
    NoPicture::Damaged(fault.to_string())
}

/// EXIF's `FocalLengthIn35mmFilm`; cameras write 0 for "unknown".
fn focal(written: &Exif) -> Option<f64> {
    let value = written.get_field(Tag::FocalLengthIn35mmFilm, In::PRIMARY)?.value.get_uint(0)?;
    (5..=400).contains(&value).then_some(f64::from(value))
}

/// EXIF's `DateTimeOriginal`, such as `2031:08:14 10:32:05`; cameras write blanks or noughts for "unknown".
fn taken_on(written: &Exif) -> Option<Date> {
    let Value::Ascii(lines) = &written.get_field(Tag::DateTimeOriginal, In::PRIMARY)?.value else {
        return None;
    };
    let line = std::str::from_utf8(lines.first()?.get(..10)?).ok()?;
    Date::strptime("%Y:%m:%d", line).ok()
}
