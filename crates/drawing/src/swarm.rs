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
/// Radii of a dot, in pixels, from the one wanted down to the least that is seen; the first with which
/// the stack stays low enough is taken.
const RADII: [f64; 4] = [3.2, 2.4, 1.7, 1.1];

/// Dots laid out above a floor at 0, as hundredths of a pixel.
pub(crate) struct Swarm {
    radius: f64,
    counted: BTreeSet<(i64, i64)>,
    aside: BTreeSet<(i64, i64)>,
    height: f64,
}

/// Lays out a strip's dots.
pub(crate) fn laid(strip: &Strip, axis: &Axis) -> Swarm {
    let mut dots: Vec<(f64, bool)> =
        strip.dots.iter().map(|dot| (axis.place(dot.reading.get()), dot.counted)).collect();
    dots.sort_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)));
    let mut radius = RADII[0];
    let mut levels = Vec::new();
    for tried in RADII {
        let all;
        radius = tried;
        (levels, all) = stacked(&dots, tried);
        if all {
            break;
        }
    }
    let mut swarm = Swarm { radius, counted: BTreeSet::new(), aside: BTreeSet::new(), height: LOWEST };
    for ((x, counted), level) in dots.into_iter().zip(levels) {
        let up = radius + 2.0 + f64::from(level) * step(radius);
        swarm.height = swarm.height.max(up + radius + 3.0);
        let set = if counted { &mut swarm.counted } else { &mut swarm.aside };
        set.insert((hundredths(x), hundredths(up)));
    }
    swarm
}

/// From one dot to the next, in pixels.
fn step(radius: f64) -> f64 {
    2.0 * radius + 0.3
}

/// Gives each dot, from left to right, the lowest level where it touches no other; where none is left
/// it lies over another, and the second value says so.
fn stacked(dots: &[(f64, bool)], radius: f64) -> (Vec<u32>, bool) {
    let mut ends: Vec<f64> = Vec::new();
    let mut all = true;
    let mut turn = 0;
    let levels = dots.iter().map(|(x, _)| {
        let mut level = ends.iter().position(|end| x - end >= step(radius)).unwrap_or(ends.len());
        let height = f64::from(u32::try_from(level).unwrap_or(u32::MAX)) * step(radius);
        if level == ends.len() && height + step(radius) > TALLEST {
            all = false;
            turn += 1;
            level = turn % ends.len().max(1);
        }
        match ends.get_mut(level) {
            Some(end) => *end = *x,
            None => ends.push(*x),
        }
        u32::try_from(level).unwrap_or(0)
    });
    (levels.collect(), all)
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
            dots.at("stroke-opacity", 0.82).along(&filled).end();
        }
        for place in &self.aside {
            let at = self.point(*place, floor);
            let dot = canvas.element("circle").set("class", "aside").at("cx", at.x).at("cy", at.y);
            dot.at("r", self.radius * 0.82)
                .set("fill", "none")
                .set("stroke", INK)
                .at("stroke-width", self.radius * 0.32)
                .end();
        }
    }

    #[expect(clippy::cast_precision_loss, reason = "places on a drawing, far below 2^52")]
    fn point(&self, (x, up): (i64, i64), floor: f64) -> Point {
        Point::new(x as f64 / 100.0, floor - up as f64 / 100.0)
    }
}
