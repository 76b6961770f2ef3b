//! The solid behind an outline: length, width and volume of a fruit lying on the sheet, its height taken out.
//!
//! A sphere of radius r under a camera at height H throws an outline of r / sqrt(1 - 2r/H) on the sheet: 22% too much volume
//! at 70 mm and 560 mm. So the outline's rays are cut by a plane through the fruit's middle, square to the line of sight,
//! and what the cone of rays touches before that plane is taken off. Start at [`lying`].

use crate::camera::{Camera, Vector, cross, dot, unit};
use crate::outline::{Moments, Point, axes, extent, hull, moments};
use std::f64::consts::{FRAC_PI_4, PI, TAU};

/// Rounds of guessing how high the middle lies; each takes the error down tenfold.
const ROUNDS: usize = 6;
/// Directions round the middle in which the outline is held against its mirror image.
const WAYS: usize = 180;
/// Above this ratio of the longer to the shorter axis the longer one is the stem's: few tomatoes are flatter than this
/// when they lie on their side, for they would roll upright (common practice, no source).
const SURELY_LONG: f64 = 1.25;
/// Thicker fruit than this, mm, that are not [`LONG_THOUGH_THICK`] are broad, not long: beefsteaks lie on their side in
/// pictures, long fruit are slender (common practice, no source).
pub(crate) const THICK: f64 = 55.0;
const LONG_THOUGH_THICK: f64 = 1.7;
/// How many times less symmetrical an outline is about the wrong axis before symmetry decides.
const PLAINLY_LESS: f64 = 2.0;

/// A fruit of revolution lying on its side.
#[derive(Clone, Copy, Debug)]
pub struct Solid {
    /// Along the stem, mm.
    pub length: f64,
    /// Across it, mm.
    pub width: f64,
    /// Cubic centimetres.
    pub volume: f64,
    /// Width at a quarter of the length from the stem's end, over the width.
    pub neck: f64,
    /// Whether the stem's axis is told apart from the one across it.
    pub axis: Axis,
    /// The fruit's middle on the sheet, mm.
    pub middle: Point,
    /// The stem's axis in the picture, from end to end.
    pub stem: [Point; 2],
    /// The greatest width in the picture, from side to side.
    pub across: [Point; 2],
}

/// What somebody who looked says of a fruit's stem.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Told {
    /// Nothing: the outline decides.
    #[default]
    Nothing,
    /// The stem lies along the axis that the outline chose.
    AsDrawn,
    /// The stem lies across it.
    Across,
    /// The fruit stands on its blossom end or on its stem.
    Standing,
    /// The fruit is cut across, its cut face up.
    Cut,
}

/// A fruit that stands: of its length, neck and volume nothing is seen from above.
#[derive(Clone, Copy, Debug)]
pub struct Standing {
    /// Greatest width, mm.
    pub width: f64,
    /// The fruit's middle on the sheet, mm.
    pub middle: Point,
    /// The greatest width in the picture, from side to side.
    pub across: [Point; 2],
}

/// What is known of the stem's axis from the outline alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// It is the one measured along.
    Known,
    /// The outline looks much the same along and across: length and width may be the other way round.
    Unsure,
}

/// A plane square to the line of sight: two directions in it, and the line.
struct Frame {
    ahead: Vector,
    across: [Vector; 2],
}

impl Solid {
    /// The same solid where everything on the card is `factor` times as long as it should be.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self {
            length: factor * self.length,
            width: factor * self.width,
            volume: factor.powi(3) * self.volume,
            ..self
        }
    }
}

