//! How far the sheet reaches: fruit are looked for on it and nowhere else, for the table round it may have any colour.
//!
//! The largest patch that is like the sheet, without its hollows: a sheet is convex, and fruit lie within it. Start at
//! [`of`].

use crate::outline::{Point, across, hull};
use crate::plane::Plane;
use crate::region::{labelled, regions};

/// Steps of CIELAB within which a pixel is like the sheet (found on the made pictures: paper in shade stays below 8, wood is
/// above 15), and how many times the sheet's own unevenness they are at the least: in little light all is noise.
const LIKE: f32 = 10.0;
const UNEVENNESS: f32 = 1.4;
/// Steps beyond which a pixel is none of the sheet, however uneven it is.
const UNLIKE: f32 = 25.0;
/// Pixels that the sheet's rim is taken in by: the rim's own pixels are half table.
const RIM: f64 = 2.0;

/// The pixels that lie on the sheet; all of them where no sheet is made out.
#[must_use]
pub fn of(unlike: &Plane<f32>) -> Plane<bool> {
    let calm = unlike.box_mean(1);
    let within = LIKE.max(UNEVENNESS * unevenness(&calm));
    let like = labelled(&calm.map(|step| u32::from(step < within)));
    let largest = regions(&like).into_iter().max_by_key(|patch| patch.area);
    let all = Plane::filled(unlike.width(), unlike.height(), true);
    let Some(sheet) = largest else { return all };
    let corners = hull(&ends(&like, sheet.label));
    if corners.len() < 3 {
        return all;
    }
    let mut inside = all.map(|_| false);
    for y in 0..inside.height() {
        let Some((left, right)) = across(&corners, y as f64 + 0.5) else { continue };
        let (left, right) = ((left + RIM).max(0.0) as usize, (right - RIM).max(0.0) as usize);
        (left..right.min(inside.width())).for_each(|x| inside.set(x, y, true));
    }
    inside
}

/// The middle step of the pixels that may be the sheet.
fn unevenness(steps: &Plane<f32>) -> f32 {
    let mut own: Vec<f32> =
        steps.cells().iter().filter(|step| 0.0 < **step && **step < UNLIKE).step_by(EVERY).copied().collect();
    let middle = own.len() / 2;
    if own.is_empty() { 0.0 } else { *own.select_nth_unstable_by(middle, f32::total_cmp).1 }
}

/// Of so many pixels one is read for the unevenness.
const EVERY: usize = 16;

/// The two ends of every row of a patch.
fn ends(labels: &Plane<u32>, label: u32) -> Vec<Point> {
    let mut ends = Vec::new();
    for (y, row) in labels.cells().chunks(labels.width().max(1)).enumerate() {
        let first = row.iter().position(|own| *own == label);
        let last = row.iter().rposition(|own| *own == label);
        ends.extend(first.map(|x| [x as f64, y as f64 + 0.5]));
        ends.extend(last.map(|x| [x as f64 + 1.0, y as f64 + 0.5]));
    }
    ends
}
