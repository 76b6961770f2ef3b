//! The cut face: the fruit sliced across at its widest, with wall, core, chambers, gel and seeds.
//!
//! Drawn about its centre, in pixels. The number of chambers is the number counted; a fruit that
//! nobody has cut is drawn faint, with dashed edge and the chambers only pencilled.

use crate::chamber::{Chamber, chambers};
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
}

impl Rim {
    fn of(figure: &Figure, radius: f64) -> Self {
        let turn = -PI / 2.0 + 0.5 * (figure.scatter(11) - 0.5);
        let centre = Point::new(0.0, 0.0);
        let mut rim = Self { lobes: figure.lobes, depth: figure.lobe_depth, turn, centre, reach: radius };
        if rim.lobes > 0 {
            let (least, most) = bounds(&rim.points(1.0));
            let stretch = 2.0 * radius / (most.x - least.x).max(most.y - least.y).max(f64::MIN_POSITIVE);
            let middle = least.towards(most, 0.5);
            rim.centre = Point::new(-middle.x * stretch, -middle.y * stretch);
            rim.reach = radius * stretch;
        }
        rim
    }

    /// The point of the rim at an angle, or a `share` of the way out to it.
    pub(crate) fn at(&self, angle: f64, share: f64) -> Point {
        if self.lobes == 0 {
            return self.centre.polar(angle, self.reach * share);
        }
        let groove = (f64::from(self.lobes) * (angle - self.turn) / 2.0).sin().abs().powi(3);
        self.centre.polar(angle, self.reach * share * (1.0 - self.depth * groove))
    }

    /// Begins the shape of the rim, shrunk to `share`: a circle where it is smooth.
    fn edge<'a>(&self, canvas: &'a mut Canvas, share: f64) -> Element<'a> {
        if self.lobes == 0 {
            return canvas.element("circle").at("r", self.reach * share);
        }
        let mut path = Path::sized(self.reach);
        path.round(&self.points(share));
        canvas.element("path").along(&path)
    }

    fn points(&self, share: f64) -> Vec<Point> {
        turns((self.lobes * KNOTS_A_LOBE).max(12)).map(|angle| self.at(angle + self.turn, share)).collect()
    }
}

fn face(canvas: &mut Canvas, figure: &Figure, rim: &Rim, radius: f64) {
    let palette = &figure.palette;
    let skin = if figure.colour_known { palette.skin.lighter(-6.0).hex() } else { INK.to_string() };
    rim.edge(canvas, 1.0).set("fill", &skin).end();
    rim.edge(canvas, 1.0 - SKIN.max(0.7 / radius)).set("fill", &palette.flesh.hex()).end();
}

fn inside(canvas: &mut Canvas, figure: &Figure, chambers: &[Chamber<'_>], radius: f64) {
    let palette = &figure.palette;
    let (mut gel, mut placenta, mut seeds) =
        (Path::sized(radius), Path::sized(radius), Path::sized(radius / 2.0));
    for chamber in chambers {
        gel.round(&chamber.wall());
        if radius > BARE {
            placenta.round(&chamber.placenta());
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
    let Some(seed) = chambers.first().map(|chamber| chamber.seed_size()) else { return };
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
fn pencilled(canvas: &mut Canvas, figure: &Figure, rim: &Rim, chambers: &[Chamber<'_>], radius: f64) {
    let tint = figure.palette.flesh.lighter(10.0).hex();
    let face = rim.edge(canvas, 1.0).set("fill", &tint).at("fill-opacity", 0.3).set("stroke", THIN_INK);
    face.at("stroke-width", 0.8).set("stroke-dasharray", "3 2.5").end();
    let mut walls = Path::sized(radius);
    chambers.iter().for_each(|chamber| walls.round(&chamber.wall()));
    let guess = canvas.element("path").set("fill", "none").set("stroke", THIN_INK).at("stroke-width", 0.6);
    guess.set("stroke-dasharray", "1 2").at("stroke-opacity", 0.7).along(&walls).end();
}