/// The solid whose outline these pixels are; `None` where they enclose nothing.
///
/// `green_end`: where the green of its stem's end is seen, in pixels.
#[must_use]
pub fn lying(camera: &Camera, outline: &[Point], green_end: Option<Point>, told: Told) -> Option<Solid> {
    let (rays, frame) = sight(camera, outline)?;
    let far = camera.height() / frame.ahead[2].max(1e-6);
    let flat = laid(&rays, &frame, far);
    let green = green_end.and_then(|pixel| laid(&[camera.ray(pixel)], &frame, far).first().copied());
    let found = stem_axis(&flat, green)?;
    let (ahead, middle) = (frame.ahead, moments(outline)?.centroid);
    let (axis, turn, end) = match told {
        Told::Across => (Axis::Known, found.other, End::Unseen),
        Told::AsDrawn => (Axis::Known, found.turn, found.end),
        Told::Nothing | Told::Standing | Told::Cut => (found.axis, found.turn, found.end),
    };
    let mut half = 0.0;
    let mut solid = None;
    for _ in 0..ROUNDS {
        let distance = (camera.height() - half) / ahead[2].max(1e-6);
        let flat = laid(&rays, &frame, distance);
        let found = across_and_along(&flat, &frame, (turn, end), distance)?;
        half = found.width / 2.0;
        let seen = |place: Point| frame.pixel(camera, place, distance);
        solid = Some(Solid {
            axis,
            middle: camera.on_level(middle, half),
            stem: found.stem.map(seen),
            across: found.across.map(seen),
            ..found
        });
    }
    solid
}

/// The rays of an outline, and the plane through its middle square to the line of sight.
fn sight(camera: &Camera, outline: &[Point]) -> Option<(Vec<Vector>, Frame)> {
    let rays: Vec<Vector> = outline.iter().map(|pixel| camera.ray(*pixel)).collect();
    let ahead = camera.ray(moments(outline)?.centroid);
    let first = unit(cross(ahead, [0.0, 1.0, 0.0]));
    Some((rays, Frame { ahead, across: [first, cross(ahead, first)] }))
}

/// Half the height over the width of fruit that stand: beefsteaks are flat (common practice, no source).
const STANDING_HALF: f64 = 0.36;

/// A standing fruit by its outline; `None` where the outline encloses nothing.
#[must_use]
pub fn standing(camera: &Camera, outline: &[Point]) -> Option<Standing> {
    let (rays, frame) = sight(camera, outline)?;
    let mut found = None;
    let mut half = 0.0;
    for _ in 0..ROUNDS {
        let distance = (camera.height() - half) / frame.ahead[2].max(1e-6);
        let flat = laid(&rays, &frame, distance);
        let (from, to) = farthest(&hull(&flat))?;
        let seen = (from[0] - to[0]).hypot(from[1] - to[1]) / 2.0;
        let width = 2.0 * seen / (1.0 + (seen / distance).powi(2)).sqrt();
        half = STANDING_HALF * width;
        let across = [from, to].map(|place| frame.pixel(camera, place, distance));
        let middle = camera.on_level(moments(outline)?.centroid, half);
        found = Some(Standing { width, middle, across });
    }
    found
}

/// The two corners that lie farthest apart.
fn farthest(corners: &[Point]) -> Option<(Point, Point)> {
    let pairs = corners.iter().flat_map(|p| corners.iter().map(move |q| (*p, *q)));
    let far = |(p, q): &(Point, Point)| (p[0] - q[0]).hypot(p[1] - q[1]);
    pairs.max_by(|one, other| far(one).total_cmp(&far(other)))
}

impl Frame {
    /// The pixel of a place in the plane `distance` ahead.
    fn pixel(&self, camera: &Camera, place: Point, distance: f64) -> Point {
        let stood = camera.stood();
        camera.sees([0, 1, 2].map(|axis: usize| {
            let part = |way: Vector| way.get(axis).copied().unwrap_or(0.0);
            let [first, second] = self.across;
            part(stood) + distance * part(self.ahead) + place[0] * part(first) + place[1] * part(second)
        }))
    }
}

/// The rays cut by the plane `distance` ahead.
fn laid(rays: &[Vector], frame: &Frame, distance: f64) -> Vec<Point> {
    rays.iter()
        .map(|ray| {
            let far = distance / dot(*ray, frame.ahead).max(1e-6);
            frame.across.map(|way| far * dot(*ray, way))
        })
        .collect()
}

