//! The plain sheet under the fruit: its colour and how its light falls off, and how unlike it every pixel is.
//!
//! The light of the sheet is a smooth surface; a shadow scales all its colours alike, so lightness counts little. Start at
//! [`unlike`].

use crate::camera::Camera;
use crate::card::Card;
use crate::colour::{Lab, Linear, linear_of_byte};
use crate::fit::least_squares;
use crate::outline::{Point, across};
use crate::plane::Plane;

/// Every this manyth pixel of a row and of a column is read for the sheet's light.
const STRIDE: usize = 8;
/// What being darker than the sheet counts beside a difference in colour: a shadow is darker (facts: 0.2 to 0.3).
const DARKER_WEIGHT: f64 = 0.25;
/// Steps of lightness that hardly a shadow takes: what lies deeper counts whole (found on the made pictures).
const DEEPEST_SHADOW: f64 = 45.0;
/// What being brighter than the sheet counts: no shadow is, but the sheet's light is known only so well.
const BRIGHTER_WEIGHT: f64 = 0.7;
/// Light added to both sides of a ratio, so that the noise of black does not read as colour.
const DARK_FLOOR: f64 = 0.006;
/// Reflectance given to the sheet before its pixels are put into CIELAB; any light grey does.
const SHEET: f64 = 0.8;

/// The sheet's light: for each of red, green and blue the logarithm as a quadratic in x and y, both -1 to 1.
#[derive(Clone, Copy, Debug)]
pub struct Sheet {
    bends: [[f64; 6]; 3],
    size: Point,
}

impl Sheet {
    /// The sheet's light at a pixel.
    #[must_use]
    pub fn light(&self, pixel: Point) -> Linear {
        let factors = factors(pixel, self.size);
        self.bends.map(|bend| bend.iter().zip(factors).map(|(p, q)| p * q).sum::<f64>().exp())
    }

    /// A pixel's colour as if the sheet were a neutral light grey.
    #[must_use]
    pub fn relative(&self, pixel: Point, light: Linear) -> Lab {
        Self::beside(self.light(pixel), light)
    }

    /// A colour as if the sheet, whose light is told, were a neutral light grey.
    pub(crate) fn beside(sheet: Linear, light: Linear) -> Lab {
        let part = |axis: usize| {
            let at = |light: Linear| light.get(axis).copied().unwrap_or(0.0);
            (SHEET * (at(light) + DARK_FLOOR) / (at(sheet) + DARK_FLOOR)).clamp(0.0, 1.6)
        };
        Lab::nearly_of_linear([part(0), part(1), part(2)])
    }
}

fn factors([x, y]: Point, size: Point) -> [f64; 6] {
    let (x, y) = (2.0 * x / size[0] - 1.0, 2.0 * y / size[1] - 1.0);
    [1.0, x, y, x * x, x * y, y * y]
}

/// The card's near surroundings, mm.
const MARGIN: f64 = 4.0;

/// Whether a pixel shows the card or its near surroundings.
#[must_use]
pub fn on_card(camera: &Camera, card: &Card, pixel: Point) -> bool {
    within(camera, card, pixel, MARGIN)
}

/// Whether a pixel shows the card or what lies no farther from it than so many mm.
fn within(camera: &Camera, card: &Card, pixel: Point, margin: f64) -> bool {
    let [u, v] = camera.on_level(pixel, 0.0);
    (-margin..card.size[0] + margin).contains(&u) && (-margin..card.size[1] + margin).contains(&v)
}

/// The card lies on the sheet: what is seen within so many mm round it is mostly that.
const BESIDE: f64 = 20.0;

/// Reads the sheet's light: the commonest colour beside the card, then a surface laid through the pixels that are near it, three
/// times.
#[must_use]
pub fn read(pixels: &Plane<[u8; 3]>, camera: &Camera, card: &Card) -> Option<Sheet> {
    let size = [pixels.width() as f64, pixels.height() as f64];
    let mut samples = Vec::new();
    for y in (0..pixels.height()).step_by(STRIDE) {
        for x in (0..pixels.width()).step_by(STRIDE) {
            let place = [x as f64 + 0.5, y as f64 + 0.5];
            if !on_card(camera, card, place) {
                samples.push((place, light_round(pixels, x, y)));
            }
        }
    }
    let beside = samples.iter().filter(|(place, _)| within(camera, card, *place, BESIDE)).copied();
    let common = commonest(&beside.collect::<Vec<_>>()).or_else(|| commonest(&samples))?;
    let flat = common.map(|light| [light.ln(), 0.0, 0.0, 0.0, 0.0, 0.0]);
    let mut sheet = Sheet { bends: flat, size };
    for near in [16.0, 12.0, 8.0] {
        let kept: Vec<(Point, Linear)> = samples
            .iter()
            .filter(|(place, light)| {
                let lab = sheet.relative(*place, *light);
                lab.chroma().hypot(0.4 * (lab.l - GREY_LIGHTNESS)) < near
            })
            .copied()
            .collect();
        for (axis, bend) in sheet.bends.iter_mut().enumerate() {
            let at = |light: &Linear| light.get(axis).copied().unwrap_or(1.0).ln();
            *bend = least_squares(kept.iter().map(|(place, light)| (factors(*place, size), at(light))))?;
        }
    }
    Some(sheet)
}

