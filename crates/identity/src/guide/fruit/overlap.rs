//! Whether two ways into classes can be true of the same fruit.
//!
//! Weight and shape span a plane of logarithms; length and width are straight lines in it, because a fruit
//! is as good as an ellipsoid ([`crate::ellipsoid`]). Two ways meet where the region that both leave in
//! that plane has an area, and their bands of every other measure meet too.

use super::measure::Measure;
use super::{Band, Border, Way};
use crate::ellipsoid::LOG_DENSITY;

/// Corners of the plane looked at: weight 10 mg to 10 kg, shape 0.1 to 10. Every tomato lies inside.
const PLANE: [(f64, f64); 4] = [(-4.6, -2.3), (9.2, -2.3), (9.2, 2.3), (-4.6, 2.3)];

/// A region of less area than this (in squared logarithms) is a shared border, not an overlap.
const NO_AREA: f64 = 1e-9;

/// Whether some fruit fits both ways.
pub(super) fn meet(borders: &[Border], one: &Way, other: &Way) -> bool {
    aside_meets(borders, one, other) && NO_AREA < area(&shared_region(borders, one, other))
}

/// The line of a measure in the plane: its logarithm is `weight * w + shape * r + constant`.
fn line(measure: Measure) -> Option<(f64, f64, f64)> {
    match measure {
        Measure::Weight => Some((1.0, 0.0, 0.0)),
        Measure::Shape => Some((0.0, 1.0, 0.0)),
        Measure::Width => Some((1.0 / 3.0, -1.0 / 3.0, -LOG_DENSITY / 3.0)),
        Measure::Length => Some((1.0 / 3.0, 2.0 / 3.0, -LOG_DENSITY / 3.0)),
        _ => None,
    }
}

fn range(borders: &[Border], band: &Band) -> (f64, f64) {
    let log = |index: Option<usize>| index.and_then(|index| borders.get(index)).map(Border::log);
    (log(band.from).unwrap_or(f64::NEG_INFINITY), log(band.below).unwrap_or(f64::INFINITY))
}

/// Whether the bands of all measures outside the plane meet.
fn aside_meets(borders: &[Border], one: &Way, other: &Way) -> bool {
    let aside = one.bands.iter().filter(|band| line(band.measure).is_none());
    aside.into_iter().all(|band| {
        let (from, below) = range(borders, band);
        let theirs = other.bands.iter().find(|theirs| theirs.measure == band.measure);
        theirs.map(|theirs| range(borders, theirs)).is_none_or(|(low, high)| from < high && low < below)
    })
}

fn shared_region(borders: &[Border], one: &Way, other: &Way) -> Vec<(f64, f64)> {
    let mut region = PLANE.to_vec();
    for band in one.bands.iter().chain(&other.bands) {
        if let Some((weight, shape, constant)) = line(band.measure) {
            let (from, below) = range(borders, band);
            region = clip(&region, |(w, r)| weight * w + shape * r + constant - from);
            region = clip(&region, |(w, r)| below - weight * w - shape * r - constant);
        }
    }
    region
}

/// Keeps the part of a convex region where `height` is not negative (Sutherland and Hodgman 1974).
fn clip(region: &[(f64, f64)], height: impl Fn((f64, f64)) -> f64) -> Vec<(f64, f64)> {
    let mut kept = Vec::new();
    for (index, &here) in region.iter().enumerate() {
        let next = region.get(index + 1).or(region.first()).copied().unwrap_or(here);
        let (mine, theirs) = (height(here), height(next));
        if 0.0 <= mine {
            kept.push(here);
        }
        if (mine < 0.0) != (theirs < 0.0) && mine.is_finite() && theirs.is_finite() {
            let way = mine / (mine - theirs);
            kept.push((here.0 + way * (next.0 - here.0), here.1 + way * (next.1 - here.1)));
        }
    }
    kept
}

/// Area of a polygon by the shoelace sum.
fn area(region: &[(f64, f64)]) -> f64 {
    let next = region.iter().cycle().skip(1);
    region.iter().zip(next).map(|(here, next)| here.0 * next.1 - next.0 * here.1).sum::<f64>().abs() / 2.0
}
