//! Locules counted on the way round: how often the face turns from septum to gel.
//!
//! The face is read in rings, each as a share of the way to the outline, so that ribs and ovals are straightened. Start at
//! [`counts`].

use super::Gel;
use std::f64::consts::TAU;

/// Directions on the way round.
const WAYS: usize = 720;
/// Rings: from, to (over the way to the outline), and how many.
const RINGS: (f64, f64, usize) = (0.36, 0.80, 12);
/// Ways on either side over which a ring is calmed, three times over: about 4 degrees in all.
const CALM: usize = 5;
/// A rise from septum to gel counts from this share of all the range on.
const PROMINENCE: f64 = 0.25;
/// Draws of rings, with repetition.
const DRAWS: u64 = 60;

/// Counts of sectors: over all rings first, then over draws of rings with repetition.
///
/// # Shape
/// [`DRAWS`] + 1 counts.
pub(super) fn counts(gel: &Gel) -> Vec<u32> {
    let rings = rings(gel);
    let all = peaks(&most(&rings.iter().collect::<Vec<_>>()));
    let draws = (0..DRAWS).map(|draw| {
        let picked = (0..RINGS.2 as u64).map(|place| mixed(draw * RINGS.2 as u64 + place) as usize % RINGS.2);
        peaks(&most(&picked.filter_map(|at| rings.get(at)).collect::<Vec<_>>()))
    });
    std::iter::once(all).chain(draws).collect()
}

/// A number that looks drawn, and is the same each time.
fn mixed(seed: u64) -> u64 {
    let mixed = (seed + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    let mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    (mixed ^ (mixed >> 27)) >> 20
}

/// The share of gel on the way round, ring by ring.
fn rings(gel: &Gel) -> Vec<Vec<f64>> {
    let (from, to, count) = RINGS;
    let ring = |at: usize| from + (to - from) * (at as f64 + 0.5) / count as f64;
    let way = |way: usize| TAU * way as f64 / WAYS as f64;
    (0..count).map(|at| (0..WAYS).map(|step| along(gel, way(step), ring(at))).collect()).collect()
}

/// The share of gel in a direction, so far out.
pub(super) fn along(gel: &Gel, turn: f64, out: f64) -> f64 {
    let half = gel.out.width() as f64 / 2.0;
    let (cos, sin) = (turn.cos(), turn.sin());
    let rim = rim(gel, [cos, sin], half);
    gel.share.between(half + out * rim * cos, half + out * rim * sin)
}

/// Cells from the middle to the outline in a direction: near the rim of the raster the way out is told by how far out a cell lies.
fn rim(gel: &Gel, [cos, sin]: [f64; 2], half: f64) -> f64 {
    let at = PROBE * half;
    let out = gel.out.between(half + at * cos, half + at * sin);
    at / out.max(1e-6)
}

/// Where the way out is asked, over half the raster: inside of every face.
const PROBE: f64 = 0.5;

/// On every way the share of gel that three rings in ten exceed: a seed covers a few rings, a septum all of them.
fn most(rings: &[&Vec<f64>]) -> Vec<f64> {
    let ring = (0..WAYS).map(|way| {
        let mut shares: Vec<f64> = rings.iter().filter_map(|ring| ring.get(way).copied()).collect();
        shares.sort_by(f64::total_cmp);
        shares.get(shares.len() * RANK.0 / RANK.1).copied().unwrap_or(0.0)
    });
    (0..3).fold(ring.collect(), |ring: Vec<f64>, _| calm(&ring))
}

const RANK: (usize, usize) = (7, 10);

fn calm(ring: &[f64]) -> Vec<f64> {
    let near = |at: usize| ring.iter().cycle().skip(at + WAYS - CALM).take(2 * CALM + 1);
    (0..WAYS).map(|at| near(at).sum::<f64>() / (2 * CALM + 1) as f64).collect()
}

/// Maxima that rise above the deepest way to the next higher one by a share of the range.
fn peaks(ring: &[f64]) -> u32 {
    let (low, high) = ring.iter().fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(*at), high.max(*at)));
    let rise = PROMINENCE * (high - low);
    let start = ring.iter().position(|at| *at <= low).unwrap_or(0);
    // From the deepest place once round: up by a rise, down by a rise.
    let (mut count, mut turn, mut extreme) = (0, Turn::Rising, low);
    for at in ring.iter().cycle().skip(start).take(WAYS + 1) {
        match turn {
            Turn::Rising if extreme + rise <= *at => {
                (count, turn, extreme) = (count + 1, Turn::Falling, *at);
            }
            Turn::Falling if *at <= extreme - rise => (turn, extreme) = (Turn::Rising, *at),
            Turn::Rising => extreme = extreme.min(*at),
            Turn::Falling => extreme = extreme.max(*at),
        }
    }
    count
}

#[derive(Clone, Copy)]
enum Turn {
    Rising,
    Falling,
}
