//! Parting the fruit from the sheet and from each other.
//!
//! Otsu's threshold on how unlike the sheet a pixel is, holes filled; then each patch is flooded from its inmost pixels
//! outwards, and two floods that meet where it is nearly as wide as the smaller one are one fruit. Start at [`fruit`].

use crate::outline::{hull, moments};
use crate::plane::Plane;
use crate::region::{Region, labelled, regions, rim};

/// The neck between two fruit is narrower than this share of the smaller one; pears and plums narrow less.
const NECK_SHARE: f32 = 0.88;

/// Fruit parted: numbered pixels, their regions, and how far the two classes lie apart (between-class share of the
/// variance; 1 is perfect).
#[derive(Clone, Debug)]
pub struct Parted {
    /// The number of the fruit on every pixel, 0 for the sheet.
    pub labels: Plane<u32>,
    /// The parts.
    pub parts: Vec<Region>,
    /// Share of the variance between fruit and sheet.
    pub apart: f64,
}

/// Parts fruit of at least `least_area` pixels.
#[must_use]
pub fn fruit(unlike: &Plane<f32>, ground: &Plane<bool>, least_area: usize) -> Parted {
    let smooth = unlike.box_mean(1);
    let (between, apart) = otsu(&smooth, ground);
    let least = between.min(sure_step(&smooth, ground, between)).max(NO_SHEET);
    let steps = smooth.cells().iter().zip(ground.cells());
    let cells = steps.map(|(step, on_sheet)| *on_sheet && least < *step).collect();
    let sure = Plane::of_cells(unlike.width(), unlike.height(), cells).unwrap_or(ground.map(|_| false));
    let set = filled(&calm(&halfway(&smooth, &sure)), &smooth, least_area);
    let depth = depths(&set);
    // A flood may leave crumbs across the line where it met another: each piece is a part of its own.
    let mut labels = labelled(&flooded(&depth, NECK_SHARE));
    part_again(&mut labels, &depth, least_area);
    let parts = regions(&labels).into_iter().filter(|part| least_area <= part.area).collect();
    Parted { labels, parts, apart }
}

/// A hole is filled where it is this many times smaller than the least fruit: a highlight, not the sheet between fruit.
const HOLE: usize = 5;
/// Steps that no shadow takes, and how many times the sheet's own unevenness they are at the least: a dark fruit lies nearer to
/// the sheet than halfway to a red one (found on the made pictures).
const SURE_STEP: f32 = 15.0;
const UNEVENNESS: f32 = 2.5;

/// The step from which on a pixel is surely none of the sheet: so many times the middle step of the sheet's own pixels.
fn sure_step(steps: &Plane<f32>, ground: &Plane<bool>, between: f32) -> f32 {
    let own = steps.cells().iter().zip(ground.cells());
    let mut own: Vec<f32> = own
        .filter(|(step, on_sheet)| **on_sheet && 0.0 < **step && **step < between)
        .map(|(step, _)| *step)
        .collect();
    let middle = own.len() / 2;
    if own.is_empty() {
        return SURE_STEP;
    }
    let (_, median, _) = own.select_nth_unstable_by(middle, f32::total_cmp);
    SURE_STEP.max(UNEVENNESS * *median)
}

/// Of every patch the pixels that lie nearer to its own colour than to the sheet: a dark fruit differs less from the sheet than a
/// red one, and the light that a red one throws on its shadow differs as much as the dark one.
fn halfway(steps: &Plane<f32>, sure: &Plane<bool>) -> Plane<bool> {
    let patches = labelled(&sure.map(u32::from));
    let most = patches.cells().iter().max().copied().unwrap_or(0) as usize;
    let mut own: Vec<Vec<f32>> = vec![Vec::new(); most + 1];
    for (step, patch) in steps.cells().iter().zip(patches.cells()).filter(|(_, patch)| 0 < **patch) {
        if let Some(own) = own.get_mut(*patch as usize) {
            own.push(*step);
        }
    }
    let borders: Vec<f32> = own.iter_mut().map(|own| own_colour(own) / 2.0).collect();
    let cells =
        steps.cells().iter().zip(patches.cells()).map(|(step, patch)| {
            0 < *patch && borders.get(*patch as usize).is_some_and(|border| border < step)
        });
    Plane::of_cells(steps.width(), steps.height(), cells.collect()).unwrap_or(sure.clone())
}

