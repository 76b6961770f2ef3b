//! The plant: a habit drawn to scale, with its stem, leaves, trusses and side shoots.
//!
//! For the type chart. Start at [`plant`]. How tall it stands, after how many trusses the stem ends, how
//! many leaves lie between two trusses and how much of the fruit is ripe come from whoever asks; where a
//! leaf hangs is drawing. A stem that ends carries its last truss at the very top, in a ring of ink; one
//! that grows on has an arrow above it.

use crate::foliage::{Blade, Truss};
use crate::paint::{HAIR, Hue, INK, LEAF, THIN_INK};
use crate::path::{Path, Point};
use crate::scale::Scale;
use crate::svg::{Canvas, Role, Svg, fingerprint};
use record::length::Millimetres;
use record::share::Share;

/// What is known of how a habit grows.
#[derive(Clone, Debug, PartialEq)]
pub struct PlantLook {
    /// What the drawing says, in words, for those who cannot see it.
    pub words: String,
    /// Height of the grown plant.
    pub height: Millimetres,
    /// What the main stem does.
    pub tip: StemTip,
    /// Trusses on the main stem.
    pub trusses: u32,
    /// Leaves between the first two trusses and between the last two.
    pub leaves_between: (f64, f64),
    /// How stout it is.
    pub build: Build,
    /// How much of the fruit is ripe at once.
    pub ripe: Share,
}

/// What the main stem does at its top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StemTip {
    /// Ends in a truss.
    Truss,
    /// Grows on.
    GrowsOn,
}

/// How stout a plant is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Build {
    /// Of full stature.
    Slender,
    /// A dwarf: short joints, sturdy stem, dark crinkled leaves.
    Sturdy,
}

/// Leaves below the first truss of a stem that ends, and of one that grows on. Common practice, no source.
const LEAVES_BELOW: (u32, u32) = (6, 8);
/// Most trusses and most joints drawn; more would be a hedge. A choice of the drawing.
const MOST_TRUSSES: u32 = 24;
const MOST_LEAVES_BETWEEN: f64 = 6.0;
/// A leaf's length over the height of the plant, and its shortest and longest, in millimetres. Common practice, no source.
const LEAF_SHARE: f64 = 0.21;
const LEAVES: std::ops::RangeInclusive<f64> = 75.0..=260.0;
/// A dwarf's leaf beside one of full stature. Common practice, no source.
const STURDY_LEAF: f64 = 0.8;
/// Height in millimetres from which a plant is drawn with its stake. Common practice, no source.
const STAKED_FROM: f64 = 1200.0;
/// Least and greatest height drawn, in millimetres. A choice of the drawing.
const DRAWN: std::ops::RangeInclusive<f64> = 60.0..=4000.0;
/// Half the width that a single stem takes, and one with side shoots, in leaf lengths.
const REACH: (f64, f64) = (1.45, 1.95);
/// Room above the plant for its arrow or ring, and below the ground line, in pixels.
const ROOM: (f64, f64) = (20.0, 2.0);
/// Room above the plant for its uppermost leaves, in leaf lengths.
const CROWN: f64 = 0.3;
/// Dark green of a dwarf's leaves. A choice of the drawing.
const DARK_LEAF: Hue = Hue(36.0, -18.0, 22.0);

/// Draws a plant to scale, standing on the ground at the bottom edge.
#[must_use]
pub fn plant(look: &PlantLook, scale: Scale) -> Svg {
    let grown = Grown::of(look, scale.pixels_per_millimetre());
    let reach = if look.tip == StemTip::Truss { REACH.1 } else { REACH.0 };
    let (width, ground) = (2.0 * reach * grown.leaf + 6.0, grown.height + CROWN * grown.leaf + ROOM.0);
    let mut canvas = Canvas::new("h", &look.words);
    ground_line(&mut canvas, width, ground);
    canvas.element("g").moved(width / 2.0, ground).holding(|canvas| grown.draw(canvas));
    canvas.finish("plant", Role::Picture, &look.words, width, ground + ROOM.1)
}

fn ground_line(canvas: &mut Canvas, width: f64, ground: f64) {
    let line = canvas.element("line").at("x1", 0.0).at("y1", ground).at("x2", width).at("y2", ground);
    line.set("stroke", THIN_INK).at("stroke-width", 1.0).end();
}

/// What grows at one joint of the stem.
#[derive(Clone, Copy, PartialEq)]
enum Joint {
    Leaf,
    /// The truss of this number, from 0 at the bottom.
    Truss(u32),
}

/// A plant laid out, in pixels: y up from the ground is negative.
struct Grown<'a> {
    look: &'a PlantLook,
    joints: Vec<Joint>,
    height: f64,
    leaf: f64,
    trusses: u32,
    seed: u64,
    scale: f64,
}

