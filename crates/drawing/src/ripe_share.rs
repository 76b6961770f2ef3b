//! The share of a variety's fruit that is ripe, day by day: the fitted curve with its points and their ranges, and each
//! plot's picks as steps.
//!
//! Start at [`ripe_share`]. Everything reads without colour: the curve is a heavy line, picks are thin steps, and of
//! the two ranges about a point the one of other plots is the thicker.

use crate::lettering::{Anchor, Hand};
use crate::paint::{HAIR, INK, THIN_INK};
use crate::path::{Path, Point};
use crate::scale::Pixels;
use crate::svg::{Canvas, Role, Svg};
use record::share::Share;

/// What the drawing shows.
#[derive(Clone, Debug, PartialEq)]
pub struct RipeShare {
    /// What it says, in words, for those who cannot see it.
    pub words: String,
    /// What the axis counts, such as `days from transplanting`.
    pub axis: String,
    /// The fitted curve, from left to right.
    pub curve: Vec<(f64, Share)>,
    /// Each plot's share taken after each pick, from left to right.
    pub plots: Vec<Vec<(f64, Share)>>,
    /// Points of the curve with their ranges.
    pub points: Vec<RipePoint>,
}

/// A point of the curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RipePoint {
    /// The share that is ripe.
    pub share: Share,
    /// When.
    pub at: f64,
    /// Where other plots of the same seasons have it.
    pub plots: Option<(f64, f64)>,
    /// Where other seasons do.
    pub seasons: Option<(f64, f64)>,
}

/// Height of the drawing's ground, and room round it, in pixels.
const GROUND: f64 = 230.0;
const LEFT: f64 = 46.0;
const TOP: f64 = 10.0;
const RIGHT: f64 = 10.0;
const FOOT: f64 = 40.0;
/// Narrowest drawing that can still be read, in pixels.
const NARROWEST: f64 = 240.0;
/// Pixels wanted between two ticks.
const TICK_ROOM: f64 = 48.0;
/// Steps between ticks, of days or degree-days.
const STEPS: [f64; 9] = [5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0];
/// Times are held within this.
const FARTHEST: f64 = 20_000.0;
const TICK: Hand = Hand { class: "tick", size: 11.0, ink: INK, anchor: Anchor::Middle, slanted: false };
const UNIT: Hand = Hand { class: "note", size: 11.5, ink: THIN_INK, anchor: Anchor::End, slanted: false };

/// Draws the curve, `width` pixels wide.
#[must_use]
pub fn ripe_share(of: &RipeShare, width: Pixels) -> Svg {
    let width = width.get().max(NARROWEST);
    let ground = Ground::of(of, width - RIGHT);
    let mut canvas = Canvas::new("c", &of.words);
    ground.drawn(&mut canvas, &of.axis);
    for plot in &of.plots {
        steps(&mut canvas, plot, &ground);
    }
    curve(&mut canvas, &of.curve, &ground);
    for point in &of.points {
        dot(&mut canvas, point, &ground);
    }
    canvas.finish("ripe-share", Role::Picture, &of.words, width, TOP + GROUND + FOOT)
}

/// Where times and shares lie.
struct Ground {
    from: f64,
    to: f64,
    right: f64,
}

impl Ground {
    fn of(of: &RipeShare, right: f64) -> Self {
        let points = of.points.iter().flat_map(|point| {
            let ranges =
                [point.plots, point.seasons].into_iter().flatten().flat_map(|(low, high)| [low, high]);
            std::iter::once(point.at).chain(ranges)
        });
        let picks = of.plots.iter().flatten().map(|(at, _)| *at);
        let shown = of.curve.iter().map(|(at, _)| *at).chain(picks).chain(points);
        let shown = shown.filter(|at| at.is_finite()).map(|at| at.clamp(0.0, FARTHEST));
        let (low, high) =
            shown.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
        if low < high { Self { from: low, to: high, right } } else { Self { from: 0.0, to: 100.0, right } }
    }

    fn across(&self, at: f64) -> f64 {
        LEFT + ((at - self.from) / (self.to - self.from)).clamp(0.0, 1.0) * (self.right - LEFT)
    }

