//! A fruit's outline between the pixels: where its colour changes most across the border of its mask.
//!
//! A mask's border is drawn by a threshold, and light that a fruit throws on its own shadow makes it too fat; the steepest
//! change does not move with it. Start at [`refined`].

use crate::colour::Linear;
use crate::contour::contour;
use crate::outline::Point;
use crate::plane::Plane;
use crate::pose::steepest;
use crate::region::Region;
use crate::sheet::Sheet;
use crate::surface::light_between;

/// Contour points on either side that a point is smoothed with.
const SMOOTH: usize = 2;
/// How far from the contour the edge is looked for, px.
const REACH: f64 = 3.5;
/// Fruit and sheet that differ less than this, in linear light from 0 to 1, have no edge that could be found.
const LEAST_STEP: f64 = 0.01;

/// The outline of one part of a mask, sharpened where nothing else lies against it, and how plainly the part ends along it: from 0 to
/// 1.
#[must_use]
pub fn refined(
    pixels: &Plane<[u8; 3]>,
    labels: &Plane<u32>,
    part: &Region,
    sheet: &Sheet,
) -> (Vec<Point>, f64) {
    let found = contour(pixels, (labels, part), sheet);
    let smooth = smoothed(&found.points);
    let count = smooth.len();
    let near = |at: usize, step: usize| smooth.get((at + step) % count.max(1)).copied().unwrap_or_default();
    let ways: Vec<Point> = (0..count)
        .map(|at| {
            let (before, after) = (near(at, count - 3 % count.max(1)), near(at, 3));
            let along = [after[0] - before[0], after[1] - before[1]];
            let length = along[0].hypot(along[1]).max(1e-9);
            [along[1] / length, -along[0] / length]
        })
        .collect();
    let offs: Vec<f64> =
        smooth.iter().zip(&ways).map(|(at, out)| off(pixels, labels, *at, *out).unwrap_or(0.0)).collect();
    let calm = means(&medians(&offs));
    let moved = smooth.iter().zip(&ways).zip(calm);
    let points = moved.map(|((at, out), off)| [at[0] + off * out[0], at[1] + off * out[1]]).collect();
    (points, found.plainness)
}

fn smoothed(points: &[Point]) -> Vec<Point> {
    let (count, window) = (points.len(), 2 * SMOOTH + 1);
    let share = 1.0 / window as f64;
    (0..count)
        .map(|at| {
            let near = points.iter().cycle().skip(at + count - SMOOTH.min(count)).take(window);
            near.fold([0.0, 0.0], |sum, point| [sum[0] + share * point[0], sum[1] + share * point[1]])
        })
        .collect()
}

/// Contour points on either side that a step is held against.
const NEIGHBOURS: usize = 4;

fn medians(offs: &[f64]) -> Vec<f64> {
    round_about(offs, |near| {
        near.sort_by(f64::total_cmp);
        near.get(near.len() / 2).copied().unwrap_or(0.0)
    })
}

fn means(offs: &[f64]) -> Vec<f64> {
    round_about(offs, |near| near.iter().sum::<f64>() / near.len().max(1) as f64)
}

/// Every step as its neighbours on the closed border have it.
fn round_about(offs: &[f64], told: fn(&mut [f64]) -> f64) -> Vec<f64> {
    let (count, window) = (offs.len(), 2 * NEIGHBOURS + 1);
    let near = |at: usize| offs.iter().cycle().skip(at + count - NEIGHBOURS.min(count)).take(window).copied();
    (0..count).map(|at| told(&mut near(at).collect::<Vec<_>>())).collect()
}

/// How far outside the mask's border the colour turns from fruit to sheet; `None` where another fruit lies against it.
///
/// It is told in linear light, in which a pixel that is half fruit and half sheet lies in the middle whatever the sheet's colour:
/// beside a dark sheet every other scale moves the edge outwards.
fn off(pixels: &Plane<[u8; 3]>, labels: &Plane<u32>, at: Point, out: Point) -> Option<f64> {
    let place = |off: f64| [at[0] + off * out[0], at[1] + off * out[1]];
    let [x, y] = place(REACH + 1.0).map(|part| part.floor() as isize);
    if labels.at(x, y) != 0 || !labels.holds(x, y) {
        return None;
    }
    let colour = |off: f64| band(pixels, place(off), [-out[1], out[0]]);
    let (fruit, ground) = (colour(-REACH), colour(REACH));
    let way = minus(fruit, ground);
    let length = way.iter().map(|part| part * part).sum::<f64>().sqrt();
    if length < LEAST_STEP {
        return None;
    }
    let along =
        |off: f64| minus(colour(off), ground).iter().zip(way).map(|(p, q)| p * q).sum::<f64>() / length;
    steepest(|off| -along(off), REACH - 0.5).map(|(off, _)| off)
}

fn minus(one: Linear, other: Linear) -> Linear {
    [one[0] - other[0], one[1] - other[1], one[2] - other[2]]
}

/// Pixels on either side along the border over which light is taken together, against noise.
const BAND: i32 = 2;

fn band(pixels: &Plane<[u8; 3]>, at: Point, along: Point) -> Linear {
    let mut light = [0.0; 3];
    for step in (-BAND..=BAND).map(f64::from) {
        let own = light_between(pixels, [at[0] + step * along[0], at[1] + step * along[1]]);
        light.iter_mut().zip(own).for_each(|(sum, own)| *sum += own / f64::from(2 * BAND + 1));
    }
    light
}
