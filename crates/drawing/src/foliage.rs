//! Foliage: one leaf and one truss of a plant, as small as a chart shows them.

use crate::paint::{Hue, INK, LEAF};
use crate::path::{Path, Point};
use crate::svg::Canvas;
use std::f64::consts::FRAC_PI_2;

/// Leaflet pairs along a leaf: how far out, and how long beside the leaf. A choice of the drawing.
const PAIRS: [(f64, f64); 3] = [(0.34, 0.26), (0.57, 0.32), (0.78, 0.28)];
/// Fruits of a truss: across, down and size, in shares of the truss's length. A choice of the drawing.
const FRUITS: [(f64, f64, f64); 5] =
    [(0.38, 0.34, 0.19), (0.68, 0.46, 0.19), (0.46, 0.68, 0.18), (0.74, 0.82, 0.17), (0.56, 1.0, 0.14)];
/// Ripe and unripe fruit. A choice of the drawing.
const RIPE: Hue = Hue(48.0, 58.0, 42.0);
const TURNING: Hue = Hue(66.0, 36.0, 60.0);
const UNRIPE: Hue = Hue(70.0, -20.0, 44.0);

/// One leaf: a bent midrib with pairs of leaflets.
pub(crate) struct Blade {
    pub(crate) from: Point,
    /// 1 to the right, -1 to the left.
    pub(crate) side: f64,
    pub(crate) long: f64,
    /// How steeply it rises before it droops.
    pub(crate) rise: f64,
    /// A dwarf's leaf is broad and crowded.
    pub(crate) sturdy: bool,
}

impl Blade {
    /// Writes the leaf as closed shapes.
    pub(crate) fn write(&self, path: &mut Path) {
        let end = self.at(1.0);
        self.rib(path);
        let broad = if self.sturdy { 1.35 } else { 1.0 };
        for (out, long) in PAIRS {
            let (foot, next) = (self.at(out), self.at(out + 0.06));
            let ahead = (next.y - foot.y).atan2(next.x - foot.x);
            for turn in [-1.15, 1.15] {
                leaflet(path, foot, ahead + turn * 0.9, self.long * long * broad);
            }
        }
        let before = self.at(0.9);
        leaflet(path, before, (end.y - before.y).atan2(end.x - before.x), self.long * 0.34 * broad);
    }

    fn at(&self, share: f64) -> Point {
        let out = self.long * share;
        let droop = self.long * (0.62 * share * share - self.rise * share);
        above_ground(Point::new(self.from.x + self.side * out, self.from.y + droop))
    }

    fn rib(&self, path: &mut Path) {
        let half = (self.long * 0.018).max(0.22);
        let (middle, end) = (self.at(0.5), self.at(0.95));
        let over = Point::new(
            2.0 * middle.x - (self.from.x + end.x) / 2.0,
            2.0 * middle.y - (self.from.y + end.y) / 2.0,
        );
        path.move_to(Point::new(self.from.x, self.from.y - half));
        path.bend_to(above_ground(Point::new(over.x, over.y - half)), end);
        path.bend_to(
            above_ground(Point::new(over.x, over.y + half)),
            Point::new(self.from.x, self.from.y + half),
        );
        path.close();
    }
}

/// The ground is at y = 0: no leaf grows into it.
fn above_ground(point: Point) -> Point {
    Point::new(point.x, point.y.min(0.0))
}

/// A pointed leaflet from `foot` in the direction of `angle`.
fn leaflet(path: &mut Path, foot: Point, angle: f64, long: f64) {
    let tip = above_ground(foot.polar(angle, long));
    let belly = foot.polar(angle, long * 0.45);
    path.move_to(foot);
    let side = |turn: f64| above_ground(belly.polar(angle + turn, long * 0.36));
    path.bend_to(side(-FRAC_PI_2), tip);
    path.bend_to(side(FRAC_PI_2), foot);
    path.close();
}

/// One truss: a stalk with five fruits, the upper ones first to ripen.
pub(crate) struct Truss {
    pub(crate) at: Point,
    /// 1 to the right, -1 to the left, near 0 at the top of a stem.
    pub(crate) side: f64,
    pub(crate) long: f64,
    /// How much of it is ripe, from 0 to 1.
    pub(crate) ripe: f64,
}

impl Truss {
    pub(crate) fn draw(&self, canvas: &mut Canvas) {
        let mut stalk = Path::sized(self.long);
        let end = self.place(0.6, 0.9);
        stalk.move_to(self.at);
        stalk.bend_to(self.place(0.75, -0.05), end);
        let line = canvas.element("path").set("fill", "none").set("stroke", &LEAF.lighter(-4.0).hex());
        line.at("stroke-width", (self.long * 0.05).clamp(0.4, 1.4)).along(&stalk).end();
        for (index, (across, down, size)) in (0_u32..).zip(FRUITS) {
            let colour = hue(self.ripe * 5.0 - f64::from(index) * 0.8);
            let (at, radius) = (self.place(across, down), (self.long * size).max(0.9));
            let fruit = canvas.element("circle").at("cx", at.x).at("cy", at.y.min(-radius)).at("r", radius);
            let fruit = fruit.set("fill", &colour.hex()).set("stroke", INK);
            fruit.at("stroke-width", 0.25).at("stroke-opacity", 0.55).end();
        }
    }

    fn place(&self, across: f64, down: f64) -> Point {
        let place = Point::new(self.at.x + self.side * across * self.long, self.at.y + down * self.long);
        above_ground(place)
    }
}

/// Green below 0, turning at 0.5, red from 1.
fn hue(ripe: f64) -> Hue {
    match ripe {
        green if green <= 0.0 => UNRIPE,
        half if half < 0.5 => UNRIPE.towards(TURNING, half * 2.0),
        more if more < 1.0 => TURNING.towards(RIPE, more * 2.0 - 1.0),
        _ => RIPE,
    }
}
