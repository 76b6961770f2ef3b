//! The portrait: a whole fruit drawn to scale beside its cut face.
//!
//! For every page and every print. Start at [`portrait`], or at [`fitted`] where the room is given
//! and the scale is not. The whole fruit stands on the bottom edge at the left, the cut face at its
//! right; both are to one scale. What was not measured is only hinted at, and the drawing's words say so.

use crate::calyx::stem_height;
use crate::cut;
use crate::figure::Figure;
use crate::look::FruitLook;
use crate::outline::Profile;
use crate::paint::INK;
use crate::scale::{Pixels, Scale};
use crate::svg::{Canvas, Gradient, Role, Svg};
use crate::whole;
use crate::words;
use record::language::Units;

/// Room left round the fruit for outlines and shadow, in pixels.
const MARGIN: f64 = 2.0;
/// Room between the whole fruit and its cut face, over the width of the fruit. A choice of the drawing.
const GAP: f64 = 0.07;

/// Draws a portrait at a given scale.
///
/// The whole fruit is exactly as long and wide as its traits times the scale; its cut face, at its
/// widest, stands to its right. `units` says which units the drawing's words give first.
#[must_use]
pub fn portrait(look: &FruitLook, scale: Scale, units: Units) -> Svg {
    let pair = Pair::of(look, scale);
    let mut canvas = Canvas::new("p", &look.name);
    pair.draw(&mut canvas, pair.height());
    canvas.finish("portrait", Role::Picture, &words::portrait(look, units), pair.width(), pair.height())
}

/// The width and height that [`portrait`] draws at, without drawing; nothing where they are no lengths.
#[must_use]
pub fn size(look: &FruitLook, scale: Scale) -> Option<(Pixels, Pixels)> {
    let (wide, high) = millimetres(&Figure::of(look));
    let drawn = |millimetres: f64| Pixels::new(millimetres * scale.pixels_per_millimetre() + 2.0 * MARGIN);
    Some((drawn(wide)?, drawn(high)?))
}

/// Draws a portrait as large as `width` by `height` pixels allow.
#[must_use]
pub fn fitted(look: &FruitLook, width: Pixels, height: Pixels, units: Units) -> Svg {
    let figure = Figure::of(look);
    let (wide, high) = millimetres(&figure);
    let room = |pixels: Pixels| (pixels.get() - 2.0 * MARGIN).max(0.0);
    let scale = (room(width) / wide).min(room(height) / high);
    portrait(look, Scale::nearest(scale), units)
}

/// Width and height of a portrait's fruit, in millimetres.
fn millimetres(figure: &Figure) -> (f64, f64) {
    (figure.width * (2.0 + GAP), (figure.length + stem_height(figure)).max(figure.width))
}

/// A whole fruit and its cut face, ready to be drawn anywhere.
pub(crate) struct Pair {
    figure: Figure,
    profile: Profile,
    scale: f64,
}

impl Pair {
    pub(crate) fn of(look: &FruitLook, scale: Scale) -> Self {
        let figure = Figure::of(look);
        let scale = scale.pixels_per_millimetre();
        Self { profile: Profile::of(&figure, scale), figure, scale }
    }

    /// Drawn width, margins included.
    pub(crate) fn width(&self) -> f64 {
        millimetres(&self.figure).0 * self.scale + 2.0 * MARGIN
    }

    /// Drawn height, margins included.
    pub(crate) fn height(&self) -> f64 {
        millimetres(&self.figure).1 * self.scale + 2.0 * MARGIN
    }

    /// Width squared times length, by which fruits are put in order of size.
    pub(crate) fn bulk(&self) -> f64 {
        self.figure.width.powi(2) * self.figure.length
    }

    /// Draws the pair with its left edge at 0, standing on `floor`.
    pub(crate) fn draw(&self, canvas: &mut Canvas, floor: f64) {
        let (radius, length) = (self.profile.radius, self.profile.length);
        let base = floor - MARGIN;
        let middle = MARGIN + radius;
        shadow(canvas, middle, base, radius);
        canvas.element("g").set("class", "whole").moved(middle, base - length).holding(|canvas| {
            whole::draw(canvas, &self.figure, &self.profile);
        });
        let centre = middle + radius * (2.0 + 2.0 * GAP);
        canvas.element("g").set("class", "cut").moved(centre, base - radius).holding(|canvas| {
            cut::draw(canvas, &self.figure, radius);
        });
    }
}

/// Draws the shade that the fruit throws on its shelf, in ink.
fn shadow(canvas: &mut Canvas, middle: f64, base: f64, radius: f64) {
    let stops = [(0.0, INK, 0.34), (0.6, INK, 0.16), (1.0, INK, 0.0)];
    let fill = canvas.gradient(&Gradient::Radial { centre: (0.5, 0.5), radius: 0.5, stops: &stops });
    let ellipse = canvas.element("ellipse").at("cx", middle).at("cy", base);
    ellipse.at("rx", radius * 0.82).at("ry", (radius * 0.09).clamp(0.5, MARGIN)).set("fill", &fill).end();
}
