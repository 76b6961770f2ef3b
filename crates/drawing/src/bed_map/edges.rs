//! Edges of blocks and replicates, frames of checks, hatching of guards.

use super::{Edges, Mapped, MappedPlace, MappedPlot, Patch};
use crate::paint::{INK, WASH};
use crate::path::{Path, Point};
use crate::svg::Canvas;

/// Thickness of the edge of a block and of a replicate, in pixels.
const BLOCK: f64 = 1.4;
const REPLICATE: f64 = 3.2;
/// Distance between hatches, in pixels.
const HATCH: f64 = 6.0;
/// How far a check's frame stands inside its plot, in pixels.
const INSET: f64 = 2.5;
/// Edges nearer than this are one edge, in pixels.
const SAME: f64 = 0.6;

/// A frame inside the plot, which stands for a check.
pub(super) fn framed(canvas: &mut Canvas, at: Patch, ink: &str) {
    let inner =
        Patch { left: at.left + INSET, top: at.top + INSET, right: at.right - INSET, foot: at.foot - INSET };
    let frame = super::rectangle(canvas, inner).set("class", "check").set("fill", "none").set("stroke", ink);
    frame.at("stroke-width", 1.2).end();
}

/// Slanted lines from edge to edge, which stand for guard plants.
pub(super) fn hatched(canvas: &mut Canvas, at: Patch) {
    let (width, height) = (at.right - at.left, at.foot - at.top);
    let mut path = Path::sized(width.max(height));
    let mut start = HATCH / 2.0;
    while start < width + height {
        // From the upper edge down to the left, cut off where the place ends.
        let from = Point::new(at.left + start.min(width), at.top + (start - width).max(0.0));
        let to = Point::new(at.left + (start - height).max(0.0), at.top + start.min(height));
        path.move_to(from);
        path.line_to(to);
        start += HATCH;
    }
    if !path.is_empty() {
        let lines = canvas.element("path").set("class", "guard").along(&path);
        lines.set("fill", "none").set("stroke", WASH).at("stroke-width", 1.0).end();
    }
}

/// The edges of one bed's plots that part blocks or replicates, and those towards what is no plot.
pub(super) fn draw(canvas: &mut Canvas, edges: Edges, places: &[(&MappedPlace, Patch)]) {
    let plots: Vec<(&MappedPlot, Patch)> = places
        .iter()
        .filter_map(|(place, at)| match &place.what {
            Mapped::Plot(plot) => Some((plot, *at)),
            _ => None,
        })
        .collect();
    let (blocks, replicates) = ((BLOCK, Part::Block), (REPLICATE, Part::Replicate));
    let kept = match edges {
        Edges::BlocksAndReplicates => vec![blocks, replicates],
        Edges::Replicates => vec![replicates],
        Edges::Plain => Vec::new(),
    };
    for (thickness, part) in kept {
        let mut path = Path::sized(1000.0);
        for (plot, at) in &plots {
            for side in Side::ALL {
                let beside = plots.iter().find(|(_, other)| side.meets(*at, *other));
                if beside.is_none_or(|(other, _)| part.of(other) != part.of(plot)) {
                    side.line(*at, &mut path);
                }
            }
        }
        if !path.is_empty() {
            let lines = canvas.element("path").set("class", "edge").along(&path).set("fill", "none");
            lines.set("stroke", INK).at("stroke-width", thickness).set("stroke-linecap", "square").end();
        }
    }
}

/// What an edge goes round.
#[derive(Clone, Copy)]
enum Part {
    Block,
    Replicate,
}

impl Part {
    fn of(self, plot: &MappedPlot) -> u32 {
        match self {
            Self::Block => plot.block,
            Self::Replicate => plot.replicate,
        }
    }
}

/// A side of a plot.
#[derive(Clone, Copy)]
enum Side {
    Left,
    Top,
    Right,
    Foot,
}

impl Side {
    const ALL: [Self; 4] = [Self::Left, Self::Top, Self::Right, Self::Foot];

    /// Whether the other plot lies along most of this side.
    fn meets(self, own: Patch, other: Patch) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() < SAME;
        let across = other.top < own.foot - SAME && own.top + SAME < other.foot;
        let middle = f64::midpoint(own.left, own.right);
        let along = other.left < middle && middle < other.right;
        match self {
            Self::Left => near(own.left, other.right) && across,
            Self::Right => near(own.right, other.left) && across,
            Self::Top => near(own.top, other.foot) && along,
            Self::Foot => near(own.foot, other.top) && along,
        }
    }

    fn line(self, at: Patch, path: &mut Path) {
        let (from, to) = match self {
            Self::Left => ((at.left, at.top), (at.left, at.foot)),
            Self::Top => ((at.left, at.top), (at.right, at.top)),
            Self::Right => ((at.right, at.top), (at.right, at.foot)),
            Self::Foot => ((at.left, at.foot), (at.right, at.foot)),
        };
        path.move_to(Point::new(from.0, from.1));
        path.line_to(Point::new(to.0, to.1));
    }
}
