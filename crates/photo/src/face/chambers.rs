//! Locules counted as patches of gel that flesh parts from each other.
//!
//! Start at [`counts`]; [`patches`] gives their outlines.

use super::Gel;
use crate::outline::Point;
use crate::plane::Plane;
use crate::region::{Region, border, labelled, regions};

/// A patch covers at least this share of the face.
const LEAST: f64 = 0.01;
/// Its middle lies between these, over the way to the outline.
const MIDDLES: (f32, f32) = (0.22, 0.88);
/// Gel is not looked for farther out: there is the skin.
const RIM: f32 = 0.92;
/// Borders between flesh and gel, and cells by which patches are opened: the usual pair first, then each with each.
const USUAL: (f32, usize) = (0.5, 1);
const BORDERS: [f32; 5] = [0.35, 0.42, 0.5, 0.58, 0.65];
const OPENED: [usize; 3] = [0, 1, 2];

/// The count at the usual border and opening.
pub(super) fn counted(gel: &Gel) -> usize {
    found(gel, USUAL).1.len()
}

/// Counts of patches: at the usual border first, then at every other and opened more and less.
pub(super) fn counts(gel: &Gel) -> Vec<u32> {
    let others = BORDERS.iter().flat_map(|border| OPENED.iter().map(move |opened| (*border, *opened)));
    std::iter::once(USUAL)
        .chain(others)
        .map(|way| u32::try_from(found(gel, way).1.len()).unwrap_or(0))
        .collect()
}

/// Outlines of the patches on the raster, in the order of the way round from the right.
pub(super) fn patches(gel: &Gel) -> Vec<Vec<Point>> {
    let (labels, mut patches) = found(gel, USUAL);
    let half = gel.out.width() as f64 / 2.0;
    let turn = |patch: &Region| {
        let [x, y] = patch.centroid.map(|part| part + 0.5 - half);
        y.atan2(x).rem_euclid(std::f64::consts::TAU)
    };
    patches.sort_by(|p, q| turn(p).total_cmp(&turn(q)));
    patches.iter().map(|patch| border(&labels, patch)).collect()
}

fn found(gel: &Gel, (between, opened_by): (f32, usize)) -> (Plane<u32>, Vec<Region>) {
    let cells = gel.share.cells().iter().zip(gel.out.cells());
    let set = cells.map(|(share, out)| between < *share && *out < RIM).collect();
    let set = Plane::of_cells(gel.out.width(), gel.out.height(), set).unwrap_or(gel.out.map(|_| false));
    // The raster is as fine as the picture wants: what is opened goes with its cells.
    let reach = opened_by * gel.out.width() / CELLS;
    let labels = labelled(&opened(&set, reach).map(u32::from));
    let face = gel.out.cells().iter().filter(|out| **out < 1.0).count() as f64;
    let is_patch = |patch: &Region| {
        let [x, y] = patch.centroid.map(|part| part.round() as isize);
        LEAST * face <= patch.area as f64 && (MIDDLES.0..MIDDLES.1).contains(&gel.out.at(x, y))
    };
    let patches = regions(&labels).into_iter().filter(is_patch).collect();
    (labels, patches)
}

/// Cells across for which the openings are told.
const CELLS: usize = 160;

/// The set without what is narrower than twice the reach.
fn opened(set: &Plane<bool>, reach: usize) -> Plane<bool> {
    if reach == 0 {
        return set.clone();
    }
    let share = |set: &Plane<bool>| set.map(|inside| if inside { 1.0 } else { 0.0 }).box_mean(reach);
    let shrunk = share(set).map(|share| 0.999 < share);
    share(&shrunk).map(|share| 0.001 < share)
}
