//! The whole fruit, seen from the side: body, pattern, lobes, gloss, calyx and stem.
//!
//! Drawn about its own axis: x = 0 is the middle, y = 0 the top of the fruit, both in pixels. Light
//! falls from the upper left, and every shade is the fruit's own colour made lighter or darker.

use crate::calyx;
use crate::figure::Figure;
use crate::outline::Profile;
use crate::paint::{Hue, INK};
use crate::path::{Path, Point};
use crate::svg::{Canvas, Gradient};
use record::colour::Pattern;
use std::f64::consts::{FRAC_PI_2, TAU};

/// Draws the whole fruit.
pub(crate) fn draw(canvas: &mut Canvas, figure: &Figure, profile: &Profile) {
    let mut outline = Path::sized(profile.radius);
    outline.round(&profile.outline);
    body(canvas, figure, profile.radius, &outline);
    pattern(canvas, figure, profile, &outline);
    grooves(canvas, figure, profile);
    gloss(canvas, profile);
    calyx::draw(canvas, figure, profile);
}

/// Draws the skin and its outline: dashed where size is a guess, in ink where no colour is known.
fn body(canvas: &mut Canvas, figure: &Figure, radius: f64, outline: &Path) {
    let skin = figure.palette.skin;
    let stops =
        [(0.0, skin.lighter(9.0)), (0.42, skin), (0.8, skin.lighter(-7.0)), (1.0, skin.lighter(-15.0))];
    let fill = radial(canvas, (0.36, 0.3), 0.78, &stops);
    let edge = if figure.colour_known { skin.lighter(-20.0).hex() } else { INK.to_string() };
    let path = canvas.element("path").set("fill", &fill).set("stroke", &edge);
    let path = path.at("stroke-width", (radius * 0.022).clamp(0.35, 1.1));
    let path = if figure.size_known { path } else { path.set("stroke-dasharray", "4 3") };
    path.along(outline).end();
}

fn radial(canvas: &mut Canvas, centre: (f64, f64), radius: f64, stops: &[(f64, Hue)]) -> String {
    let colours: Vec<String> = stops.iter().map(|(_, hue)| hue.hex()).collect();
    let stops: Vec<_> = stops.iter().zip(&colours).map(|((at, _), hex)| (*at, hex.as_str(), 1.0)).collect();
    canvas.gradient(&Gradient::Radial { centre, radius, stops: &stops })
}

fn pattern(canvas: &mut Canvas, figure: &Figure, profile: &Profile, outline: &Path) {
    let second = figure.palette.second.hex();
    if figure.bicolour || figure.pattern == Pattern::Marbled {
        let stops = [(0.0, second.as_str(), 0.95), (0.35, second.as_str(), 0.6), (1.0, second.as_str(), 0.0)];
        let blush = canvas.gradient(&Gradient::Radial { centre: (0.5, 1.0), radius: 0.62, stops: &stops });
        canvas.element("path").set("fill", &blush).along(outline).end();
    }
    match figure.pattern {
        Pattern::Plain => {}
        Pattern::Striped => flames(canvas, figure, profile, &STRIPES),
        Pattern::Marbled => flames(canvas, figure, profile, &MARBLING),
        Pattern::DarkShouldered => shoulders(canvas, figure, outline),
    }
}

/// How a pattern's flames are laid over the fruit.
struct Flames {
    count: u32,
    /// Half the width of one, as a longitude.
    half: f64,
    /// Where each may start, and how far it may run, as shares of the fruit's length.
    starts: (f64, f64),
    lengths: (f64, f64),
    opacity: f64,
}

const STRIPES: Flames =
    Flames { count: 17, half: 0.085, starts: (0.01, 0.07), lengths: (0.82, 0.95), opacity: 0.82 };
/// Flecks, thicker towards the blossom end.
const MARBLING: Flames =
    Flames { count: 53, half: 0.13, starts: (0.1, 0.82), lengths: (0.1, 0.3), opacity: 0.42 };
/// Nearest that a flame comes to the blossom end.
const FLAME_END: f64 = 0.99;

/// Draws stripes or marbling: flames with ragged edges down the meridians that face the eye.
fn flames(canvas: &mut Canvas, figure: &Figure, profile: &Profile, flames: &Flames) {
    let mut path = Path::sized(profile.radius);
    for index in 0..flames.count {
        let scatter = |salt: u32| figure.scatter(index * 16 + salt);
        let middle = TAU * (f64::from(index) + 0.5 * scatter(0)) / f64::from(flames.count) - FRAC_PI_2;
        if middle.cos() < 0.08 {
            continue;
        }
        let between = |(least, most): (f64, f64), salt: u32| least + (most - least) * scatter(salt);
        let start = between(flames.starts, 1);
        let end = (start + between(flames.lengths, 2)).min(FLAME_END);
        flame(&mut path, profile, flames.half, (middle, start, end), scatter);
    }
    let fill = figure.palette.second.hex();
    canvas.element("path").set("fill", &fill).at("fill-opacity", flames.opacity).along(&path).end();
}