impl<'a> Grown<'a> {
    fn of(look: &'a PlantLook, scale: f64) -> Self {
        let tall = look.height.get().clamp(*DRAWN.start(), *DRAWN.end());
        let trusses = look.trusses.clamp(1, MOST_TRUSSES);
        Self {
            joints: joints(look, trusses),
            height: tall * scale,
            leaf: (tall * LEAF_SHARE).clamp(*LEAVES.start(), *LEAVES.end()) * scale * leaf_of(look.build),
            seed: fingerprint(&look.words),
            look,
            trusses,
            scale,
        }
    }

    /// Where the stem is, a share of the way up: it leans a little from joint to joint.
    fn stem(&self, up: f64) -> Point {
        let sway = self.leaf * 0.05 * ((up * 9.0).sin() + 0.5 * (up * 23.0).sin());
        Point::new(sway, -up * self.height)
    }

    /// How far up the joint of this number is: joints shorten towards the top.
    fn up(&self, joint: usize) -> f64 {
        let step = f64::from(u32::try_from(joint + 1).unwrap_or(u32::MAX));
        let all = f64::from(u32::try_from(self.joints.len()).unwrap_or(u32::MAX));
        (step / all).powf(0.94).min(1.0)
    }

    fn draw(&self, canvas: &mut Canvas) {
        self.stake(canvas);
        let (mut wood, mut behind, mut before) = (Path::sized(9.0), Path::sized(9.0), Path::sized(9.0));
        let mut fruit = Vec::new();
        self.side_shoots(&mut wood, &mut behind, &mut fruit);
        let mut side = 1.0;
        for (index, joint) in self.joints.iter().enumerate() {
            let at = self.stem(self.up(index));
            match joint {
                Joint::Leaf => {
                    side = -side;
                    let blades = if index % 3 == 0 { &mut behind } else { &mut before };
                    self.leaf_at(blades, at, side, index);
                }
                Joint::Truss(number) => fruit.push(self.truss_at(at, *number)),
            }
        }
        if self.look.tip == StemTip::GrowsOn {
            self.young_tip(&mut before);
        }
        let leaf = if self.look.build == Build::Sturdy { DARK_LEAF } else { LEAF };
        fill(canvas, &behind, leaf.lighter(9.0));
        self.wood(canvas, &wood);
        fill(canvas, &before, leaf);
        fruit.iter().for_each(|truss| truss.draw(canvas));
        self.sign(canvas);
    }

    /// Thickness of the main stem, in pixels.
    fn thick(&self) -> f64 {
        let sturdy = if self.look.build == Build::Sturdy { 1.7 } else { 1.0 };
        (11.0 * self.scale * sturdy).clamp(0.9, 5.0)
    }

    fn wood(&self, canvas: &mut Canvas, shoots: &Path) {
        let colour = LEAF.lighter(4.0).hex();
        let mut main = Path::sized(9.0);
        let knots: Vec<Point> = (0..=12_u32).map(|step| self.stem(f64::from(step) / 12.0)).collect();
        if let Some(foot) = knots.first() {
            main.move_to(*foot);
        }
        main.through(&knots);
        for (path, thick) in [(shoots, self.thick() * 0.65), (&main, self.thick())] {
            if !path.is_empty() {
                let stem = canvas.element("path").set("fill", "none").set("stroke", &colour);
                stem.at("stroke-width", thick).set("stroke-linecap", "round").along(path).end();
            }
        }
    }

    fn stake(&self, canvas: &mut Canvas) {
        if self.look.height.get() < STAKED_FROM {
            return;
        }
        let x = self.leaf * 0.12;
        let line = canvas.element("line").at("x1", x).at("y1", 0.0).at("x2", x).at("y2", -self.height * 0.97);
        line.set("stroke", HAIR).at("stroke-width", (16.0 * self.scale).clamp(1.0, 4.0)).end();
    }