/// The step that seven in ten of a patch's pixels stay below: its colour, for its rim and shadow differ less and its shine more.
fn own_colour(steps: &mut [f32]) -> f32 {
    let place = steps.len() * 7 / 10;
    if steps.is_empty() { 0.0 } else { *steps.select_nth_unstable_by(place, f32::total_cmp).1 }
}

/// Of its convex hull a fruit covers at least this share: a ribbed one 0.95, a pear 0.96 (the made pictures). What covers less
/// is parted again.
const SOLID: f64 = 0.93;
/// Necks at which a part that is not solid is parted again, one after the other until its pieces are solid.
const WIDER_NECKS: [f32; 3] = [0.93, 0.96, 0.985];

/// Parts whatever is not solid once more, at wider necks, and keeps the pieces where all of them are more solid.
fn part_again(labels: &mut Plane<u32>, depth: &Plane<f32>, least_area: usize) {
    let own = regions(labels);
    let mut next = own.iter().map(|part| part.label).max().unwrap_or(0);
    for part in own.iter().filter(|part| least_area <= part.area) {
        let before = solidity(labels, part);
        if SOLID <= before {
            continue;
        }
        let alone = alone(labels, depth, part);
        let tried = WIDER_NECKS.iter().map(|neck| labelled(&flooded(&alone, *neck)));
        let better = tried.into_iter().find(|pieces| {
            let large = regions(pieces).into_iter().filter(|piece| least_area <= piece.area);
            let solid: Vec<f64> = large.map(|piece| solidity(pieces, &piece)).collect();
            1 < solid.len() && solid.iter().all(|solid| before < *solid && LEAST_PIECE < *solid)
        });
        if let Some(pieces) = better {
            next = lay(labels, &pieces, part, next);
        }
    }
}

/// A piece of a part that is parted again covers at least this share of its convex hull.
const LEAST_PIECE: f64 = 0.92;

fn solidity(labels: &Plane<u32>, part: &Region) -> f64 {
    let rim = rim(labels, part);
    moments(&hull(&rim)).map_or(1.0, |hull| part.area as f64 / hull.area)
}

/// The depths of one part, and nothing round it: the part's own bounds with a pixel to spare.
fn alone(labels: &Plane<u32>, depth: &Plane<f32>, part: &Region) -> Plane<f32> {
    let [left, top, right, bottom] = part.bounds;
    let mut alone = Plane::filled(right - left + 2, bottom - top + 2, 0.0_f32);
    for y in top..bottom {
        for x in left..right {
            let (sx, sy) = (x.cast_signed(), y.cast_signed());
            if labels.at(sx, sy) == part.label {
                alone.set(x - left + 1, y - top + 1, depth.at(sx, sy));
            }
        }
    }
    alone
}

/// Numbers the pieces after the last number given, and gives the last number now.
fn lay(labels: &mut Plane<u32>, pieces: &Plane<u32>, part: &Region, last: u32) -> u32 {
    let [left, top, right, bottom] = part.bounds;
    let mut most = last;
    for y in top..bottom {
        for x in left..right {
            let piece = pieces.at((x - left + 1).cast_signed(), (y - top + 1).cast_signed());
            if 0 < piece {
                labels.set(x, y, last + piece);
                most = most.max(last + piece);
            }
        }
    }
    most
}

