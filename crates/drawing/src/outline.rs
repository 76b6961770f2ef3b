//! The outline: the fruit as a profile turned about its axis from stem to blossom end.
//!
//! The profile gives half the width at each share of the length. It is made of two superellipse
//! halves that meet where the fruit is widest, with a neck drawn in above; it reaches exactly the
//! greatest width, and exactly the neck a quarter of the way down. Start at [`Profile::of`].

use crate::figure::Figure;
use crate::look::{Shoulder, Tip};
use crate::path::{Point, bounds};
use record::colour::Pattern;
use std::f64::consts::{FRAC_PI_2, PI};

/// Where the neck is measured, as a share of the length from the stem. Source: issue 2 and DESIGN
/// section 4: a quarter of the way down.
const NECK_AT: f64 = 0.25;
/// Knots down one side of a smooth outline and of a lobed one; more are not seen. A choice of the drawing.
const KNOTS: (u32, u32) = (10, 16);
/// Places of the table by which marks on the skin are laid. A choice of the drawing.
const REACHES: u32 = 48;
/// Slackest and squarest shoulder drawn, as the exponent of its superellipse: below the first the
/// outline comes to a point, beyond the second it looks like a tin. A choice of the drawing.
const SHOULDERS: (f64, f64) = (1.75, 9.0);

/// A profile about a stem-to-tip axis: x from the axis, y down from the stem end, in pixels.
#[derive(Clone, Debug)]
pub(crate) struct Profile {
    /// Drawn length.
    pub(crate) length: f64,
    /// Drawn greatest half-width.
    pub(crate) radius: f64,
    /// Share of the length at which the fruit is widest.
    widest: f64,
    upper: f64,
    lower: (f64, f64),
    necking: f64,
    nipple: f64,
    /// How far the stem end is sunk, in pixels.
    pub(crate) dimple: f64,
    /// How far the blossom end is sunk, in pixels.
    hollow: f64,
    lobes: u32,
    /// How far each lobe's shoulder stands up, in pixels.
    crown: f64,
    /// Turns the lobes so that none lies quite symmetrical.
    pub(crate) turn: f64,
    /// Highest point before the outline is set to its size, and the stretch across and down that sets it.
    top: f64,
    stretch: (f64, f64),
    knots: u32,
    /// The knots of the whole outline, clockwise from the stem end.
    pub(crate) outline: Vec<Point>,
    /// The reach at even shares of the length, for what lies on the fruit and not on its outline.
    reaches: Vec<f64>,
}

impl Profile {
    /// The profile of a figure at `scale` pixels a millimetre.
    pub(crate) fn of(figure: &Figure, scale: f64) -> Self {
        let (length, radius) = (figure.length * scale, figure.width * scale / 2.0);
        let widest = widest(figure);
        let upper = shoulder_exponent(figure.neck, widest);
        let unnecked = superellipse((widest - NECK_AT) / widest, upper, upper);
        let necking = (1.0 - figure.neck / unnecked).max(0.0) / waist(NECK_AT / widest);
        let free = Self {
            length,
            radius,
            widest,
            upper,
            lower: tip_exponents(figure),
            necking: necking.min(0.92),
            nipple: if figure.tip == Tip::Nippled { 0.13 } else { 0.0 },
            dimple: length * dimple(figure),
            hollow: if figure.tip == Tip::Flat { length * 0.02 } else { 0.0 },
            lobes: figure.lobes,
            crown: length * figure.lobe_depth * 0.55,
            turn: 0.35 + 0.5 * figure.scatter(7),
            top: 0.0,
            stretch: (1.0, 1.0),
            knots: if figure.lobes == 0 { KNOTS.0 } else { KNOTS.1 },
            outline: Vec::new(),
            reaches: Vec::new(),
        };
        let is_patterned = figure.lobes > 0 || figure.pattern != Pattern::Plain;
        if is_patterned { free.fitted().tabled() } else { free.fitted() }
    }

    /// The same profile, stretched so that its curve is exactly as long and wide as it should be:
    /// sunk ends must not cost length, nor the bulge between two knots add width.
    fn fitted(mut self) -> Self {
        let free = self.traced();
        let (least, most) = bounds(&free);
        let stretch = |wanted: f64, from: f64, to: f64| wanted / (to - from).max(f64::MIN_POSITIVE);
        self.top = least.y;
        self.stretch = (stretch(2.0 * self.radius, least.x, most.x), stretch(self.length, least.y, most.y));
        let placed = |knot: &Point| Point::new(knot.x * self.stretch.0, (knot.y - self.top) * self.stretch.1);
        self.outline = free.iter().map(placed).collect();
        self
    }

    /// The same profile with its reach written down, as stripes and grooves ask for it hundreds of times.
    fn tabled(mut self) -> Self {
        self.reaches = (0..=REACHES).map(|step| self.reach(f64::from(step) / f64::from(REACHES))).collect();
        self
    }

    /// Half the width over the greatest half-width, at a share of the length from the stem.
    pub(crate) fn reach(&self, down: f64) -> f64 {
        let down = down.clamp(0.0, 1.0);
        if down < self.widest {
            let up = (self.widest - down) / self.widest;
            let body = superellipse(up, self.upper, self.upper);
            if self.necking == 0.0 { body } else { body * (1.0 - self.necking * waist(down / self.widest)) }
        } else {
            let below = (down - self.widest) / (1.0 - self.widest);
            let body = superellipse(below, self.lower.0, self.lower.1);
            let teat = self.nipple * superellipse((below - 0.86).abs() / 0.14, 2.0, 2.0);
            if below > 0.86 { (body * 0.9).max(teat) } else { body }
        }
    }