    fn up(share: Share) -> f64 {
        TOP + (1.0 - share.get()) * GROUND
    }

    fn place(&self, (at, share): (f64, Share)) -> Point {
        Point::new(self.across(at), Self::up(share))
    }

    /// The ground: shares at the left, times below.
    fn drawn(&self, canvas: &mut Canvas, axis: &str) {
        for share in [0.0, 0.1, 0.5, 0.9, 1.0].into_iter().filter_map(Share::new) {
            let y = Self::up(share);
            line(canvas, (LEFT, y), (self.right, y), (if share.get() == 0.0 { INK } else { HAIR }, 1.0));
            let label = format!("{:.0} %", 100.0 * share.get());
            TICK.anchored(Anchor::End).set(canvas, &label, Point::new(LEFT - 6.0, y + 4.0));
        }
        let foot = TOP + GROUND;
        let wanted = (self.to - self.from) * TICK_ROOM / (self.right - LEFT).max(1.0);
        let step = STEPS.into_iter().find(|step| wanted <= *step).unwrap_or(FARTHEST);
        let first = (self.from / step).ceil();
        for at in (0..100_u8).map(|index| (first + f64::from(index)) * step).take_while(|at| *at <= self.to) {
            let x = self.across(at);
            line(canvas, (x, foot), (x, foot + 4.0), (INK, 0.8));
            TICK.set(canvas, &format!("{at:.0}"), Point::new(x, foot + 17.0));
        }
        let room = self.right - LEFT;
        UNIT.set(canvas, &UNIT.shortened(axis, room), Point::new(self.right, foot + 34.0));
    }
}

/// A plot's picks: level between two, up at each.
fn steps(canvas: &mut Canvas, plot: &[(f64, Share)], ground: &Ground) {
    let mut path = Path::sized(0.0);
    let mut level = TOP + GROUND;
    for pick in plot.iter().filter(|(at, _)| at.is_finite()) {
        let to = ground.place(*pick);
        let below = Point::new(to.x, level);
        if path.is_empty() {
            path.move_to(below);
        } else {
            path.line_to(below);
        }
        path.line_to(to);
        level = to.y;
    }
    if !path.is_empty() {
        let steps = canvas.element("path").set("class", "picks").set("fill", "none").set("stroke", THIN_INK);
        steps.at("stroke-width", 1.0).along(&path).end();
    }
}

fn curve(canvas: &mut Canvas, curve: &[(f64, Share)], ground: &Ground) {
    let mut path = Path::sized(0.0);
    for point in curve.iter().filter(|(at, _)| at.is_finite()) {
        let to = ground.place(*point);
        if path.is_empty() {
            path.move_to(to);
        } else {
            path.line_to(to);
        }
    }
    if !path.is_empty() {
        let line = canvas.element("path").set("class", "fitted").set("fill", "none").set("stroke", INK);
        line.at("stroke-width", 2.4).along(&path).end();
    }
}

/// A point with its two ranges.
fn dot(canvas: &mut Canvas, point: &RipePoint, ground: &Ground) {
    let y = Ground::up(point.share);
    for (range, wide) in [(point.seasons, 1.2), (point.plots, 3.6)] {
        if let Some((low, high)) = range.filter(|(low, high)| low.is_finite() && high.is_finite()) {
            line(canvas, (ground.across(low), y), (ground.across(high), y), (INK, wide));
        }
    }
    if point.at.is_finite() {
        let dot = canvas.element("circle").set("class", "open").at("cx", ground.across(point.at)).at("cy", y);
        dot.at("r", 4.2).set("fill", "#ffffff").set("stroke", INK).at("stroke-width", 1.6).end();
    }
}

fn line(canvas: &mut Canvas, from: (f64, f64), to: (f64, f64), (ink, wide): (&str, f64)) {
    let line = canvas.element("line").at("x1", from.0).at("y1", from.1).at("x2", to.0).at("y2", to.1);
    line.set("stroke", ink).at("stroke-width", wide).end();
}
