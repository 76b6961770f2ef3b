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
#[must_use]
pub fn labelled(set: &Plane<u32>) -> Plane<u32> {
    let mut labels = Plane::filled(set.width(), set.height(), 0_u32);
    let (mut last, mut open) = (0, Vec::new());
    for y in 0..set.height() {
        for x in 0..set.width() {
            let (x, y) = (x.cast_signed(), y.cast_signed());
            if 0 < set.at(x, y) && labels.at(x, y) == 0 {
                last += 1;
                labels.set(x.cast_unsigned(), y.cast_unsigned(), last);
                open.push((x, y));
                spread_label(set, &mut labels, &mut open, last);
            }
        }
    }
    labels
}

fn spread_label(set: &Plane<u32>, labels: &mut Plane<u32>, open: &mut Vec<(isize, isize)>, label: u32) {
    while let Some((x, y)) = open.pop() {
        let kind = set.at(x, y);
        for (x, y) in [(x + 1, y), (x - 1, y), (x, y + 1), (x, y - 1)] {
            if set.holds(x, y) && set.at(x, y) == kind && labels.at(x, y) == 0 {
                labels.set(x.cast_unsigned(), y.cast_unsigned(), label);
                open.push((x, y));
            }
        }
    }
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
