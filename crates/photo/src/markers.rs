//! Finding the card: nested squares in the picture, and which of them is which.
//!
//! Places are good to about a pixel here; `pose` sharpens them. Start at [`find`].

use crate::outline::Point;
use crate::plane::Plane;
use crate::region::{Region, labelled, regions};

/// A pixel darker than this share of the light round it may be ink. The card's ink throws back 4% of its paper's light.
const DARK_SHARE: f32 = 0.65;
/// Sides of a marker's bounding box, in pixels, at the least: below, the inner square is four pixels wide.
const LEAST_SIDE: usize = 10;
/// Markers that are looked at together: more than any card has, few enough to try every three.
const MOST_MARKERS: usize = 12;

/// A pair of nested dark squares.
#[derive(Clone, Copy, Debug)]
struct Nested {
    middle: Point,
    /// How light its middle is, over the light round it.
    heart: f64,
    side: f64,
}

/// Markers that are not all four of a card.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotWhole {
    /// How many of one size are seen.
    pub seen: usize,
}

/// Pixels of the four markers' middles, in the card's order.
///
/// # Errors
/// [`NotWhole`] where there are not four of one size in the card's arrangement.
pub fn find(light: &Plane<f32>) -> Result<[Point; 4], NotWhole> {
    let nested = all(light).ok_or(NotWhole { seen: 0 })?;
    let white = WHITE_HEART * dark_heart(&nested);
    let (hearts, others): (Vec<Nested>, Vec<Nested>) = nested.iter().partition(|marker| white < marker.heart);
    hearts.into_iter().find_map(|heart| arrangement(heart, &others)).ok_or_else(|| {
        let usual = nested.get(nested.len() / 2).map_or(0.0, |marker| marker.side);
        let alike = nested.iter().filter(|marker| ALIKE.contains(&(marker.side / usual)));
        NotWhole { seen: alike.count() }
    })
}

/// Markers of one card differ in size by no more than this factor, however the camera looks.
const ALIKE: std::ops::Range<f64> = 0.6..1.7;

/// Nested squares, largest first.
fn all(light: &Plane<f32>) -> Option<Vec<Nested>> {
    let around = light.box_mean(light.width() / 40);
    let dark =
        light.cells().iter().zip(around.cells()).map(|(here, around)| u32::from(*here < DARK_SHARE * around));
    let dark = Plane::of_cells(light.width(), light.height(), dark.collect())?;
    let squares: Vec<Region> = regions(&labelled(&dark)).into_iter().filter(square).collect();
    let mut nested: Vec<Nested> =
        squares.iter().filter_map(|outer| nested(outer, &squares, light, &around)).collect();
    nested.sort_by(|p, q| q.side.total_cmp(&p.side));
    nested.truncate(MOST_MARKERS);
    Some(nested)
}

/// Hearts this many times as light as the dark ones are white: of ink they are a tenth of the paper, but few pixels wide.
const WHITE_HEART: f64 = 1.5;

/// How light the lightest of three dark hearts is, over the light round it: a card has three, and what else is nested may be lighter.
fn dark_heart(nested: &[Nested]) -> f64 {
    let mut hearts: Vec<f64> = nested.iter().map(|marker| marker.heart).collect();
    hearts.sort_by(f64::total_cmp);
    hearts.get(2).or(hearts.last()).copied().unwrap_or(0.0)
}

fn sides(region: &Region) -> (usize, usize) {
    let [left, top, right, bottom] = region.bounds;
    (right - left, bottom - top)
}

fn square(region: &Region) -> bool {
    let (width, height) = sides(region);
    let (short, long) = (width.min(height), width.max(height));
    4 <= short && long <= 3 * short
}

/// Whether `outer` is a ring with another square in its middle, three sevenths as wide and with 9 (or 8) parts of ink to its
/// 24.
fn nested(outer: &Region, squares: &[Region], light: &Plane<f32>, around: &Plane<f32>) -> Option<Nested> {
    let (width, height) = sides(outer);
    if width.min(height) < LEAST_SIDE {
        return None;
    }
    let [left, top, right, bottom] = outer.bounds.map(|side| side as f64);
    let middle = [f64::midpoint(left, right), f64::midpoint(top, bottom)];
    let inner = squares.iter().find(|inner| {
        let (inner_width, inner_height) = sides(inner);
        let ratio = (inner_width as f64 / width as f64).max(inner_height as f64 / height as f64);
        let ink = inner.area as f64 / outer.area as f64;
        let off = (inner.centroid[0] + 0.5 - middle[0]).hypot(inner.centroid[1] + 0.5 - middle[1]);
        (0.3..0.6).contains(&ratio) && (0.2..0.6).contains(&ink) && off < 0.12 * width.max(height) as f64
    })?;
    let middle = [inner.centroid[0] + 0.5, inner.centroid[1] + 0.5];
    let heart = light.between(middle[0], middle[1]) / around.between(middle[0], middle[1]).max(1e-6);
    Some(Nested { middle, heart, side: width.max(height) as f64 })
}

/// The four corners of a card that is seen steeply are no parallelogram: off by so many markers' sides at 45 degrees and near (drawn
/// pictures), so that a picture that is too steep is refused for that.
const MOST_SKEW: f64 = 2.0;

/// The other three round a heart: nearest up the card, then across it, then over the corner, and not mirrored.
fn arrangement(heart: Nested, nested: &[Nested]) -> Option<[Point; 4]> {
    let far =
        |marker: &Nested| (marker.middle[0] - heart.middle[0]).hypot(marker.middle[1] - heart.middle[1]);
    let mut others: Vec<Nested> = nested
        .iter()
        .filter(|marker| ALIKE.contains(&(marker.side / heart.side)))
        .filter(|marker| (1.5..9.0).contains(&(far(marker) / heart.side)))
        .copied()
        .collect();
    others.sort_by(|p, q| far(p).total_cmp(&far(q)));
    let [second, third, first] = *others.first_chunk::<3>()?;
    let [a, b, c] = [first, second, third].map(|marker| marker.middle);
    let parallel = |axis: fn(Point) -> f64| (axis(b) - axis(a) - axis(heart.middle) + axis(c)).abs();
    let skew = parallel(|p| p[0]).hypot(parallel(|p| p[1]));
    let cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    (skew < MOST_SKEW * heart.side && 0.0 < cross).then_some([a, b, c, heart.middle])
}
