//! How sharp a picture is, from its own strongest edges: for a picture in which no card is found, and that may only be blurred.
//!
//! The width of edges tells; how much a picture varies from pixel to pixel does not, for noise varies most. Start at
//! [`edge_width`].

use crate::plane::Plane;
use crate::pose::steepest;

/// The picture is read in squares of this side, px: one edge of each.
const SQUARE: usize = 40;
/// Edges that are kept, the strongest first, and the fewest that say anything.
const KEPT: usize = 60;
const FEWEST: usize = 12;
/// How far on either side an edge is read, px.
const REACH: f64 = 12.0;

/// Pixels that the picture's strongest edges take from dark to light, median; `None` where it has no edges to speak of.
#[must_use]
pub fn edge_width(light: &Plane<f32>) -> Option<f64> {
    let smooth = light.box_mean(1);
    let mut edges: Vec<Edge> = Vec::new();
    for top in (SQUARE..smooth.height().saturating_sub(SQUARE)).step_by(SQUARE) {
        for left in (SQUARE..smooth.width().saturating_sub(SQUARE)).step_by(SQUARE) {
            edges.extend(strongest(&smooth, left, top));
        }
    }
    edges.sort_by(|p, q| q.slope.total_cmp(&p.slope));
    let mut widths: Vec<f64> = edges.iter().take(KEPT).filter_map(|edge| width(&smooth, edge)).collect();
    widths.sort_by(f64::total_cmp);
    if widths.len() < FEWEST { None } else { widths.get(widths.len() / 2).copied() }
}

struct Edge {
    at: [f64; 2],
    /// The way in which it grows lighter, length 1.
    way: [f64; 2],
    slope: f64,
}

fn strongest(light: &Plane<f32>, left: usize, top: usize) -> Option<Edge> {
    let places =
        (top..top + SQUARE).step_by(2).flat_map(|y| (left..left + SQUARE).step_by(2).map(move |x| (x, y)));
    let edges = places.map(|(x, y)| {
        let at = |dx: isize, dy: isize| f64::from(light.at(x.cast_signed() + dx, y.cast_signed() + dy));
        let (across, down) = (at(1, 0) - at(-1, 0), at(0, 1) - at(0, -1));
        let slope = across.hypot(down);
        let way = [across / slope.max(1e-9), down / slope.max(1e-9)];
        Edge { at: [x as f64 + 0.5, y as f64 + 0.5], way, slope }
    });
    edges.max_by(|p, q| p.slope.total_cmp(&q.slope))
}

fn width(light: &Plane<f32>, edge: &Edge) -> Option<f64> {
    let value = |off: f64| light.between(edge.at[0] + off * edge.way[0], edge.at[1] + off * edge.way[1]);
    steepest(value, REACH).map(|(_, width)| width)
}
