//! A closed line as its distance from a middle in even steps of angle, smoothed by its lowest waves.
//!
//! Start at [`Ring::round`].

use crate::fit::least_squares;
use crate::outline::Point;
use std::f64::consts::TAU;

/// Pixels of the line to a step of angle, about.
const PIXELS_A_WAY: f64 = 1.5;
/// Waves that are kept: an outline twice as long as wide needs eight.
const WAVES: usize = 8;
/// Rounds in which places that lie far off count less, and the share of the mean distance from which on they do.
const ROUNDS: usize = 4;
const FAR_OFF: f64 = 0.02;

/// A closed line round a middle.
#[derive(Clone, Debug)]
pub(crate) struct Ring {
    middle: Point,
    radii: Vec<f64>,
}

impl Ring {
    /// The smooth line through border points.
    pub(crate) fn round(points: &[Point], middle: Point) -> Self {
        let ways = ((points.len() as f64 / PIXELS_A_WAY) as usize).clamp(48, 720);
        let read = radii(points, middle, ways);
        Self::through(&read, &vec![1.0; ways], middle)
    }

    /// The smooth line through distances that count as much as their weights, and less the farther they lie off it.
    pub(crate) fn through(read: &[f64], told: &[f64], middle: Point) -> Self {
        let mut weights = told.to_vec();
        let mut smooth = read.to_vec();
        for _ in 0..ROUNDS {
            let Some(next) = smoothed(read, &weights) else { break };
            smooth = next;
            let far = FAR_OFF * smooth.iter().sum::<f64>() / smooth.len().max(1) as f64;
            let off = read.iter().zip(&smooth).map(|(read, smooth)| (read - smooth) / far);
            weights = told.iter().zip(off).map(|(told, off)| told / (1.0 + off * off)).collect();
        }
        Self { middle, radii: smooth }
    }

    /// Steps of angle.
    pub(crate) fn ways(&self) -> usize {
        self.radii.len()
    }

    /// Mean distance from the middle.
    pub(crate) fn mean(&self) -> f64 {
        self.radii.iter().sum::<f64>() / self.radii.len().max(1) as f64
    }

    /// The line's distance from the middle at a step of angle.
    pub(crate) fn at(&self, way: usize) -> f64 {
        self.radii.get(way).copied().unwrap_or(0.0)
    }

    /// The place at a step of angle and a distance.
    pub(crate) fn place(&self, way: usize, radius: f64) -> Point {
        let angle = TAU * way as f64 / self.ways() as f64;
        [self.middle[0] + radius * angle.cos(), self.middle[1] + radius * angle.sin()]
    }
}

/// Mean distance of the points in each step of angle; gaps take the one before.
pub(crate) fn radii(points: &[Point], middle: Point, ways: usize) -> Vec<f64> {
    let (mut sums, mut counts) = (vec![0.0_f64; ways], vec![0.0_f64; ways]);
    for [x, y] in points.iter().map(|p| [p[0] - middle[0], p[1] - middle[1]]) {
        let way = (y.atan2(x).rem_euclid(TAU) / TAU * ways as f64).round() as usize % ways;
        sums.iter_mut().skip(way).take(1).for_each(|sum| *sum += x.hypot(y));
        counts.iter_mut().skip(way).take(1).for_each(|count| *count += 1.0);
    }
    let mut last = sums.iter().sum::<f64>() / counts.iter().sum::<f64>().max(1.0);
    let read = sums.iter().zip(counts).map(|(sum, count)| {
        last = if 0.0 < count { sum / count } else { last };
        last
    });
    read.collect()
}

/// Unknowns of the smooth line: its mean and a sine and a cosine of every wave.
const UNKNOWNS: usize = 2 * WAVES + 1;
/// A wave's share of the mean distance is about this, over the square of how many waves there are: outlines are smooth. Beside it a
/// reading is off by so many pixels.
const SWAY: f64 = 0.3;
const READING_SD: f64 = 2.0;

/// The smooth line through distances that count as much as their weights; where none count it goes on as it came.
fn smoothed(read: &[f64], weights: &[f64]) -> Option<Vec<f64>> {
    let ways = read.len();
    let factors = |way: usize| {
        let angle = TAU * way as f64 / ways as f64;
        let mut factors = [1.0; UNKNOWNS];
        for (at, factor) in factors.iter_mut().enumerate().skip(1) {
            let turn = at.div_ceil(2) as f64 * angle;
            *factor = if at % 2 == 0 { turn.sin() } else { turn.cos() };
        }
        factors
    };
    let rows: Vec<[f64; UNKNOWNS]> = (0..ways).map(factors).collect();
    let weighed = rows.iter().zip(read).zip(weights).map(|((row, value), weight)| {
        let root = weight.sqrt() / READING_SD;
        (row.map(|factor| root * factor), root * value)
    });
    let mean = read.iter().sum::<f64>() / ways.max(1) as f64;
    let held = (1..UNKNOWNS).map(|at| {
        let mut row = [0.0; UNKNOWNS];
        let waves = at.div_ceil(2) as f64;
        row.iter_mut().skip(at).take(1).for_each(|factor| *factor = waves * waves / (SWAY * mean));
        (row, 0.0)
    });
    let found = least_squares(weighed.chain(held))?;
    Some(rows.iter().map(|row| row.iter().zip(found).map(|(p, q)| p * q).sum()).collect())
}
