//! The outer wall of a face: from the skin in to the gel of the locules.
//!
//! Start at [`wall`].

use super::Gel;
use super::flat::HALF;
use super::sectors::along;
use std::f64::consts::TAU;

/// Steps from the outline inwards, over the way to the middle, and the farthest in that gel is looked for.
const STEP: f64 = 0.005;
const INMOST: f64 = 0.45;
/// Before this the skin's own rim is passed over.
const SKIN: f64 = 0.02;
/// Of the directions that meet gel, those are locules' middles whose wall is among the thinner half: beside a septum it is thicker.
const THINNER: f64 = 0.5;
/// Fewer directions than this say nothing.
const FEWEST: usize = 20;
/// Standard deviation of where wall and gel meet, px, and relative of a wall that is not even.
const EDGE: f64 = 0.7;
const UNEVEN: f64 = 0.05;

/// The wall's thickness beside the locules and its standard deviation, mm: the middle of the thinner half of the directions that meet
/// gel.
pub(super) fn wall(gel: &Gel, radii: &[f64], pixels_a_millimetre: f64) -> Option<[f64; 2]> {
    let walls = radii.iter().enumerate().filter_map(|(way, radius)| {
        let turn = TAU * (way as f64 + 0.5) / radii.len() as f64;
        Some(radius * first_gel(gel, turn)?)
    });
    let mut walls: Vec<f64> = walls.collect();
    if walls.len() < FEWEST {
        return None;
    }
    walls.sort_by(f64::total_cmp);
    let thickness = *walls.get((THINNER / 2.0 * walls.len() as f64) as usize)?;
    Some([thickness, (EDGE / pixels_a_millimetre.max(1e-6)).hypot(UNEVEN * thickness)])
}

/// How far in from the outline gel begins in a direction, over the way to the middle.
fn first_gel(gel: &Gel, turn: f64) -> Option<f64> {
    let steps = (1..).map(|step| f64::from(step) * STEP).take_while(|inwards| *inwards < INMOST);
    let mut steps = steps.filter(|inwards| SKIN < *inwards);
    steps.find(|inwards| f64::from(HALF) < along(gel, turn, 1.0 - inwards))
}