/// Mean light of the nine pixels round a place: single ones are noisy in little light.
fn light_round(pixels: &Plane<[u8; 3]>, x: usize, y: usize) -> Linear {
    let mut light = [1e-3; 3];
    for (dx, dy) in [(-1, -1), (0, -1), (1, -1), (-1, 0), (0, 0), (1, 0), (-1, 1), (0, 1), (1, 1)] {
        let bytes = pixels.at(x.cast_signed() + dx, y.cast_signed() + dy);
        light.iter_mut().zip(bytes).for_each(|(sum, byte)| *sum += linear_of_byte(byte) / 9.0);
    }
    light
}

/// Lightness of [`SHEET`].
const GREY_LIGHTNESS: f64 = 91.7;

/// The middle light of the fullest box of the picture's colours.
fn commonest(samples: &[(Point, Linear)]) -> Option<Linear> {
    let key = |light: &Linear| {
        let lab = Lab::of_linear(*light);
        [lab.l / 8.0, lab.a / 6.0, lab.b / 6.0].map(|part| part.round() as i32)
    };
    let mut boxes = std::collections::BTreeMap::new();
    for (_, light) in samples {
        let entry = boxes.entry(key(light)).or_insert((0.0_f64, [0.0; 3]));
        entry.0 += 1.0;
        entry.1.iter_mut().zip(light).for_each(|(sum, light)| *sum += light);
    }
    let (count, sums) = boxes.into_values().max_by(|p, q| p.0.total_cmp(&q.0))?;
    Some(sums.map(|sum| sum / count))
}

/// How unlike the sheet every pixel is, in CIELAB steps; 0 on the card.
#[must_use]
pub fn unlike(pixels: &Plane<[u8; 3]>, sheet: &Sheet, camera: &Camera, card: &Card) -> Plane<f32> {
    let rim = card_rim(camera, card);
    let width = pixels.width().max(1);
    let mut steps = Plane::filled(pixels.width(), pixels.height(), 0.0_f32);
    let rows = pixels.cells().chunks(width).zip(steps.cells_mut().chunks_mut(width));
    for (y, (bytes, row)) in rows.enumerate() {
        let (left, right) = across(&rim, y as f64 + 0.5).unwrap_or((0.0, 0.0));
        for (at, (bytes, row)) in bytes.chunks(STRETCH).zip(row.chunks_mut(STRETCH)).enumerate() {
            let start = (at * STRETCH) as f64;
            // The sheet's light is so smooth that it is one over a short stretch of a row.
            let ground = sheet.light([start + STRETCH as f64 / 2.0, y as f64 + 0.5]);
            for (x, (bytes, step)) in bytes.iter().zip(row).enumerate() {
                if !(left..right).contains(&(start + x as f64 + 0.5)) {
                    *step = unlikeness(Sheet::beside(ground, bytes.map(linear_of_byte)));
                }
            }
        }
    }
    steps
}

fn unlikeness(lab: Lab) -> f32 {
    let light = lightness_step(lab.l - GREY_LIGHTNESS);
    (lab.a * lab.a + lab.b * lab.b + light * light).sqrt() as f32
}

/// What a difference in lightness counts.
fn lightness_step(brighter: f64) -> f64 {
    if 0.0 <= brighter {
        return BRIGHTER_WEIGHT * brighter;
    }
    DARKER_WEIGHT * (-brighter).min(DEEPEST_SHADOW) + (-brighter - DEEPEST_SHADOW).max(0.0)
}

/// Pixels of a row over which the sheet's light is taken as one.
const STRETCH: usize = 8;

/// The card's corners in the picture, with a margin.
fn card_rim(camera: &Camera, card: &Card) -> [Point; 4] {
    let ([right, down], m) = (card.size, MARGIN);
    let corners = [[-m, -m], [right + m, -m], [right + m, down + m], [-m, down + m]];
    corners.map(|[u, v]| camera.sees([u, v, 0.0]))
}