    /// Traces the whole outline, clockwise from the stem end.
    fn traced(&self) -> Vec<Point> {
        let right = self.side(FRAC_PI_2);
        let left = self.side(-FRAC_PI_2);
        let between = right.len().saturating_sub(2);
        right.into_iter().chain(left.into_iter().rev().skip(1).take(between)).collect()
    }

    /// The line down the fruit at a longitude: 0 faces the eye, a quarter turn is the outline.
    fn side(&self, longitude: f64) -> Vec<Point> {
        (0..=self.knots).map(|step| self.at(longitude, down(step, self.knots))).collect()
    }

    /// The line down the fruit at a longitude, in as many steps as are asked for.
    pub(crate) fn meridian(&self, longitude: f64, steps: u32) -> Vec<Point> {
        (0..=steps).map(|step| self.on(longitude, down(step, steps))).collect()
    }

    /// As [`Profile::at`], by the table where there is one: between two of its places the line is straight,
    /// so that a mark on the skin lies within the outline.
    pub(crate) fn on(&self, longitude: f64, down: f64) -> Point {
        let place = down.clamp(0.0, 1.0) * f64::from(REACHES);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held between 0 and 48")]
        let step = place as usize;
        match (self.reaches.get(step), self.reaches.get(step + 1)) {
            (Some(from), Some(to)) => {
                let reach = from + (to - from) * place.fract();
                self.placed(self.radius * reach * longitude.sin(), down)
            }
            _ => self.at(longitude, down),
        }
    }

    /// The point of the surface at a longitude and a share of the length.
    pub(crate) fn at(&self, longitude: f64, down: f64) -> Point {
        self.placed(self.radius * self.reach(down) * longitude.sin(), down)
    }

    fn placed(&self, x: f64, down: f64) -> Point {
        Point::new(x * self.stretch.0, self.height(x, down))
    }

    /// The surface's y at `down`, with stem and blossom ends sunk and lobes standing up.
    fn height(&self, x: f64, down: f64) -> f64 {
        let across = (x / self.radius).clamp(-1.0, 1.0);
        let near_axis = (1.0 - (across / 0.62).powi(2)).max(0.0).powi(2);
        let top = (1.0 - down / 0.3).max(0.0);
        let crown = if self.lobes == 0 || top == 0.0 { 0.0 } else { self.crown * self.groove(across) };
        let sunk = top * (self.dimple * near_axis + crown);
        let raised = (1.0 - (1.0 - down) / 0.12).max(0.0) * self.hollow * near_axis;
        (self.length * down + sunk - raised - self.top) * self.stretch.1
    }

    /// 1 in the groove between two lobes, 0 on the crest of one, across the top of the fruit.
    fn groove(&self, across: f64) -> f64 {
        (f64::from(self.lobes) * (across.asin() - self.turn) / 2.0).cos().powi(4)
    }
}

/// How far down the step of this number lies, of `steps`: they crowd towards the ends, where the line bends.
fn down(step: u32, steps: u32) -> f64 {
    (1.0 - (PI * f64::from(step) / f64::from(steps)).cos()) / 2.0
}

/// A superellipse's reach at `up` from its widest (0) to its end (1).
fn superellipse(up: f64, power: f64, root: f64) -> f64 {
    (1.0 - up.clamp(0.0, 1.0).powf(power)).max(0.0).powf(1.0 / root)
}

/// How much of the necking is felt: all of it at the stem end, none where the fruit is widest.
fn waist(down: f64) -> f64 {
    (0.5 + 0.5 * (PI * down.clamp(0.0, 1.0)).cos()).powf(0.8)
}

/// Where the fruit is widest: lower the narrower its neck, higher the more it tapers to a point.
fn widest(figure: &Figure) -> f64 {
    let even = match figure.tip {
        Tip::Pointed => 0.37,
        Tip::Nippled => 0.44,
        Tip::Flat | Tip::Rounded => 0.49,
    };
    let dropped = (0.88 - figure.neck).max(0.0) * 0.62;
    let raised = (figure.neck - 0.93).max(0.0) * 1.6;
    (even + dropped - raised).clamp(NECK_AT + 0.03, 0.72)
}

/// The squareness of the upper half that reaches `neck` a quarter of the way down.
fn shoulder_exponent(neck: f64, widest: f64) -> f64 {
    let up = (widest - NECK_AT) / widest;
    let (mut low, mut high) = SHOULDERS;
    for _ in 0..24 {
        let middle = f64::midpoint(low, high);
        if superellipse(up, middle, middle) < neck { low = middle } else { high = middle }
    }
    f64::midpoint(low, high)
}

/// The lower half's power and root.
fn tip_exponents(figure: &Figure) -> (f64, f64) {
    let slender = figure.length / figure.width > 1.25;
    match figure.tip {
        Tip::Flat => (2.5, 2.4),
        Tip::Rounded if slender => (2.5, 2.1),
        Tip::Rounded => (2.1, 2.05),
        Tip::Pointed => (2.0, 1.42),
        Tip::Nippled => (2.2, 1.9),
    }
}

/// How deep the stem end is sunk, as a share of the length.
fn dimple(figure: &Figure) -> f64 {
    match figure.shoulder {
        Shoulder::Indented => 0.075,
        Shoulder::Flat => 0.04,
        Shoulder::Rounded => 0.012,
        Shoulder::Tapered => 0.0,
    }
}
