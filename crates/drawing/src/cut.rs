//! The cut face: the fruit sliced across at its widest, with wall, core, chambers, gel and seeds.
//!
//! Drawn about its centre, in pixels. The number of chambers is the number counted; a fruit that
//! nobody has cut is drawn faint, with dashed edge and the chambers only pencilled.

use crate::chamber::{Chambers, chambers};
use crate::figure::Figure;
use crate::paint::{INK, THIN_INK};
use crate::path::{Path, Point, bounds, turns};
use crate::svg::{Canvas, Element};
use std::f64::consts::PI;

/// Knots of the rim for each lobe. A choice of the drawing.
const KNOTS_A_LOBE: u32 = 4;
/// Thickness of the skin as drawn, over the radius. A choice of the drawing.
const SKIN: f64 = 0.028;

/// Narrowest seed drawn with its sheath of gel, in pixels. A choice of the drawing.
const SHEATHED: f64 = 1.6;

/// Radius in pixels up to which a placenta is too small to be seen. A choice of the drawing.
const BARE: f64 = 9.0;

/// Draws the cut face of a fruit `radius` pixels from centre to rim.
pub(crate) fn draw(canvas: &mut Canvas, figure: &Figure, radius: f64) {
    let rim = Rim::of(figure, radius);
    let chambers = chambers(figure, &rim, radius);
    if figure.cut {
        face(canvas, figure, &rim, radius);
        inside(canvas, figure, &chambers, radius);
    } else {
        pencilled(canvas, figure, &rim, &chambers, radius);
    }
}

/// The edge of the cut face.
pub(crate) struct Rim {
    lobes: u32,
    depth: f64,
    /// Which way the first lobe points.
    pub(crate) turn: f64,
    /// Where the rim's middle lies and how far a lobe reaches, so that it is as wide as measured.
    centre: Point,
    reach: f64,
    /// The rim's own knots and the line through them; none where it is a circle.
    knots: Vec<Point>,
    line: Path,
}

impl Rim {
    fn of(figure: &Figure, radius: f64) -> Self {
        let turn = -PI / 2.0 + 0.5 * (figure.scatter(11) - 0.5);
        let centre = Point::new(0.0, 0.0);
        let (lobes, depth) = (figure.lobes, figure.lobe_depth);
        let free =
            Self { lobes, depth, turn, centre, reach: radius, knots: Vec::new(), line: Path::sized(radius) };
        if lobes == 0 { free } else { free.fitted(radius) }
    }

    /// The same rim moved and stretched so that it is just as wide as it should be, lobes or no lobes.
    fn fitted(mut self, radius: f64) -> Self {
        let count = (self.lobes * KNOTS_A_LOBE).max(12);
        self.knots = turns(count).map(|angle| self.at(angle + self.turn, 1.0)).collect();
        let (least, most) = bounds(&self.knots);
        let stretch = 2.0 * radius / (most.x - least.x).max(most.y - least.y).max(f64::MIN_POSITIVE);
        let middle = least.towards(most, 0.5);
        let placed = |knot: &Point| Point::new((knot.x - middle.x) * stretch, (knot.y - middle.y) * stretch);
        self.knots = self.knots.iter().map(placed).collect();
        self.centre = Point::new(-middle.x * stretch, -middle.y * stretch);
        self.reach = radius * stretch;
        self.line.round(&self.knots);
        self
    }

    /// The point of the rim at an angle, or a `share` of the way out to it.
    pub(crate) fn at(&self, angle: f64, share: f64) -> Point {
        if self.lobes == 0 {
            return self.centre.polar(angle, self.reach * share);
        }
        let groove = (f64::from(self.lobes) * (angle - self.turn) / 2.0).sin().abs().powi(3);
        self.centre.polar(angle, self.reach * share * (1.0 - self.depth * groove))
    }

    /// Begins the shape of the rim: a circle where it is smooth.
    fn edge<'a>(&self, canvas: &'a mut Canvas) -> Element<'a> {
        if self.knots.is_empty() {
            return canvas.element("circle").at("r", self.reach);
        }
        canvas.element("path").along(&self.line)
    }
}

