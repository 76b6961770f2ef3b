//! The ink rule: as long as a call is certain, broken where it is contested.

use crate::paint::{HAIR, INK};
use crate::svg::Canvas;
use record::share::Share;

/// How a rule's strokes and gaps run where the call is contested, in pixels.
const BROKEN: &str = "3.5 2.5";

/// Draws a rule from `x` along `y`; its whole `length`, drawn as a hair, is certainty.
pub(crate) fn draw(canvas: &mut Canvas, (x, y): (f64, f64), length: f64, thick: f64, call: (Share, bool)) {
    let (certainty, contested) = call;
    stroke(canvas, (x, y), length, HAIR).at("stroke-width", thick.min(1.0)).end();
    if certainty.get() * length < 0.05 {
        return;
    }
    let ink = stroke(canvas, (x, y), length * certainty.get(), INK).at("stroke-width", thick);
    let ink = if contested { ink.set("stroke-dasharray", BROKEN) } else { ink };
    ink.end();
}

fn stroke<'a>(canvas: &'a mut Canvas, (x, y): (f64, f64), length: f64, ink: &str) -> crate::svg::Element<'a> {
    let line = canvas.element("line").at("x1", x).at("y1", y).at("x2", x + length).at("y2", y);
    line.set("stroke", ink)
}
