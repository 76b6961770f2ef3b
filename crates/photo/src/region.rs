//! A labelled region of a mask: its area, middle, axes and length round, and its border as an outline.
//!
//! Pixel counts, not millimetres. A mask holds 0 for the ground and a number for each region. Start at [`regions`].

use crate::outline::Point;
use crate::plane::Plane;

/// What the pixels of one region say.
#[derive(Clone, Copy, Debug)]
pub struct Region {
    /// Its number in the mask.
    pub label: u32,
    /// Pixels.
    pub area: usize,
    /// Columns and rows it lies in: left, top, and one past right and bottom.
    pub bounds: [usize; 4],
    /// Mean of the pixels' columns and rows, counted from 0 at the middle of the first pixel.
    pub centroid: Point,
    /// Second moments about the middle, over the area: xx, xy, yy.
    pub spread: [f64; 3],
}

#[derive(Clone, Copy)]
struct Sums {
    area: usize,
    bounds: [usize; 4],
    first: [f64; 2],
    second: [f64; 3],
}

/// The regions of a mask in the order of their numbers; numbers that no pixel bears are left out.
#[must_use]
pub fn regions(mask: &Plane<u32>) -> Vec<Region> {
    let empty = Sums { area: 0, bounds: [usize::MAX, usize::MAX, 0, 0], first: [0.0; 2], second: [0.0; 3] };
    let most = mask.cells().iter().max().copied().unwrap_or(0);
    let mut sums = vec![empty; most as usize + 1];
    for (place, label) in mask.cells().iter().enumerate().filter(|(_, label)| 0 < **label) {
        let (x, y) = (place % mask.width(), place / mask.width());
        if let Some(sum) = sums.get_mut(*label as usize) {
            let [left, top, right, bottom] = sum.bounds;
            sum.area += 1;
            sum.bounds = [left.min(x), top.min(y), right.max(x + 1), bottom.max(y + 1)];
            let (x, y) = (x as f64, y as f64);
            sum.first = [sum.first[0] + x, sum.first[1] + y];
            sum.second = [sum.second[0] + x * x, sum.second[1] + x * y, sum.second[2] + y * y];
        }
    }
    (0..=most).zip(sums).filter(|(_, sum)| 0 < sum.area).map(|(label, sum)| summed(label, &sum)).collect()
}

fn summed(label: u32, sum: &Sums) -> Region {
    let count = sum.area as f64;
    let [x, y] = sum.first.map(|first| first / count);
    let [xx, xy, yy] = sum.second.map(|second| second / count);
    Region {
        label,
        area: sum.area,
        bounds: sum.bounds,
        centroid: [x, y],
        spread: [xx - x * x, xy - x * y, yy - y * y],
    }
}

/// Numbers the 4-connected pieces of pixels of one kind from 1 on, in reading order; kind 0 is the ground.
///
/// Twice over the rows: first every pixel takes the number of its neighbour above or to the left, and where two numbers meet the
/// later one is led to the earlier; then each piece takes its own.
#[must_use]
pub fn labelled(set: &Plane<u32>) -> Plane<u32> {
    let width = set.width();
    let mut leads = vec![0_u32];
    let mut labels = Plane::filled(width, set.height(), 0_u32);
    let blank = vec![0_u32; width];
    let mut above: (&[u32], Vec<u32>) = (&blank, blank.clone());
    for (kinds, row) in set.cells().chunks(width.max(1)).zip(labels.cells_mut().chunks_mut(width.max(1))) {
        let mut left = (0, 0);
        for (((kind, own), over), named) in kinds.iter().zip(row.iter_mut()).zip(above.0).zip(&above.1) {
            if 0 < *kind {
                *own = match (left.0 == *kind, over == kind) {
                    (true, true) => met(&mut leads, left.1, *named),
                    (true, false) => left.1,
                    (false, true) => *named,
                    (false, false) => begun(&mut leads),
                };
            }
            left = (*kind, *own);
        }
        above.0 = kinds;
        above.1.copy_from_slice(row);
    }
    let mut names = vec![0_u32; leads.len()];
    let mut last = 0;
    for label in labels.cells_mut().iter_mut().filter(|label| 0 < **label) {
        let lead = lead(&leads, *label);
        if let Some(name) = names.get_mut(lead as usize) {
            if *name == 0 {
                last += 1;
                *name = last;
            }
            *label = *name;
        }
    }
    labels
}

fn begun(leads: &mut Vec<u32>) -> u32 {
    let label = u32::try_from(leads.len()).unwrap_or(0);
    leads.push(label);
    label
}

/// The number that a number is led to in the end.
fn lead(leads: &[u32], mut label: u32) -> u32 {
    while let Some(lead) = leads.get(label as usize)
        && *lead != label
    {
        label = *lead;
    }
    label
}

/// Leads the later of two numbers to the earlier, and gives that.
fn met(leads: &mut [u32], one: u32, other: u32) -> u32 {
    if one == other {
        return one;
    }
    let (one, other) = (lead(leads, one), lead(leads, other));
    let (first, later) = (one.min(other), one.max(other));
    leads.iter_mut().skip(later as usize).take(1).for_each(|lead| *lead = first);
    first
}