    fn leaf_at(&self, path: &mut Path, at: Point, side: f64, index: usize) {
        let up = (-at.y / self.height.max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        let jitter = f64::from(u32::try_from((self.seed >> (index % 48)) & 7).unwrap_or(0)) / 7.0 - 0.5;
        let long = self.leaf * (1.0 - 0.42 * up) * (1.0 + 0.12 * jitter);
        // The lowest leaves would lie on the ground.
        let rise = (0.12 + 0.45 * up + 0.25 * jitter).max(0.5 - 2.0 * up);
        Blade { from: at, side, long, rise, sturdy: self.look.build == Build::Sturdy }.write(path);
    }

    fn truss_at(&self, at: Point, number: u32) -> Truss {
        let side = if number.is_multiple_of(2) { 1.0 } else { -1.0 };
        let ripe = self.look.ripe.get() * f64::from(self.trusses) - f64::from(number);
        Truss { at, side, long: self.leaf * 0.36, ripe: ripe.clamp(0.0, 1.0) }
    }

    /// Shoots from the lower joints, each ending in a truss: they make a bush of a stem that ends.
    fn side_shoots(&self, wood: &mut Path, leaves: &mut Path, fruit: &mut Vec<Truss>) {
        if self.look.tip == StemTip::GrowsOn {
            return;
        }
        let count = if self.trusses < 7 { 4 } else { 2 };
        for shoot in 0..count {
            let share = f64::from(shoot) / f64::from(count);
            let side = if shoot % 2 == 0 { -1.0 } else { 1.0 };
            let foot = self.stem(0.08 + 0.34 * share);
            let out = self.leaf * (1.0 - 0.35 * share);
            let top = Point::new(foot.x + side * out, foot.y - self.height * (0.3 + 0.08 * share));
            let bend = Point::new(foot.x + side * out * 0.9, foot.y - self.height * 0.1);
            wood.move_to(foot);
            wood.bend_to(bend, top);
            for (index, share) in [0.35, 0.62, 0.86].into_iter().enumerate() {
                let at = foot.towards(bend, share).towards(bend.towards(top, share), share);
                let turn = if index % 2 == 0 { side } else { -side };
                let sturdy = self.look.build == Build::Sturdy;
                Blade { from: at, side: turn, long: self.leaf * 0.55, rise: 0.5, sturdy }.write(leaves);
            }
            let ripe = self.look.ripe.get() * 2.0 - share;
            fruit.push(Truss {
                at: top,
                side: side * 0.8,
                long: self.leaf * 0.3,
                ripe: ripe.clamp(0.0, 1.0),
            });
        }
    }

    fn young_tip(&self, path: &mut Path) {
        let top = self.stem(1.0);
        for side in [-1.0, 1.0] {
            Blade { from: top, side, long: self.leaf * 0.3, rise: 0.8, sturdy: false }.write(path);
        }
    }

    /// The mark of the stem's end: a ring round the last truss, or an arrow upwards.
    fn sign(&self, canvas: &mut Canvas) {
        let top = self.stem(1.0);
        match self.look.tip {
            StemTip::Truss => {
                let side = if self.trusses.is_multiple_of(2) { -1.0 } else { 1.0 };
                let (x, y) = (top.x + side * self.leaf * 0.19, top.y + self.leaf * 0.18);
                let ring = canvas.element("circle").at("cx", x).at("cy", y);
                let ring = ring.at("r", self.leaf * 0.27 + 2.0).set("fill", "none");
                ring.set("stroke", INK).at("stroke-width", 0.9).set("stroke-dasharray", "2.5 1.5").end();
            }
            StemTip::GrowsOn => {
                let mut path = Path::sized(0.0);
                let foot = top.y - self.leaf * 0.2 - 2.0;
                let peak = Point::new(top.x, foot - 12.0);
                path.move_to(Point::new(top.x, foot));
                path.line_to(peak);
                path.move_to(Point::new(peak.x - 2.6, peak.y + 3.4));
                path.line_to(peak);
                path.line_to(Point::new(peak.x + 2.6, peak.y + 3.4));
                let arrow = canvas.element("path").set("fill", "none").set("stroke", INK);
                arrow.at("stroke-width", 1.0).set("stroke-linecap", "round").along(&path).end();
            }
        }
    }
}

fn leaf_of(build: Build) -> f64 {
    if build == Build::Sturdy { STURDY_LEAF } else { 1.0 }
}

fn fill(canvas: &mut Canvas, path: &Path, hue: Hue) {
    if !path.is_empty() {
        canvas.element("path").set("fill", &hue.hex()).along(path).end();
    }
}

/// The joints of the main stem from the ground up.
fn joints(look: &PlantLook, trusses: u32) -> Vec<Joint> {
    let below = if look.tip == StemTip::Truss { LEAVES_BELOW.0 } else { LEAVES_BELOW.1 };
    let mut joints = vec![Joint::Leaf; usize::try_from(below).unwrap_or(0)];
    let [first, last] =
        [look.leaves_between.0, look.leaves_between.1].map(|leaves| leaves.clamp(0.0, MOST_LEAVES_BETWEEN));
    // Parts of a leaf are carried on to the next truss, so that the whole stem has as many as it should.
    let mut owed = 0.0;
    for truss in 0..trusses {
        if truss > 0 {
            let share = f64::from(truss - 1) / f64::from((trusses - 1).max(2) - 1);
            owed += first + (last - first) * share;
            while 0.5 <= owed {
                joints.push(Joint::Leaf);
                owed -= 1.0;
            }
        }
        joints.push(Joint::Truss(truss));
    }
    if look.tip == StemTip::GrowsOn {
        joints.extend([Joint::Leaf; 3]);
    }
    joints
}
