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
const SMALL: f64 = 50.0;
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
/// Steps towards the opening that gives the gel measured, and how near its share is near enough.
const STEPS: u32 = 12;
const NEAR: f64 = 0.002;
/// Most seeds drawn in one chamber; more would hide it. A choice of the drawing.
const MOST_SEEDS: u32 = 24;

/// The chambers of a figure, laid round its core: as many as were counted.
pub(crate) fn chambers<'f, 'a>(figure: &'f Figure, rim: &'a Rim, radius: f64) -> Chambers<'f, 'a> {
    let lay = Lay { figure, rim, radius, knots: [KNOTS, FEW_KNOTS].map(Knots::of) };
    let opening = figure.gel.map_or(USUAL_OPENING, |gel| lay.opening_for(gel));
    let chambers = (0..figure.locules).map(|index| lay.chamber(index, opening, 1.0)).collect();
    Chambers { lay, chambers }
}

/// The chambers of one face, and the knots that they are drawn through.
pub(crate) struct Chambers<'f, 'a> {
    lay: Lay<'f, 'a>,
    chambers: Vec<Chamber<'a>>,
}

impl<'a> Chambers<'_, 'a> {
    /// Each chamber with its knots.
    pub(crate) fn each(&self) -> impl Iterator<Item = (&Chamber<'a>, &Knots)> {
        self.chambers.iter().map(|chamber| (chamber, self.lay.knots_of(chamber)))
    }
}

/// Where a chamber's wall and its placenta have their knots: worked out once for all chambers, as powers
/// and sines take longer than all else about them.
pub(crate) struct Knots {
    wall: Vec<(f64, f64)>,
    placenta: Vec<(f64, f64)>,
}

impl Knots {
    fn of((wall, placenta): (u32, u32)) -> Self {
        let square = |share: f64| share.signum() * share.abs().powf(ROUNDNESS);
        let tongue = |angle: f64| (0.5 * angle.cos(), -0.78 + 0.7 * angle.sin());
        Self {
            wall: turns(wall).map(|angle| (square(angle.cos()), square(angle.sin()))).collect(),
            placenta: turns(placenta).map(tongue).collect(),
        }
    }
}

/// What the chambers of one face share.
struct Lay<'f, 'a> {
    figure: &'f Figure,
    rim: &'a Rim,
    radius: f64,
    /// The knots of large chambers, and of small ones.
    knots: [Knots; 2],
}

impl<'a> Lay<'_, 'a> {
    fn knots_of(&self, chamber: &Chamber<'_>) -> &Knots {
        let [many, few] = &self.knots;
        if self.radius * chamber.half.min(1.0) < SMALL { few } else { many }
    }

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
    ///
    /// Each step looks where the line between the two ends says that the share is met; an end that stays
    /// twice is trusted half, so that neither side drags (the Illinois rule of false position).
    fn opening_for(&self, share: f64) -> f64 {
        let face = PI * self.radius * self.radius;
        let lacks = |opening: f64| {
            let chamber = self.chamber(0, opening, 0.0);
            let one = area(&chamber.wall(self.knots_of(&chamber)));
            f64::from(self.figure.locules) * one * (1.0 - PLACENTA_SHARE) / face - share
        };
        let (mut low, mut high) = OPENINGS;
        let (mut under, mut over) = (lacks(low), lacks(high));
        if 0.0 <= under || over <= 0.0 {
            return if 0.0 <= under { low } else { high };
        }
        let mut last = 0.0;
        for _ in 0..STEPS {
            let opening = (low * over - high * under) / (over - under);
            let lack = lacks(opening);
            if lack.abs() < NEAR {
                return opening;
            }
            if lack < 0.0 {
                (low, under) = (opening, lack);
                over = if last < 0.0 { over / 2.0 } else { over };
            } else {
                (high, over) = (opening, lack);
                under = if last > 0.0 { under / 2.0 } else { under };
            }
            last = lack;
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
    pub(crate) fn wall(&self, knots: &Knots) -> Vec<Point> {
        knots.wall.iter().map(|(across, out)| self.at(*across, *out)).collect()
    }

    /// The placenta: a tongue of flesh from the core, round which the seeds sit.
    pub(crate) fn placenta(&self, knots: &Knots) -> Vec<Point> {
        knots.placenta.iter().map(|(across, out)| self.at(*across, *out)).collect()
    }

    /// The seeds, each as the two ends of a stroke with round caps.
    pub(crate) fn seeds(&self, figure: &Figure) -> Vec<(Point, Point)> {
        let count = figure.seeds.map_or_else(|| self.room(), |seeds| self.part_of(seeds)).min(MOST_SEEDS);
        let root = self.at(0.0, -0.62);
        (0..count).map(|seed| self.seed(figure, root, seed, count)).collect()
    }

    /// A seed's length and width as drawn, in pixels.
    pub(crate) fn seed_size(&self) -> (f64, f64) {
        let depth = (self.outer - self.inner) * self.radius;
        let length = self.seed_length.min(depth * 0.3);
        (length, length * SEED_SHAPE)
    }

    /// One seed of `count`, which points away from the `root` of the placenta.
    fn seed(&self, figure: &Figure, root: Point, seed: u32, count: u32) -> (Point, Point) {
        let jitter = |salt: u32| figure.scatter(10_000 + self.index * 256 + seed * 4 + salt) - 0.5;
        let along = (f64::from(seed) + 0.5 + 0.5 * jitter(0)) / f64::from(count);
        let angle = PI * (0.04 + 0.92 * along);
        let out = 1.0 + 0.12 * jitter(1);
        let (up, across) = angle.sin_cos();
        let place = self.at(0.78 * out * across, -0.7 + 1.08 * out * up);
        let (length, width) = self.seed_size();
        // Away from the root, turned a little to either side.
        let (x, y) = (place.x - root.x, place.y - root.y);
        let sideways = 0.7 * jitter(2);
        let (x, y) = (x - y * sideways, y + x * sideways);
        let reach = (length - width) / 2.0 / (x * x + y * y).sqrt().max(f64::MIN_POSITIVE);
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

    /// The point of the chamber `across` (-1 to 1) and `out` (-1 at the core to 1 at the outer wall).
    fn at(&self, across: f64, out: f64) -> Point {
        let reach = (self.inner + (self.outer - self.inner) * f64::midpoint(out, 1.0)).max(0.0);
        let wall = self.side_wall / reach.max(0.02);
        let half = (self.half - wall).max(self.half * 0.12);
        self.rim.at(self.middle + across * half, reach)
    }
}
