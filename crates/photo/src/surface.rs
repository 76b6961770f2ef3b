//! The colour of a fruit's skin, as if seen by daylight beside the card's paper.
//!
//! The card's greys undo the picture's tone curve, its paper sets white, and the sheet's own light says how much brighter or
//! darker it is at the fruit than at the card. Shine and shade are left out by rank. A home printer's coloured patches are
//! not known colours and are not used. Start at [`colour`].

use crate::camera::Camera;
use crate::card::Card;
use crate::colour::{Lab, Linear, linear_of_byte};
use crate::fit::least_squares;
use crate::outline::Point;
use crate::plane::Plane;
use crate::region::Region;
use crate::sheet::Sheet;

/// Patches whose chroma is below this are greys.
const GREY: f64 = 1.0;
/// Between these ranks of lightness a pixel shows the skin in full light but no shine (found on the made pictures).
const RANKS: (f64, f64) = (0.55, 0.8);
/// Share of the way from the fruit's middle to its border that is read: farther out the skin turns from the light.
const INNER: f64 = 0.75;
/// Every this manyth pixel of a row and of a column is read.
const STRIDE: usize = 2;
/// Fewer pixels say too little.
const FEWEST: usize = 10;

/// How the picture writes light: for each of red, green and blue, `ln(reflectance) = shift + power * ln(written)`.
#[derive(Clone, Copy, Debug)]
pub struct Tone {
    lines: [[f64; 2]; 3],
    at_card: Linear,
}

/// Reads the tone curve off the card's greys; `None` where they cannot be told apart.
#[must_use]
pub fn tone(pixels: &Plane<[u8; 3]>, camera: &Camera, card: &Card, sheet: &Sheet) -> Option<Tone> {
    let greys: Vec<(Linear, Linear)> =
        greys(pixels, camera, card).into_iter().map(|(written, lab)| (written, lab.to_linear())).collect();
    let mut lines = [[0.0; 2]; 3];
    for (axis, line) in lines.iter_mut().enumerate() {
        let at = |light: &Linear| light.get(axis).copied().unwrap_or(0.0).max(1e-4).ln();
        // A grey counts as much as it throws back: the darkest are mostly stray light.
        let rows = greys.iter().map(|(written, told)| {
            let weight = at(told).exp().sqrt();
            ([weight, weight * at(written)], weight * at(told))
        });
        *line = least_squares(rows)?;
    }
    let middle = camera.sees([card.size[0] / 2.0, card.size[1] / 2.0, 0.0]);
    Some(Tone { lines, at_card: sheet.light(middle) })
}

/// The card's greys: what is written of each, and what it should be.
#[must_use]
pub fn greys(pixels: &Plane<[u8; 3]>, camera: &Camera, card: &Card) -> Vec<(Linear, Lab)> {
    let greys = card.patches.iter().filter(|(_, lab)| lab.chroma() < GREY);
    greys.map(|(place, lab)| (patch_light(pixels, camera, *place), *lab)).collect()
}

/// Mean light of the inner part of a patch.
fn patch_light(pixels: &Plane<[u8; 3]>, camera: &Camera, [left, top, width, height]: [f64; 4]) -> Linear {
    const STEPS: u32 = 8;
    let mut sums = [0.0; 3];
    for row in 0..STEPS {
        for column in 0..STEPS {
            let inner = |step: u32| 0.2 + 0.6 * f64::from(step) / f64::from(STEPS - 1);
            let pixel = camera.sees([left + width * inner(column), top + height * inner(row), 0.0]);
            let light = light_at(pixels, pixel);
            sums.iter_mut().zip(light).for_each(|(sum, light)| *sum += light / f64::from(STEPS * STEPS));
        }
    }
    sums
}

pub(crate) fn light_at(pixels: &Plane<[u8; 3]>, pixel: Point) -> Linear {
    let [x, y] = pixel.map(|part| part.floor() as isize);
    pixels.at(x, y).map(linear_of_byte)
}

/// Light between pixels, by straight lines.
pub(crate) fn light_between(pixels: &Plane<[u8; 3]>, [x, y]: Point) -> [f64; 3] {
    let (x, y) = (x - 0.5, y - 0.5);
    let (right, down) = (x - x.floor(), y - y.floor());
    let (column, row) = (x.floor() as isize, y.floor() as isize);
    let mut light = [0.0; 3];
    for (dx, share_x) in [(0, 1.0 - right), (1, right)] {
        for (dy, share_y) in [(0, 1.0 - down), (1, down)] {
            let bytes = pixels.at(column.saturating_add(dx), row.saturating_add(dy));
            light
                .iter_mut()
                .zip(bytes)
                .for_each(|(sum, byte)| *sum += share_x * share_y * linear_of_byte(byte));
        }
    }
    light
}

/// The colour of a fruit's skin; `None` where too little of it is seen.
///
/// It is relative to the card's paper, and of the side that faces the camera.
#[must_use]
pub fn colour(
    pixels: &Plane<[u8; 3]>,
    labels: &Plane<u32>,
    part: &Region,
    sheet: &Sheet,
    tone: &Tone,
) -> Option<Lab> {
    let [left, top, right, bottom] = part.bounds;
    let half = INNER * (part.area as f64 / std::f64::consts::PI).sqrt();
    let mut seen: Vec<Lab> = Vec::new();
    for y in (top..bottom).step_by(STRIDE) {
        for x in (left..right).step_by(STRIDE) {
            let place = [x as f64 + 0.5, y as f64 + 0.5];
            let far = (place[0] - part.centroid[0]).hypot(place[1] - part.centroid[1]);
            if far < half && labels.at(x.cast_signed(), y.cast_signed()) == part.label {
                seen.push(tone.surface(light_at(pixels, place), sheet.light(place)));
            }
        }
    }
    seen.sort_by(|p, q| p.l.total_cmp(&q.l));
    let rank = |share: f64| (share * seen.len() as f64) as usize;
    let kept: Vec<Lab> = seen.iter().take(rank(RANKS.1)).skip(rank(RANKS.0)).copied().collect();
    if kept.len() < FEWEST {
        return None;
    }
    let mean = |part: fn(&Lab) -> f64| kept.iter().map(part).sum::<f64>() / kept.len() as f64;
    Some(Lab { l: mean(|lab| lab.l), a: mean(|lab| lab.a), b: mean(|lab| lab.b) })
}

impl Tone {
    /// The colour of what lies on the card where the picture wrote `written`.
    pub(crate) fn on_card(&self, written: Linear) -> Lab {
        self.surface(written, self.at_card)
    }

    /// The surface's colour where the picture wrote `written` and the sheet there `sheet`.
    pub(crate) fn surface(&self, written: Linear, sheet: Linear) -> Lab {
        let part = |axis: usize| {
            let at = |light: Linear| light.get(axis).copied().unwrap_or(0.0).max(1e-4);
            let [shift, power] = self.lines.get(axis).copied().unwrap_or([0.0, 1.0]);
            let fall_off = (at(sheet) / at(self.at_card)).powf(power);
            (shift + power * at(written).ln()).exp() / fall_off
        };
        Lab::of_linear([part(0), part(1), part(2)])
    }
}