/// The angle of the stem's axis in the plane: of the longer and the shorter axis the one about which the outline is its own
/// mirror image; where both are, the longer of a long fruit and the shorter of a roundish one. The other one comes second.
///
/// Where the green of the stem's end is seen off the middle, its direction decides.
fn stem_axis(flat: &[Point], green: Option<Point>) -> Option<StemAxis> {
    let found = moments(flat)?;
    let (long, short, way) = axes(found.spread);
    let radii = radii(flat, found.centroid);
    let angle = way[1].atan2(way[0]);
    let (long_off, long_turn) = most_symmetrical(&radii, angle);
    let (short_off, short_turn) = most_symmetrical(&radii, angle + PI / 2.0);
    let aspect = long / short.max(1e-9);
    let surely_long = if THICK < short { LONG_THOUGH_THICK } else { SURELY_LONG };
    let known = SURELY_LONG < aspect || PLAINLY_LESS < (long_off / short_off).max(short_off / long_off);
    let along = surely_long < aspect
        || PLAINLY_LESS * long_off < short_off
        || BLOCKY < found.area / (box_side(flat, long_turn) * box_side(flat, short_turn)).max(1e-9);
    let (turn, other) = if along { (long_turn, short_turn) } else { (short_turn, long_turn) };
    let axis = if known { Axis::Known } else { Axis::Unsure };
    let by_outline = StemAxis { axis, turn, other, end: End::Unseen };
    let seen = green.and_then(|green| off_middle(&found, green));
    Some(match seen {
        Some(way) if PLAINLY_LONG < aspect => toward(way, long_turn, short_turn).unwrap_or(by_outline),
        Some(way) => {
            let (_, turn) = most_symmetrical(&radii, way);
            StemAxis { axis: Axis::Known, turn, other: turn + PI / 2.0, end: End::Ahead }
        }
        None => by_outline,
    })
}

/// Above this ratio of the longer to the shorter axis the outline tells the axes better than the green, of which the camera sees
/// one side.
const PLAINLY_LONG: f64 = 1.08;

/// A fruit that fills this share of the box round it is blocky; such fruit are as long as wide or longer (common practice, no
/// source).
const BLOCKY: f64 = 0.855;

fn box_side(flat: &[Point], turn: f64) -> f64 {
    extent(flat, [turn.cos(), turn.sin()])
}

/// Of the outline's two axes the one nearer to the way in which green is seen, turned to point there; `None` where it is seen
/// between them.
fn toward(way: f64, long: f64, short: f64) -> Option<StemAxis> {
    let nearer = (way - long).cos().abs() - (way - short).cos().abs();
    if nearer.abs() < BETWEEN {
        return None;
    }
    let (turn, other) = if 0.0 < nearer { (long, short) } else { (short, long) };
    let turn = if (way - turn).cos() < 0.0 { turn + PI } else { turn };
    Some(StemAxis { axis: Axis::Known, turn, other, end: End::Ahead })
}

/// Cosines that differ by less than this lie within 10 degrees of halfway between two axes.
const BETWEEN: f64 = 0.25;

/// A stem's axis in the plane.
struct StemAxis {
    axis: Axis,
    turn: f64,
    other: f64,
    end: End,
}

/// Which end of an axis is the stem's.
#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    /// The one that the axis points to.
    Ahead,
    /// Not known: of a fruit longer than [`PEAR_LIKE`] widths the narrower one, as of pears; else the broader, as of hearts, whose
    /// shoulders are broad.
    Unseen,
}

/// Length over width from which a narrow end is a neck (common practice, no source).
const PEAR_LIKE: f64 = 1.3;

/// Green nearer to the middle than this share of the way to the outline says little of a direction.
const OFF_MIDDLE: f64 = 0.45;

/// The way from the middle to the green of the stem's end; `None` where the two are too near for that.
fn off_middle(found: &Moments, green: Point) -> Option<f64> {
    let off = [green[0] - found.centroid[0], green[1] - found.centroid[1]];
    (OFF_MIDDLE * (found.area / PI).sqrt() <= off[0].hypot(off[1])).then(|| off[1].atan2(off[0]))
}

