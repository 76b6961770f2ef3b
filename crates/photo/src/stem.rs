//! The stem's end of a fruit, from the green of its calyx or shoulders: which way it lies, or that the fruit stands on its
//! other end.
//!
//! Only a skin that is not green itself shows it. Start at [`green_end`].

use crate::colour::{Lab, linear_of_byte};
use crate::outline::Point;
use crate::plane::Plane;
use crate::region::Region;
use crate::sheet::Sheet;
use crate::surface::Tone;

/// A part of the skin that is so many degrees of hue nearer to green than the rest is no skin of that colour.
const GREENER: f64 = 28.0;
/// Hues of leaves and green shoulders, degrees (common practice, no source).
const GREEN: (f64, f64) = (95.0, 175.0);
/// Less colour than this has no hue that can be trusted.
const LEAST_CHROMA: f64 = 10.0;
/// A green end covers at least this share of the fruit (found on the made pictures: scattered pixels stay below).
const LEAST_SHARE: f64 = 0.003;
const FEWEST: usize = 3;
/// Every this manyth pixel of a row and of a column is read.
const STRIDE: usize = 2;

/// The middle of the green on a fruit, in pixels; `None` where there is none, or the skin is green.
#[must_use]
pub fn green_end(
    pixels: &Plane<[u8; 3]>,
    (sheet, tone): (&Sheet, &Tone),
    labels: &Plane<u32>,
    part: &Region,
) -> Option<Point> {
    let seen = skin(pixels, (sheet, tone), labels, part);
    let hues: Vec<f64> =
        seen.iter().filter(|(_, lab)| LEAST_CHROMA < lab.chroma()).map(|(_, lab)| turned(*lab)).collect();
    let usual = median(hues)?;
    let green = |lab: &Lab| {
        let hue = turned(*lab);
        LEAST_CHROMA < lab.chroma() && (GREEN.0..GREEN.1).contains(&hue) && usual + GREENER < hue
    };
    let green: Vec<Point> = seen.iter().filter(|(_, lab)| green(lab)).map(|(place, _)| *place).collect();
    let enough = FEWEST <= green.len() && LEAST_SHARE * seen.len() as f64 <= green.len() as f64;
    let radius = (part.area as f64 / std::f64::consts::PI).sqrt();
    middle(&green).filter(|middle| enough && scatter(&green, *middle) < MOST_SCATTERED * radius)
}

/// Green whose pixels lie farther from their middle than this share of the fruit's radius (root mean square) is noise on a dark skin:
/// strewn over the whole fruit it would be 0.71.
const MOST_SCATTERED: f64 = 0.55;

fn middle(places: &[Point]) -> Option<Point> {
    let count = places.len() as f64;
    let sum = places.iter().copied().reduce(|sum, place| [sum[0] + place[0], sum[1] + place[1]])?;
    Some(sum.map(|sum| sum / count))
}

/// Root mean square of the distances from a place.
fn scatter(places: &[Point], from: Point) -> f64 {
    let squares = places.iter().map(|place| (place[0] - from[0]).powi(2) + (place[1] - from[1]).powi(2));
    (squares.sum::<f64>() / places.len().max(1) as f64).sqrt()
}

/// Hue from -90 to 270 degrees, so that red, where hues begin again, lies in one piece.
fn turned(lab: Lab) -> f64 {
    if 270.0 < lab.hue() { lab.hue() - 360.0 } else { lab.hue() }
}

fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied()
}

/// The colours of a part as its surface has them: beside a coloured sheet every hue is turned.
fn skin(
    pixels: &Plane<[u8; 3]>,
    (sheet, tone): (&Sheet, &Tone),
    labels: &Plane<u32>,
    part: &Region,
) -> Vec<(Point, Lab)> {
    let [left, top, right, bottom] = part.bounds;
    let mut seen = Vec::new();
    for y in (top..bottom).step_by(STRIDE) {
        for x in (left..right).step_by(STRIDE) {
            let (sx, sy) = (x.cast_signed(), y.cast_signed());
            if labels.at(sx, sy) == part.label {
                let place = [x as f64 + 0.5, y as f64 + 0.5];
                let written = pixels.at(sx, sy).map(linear_of_byte);
                seen.push((place, tone.surface(written, sheet.light(place))));
            }
        }
    }
    seen
}
