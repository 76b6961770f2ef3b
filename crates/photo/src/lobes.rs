//! Lobes of a fruit that is seen along its axis: how often its outline goes in and out on the way round.
//!
//! The outline's distance from its middle is taken apart into waves; place and oval (up to two waves) do not count. Start at
//! [`lobes`].

use crate::outline::{Point, moments};
use crate::ring::radii;
use std::f64::consts::TAU;

/// Directions in which the outline's distance is read.
pub(crate) const WAYS: usize = 360;
/// Most lobes that are looked for.
const MOST: usize = 16;
/// Waves shallower than this share of the mean distance are no lobes (facts: 0.8%).
const SHALLOWEST: f64 = 0.008;
/// The lobes' wave, with its double, holds at least this share of all waves' power (facts: 35%).
const LEAST_SHARE: f64 = 0.35;

/// Lobes of an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lobes {
    /// How many.
    pub count: u32,
    /// How deep they are, over the mean distance from the middle.
    pub depth: f64,
}

/// The lobes of an outline; `None` where it is smooth or too irregular to count.
#[must_use]
pub fn lobes(outline: &[Point]) -> Option<Lobes> {
    let found = moments(outline)?;
    let radii = radii(outline, found.centroid, WAYS);
    let mean = radii.iter().sum::<f64>() / WAYS as f64;
    let power: Vec<f64> = (0..=2 * MOST).map(|waves| wave(&radii, waves)).collect();
    let at = |waves: usize| power.get(waves).copied().unwrap_or(0.0);
    let all: f64 = power.iter().skip(3).sum();
    let folded = |waves: usize| at(waves) + if waves < MOST { at(2 * waves) } else { 0.0 };
    let best = (3..=MOST).max_by(|p, q| at(*p).total_cmp(&at(*q))).unwrap_or(3);
    let depth = 2.0 * at(best).sqrt() / mean.max(1e-9);
    let is_plain = SHALLOWEST <= depth && LEAST_SHARE * all <= folded(best);
    is_plain.then(|| Lobes { count: u32::try_from(best).unwrap_or(0), depth })
}

/// The square of the share that so many waves have in the distances.
fn wave(radii: &[f64], waves: usize) -> f64 {
    let turn = |way: usize| TAU * (waves * way) as f64 / WAYS as f64;
    let sum = |part: fn(f64) -> f64| {
        radii.iter().enumerate().map(|(way, radius)| radius * part(turn(way))).sum::<f64>() / WAYS as f64
    };
    sum(f64::cos).powi(2) + sum(f64::sin).powi(2)
}