/// Farthest reach of the outline in each of [`WAYS`] directions round its middle, over the mean.
fn radii(flat: &[Point], middle: Point) -> Vec<f64> {
    let mut radii = vec![0.0_f64; WAYS];
    let mut counts = vec![0.0_f64; WAYS];
    for [x, y] in flat.iter().map(|p| [p[0] - middle[0], p[1] - middle[1]]) {
        let way = (y.atan2(x).rem_euclid(TAU) / TAU * WAYS as f64) as usize % WAYS;
        radii.iter_mut().skip(way).take(1).for_each(|sum| *sum += x.hypot(y));
        counts.iter_mut().skip(way).take(1).for_each(|count| *count += 1.0);
    }
    let mut last = 0.0;
    for (radius, count) in radii.iter_mut().zip(counts) {
        if 0.0 < count {
            last = *radius / count;
        }
        *radius = last;
    }
    let mean = radii.iter().sum::<f64>() / WAYS as f64;
    radii.iter().map(|radius| radius / mean.max(1e-12)).collect()
}

/// Within 15 degrees of an angle the mirror that the outline differs least from, and by how much.
fn most_symmetrical(radii: &[f64], near: f64) -> (f64, f64) {
    let at = |angle: f64| {
        let place = angle.rem_euclid(TAU) / TAU * WAYS as f64 - 0.5;
        let (low, share) = (place.floor(), place - place.floor());
        let radius =
            |place: f64| radii.get(place.rem_euclid(WAYS as f64) as usize % WAYS).copied().unwrap_or(1.0);
        radius(low) * (1.0 - share) + radius(low + 1.0) * share
    };
    let off = |angle: f64| {
        let ways = (1..WAYS / 2).map(|way| TAU * way as f64 / WAYS as f64);
        ways.map(|way| (at(angle + way) - at(angle - way)).powi(2)).sum::<f64>()
    };
    (-15..=15)
        .map(|step| near + f64::from(step).to_radians())
        .map(|angle| (off(angle).max(1e-9), angle))
        .min_by(|p, q| p.0.total_cmp(&q.0))
        .unwrap_or((1.0, near))
}

/// Length, width, volume and neck of the outline in the plane, measured along an angle.
fn across_and_along(flat: &[Point], frame: &Frame, (turn, end): (f64, End), distance: f64) -> Option<Solid> {
    let (along, across) = ([turn.cos(), turn.sin()], [-turn.sin(), turn.cos()]);
    // The cone of rays touches the fruit before the plane: its circle there is the larger.
    let touched = |half: f64| half / (1.0 + (half / distance).powi(2)).sqrt();
    let seen = [extent(flat, along) / 2.0, extent(flat, across) / 2.0];
    let (long, half_width) = (touched(seen[0]), touched(seen[1]));
    // The stem lies level; what the picture shows of it is turned from the line of sight by the angle g.
    let [first, second] = frame.across;
    let shown = [0, 1, 2].map(|axis: usize| {
        let part = |way: Vector| way.get(axis).copied().unwrap_or(0.0);
        along[0] * part(first) + along[1] * part(second)
    });
    let lift = shown[2] / frame.ahead[2].max(1e-6);
    let stem = unit([0, 1, 2].map(|axis: usize| {
        let part = |way: Vector| way.get(axis).copied().unwrap_or(0.0);
        part(shown) - lift * part(frame.ahead)
    }));
    let cos = dot(stem, frame.ahead);
    let slices = slices(flat, along, across);
    let fill =
        slices.iter().map(|square| square.sqrt()).sum::<f64>() / (slices.len() as f64 * seen[1]).max(1e-9);
    let half_length = half_length((long, half_width), cos.abs(), fill);
    let (widest, share) = (seen[1].max(1e-9), 2.0 / slices.len() as f64);
    let profile: f64 = slices.iter().map(|square| square / (widest * widest)).sum::<f64>() * share;
    let quarter = |from: usize| slices.get(from).map(|square| square.sqrt() / widest);
    let (near, far) = (quarter(slices.len() / 4)?, quarter(3 * slices.len() / 4)?);
    let neck = match end {
        End::Ahead => far,
        End::Unseen if PEAR_LIKE * half_width < half_length => near.min(far),
        End::Unseen => near.max(far),
    };
    let volume = PI * half_width * half_width * half_length * profile / 1000.0;
    let (stem, side) = ends(flat, along, across, &slices);
    Some(Solid {
        length: 2.0 * half_length,
        width: 2.0 * half_width,
        volume,
        neck,
        axis: Axis::Unsure,
        middle: [0.0, 0.0],
        stem,
        across: side,
    })
}

