//! The scale bar: a hundred millimetres above the line, four inches below it.

use crate::lettering::{Anchor, Hand};
use crate::paint::{INK, THIN_INK};
use crate::path::{Path, Point};
use crate::svg::Canvas;
use record::language::Units;
use record::length::MILLIMETRES_PER_INCH;

/// Inches that the bar is long; a hundred millimetres end just short of it.
const INCHES: u32 = 4;
const LABEL: Hand = Hand { class: "scale", size: 10.0, ink: INK, anchor: Anchor::Start, slanted: false };

/// Pixels that the bar and its words take.
pub(crate) fn width(scale: f64) -> f64 {
    length(scale) + LABEL.width("100 mm") + 6.0
}

fn length(scale: f64) -> f64 {
    f64::from(INCHES) * MILLIMETRES_PER_INCH * scale
}

/// Draws the bar with its left end at `at`; the house's own units stand above the line.
pub(crate) fn draw(canvas: &mut Canvas, at: Point, scale: f64, units: Units) {
    let mut ticks = Path::sized(0.0);
    let mut tick = |millimetres: f64, up: f64| {
        let x = at.x + millimetres * scale;
        ticks.move_to(Point::new(x, at.y));
        ticks.line_to(Point::new(x, at.y - up));
    };
    let side = units.either(-1.0, 1.0);
    for step in 0..=10_u32 {
        tick(f64::from(step) * 10.0, side * if step % 5 == 0 { 7.0 } else { 3.5 });
    }
    for inch in 0..=INCHES {
        tick(f64::from(inch) * MILLIMETRES_PER_INCH, side * -6.0);
    }
    let line =
        canvas.element("line").at("x1", at.x).at("y1", at.y).at("x2", at.x + length(scale)).at("y2", at.y);
    line.set("stroke", INK).at("stroke-width", 0.8).end();
    let marks = canvas.element("path").set("fill", "none").set("stroke", INK).at("stroke-width", 0.8);
    marks.along(&ticks).end();
    let (above, below) = units.either(("4 in", "100 mm"), ("100 mm", "4 in"));
    let x = at.x + length(scale) + 5.0;
    LABEL.set(canvas, above, Point::new(x, at.y - 2.0));
    Hand { ink: THIN_INK, ..LABEL }.set(canvas, below, Point::new(x, at.y + 9.5));
}