/// The threshold with the greatest variance between the two classes, and that variance's share. Source: Otsu, IEEE Trans.
/// SMC 9, 1979 (from memory, unverified).
fn otsu(steps: &Plane<f32>, ground: &Plane<bool>) -> (f32, f64) {
    const BINS: usize = 256;
    const WIDEST: f32 = 90.0;
    let mut counts = [0.0_f64; BINS];
    for (step, _) in steps.cells().iter().zip(ground.cells()).filter(|(_, on_sheet)| **on_sheet) {
        let bin = ((step / WIDEST * BINS as f32) as usize).min(BINS - 1);
        counts.iter_mut().skip(bin).take(1).for_each(|count| *count += 1.0);
    }
    let total = counts.iter().sum::<f64>().max(1.0);
    let mean = counts.iter().enumerate().map(|(bin, count)| bin as f64 * count).sum::<f64>() / total;
    let spread: f64 = counts.iter().enumerate().map(|(bin, n)| n * (bin as f64 - mean).powi(2)).sum::<f64>();
    let (mut below, mut sum, mut best) = (0.0, 0.0, (0, 0.0));
    for (bin, count) in counts.iter().enumerate() {
        below += count;
        sum += bin as f64 * count;
        let above = total - below;
        if 0.0 < below && 0.0 < above {
            let between = (mean * below - sum).powi(2) * total / (below * above);
            best = if best.1 < between { (bin, between) } else { best };
        }
    }
    (best.0 as f32 * WIDEST / BINS as f32, if 0.0 < spread { best.1 / spread } else { 0.0 })
}

/// The set pixels with every hole filled that is small, or no sheet: a highlight, a scar or a calyx, and not the sheet that is
/// seen between fruit.
fn filled(set: &Plane<bool>, steps: &Plane<f32>, least_area: usize) -> Plane<bool> {
    let ground = labelled(&set.map(|inside| u32::from(!inside)));
    let holes = regions(&ground);
    let most = holes.iter().map(|hole| hole.label).max().unwrap_or(0) as usize;
    let mut sums = vec![0.0_f64; most + 1];
    for (label, step) in ground.cells().iter().zip(steps.cells()) {
        sums.get_mut(*label as usize).into_iter().for_each(|sum| *sum += f64::from(*step));
    }
    let is_sheet = |hole: &Region| {
        let mean = sums.get(hole.label as usize).map_or(0.0, |sum| sum / hole.area as f64);
        least_area / HOLE < hole.area && (mean < f64::from(NO_SHEET) || LARGEST_SCAR * least_area < hole.area)
    };
    let open: std::collections::BTreeSet<u32> =
        holes.iter().filter(|hole| is_sheet(hole)).map(|hole| hole.label).collect();
    ground.map(|label| !open.contains(&label))
}

/// What is less unlike the sheet than this, in CIELAB steps, is the sheet (found on the made pictures, as for the sheet's rim).
const NO_SHEET: f32 = 10.0;
/// A hole this many times larger than the least fruit is the sheet whatever its colour: it may lie in shadow.
const LARGEST_SCAR: usize = 4;

/// The set with every pixel as most of those round it: a border that noise has frayed is made smooth.
fn calm(set: &Plane<bool>) -> Plane<bool> {
    set.map(|inside| if inside { 1.0 } else { 0.0 }).box_mean(CALM).map(|share| 0.5 < share)
}

/// How far round a pixel is looked, px.
const CALM: usize = 4;