fn flame(
    path: &mut Path,
    profile: &Profile,
    half: f64,
    place: (f64, f64, f64),
    scatter: impl Fn(u32) -> f64,
) {
    let (middle, start, end) = place;
    let wobble = |step: u32, salt: u32| half * (0.55 + 0.75 * scatter(salt + step));
    let down = |step: u32| start + (end - start) * f64::from(step) / f64::from(FLAME_STEPS);
    let edge = |step: u32, side: f64, salt: u32| {
        profile.on((middle + side * wobble(step, salt)).clamp(-LIMB, LIMB), down(step))
    };
    let tip = |step: u32| profile.on(middle.clamp(-LIMB, LIMB), down(step));
    let right = (1..FLAME_STEPS).map(|step| edge(step, 1.0, 3));
    let left = (1..FLAME_STEPS).rev().map(|step| edge(step, -1.0, 8));
    let points: Vec<Point> =
        std::iter::once(tip(0)).chain(right).chain(std::iter::once(tip(FLAME_STEPS))).chain(left).collect();
    path.round(&points);
}

fn shoulders(canvas: &mut Canvas, figure: &Figure, outline: &Path) {
    let dark = figure.palette.skin.lighter(-18.0).towards(SHADED_SHOULDER, 0.62).hex();
    let stops = [(0.0, dark.as_str(), 0.95), (0.4, dark.as_str(), 0.7), (1.0, dark.as_str(), 0.0)];
    let fill = canvas.gradient(&Gradient::Radial { centre: (0.5, 0.0), radius: 0.52, stops: &stops });
    canvas.element("path").set("fill", &fill).along(outline).end();
}

/// What sun-struck shoulders darken towards. A choice of the drawing.
const SHADED_SHOULDER: Hue = Hue(26.0, -12.0, 16.0);

/// Half the width of a groove between two lobes, as a longitude. A choice of the drawing.
const GROOVE: f64 = 0.032;
/// Steps down one side of a groove; more are not seen. A choice of the drawing.
const GROOVE_STEPS: u32 = 5;
/// Farthest longitude that a flame reaches: short of the outline, over which it would bulge.
const LIMB: f64 = 1.3;
/// Steps down one side of a flame. A choice of the drawing.
const FLAME_STEPS: u32 = 4;

/// Draws the grooves between lobes: slivers of shade down the meridians.
fn grooves(canvas: &mut Canvas, figure: &Figure, profile: &Profile) {
    if figure.lobes == 0 {
        return;
    }
    let mut path = Path::sized(profile.radius);
    for index in 0..figure.lobes {
        let longitude = profile.turn + TAU * f64::from(index) / f64::from(figure.lobes);
        if longitude.cos() < 0.2 {
            continue;
        }
        let (left, right) =
            [-GROOVE, GROOVE].map(|side| profile.meridian(longitude + side, GROOVE_STEPS)).into();
        let Some(top) = left.first() else { continue };
        path.move_to(*top);
        path.through(&left);
        path.through(&right.into_iter().rev().collect::<Vec<Point>>());
        path.close();
    }
    let shade = figure.palette.skin.lighter(-17.0).hex();
    let depth = if figure.lobe_depth > 0.03 { 0.6 } else { 0.3 };
    canvas.element("path").set("fill", &shade).at("fill-opacity", depth).along(&path).end();
}

/// Draws the light on the skin: a soft spot where the sun strikes it.
fn gloss(canvas: &mut Canvas, profile: &Profile) {
    let stops = [(0.0, "#ffffff", 0.5), (0.4, "#ffffff", 0.22), (1.0, "#ffffff", 0.0)];
    let fill = canvas.gradient(&Gradient::Radial { centre: (0.5, 0.5), radius: 0.5, stops: &stops });
    let lit = profile.at(-0.5, 0.3);
    let spot = profile.radius.min(profile.length / 2.0);
    let ellipse = canvas.element("ellipse").at("cx", lit.x).at("cy", lit.y);
    ellipse.at("rx", spot * 0.3).at("ry", spot * 0.4).set("fill", &fill).end();
}
