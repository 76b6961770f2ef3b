//! The camera's place from the card, by laying every straight edge of its markers on the picture.
//!
//! Each marker has twelve edges; where the light changes most along lines across them is read between the pixels, and the
//! camera moved until all edges fit. The focal length is held by what the camera said of it. Start at [`sharpen`].

use crate::camera::Camera;
use crate::card::Card;
use crate::fit::settle;
use crate::outline::Point;
use crate::plane::Plane;

/// Half sides of a marker's squares in modules, and whether the light grows outwards.
const SQUARES: [(f64, f64); 3] = [(3.5, 1.0), (2.5, -1.0), (1.5, 1.0)];
/// Places read along a side, over its middle 70%.
const READINGS: i32 = 11;
/// How far off an edge's reading is, px, with what it shares with its neighbours: 0.3 by itself (found on the made
/// pictures), and some fifty readings that err together.
const READING_SD: f64 = 2.0;

/// One reading: a place of an edge on the card, the way across it in the picture, and where the edge was found.
struct Reading {
    place: Point,
    across: Point,
    found: Point,
    width: f64,
}

/// A camera laid on the card's edges.
#[derive(Clone, Copy, Debug)]
pub struct Pose {
    /// The camera.
    pub camera: Camera,
    /// Pixels an edge takes from dark to light (10 to 90%), median: how blurred the picture is.
    pub edge_width: f64,
    /// Pixels that the edges lie off the card's straight lines, root mean square.
    pub residual: f64,
}

/// What is known of how a lens bends before the card is looked at.
#[derive(Clone, Copy, Debug)]
pub struct Bend {
    /// The likeliest.
    pub mean: f64,
    /// How well that is known.
    pub sd: f64,
}

/// Phones leave at most a few hundredths (common practice, no source).
pub const USUAL_BEND: Bend = Bend { mean: 0.0, sd: 0.02 };

/// Moves a first camera until the card's edges fit. `focal_sd`: how well the logarithm of its focal length is known.
#[must_use]
pub fn sharpen(light: &Plane<f32>, card: &Card, first: Camera, focal_sd: f64, lens: Bend) -> Option<Pose> {
    let (mut camera, mut last) = (first, None);
    for _ in 0..4 {
        let readings = edges(light, card, &camera);
        if readings.len() < 100 {
            return None;
        }
        let off = |camera: &Camera, reading: &Reading| {
            let [x, y] = camera.sees([reading.place[0], reading.place[1], 0.0]);
            (reading.found[0] - x) * reading.across[0] + (reading.found[1] - y) * reading.across[1]
        };
        let start = camera;
        let told = (start.focal / first.focal).ln();
        let nudge = settle([0.0; 8], [1e-5, 1e-5, 1e-5, 1e-2, 1e-2, 1e-2, 1e-4, 1e-4], |nudge| {
            let tried = start.nudged(nudge);
            let edges = readings.iter().map(|reading| robust(off(&tried, reading)) / READING_SD);
            edges.chain([(nudge[6] + told) / focal_sd, (tried.lens - lens.mean) / lens.sd]).collect()
        });
        camera = start.nudged(nudge);
        let squares: f64 = readings.iter().map(|reading| off(&camera, reading).powi(2)).sum();
        let mut widths: Vec<f64> = readings.iter().map(|reading| reading.width).collect();
        widths.sort_by(f64::total_cmp);
        let edge_width = widths.get(widths.len() / 2).copied()?;
        last = Some(Pose { camera, edge_width, residual: (squares / readings.len() as f64).sqrt() });
    }
    last
}

/// Far readings count less and less: a smudge must not drag the card.
fn robust(off: f64) -> f64 {
    off / (1.0 + off.powi(2)).sqrt()
}

fn edges(light: &Plane<f32>, card: &Card, camera: &Camera) -> Vec<Reading> {
    let mut readings = Vec::new();
    for [u, v] in card.markers {
        for (half, outwards) in SQUARES {
            for [nu, nv] in [[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]] {
                for step in -READINGS / 2..=READINGS / 2 {
                    let along = 1.4 * half * f64::from(step) / f64::from(READINGS);
                    let place = [
                        u + card.module * (half * nu - along * nv),
                        v + card.module * (half * nv + along * nu),
                    ];
                    readings.extend(reading(light, card, camera, place, [nu, nv], outwards));
                }
            }
        }
    }
    readings
}

fn reading(
    light: &Plane<f32>,
    card: &Card,
    camera: &Camera,
    place: Point,
    out: Point,
    outwards: f64,
) -> Option<Reading> {
    let at = camera.sees([place[0], place[1], 0.0]);
    let beyond = camera.sees([place[0] + card.module * out[0], place[1] + card.module * out[1], 0.0]);
    // The way across is square to the edge in the picture, on the outer side.
    let aside = camera.sees([place[0] - card.module * out[1], place[1] + card.module * out[0], 0.0]);
    let (along, module) = ([aside[0] - at[0], aside[1] - at[1]], [beyond[0] - at[0], beyond[1] - at[1]]);
    let length = along[0].hypot(along[1]);
    let side = if 0.0 < along[1] * module[0] - along[0] * module[1] { 1.0 } else { -1.0 };
    let across = [side * along[1] / length, -side * along[0] / length];
    let reach = (0.45 * (module[0] * across[0] + module[1] * across[1])).clamp(1.5, 6.0);
    let value = |off: f64| light.between(at[0] + off * across[0], at[1] + off * across[1]);
    let (off, width) = steepest(|off| outwards * value(off), reach)?;
    Some(Reading { place, across, found: [at[0] + off * across[0], at[1] + off * across[1]], width })
}

/// Where a profile rises most within `reach` of 0, between the steps by a parabola, and how wide its rise is.
pub(crate) fn steepest(value: impl Fn(f64) -> f64, reach: f64) -> Option<(f64, f64)> {
    const STEP: f64 = 0.5;
    let count = (2.0 * reach / STEP).round() as i32;
    let place = |step: i32| STEP * f64::from(step) - reach;
    let slope = |at: f64| value(at + STEP) - value(at - STEP);
    let slopes: Vec<f64> = (0..=count).map(|step| slope(place(step))).collect();
    let (best, peak) = slopes.iter().enumerate().max_by(|p, q| p.1.total_cmp(q.1))?;
    let (before, after) = (slopes.get(best.checked_sub(1)?)?, slopes.get(best + 1)?);
    let bend = before - 2.0 * peak + after;
    if *peak <= 0.0 || 0.0 <= bend {
        return None;
    }
    let off = place(i32::try_from(best).ok()?) + STEP * (before - after) / (2.0 * bend);
    Some((off, (value(reach) - value(-reach)).max(0.0) * 2.0 * STEP / peak))
}
