//! A chamber (locule) of the cut face: its wall, the placenta that grows into it, and its seeds.
//!
//! Each chamber is laid out in its own frame: `across` from -1 to 1 between its two side walls, and
//! `out` from -1 at the core to 1 at the outer wall.

use crate::cut::Rim;
use crate::figure::Figure;
use crate::path::{Point, area, turns};
use std::f64::consts::{PI, TAU};

/// Knots round a chamber and round its placenta. A choice of the drawing.
const KNOTS: (u32, u32) = (12, 7);
/// The same for a small chamber, and half the width in pixels up to which a chamber is small.
const FEW_KNOTS: (u32, u32) = (8, 6);
const SMALL: f64 = 36.0;
/// How round a chamber is: 1 an ellipse, 0 a square. A choice of the drawing.
const ROUNDNESS: f64 = 0.62;
/// A ripe seed's length in millimetres. Common practice, no source.
const SEED_LENGTH: f64 = 3.0;
/// A seed's width over its length. Common practice, no source.
const SEED_SHAPE: f64 = 0.6;
/// Room that a seed takes along the placenta, in seed lengths. A choice of the drawing.
const SEED_ROOM: f64 = 1.35;
/// Part of each chamber filled by the placenta, with the sizes drawn here; counts as flesh, not gel.
const PLACENTA_SHARE: f64 = 0.3;
/// How far chambers are opened between core and wall where gel is not measured. A choice of the drawing.
const USUAL_OPENING: f64 = 0.86;
/// Least and greatest opening drawn; a chamber never vanishes, and walls stay between two.
const OPENINGS: (f64, f64) = (0.12, 1.3);
/// Halvings of the range of openings, which end within a quarter of a per cent of the gel measured.
const HALVINGS: u32 = 9;
/// Most seeds drawn in one chamber; more would hide it. A choice of the drawing.
const MOST_SEEDS: u32 = 24;

/// The chambers of a figure, laid round its core: as many as were counted.
pub(crate) fn chambers<'a>(figure: &Figure, rim: &'a Rim, radius: f64) -> Vec<Chamber<'a>> {
    let lay = Lay { figure, rim, radius };
    let opening = figure.gel.map_or(USUAL_OPENING, |gel| lay.opening_for(gel));
    (0..figure.locules).map(|index| lay.chamber(index, opening, 1.0)).collect()
}

/// What the chambers of one face share.
struct Lay<'f, 'a> {
    figure: &'f Figure,
    rim: &'a Rim,
    radius: f64,
}

impl<'a> Lay<'_, 'a> {
    /// One chamber, opened from nothing (0) to all its usual room (1), and into the core beyond; `wild` 0 leaves out scatter.
    fn chamber(&self, index: u32, opening: f64, wild: f64) -> Chamber<'a> {
        let count = self.figure.locules;
        let wild = if count < 4 { wild * 0.25 } else { wild };
        let border = |index: u32| {
            let bend = 0.36 * wild * (self.figure.scatter(100 + index % count) - 0.5);
            self.rim.turn + TAU * (f64::from(index) + bend) / f64::from(count) - PI / f64::from(count)
        };
        let (start, end) = (border(index), border(index + 1));
        let outer = 1.0 - self.figure.wall - 0.05 * wild * self.figure.scatter(200 + index);
        let core = outer * core_share(count) * (1.0 + 0.35 * wild * (self.figure.scatter(300 + index) - 0.5));
        Chamber {
            index,
            count,
            middle: f64::midpoint(start, end),
            half: (end - start) / 2.0,
            inner: (outer - (outer - core) * opening.sqrt()).max(0.04),
            outer,
            side_wall: 0.018 + 0.24 * (1.0 - opening).max(0.0),
            rim: self.rim,
            seed_length: SEED_LENGTH * 2.0 * self.radius / self.figure.width,
            radius: self.radius,
        }
    }

    /// How far chambers must be opened for their gel to take `share` of the face.
    fn opening_for(&self, share: f64) -> f64 {
        let face = PI * self.radius * self.radius;
        let taken = |opening: f64| {
            let one = area(&self.chamber(0, opening, 0.0).wall());
            f64::from(self.figure.locules) * one * (1.0 - PLACENTA_SHARE) / face
        };
        let (mut low, mut high) = OPENINGS;
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(low, high);
            if taken(middle) < share { low = middle } else { high = middle }
        }
        f64::midpoint(low, high)
    }
}

