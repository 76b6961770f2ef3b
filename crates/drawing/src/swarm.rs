//! The fruits of a strip: one dot each, at its own reading, stacked where several lie together.

use crate::axis::Axis;
use crate::paint::INK;
use crate::path::{Path, Point};
use crate::strip::Strip;
use crate::svg::{Canvas, hundredths};
use std::collections::BTreeSet;

/// Greatest height of the stack, in pixels; beyond it dots lie over each other.
const TALLEST: f64 = 64.0;
/// Least height, so that a strip without fruit keeps its shape.
const LOWEST: f64 = 18.0;
/// Radius of a dot for few, many and very many fruits, with the counts at which it shrinks.
const RADII: [(usize, f64); 3] = [(80, 3.2), (400, 2.2), (usize::MAX, 1.5)];

/// Dots laid out above a floor at 0, as hundredths of a pixel.
pub(crate) struct Swarm {
    radius: f64,
    counted: BTreeSet<(i64, i64)>,
    aside: BTreeSet<(i64, i64)>,
    height: f64,
}

/// Lays out a strip's dots.
pub(crate) fn laid(strip: &Strip, axis: &Axis) -> Swarm {
    let count = strip.dots.len();
    let radius = RADII.iter().find(|(most, _)| count <= *most).map_or(RADII[2].1, |(_, radius)| *radius);
    let step = 2.0 * radius + 0.3;
    let mut dots: Vec<(f64, bool)> =
        strip.dots.iter().map(|dot| (axis.place(dot.reading.get()), dot.counted)).collect();
    dots.sort_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)));
    let mut levels: Vec<f64> = Vec::new();
    let mut swarm = Swarm { radius, counted: BTreeSet::new(), aside: BTreeSet::new(), height: LOWEST };
    for (index, (x, counted)) in dots.into_iter().enumerate() {
        let level = free_level(&mut levels, x, step, index);
        #[expect(clippy::cast_precision_loss, reason = "a level is at most the height of the stack")]
        let up = radius + 2.0 + level as f64 * step;
        swarm.height = swarm.height.max(up + radius + 3.0);
        let set = if counted { &mut swarm.counted } else { &mut swarm.aside };
        set.insert((hundredths(x), hundredths(up)));
    }
    swarm
}

/// The lowest level with room at `x`; where none is left, any level in turn.
fn free_level(levels: &mut Vec<f64>, x: f64, step: f64, index: usize) -> usize {
    let level = match levels.iter().position(|last| x - last >= step) {
        Some(level) => level,
        None if f64::from(u32::try_from(levels.len()).unwrap_or(u32::MAX)) * step + step < TALLEST => levels.len(),
        None => index % levels.len().max(1),
    };
    match levels.get_mut(level) {
        Some(last) => *last = x,
        None => levels.push(x),
    }
    level
}

impl Swarm {
    pub(crate) fn height(&self) -> f64 {
        self.height
    }

    /// Draws the dots above `floor`: counted fruits filled, those set aside hollow.
    pub(crate) fn draw(&self, canvas: &mut Canvas, floor: f64) {
        let mut filled = Path::sized(0.0);
        for place in &self.counted {
            // A stroke of no length with round ends is a dot; this is the shortest that all draw.
            let at = self.point(*place, floor);
            filled.move_to(at);
            filled.line_to(Point::new(at.x + 0.01, at.y));
        }
        if !filled.is_empty() {
            let dots = canvas.element("path").set("class", "fruits").set("fill", "none").set("stroke", INK);
            let dots = dots.at("stroke-width", self.radius * 2.0).set("stroke-linecap", "round");
            dots.at("stroke-opacity", 0.82).set("d", filled.data()).end();
        }
        for place in &self.aside {
            let at = self.point(*place, floor);
            let dot = canvas.element("circle").set("class", "aside").at("cx", at.x).at("cy", at.y);
            dot.at("r", self.radius - 0.5).set("fill", "none").set("stroke", INK).at("stroke-width", 1.0).end();
        }
    }

    #[expect(clippy::cast_precision_loss, reason = "places on a drawing, far below 2^52")]
    fn point(&self, (x, up): (i64, i64), floor: f64) -> Point {
        Point::new(x as f64 / 100.0, floor - up as f64 / 100.0)
    }
}
