//! Pictures changed as phones and the ways of sending change them.

use image::codecs::jpeg::JpegEncoder;
use image::imageops::{FilterType, resize};
use image::{ExtendedColorType, GrayImage, RgbImage};
use photo::decode::{Picture, decode};
use photo::plane::Plane;
use serde_json::{Value, json};
use std::fmt;

/// What is done to every picture.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Change {
    /// The camera tells a lens so many times as long as it was.
    Lens(f64),
    /// It is written once more as a JPEG of this quality.
    Quality(u8),
    /// It has this share of the pixels across and down.
    Smaller(f64),
}

/// The changes that are told.
pub(crate) const CHANGES: [Change; 8] = [
    Change::Lens(0.95),
    Change::Lens(1.05),
    Change::Quality(95),
    Change::Quality(80),
    Change::Quality(60),
    Change::Quality(40),
    Change::Smaller(0.75),
    Change::Smaller(0.5),
];

impl fmt::Display for Change {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Lens(factor) => write!(to, "lens told {factor} times as long"),
            Self::Quality(quality) => write!(to, "JPEG of quality {quality}"),
            Self::Smaller(share) => write!(to, "{share} of the pixels across"),
        }
    }
}

impl Change {
    /// The picture, changed.
    pub(crate) fn of_picture(self, picture: Picture) -> Picture {
        match self {
            Self::Lens(factor) => {
                Picture { focal_on_film: picture.focal_on_film.map(|focal| factor * focal), ..picture }
            }
            Self::Quality(quality) => Picture { pixels: written(&picture.pixels, quality), ..picture },
            Self::Smaller(share) => Picture { pixels: smaller(&picture.pixels, share), ..picture },
        }
    }

    /// The truth and the mask of the changed picture.
    pub(crate) fn of_truth(self, mut truth: Value, mask: GrayImage) -> (Value, GrayImage) {
        match self {
            Self::Lens(_) | Self::Quality(_) => (truth, mask),
            Self::Smaller(share) => {
                for middle in truth["card"]["marker_centres_px"].as_array_mut().into_iter().flatten() {
                    *middle =
                        json!([share * middle[0].as_f64().unwrap(), share * middle[1].as_f64().unwrap()]);
                }
                let small =
                    resize(&mask, side(mask.width(), share), side(mask.height(), share), FilterType::Nearest);
                (truth, small)
            }
        }
    }
}

fn as_image(pixels: &Plane<[u8; 3]>) -> RgbImage {
    let side = |pixels: usize| u32::try_from(pixels).unwrap();
    let bytes = pixels.cells().as_flattened().to_vec();
    RgbImage::from_raw(side(pixels.width()), side(pixels.height()), bytes).unwrap()
}

fn written(pixels: &Plane<[u8; 3]>, quality: u8) -> Plane<[u8; 3]> {
    let own = as_image(pixels);
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, quality)
        .encode(own.as_raw(), own.width(), own.height(), ExtendedColorType::Rgb8)
        .unwrap();
    decode(&bytes).unwrap().pixels
}

fn side(pixels: u32, share: f64) -> u32 {
    (share * f64::from(pixels)) as u32
}

fn smaller(pixels: &Plane<[u8; 3]>, share: f64) -> Plane<[u8; 3]> {
    let own = as_image(pixels);
    let small = resize(&own, side(own.width(), share), side(own.height(), share), FilterType::Triangle);
    let cells = small.pixels().map(|pixel| pixel.0).collect();
    Plane::of_cells(small.width() as usize, small.height() as usize, cells).unwrap()
}