/// Half the length of a solid of revolution that shows these half extents along and across its axis, seen from the side of the axis by
/// an angle with this cosine, and whose outline fills this share of its box.
///
/// It is taken for a superellipse that fills its box as much: seen aslant it reaches as far as `((A sin)^q + (B cos)^q)^(1/q)`,
/// where q is n / (n - 1) of the superellipse's exponent n; of an ellipse both are 2.
fn half_length((seen, wide): (f64, f64), cos: f64, fill: f64) -> f64 {
    let q = aslant(fill);
    (seen.powf(q) - (wide * cos).powf(q)).max(0.0).powf(1.0 / q) / (1.0 - cos * cos).max(1e-6).sqrt()
}

/// The exponent q of a superellipse that fills this share of its box; from the area `G(1 + 1/n)^2 / G(1 + 2/n)` of it with the gamma
/// function G.
fn aslant(fill: f64) -> f64 {
    const FILLS: [(f64, f64); 7] = [
        (FRAC_PI_4, 2.0),
        (0.8129, 1.833),
        (0.8354, 1.714),
        (0.8624, 1.588),
        (0.8833, 1.5),
        (0.909, 1.4),
        (0.927, 1.333),
    ];
    let between = FILLS.windows(2).find_map(|pair| match pair {
        [(low, p), (high, q)] if (*low..*high).contains(&fill) => {
            Some(p + (q - p) * (fill - low) / (high - low))
        }
        _ => None,
    });
    // What fills less than an ellipse is a pear or a heart, whose broad end is round.
    between.unwrap_or(if fill < 0.8 { 2.0 } else { 1.333 })
}

/// The ends of the axis and of the greatest width, in the plane.
fn ends(flat: &[Point], along: Point, across: Point, slices: &[f64]) -> ([Point; 2], [Point; 2]) {
    let on = |p: &Point, way: Point| p[0] * way[0] + p[1] * way[1];
    let reach = |way: Point| {
        let seen = flat.iter().map(|p| on(p, way));
        seen.fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
    };
    let ((low, high), (left, right)) = (reach(along), reach(across));
    let widest = slices.iter().enumerate().max_by(|p, q| p.1.total_cmp(q.1)).map_or(0, |(at, _)| at);
    let at = low + (high - low) * (widest as f64 + 0.5) / slices.len().max(1) as f64;
    let place = |far: f64, side: f64| [far * along[0] + side * across[0], far * along[1] + side * across[1]];
    let middle = f64::midpoint(left, right);
    ([place(low, middle), place(high, middle)], [place(at, left), place(at, right)])
}

/// Mean squares of the two half widths in slices along the axis.
fn slices(flat: &[Point], along: Point, across: Point) -> Vec<f64> {
    const SLICES: usize = 80;
    let on = |p: &Point, way: Point| p[0] * way[0] + p[1] * way[1];
    let (low, high) =
        flat.iter().map(|p| on(p, along)).fold((f64::MAX, f64::MIN), |(l, h), x| (l.min(x), h.max(x)));
    (0..SLICES)
        .map(|slice| {
            let at = low + (high - low) * (slice as f64 + 0.5) / SLICES as f64;
            let crossings = flat.iter().zip(flat.iter().cycle().skip(1)).filter_map(|(p, q)| {
                let (x, y) = (on(p, along), on(q, along));
                ((x < at) != (y < at)).then(|| {
                    let share = (at - x) / (y - x);
                    on(p, across) * (1.0 - share) + on(q, across) * share
                })
            });
            let (low, high) = crossings.fold((f64::MAX, f64::MIN), |(l, h), x| (l.min(x), h.max(x)));
            ((high - low) / 2.0).max(0.0).powi(2)
        })
        .collect()
}
