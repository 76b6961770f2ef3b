//! Calyx and stem: the green star that lies on the shoulders, and what is left of the stalk.

use crate::figure::Figure;
use crate::outline::Profile;
use crate::paint::LEAF;
use crate::path::{Path, Point};
use crate::svg::Canvas;

/// Longest sepal, in millimetres, however large the fruit. Common practice, no source.
const LONGEST_SEPAL: f64 = 21.0;
/// Shortest sepal, in millimetres. Common practice, no source.
const SHORTEST_SEPAL: f64 = 3.2;
/// Tallest stem left on the fruit, in millimetres. Common practice, no source.
const TALLEST_STEM: f64 = 13.0;

/// Half a sepal's width and how high it arches, over its length. A choice of the drawing.
const SEPAL_HALF: f64 = 0.125;
const SEPAL_ARCH: f64 = 0.15;
/// Length in pixels below which the sepals behind the stem are left out. A choice of the drawing.
const FEW_SEPALS: f64 = 6.0;

/// Where each sepal points, from left (-1) to right (1), how far it lifts off, and whether it lies
/// behind the stem.
const SEPALS: [(f64, f64, bool); 7] = [
    (-0.55, 0.26, true),
    (0.5, 0.3, true),
    (-1.0, 0.12, false),
    (1.0, 0.15, false),
    (-0.56, -0.2, false),
    (0.62, -0.17, false),
    (0.04, -0.34, false),
];

/// How far stem and sepals stand above the top of the fruit, in millimetres.
pub(crate) fn stem_height(figure: &Figure) -> f64 {
    (1.6 + 0.13 * figure.width).min(TALLEST_STEM)
}

/// Draws the calyx and the stem.
pub(crate) fn draw(canvas: &mut Canvas, figure: &Figure, profile: &Profile) {
    let scale = 2.0 * profile.radius / figure.width;
    let sepal = (0.36 * figure.width).clamp(SHORTEST_SEPAL, LONGEST_SEPAL).min(figure.width * 0.44) * scale;
    let base = profile.at(0.0, 0.0);
    let slope = Slope::of(profile);
    let (mut behind, mut before) = (Path::sized(sepal), Path::sized(sepal));
    for (index, (across, lift, back)) in (0_u32..).zip(SEPALS) {
        if back && sepal < FEW_SEPALS {
            continue;
        }
        let reach = sepal * across * (0.88 + 0.24 * figure.scatter(400 + index));
        let lift = sepal * (lift + 0.07 * (figure.scatter(500 + index) - 0.5));
        let tip = Point::new(reach, slope.rest(reach, sepal) - lift);
        lance(
            if back { &mut behind } else { &mut before },
            base,
            tip,
            sepal * SEPAL_HALF,
            sepal * SEPAL_ARCH,
        );
    }
    if !behind.is_empty() {
        canvas.element("path").set("fill", &LEAF.lighter(-13.0).hex()).along(&behind).end();
    }
    stem(canvas, figure, base, stem_height(figure) * scale);
    canvas.element("path").set("fill", &LEAF.hex()).along(&before).end();
}

/// The shoulder on which sepals lie: how wide the fruit is at each of a few places down it, in pixels.
struct Slope([(f64, f64); 12]);

impl Slope {
    fn of(profile: &Profile) -> Self {
        let mut slope = [(0.0, 0.0); 12];
        for (step, place) in (1_u32..).zip(&mut slope) {
            let down = f64::from(step) * 0.03;
            *place = (profile.radius * profile.reach(down), profile.length * down);
        }
        Self(slope)
    }

    /// How far down a sepal's tip lies: on the shoulder, or hanging free where the fruit falls away.
    fn rest(&self, reach: f64, sepal: f64) -> f64 {
        let shoulder = self.0.iter().take_while(|(wide, _)| *wide < reach.abs()).last();
        shoulder.map_or(0.0, |(_, down)| *down).min(sepal * 0.55)
    }
}

/// One sepal: a narrow blade that arches out of `base` and ends in a point.
fn lance(path: &mut Path, base: Point, tip: Point, half: f64, arch: f64) {
    let side = Point::new(tip.x - base.x, tip.y - base.y);
    let long = side.x.hypot(side.y).max(f64::MIN_POSITIVE);
    let across = Point::new(-side.y / long * half, side.x / long * half);
    let belly = base.towards(tip, 0.45);
    let upper = Point::new(belly.x - across.x, belly.y - across.y - arch);
    let lower = Point::new(belly.x + across.x, belly.y + across.y - arch);
    path.move_to(Point::new(base.x - across.x * 0.6, base.y - across.y * 0.6));
    path.bend_to(upper, tip);
    path.bend_to(lower, Point::new(base.x + across.x * 0.6, base.y + across.y * 0.6));
    path.close();
}

/// The stalk: slightly bent, a little thicker at its foot.
fn stem(canvas: &mut Canvas, figure: &Figure, base: Point, height: f64) {
    let lean = height * (figure.scatter(600) - 0.5) * 0.7;
    let top = Point::new(base.x + lean, -height * 0.96);
    let bend = Point::new(base.x + lean * 0.3, base.y.min(0.0) - height * 0.45);
    let thick = (height * 0.13).clamp(0.35, 2.6);
    let mut path = Path::sized(height);
    path.move_to(Point::new(base.x - thick, base.y));
    path.bend_to(Point::new(bend.x - thick * 0.85, bend.y), Point::new(top.x - thick * 0.75, top.y));
    path.line_to(Point::new(top.x + thick * 0.75, top.y));
    path.bend_to(Point::new(bend.x + thick * 1.1, bend.y), Point::new(base.x + thick, base.y));
    path.close();
    canvas.element("path").set("fill", &LEAF.lighter(-6.0).hex()).along(&path).end();
}