/// Distance of every set pixel to the ground, px. Source: Felzenszwalb and Huttenlocher, Theory of Computing 8, 2012 (from
/// memory, unverified); here columns first by two sweeps, then rows by the least of the near columns.
fn depths(set: &Plane<bool>) -> Plane<f32> {
    const FAR: f32 = 1e4;
    let (width, height) = (set.width(), set.height());
    let mut column = set.map(|inside| if inside { FAR } else { 0.0 });
    for (from, rows) in [(-1, (0..height).collect::<Vec<_>>()), (1, (0..height).rev().collect())] {
        for y in rows {
            for x in 0..width {
                let (sx, sy) = (x.cast_signed(), y.cast_signed());
                let here = column.at(sx, sy);
                if 0.0 < here && column.holds(sx, sy + from) {
                    column.set(x, y, here.min(column.at(sx, sy + from) + 1.0));
                }
            }
        }
    }
    let mut depth = Plane::filled(width, height, 0.0_f32);
    for y in 0..height {
        for x in 0..width {
            let (sx, sy) = (x.cast_signed(), y.cast_signed());
            let mut least = column.at(sx, sy).powi(2);
            if least == 0.0 {
                continue;
            }
            let mut off = 1_isize;
            while (off * off) as f32 <= least && off < width.cast_signed() {
                for side in [sx - off, sx + off] {
                    if column.holds(side, sy) {
                        least = least.min(column.at(side, sy).powi(2) + (off * off) as f32);
                    }
                }
                off += 1;
            }
            depth.set(x, y, least.sqrt());
        }
    }
    depth
}

/// Floods from the deepest pixels outwards; basins that meet at a wide neck become one.
fn flooded(depth: &Plane<f32>, neck_share: f32) -> Plane<u32> {
    let mut order: Vec<usize> = (0..depth.cells().len()).filter(|at| 0.0 < cell(depth, *at)).collect();
    order.sort_by(|p, q| cell(depth, *q).total_cmp(&cell(depth, *p)));
    let mut basins = Basins { leads: vec![0], peaks: vec![0.0], neck_share };
    let mut labels = Plane::filled(depth.width(), depth.height(), 0_u32);
    for at in order {
        let (x, y, here) = (at % depth.width(), at / depth.width(), cell(depth, at));
        let (sx, sy) = (x.cast_signed(), y.cast_signed());
        let (mut chosen, mut deepest) = (0, 0.0_f32);
        for (dx, dy) in [(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)] {
            let other = if labels.holds(sx + dx, sy + dy) { labels.at(sx + dx, sy + dy) } else { 0 };
            if other == 0 {
                continue;
            }
            if chosen != 0 {
                basins.meet(basins.lead(chosen), basins.lead(other), here);
            }
            // A pixel belongs where the way inwards is steepest: so that the line between two floods runs from the neck straight out.
            let slope = (depth.at(sx + dx, sy + dy) - here) / ((dx * dx + dy * dy) as f32).sqrt();
            (chosen, deepest) =
                if chosen == 0 || deepest < slope { (other, slope) } else { (chosen, deepest) };
        }
        let label = if chosen == 0 { basins.begin(here) } else { chosen };
        labels.set(x, y, label);
    }
    labels.map(|label| basins.lead(label))
}

fn cell(depth: &Plane<f32>, at: usize) -> f32 {
    depth.cells().get(at).copied().unwrap_or(0.0)
}

struct Basins {
    leads: Vec<u32>,
    peaks: Vec<f32>,
    neck_share: f32,
}

impl Basins {
    fn lead(&self, mut label: u32) -> u32 {
        while let Some(lead) = self.leads.get(label as usize)
            && *lead != label
        {
            label = *lead;
        }
        label
    }

    fn begin(&mut self, peak: f32) -> u32 {
        let label = u32::try_from(self.leads.len()).unwrap_or(0);
        self.leads.push(label);
        self.peaks.push(peak);
        label
    }

    /// Makes two basins one where the neck is wide.
    fn meet(&mut self, one: u32, other: u32, neck: f32) {
        let peak = |label: u32| self.peaks.get(label as usize).copied().unwrap_or(0.0);
        let (deep, shallow) = if peak(one) < peak(other) { (other, one) } else { (one, other) };
        if one != other
            && self.neck_share * peak(shallow) < neck
            && let Some(lead) = self.leads.get_mut(shallow as usize)
        {
            *lead = deep;
        }
    }
}
