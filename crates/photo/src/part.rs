//! Parting the fruit from the sheet and from each other.
//!
//! Otsu's threshold on how unlike the sheet a pixel is, holes filled; then each patch is flooded from its inmost pixels
//! outwards, and two floods that meet where it is nearly as wide as the smaller one are one fruit. Start at [`fruit`].

use crate::plane::Plane;
use crate::region::{Region, labelled, regions};

/// The neck between two fruit is narrower than this share of the smaller one; pears and plums narrow less.
const NECK_SHARE: f32 = 0.88;
/// Steps of CIELAB below which nothing is told from the sheet.
const LEAST_STEP: f32 = 6.0;

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
pub fn fruit(unlike: &Plane<f32>, least_area: usize) -> Parted {
    let smooth = unlike.box_mean(1);
    let (threshold, apart) = otsu(&smooth);
    let set = filled(&smooth.map(|step| threshold.max(LEAST_STEP) < step), least_area);
    let depth = depths(&set);
    // A flood may leave crumbs across the line where it met another: each piece is a part of its own.
    let labels = labelled(&flooded(&depth));
    let parts = regions(&labels).into_iter().filter(|part| least_area <= part.area).collect();
    Parted { labels, parts, apart }
}

/// The threshold with the greatest variance between the two classes, and that variance's share. Source: Otsu, IEEE Trans.
/// SMC 9, 1979 (from memory, unverified).
fn otsu(steps: &Plane<f32>) -> (f32, f64) {
    const BINS: usize = 256;
    const WIDEST: f32 = 90.0;
    let mut counts = [0.0_f64; BINS];
    for step in steps.cells() {
        let bin = ((step / WIDEST * BINS as f32) as usize).min(BINS - 1);
        counts.iter_mut().skip(bin).take(1).for_each(|count| *count += 1.0);
    }
    let total: f64 = counts.iter().sum();
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

/// The set pixels with every hole smaller than `largest_hole` pixels: a highlight or a calyx, not the sheet between fruit.
fn filled(set: &Plane<bool>, largest_hole: usize) -> Plane<bool> {
    let ground = labelled(&set.map(|inside| u32::from(!inside)));
    let open: std::collections::BTreeSet<u32> =
        regions(&ground).into_iter().filter(|hole| largest_hole < hole.area).map(|hole| hole.label).collect();
    ground.map(|label| !open.contains(&label))
}

/// Distance of every set pixel to the ground, px. Source: Felzenszwalb and Huttenlocher, Theory of Computing 8, 2012 (from
/// memory, unverified); here columns first by two sweeps, then rows by the least of the near columns.
fn depths(set: &Plane<bool>) -> Plane<f32> {
    const FAR: f32 = 1e4;
    let (width, height) = (set.width(), set.height());
    let mut column = set.map(|inside| if inside { FAR } else { 0.0 });
    for x in 0..width {
        for (from, rows) in [(-1, (0..height).collect::<Vec<_>>()), (1, (0..height).rev().collect())] {
            for y in rows {
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
fn flooded(depth: &Plane<f32>) -> Plane<u32> {
    let mut order: Vec<usize> = (0..depth.cells().len()).filter(|at| 0.0 < cell(depth, *at)).collect();
    order.sort_by(|p, q| cell(depth, *q).total_cmp(&cell(depth, *p)));
    let mut basins = Basins { leads: vec![0], peaks: vec![0.0] };
    let mut labels = Plane::filled(depth.width(), depth.height(), 0_u32);
    for at in order {
        let (x, y, here) = (at % depth.width(), at / depth.width(), cell(depth, at));
        let (sx, sy) = (x.cast_signed(), y.cast_signed());
        let mut chosen = 0;
        for (dx, dy) in [(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1)] {
            if !labels.holds(sx + dx, sy + dy) {
                continue;
            }
            let other = basins.lead(labels.at(sx + dx, sy + dy));
            chosen = if chosen == 0 || other == 0 || chosen == other {
                chosen.max(other)
            } else {
                basins.meet(chosen, other, here)
            };
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

    /// One basin where the neck is wide, else the deeper of the two.
    fn meet(&mut self, one: u32, other: u32, neck: f32) -> u32 {
        let peak = |label: u32| self.peaks.get(label as usize).copied().unwrap_or(0.0);
        let (deep, shallow) = if peak(one) < peak(other) { (other, one) } else { (one, other) };
        if NECK_SHARE * peak(shallow) < neck
            && let Some(lead) = self.leads.get_mut(shallow as usize)
        {
            *lead = deep;
        }
        deep
    }
}