/// The core as a share of the room within the outer wall: the more chambers, the wider. Common
/// practice, no source.
fn core_share(count: u32) -> f64 {
    (0.03 + 0.045 * f64::from(count)).clamp(0.12, 0.46)
}

/// One chamber, placed on the face.
pub(crate) struct Chamber<'a> {
    index: u32,
    count: u32,
    /// Where its middle lies, and half its angle.
    middle: f64,
    half: f64,
    /// Where core and outer wall begin, as shares of the way to the rim.
    inner: f64,
    outer: f64,
    /// Half the thickness of a side wall, as a share of the radius.
    side_wall: f64,
    rim: &'a Rim,
    /// A seed's length and the radius of the face, in pixels.
    seed_length: f64,
    radius: f64,
}

impl Chamber<'_> {
    /// The wall of the chamber.
    pub(crate) fn wall(&self) -> Vec<Point> {
        let square = |share: f64| share.signum() * share.abs().powf(ROUNDNESS);
        turns(self.knots().0).map(|angle| self.at(square(angle.cos()), square(angle.sin()))).collect()
    }

    /// The placenta: a tongue of flesh from the core, round which the seeds sit.
    pub(crate) fn placenta(&self) -> Vec<Point> {
        turns(self.knots().1).map(|angle| self.at(0.5 * angle.cos(), -0.78 + 0.7 * angle.sin())).collect()
    }

    /// The seeds, each as the two ends of a stroke with round caps.
    pub(crate) fn seeds(&self, figure: &Figure) -> Vec<(Point, Point)> {
        let count = figure.seeds.map_or_else(|| self.room(), |seeds| self.part_of(seeds)).min(MOST_SEEDS);
        (0..count).map(|seed| self.seed(figure, seed, count)).collect()
    }

    /// A seed's length and width as drawn, in pixels.
    pub(crate) fn seed_size(&self) -> (f64, f64) {
        let depth = (self.outer - self.inner) * self.radius;
        let length = self.seed_length.min(depth * 0.3);
        (length, length * SEED_SHAPE)
    }

    fn seed(&self, figure: &Figure, seed: u32, count: u32) -> (Point, Point) {
        let jitter = |salt: u32| figure.scatter(10_000 + self.index * 256 + seed * 4 + salt) - 0.5;
        let along = (f64::from(seed) + 0.5 + 0.5 * jitter(0)) / f64::from(count);
        let angle = PI * (0.04 + 0.92 * along);
        let out = 1.0 + 0.12 * jitter(1);
        let (up, across) = angle.sin_cos();
        let place = self.at(0.78 * out * across, -0.7 + 1.08 * out * up);
        let root = self.at(0.3 * across, -0.7 + 0.4 * up);
        let (length, width) = self.seed_size();
        // Away from the root, turned a little to either side.
        let (x, y) = (place.x - root.x, place.y - root.y);
        let (sideways, ahead) = (0.7 * jitter(2)).sin_cos();
        let (x, y) = (x * ahead - y * sideways, x * sideways + y * ahead);
        let reach = (length - width) / 2.0 / x.hypot(y).max(f64::MIN_POSITIVE);
        let end = |side: f64| Point::new(place.x + side * x * reach, place.y + side * y * reach);
        (end(-1.0), end(1.0))
    }

    /// How many seeds fit round the placenta.
    fn room(&self) -> u32 {
        let right = self.at(0.78, -0.6);
        let top = self.at(0.0, 0.38);
        let way = 2.0 * (right.x - top.x).hypot(right.y - top.y);
        let seeds = way / (self.seed_size().0 * SEED_ROOM).max(f64::MIN_POSITIVE);
        (1..MOST_SEEDS).find(|count| f64::from(*count) + 0.5 > seeds).unwrap_or(MOST_SEEDS)
    }

    /// This chamber's part of the seeds counted in the whole face.
    fn part_of(&self, seeds: u32) -> u32 {
        seeds / self.count + u32::from(self.index < seeds % self.count)
    }

    fn knots(&self) -> (u32, u32) {
        if self.radius * self.half.min(1.0) < SMALL { FEW_KNOTS } else { KNOTS }
    }

    /// The point of the chamber `across` (-1 to 1) and `out` (-1 at the core to 1 at the outer wall).
    fn at(&self, across: f64, out: f64) -> Point {
        let reach = (self.inner + (self.outer - self.inner) * f64::midpoint(out, 1.0)).max(0.0);
        let wall = self.side_wall / reach.max(0.02);
        let half = (self.half - wall).max(self.half * 0.12);
        self.rim.at(self.middle + across * half, reach)
    }
}