fn face(canvas: &mut Canvas, figure: &Figure, rim: &Rim, radius: f64) {
    let palette = &figure.palette;
    let skin = rim.edge(canvas).set("fill", &palette.skin.lighter(-6.0).hex());
    if figure.colour_known {
        skin.end();
    } else {
        skin.set("stroke", INK).at("stroke-width", (radius * 0.022).clamp(0.35, 1.1)).end();
    }
    let within = 1.0 - SKIN.max(0.7 / radius);
    rim.edge(canvas).scaled(within).set("fill", &palette.flesh.hex()).end();
}

fn inside(canvas: &mut Canvas, figure: &Figure, chambers: &Chambers<'_, '_>, radius: f64) {
    let palette = &figure.palette;
    let (mut gel, mut placenta, mut seeds) =
        (Path::sized(radius), Path::sized(radius), Path::sized(radius / 2.0));
    for (chamber, knots) in chambers.each() {
        gel.round(&chamber.wall(knots));
        if radius > BARE {
            placenta.round(&chamber.placenta(knots));
        }
        for (from, to) in chamber.seeds(figure) {
            seeds.move_to(from);
            seeds.line_to(to);
        }
    }
    let rind = palette.flesh.lighter(-8.0).hex();
    let wall =
        canvas.element("path").set("class", "gel").set("fill", &palette.gel.hex()).set("stroke", &rind);
    wall.at("stroke-width", (radius * 0.014).clamp(0.2, 1.0)).along(&gel).end();
    if !placenta.is_empty() {
        canvas.element("path").set("fill", &palette.flesh.lighter(3.0).hex()).along(&placenta).end();
    }
    streaks(canvas, figure, radius);
    let Some(seed) = chambers.each().next().map(|(chamber, _)| chamber.seed_size()) else { return };
    if seeds.is_empty() || seed.1 < 0.3 {
        return;
    }
    let sheath = palette.gel.lighter(-16.0).hex();
    let coats = [(sheath, 1.5), (palette.seed.hex(), 1.0)];
    // A sheath round a seed of a pixel or two is only a smear.
    for (colour, grown) in coats.into_iter().skip(usize::from(seed.1 < SHEATHED)) {
        let path = canvas.element("path").set("fill", "none").set("stroke", &colour);
        let path = path.at("stroke-width", seed.1 * grown).set("stroke-linecap", "round");
        path.along(&seeds).end();
    }
}

/// Draws the red that runs out from the core of a bicolour.
fn streaks(canvas: &mut Canvas, figure: &Figure, radius: f64) {
    if !figure.bicolour {
        return;
    }
    let mut path = Path::sized(radius);
    let centre = Point::new(0.0, 0.0);
    for (index, angle) in (0_u32..).zip(turns(11)) {
        let angle = angle + 0.4 * figure.scatter(700 + index);
        let far = radius * (0.25 + 0.4 * figure.scatter(720 + index));
        let half = 0.13 + 0.12 * figure.scatter(740 + index);
        path.move_to(centre);
        path.through(&[centre, centre.polar(angle - half, far * 0.6), centre.polar(angle, far)]);
        path.through(&[centre.polar(angle, far), centre.polar(angle + half, far * 0.6), centre]);
        path.close();
    }
    let red = figure.palette.second.hex();
    canvas.element("path").set("fill", &red).at("fill-opacity", 0.45).along(&path).end();
}

/// Draws a fruit that nobody has cut: a dashed edge and faint walls.
fn pencilled(canvas: &mut Canvas, figure: &Figure, rim: &Rim, chambers: &Chambers<'_, '_>, radius: f64) {
    let tint = figure.palette.flesh.lighter(10.0).hex();
    let face = rim.edge(canvas).set("fill", &tint).at("fill-opacity", 0.3).set("stroke", THIN_INK);
    face.at("stroke-width", 0.8).set("stroke-dasharray", "3 2.5").end();
    let mut walls = Path::sized(radius);
    chambers.each().for_each(|(chamber, knots)| walls.round(&chamber.wall(knots)));
    let guess = canvas.element("path").set("fill", "none").set("stroke", THIN_INK).at("stroke-width", 0.75);
    guess.set("stroke-dasharray", "2 1.8").along(&walls).end();
}