/// The border of one region in order, as the middles of its pixels' outer sides: x and y count from the picture's top
/// left corner. Holes are not followed.
#[must_use]
pub fn border(mask: &Plane<u32>, region: &Region) -> Vec<Point> {
    let inside = |x: isize, y: isize| mask.holds(x, y) && mask.at(x, y) == region.label;
    let [left, top, right, _] = region.bounds.map(usize::cast_signed);
    let Some(start) = (left..right).find(|x| inside(*x, top)) else { return Vec::new() };
    // The region is kept on the right hand: going east along the upper side of its first pixel.
    let (mut x, mut y, mut dx, mut dy) = (start, top, 1_isize, 0_isize);
    let mut points = Vec::new();
    loop {
        points.push([x as f64 + dx as f64 / 2.0, y as f64 + dy as f64 / 2.0]);
        (x, y) = (x + dx, y + dy);
        let cell = |side_x: isize, side_y: isize| {
            inside(x + (dx + side_x - 1).div_euclid(2), y + (dy + side_y - 1).div_euclid(2))
        };
        let (right_hand, left_hand) = (cell(-dy, dx), cell(dy, -dx));
        (dx, dy) = match (right_hand, left_hand) {
            (_, true) => (dy, -dx),
            (true, false) => (dx, dy),
            (false, false) => (-dy, dx),
        };
        if (x, y, dx, dy) == (start, top, 1, 0) || 4 * region.area + 8 < points.len() {
            return points;
        }
    }
}

/// Gives a label to the pixels within an outline, and to no others; what bears another label keeps it.
pub(crate) fn relabel(labels: &mut Plane<u32>, label: u32, outline: &[Point]) {
    let (top, bottom) =
        outline.iter().fold((f64::MAX, f64::MIN), |(top, bottom), at| (top.min(at[1]), bottom.max(at[1])));
    let width = labels.width();
    for y in (top - SPARE).max(0.0) as usize..((bottom + SPARE).max(0.0) as usize).min(labels.height()) {
        let crossings = crossings(outline, y as f64 + 0.5);
        let inside = |x: f64| crossings.iter().filter(|at| **at < x).count() % 2 == 1;
        let row = labels.cells_mut().get_mut(y * width..(y + 1) * width).unwrap_or_default();
        for (x, own) in row.iter_mut().enumerate().filter(|(_, own)| **own == 0 || **own == label) {
            *own = if inside(x as f64 + 0.5) { label } else { 0 };
        }
    }
}

/// Rows beyond an outline in which its label is taken back.
const SPARE: f64 = 40.0;

/// Where an outline crosses a row.
fn crossings(outline: &[Point], y: f64) -> Vec<f64> {
    let sides = outline.iter().zip(outline.iter().cycle().skip(1));
    let crossing = sides.filter(|(p, q)| (p[1] < y) != (q[1] < y));
    crossing.map(|(p, q)| p[0] + (y - p[1]) / (q[1] - p[1]) * (q[0] - p[0])).collect()
}

/// The middles of all outer sides of a region's pixels, in no order; of every piece, where it lies in several.
#[must_use]
pub fn rim(mask: &Plane<u32>, region: &Region) -> Vec<Point> {
    let inside = |x: isize, y: isize| mask.holds(x, y) && mask.at(x, y) == region.label;
    let [left, top, right, bottom] = region.bounds.map(usize::cast_signed);
    let mut points = Vec::new();
    for y in top..bottom {
        for x in (left..right).filter(|x| inside(*x, y)) {
            let sides =
                [(1, 0), (-1, 0), (0, 1), (0, -1)].into_iter().filter(|(dx, dy)| !inside(x + dx, y + dy));
            let middle = [x as f64 + 0.5, y as f64 + 0.5];
            points.extend(sides.map(|(dx, dy)| [middle[0] + dx as f64 / 2.0, middle[1] + dy as f64 / 2.0]));
        }
    }
    points
}

/// Length round a region by weighing the ways its border pixels touch: 1 straight, root 2 slanting, half of both where
/// they meet. Source: Benkrid and Crookes, "Design and FPGA implementation of a perimeter estimator", 2000 (from memory,
/// unverified); agrees with the oracle of the tests.
#[must_use]
pub fn perimeter(mask: &Plane<u32>, region: &Region) -> f64 {
    let inside = |x: isize, y: isize| mask.holds(x, y) && mask.at(x, y) == region.label;
    let edge = |x: isize, y: isize| {
        inside(x, y) && !(inside(x + 1, y) && inside(x - 1, y) && inside(x, y + 1) && inside(x, y - 1))
    };
    let [left, top, right, bottom] = region.bounds.map(usize::cast_signed);
    let mut length = 0.0;
    for y in top..bottom {
        for x in (left..right).filter(|x| edge(*x, y)) {
            let straight = [(1, 0), (-1, 0), (0, 1), (0, -1)];
            let slanting = [(1, 1), (-1, 1), (1, -1), (-1, -1)];
            let count =
                |ways: [(isize, isize); 4]| ways.iter().filter(|(dx, dy)| edge(x + dx, y + dy)).count();
            length += match (count(straight), count(slanting)) {
                (2, 0..=2) => 1.0,
                (0, 2) | (1, 3) => std::f64::consts::SQRT_2,
                (1, 1 | 2) => f64::midpoint(1.0, std::f64::consts::SQRT_2),
                _ => 0.0,
            };
        }
    }
    length
}
