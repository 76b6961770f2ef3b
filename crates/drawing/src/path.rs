//! Path data: curves written as short relative steps, rounded to hundredths without drift.

use crate::svg::{Number, whole};
use std::f64::consts::TAU;

/// A point in pixels, x to the right and y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Point {
    pub(crate) x: f64,
    pub(crate) y: f64,
}

impl Point {
    pub(crate) fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The point `share` of the way to another.
    pub(crate) fn towards(self, other: Self, share: f64) -> Self {
        Self::new(self.x + (other.x - self.x) * share, self.y + (other.y - self.y) * share)
    }

    /// The point at `angle` (0 to the right, growing clockwise) and `distance` from this one.
    pub(crate) fn polar(self, angle: f64, distance: f64) -> Self {
        let (down, across) = angle.sin_cos();
        Self::new(self.x + distance * across, self.y + distance * down)
    }
}

/// Drawn size in pixels from which tenths of a pixel are fine enough. A choice of the drawing.
const LARGE: f64 = 8.0;
/// Bytes that most paths take.
const ROOM: usize = 1024;
/// Knots from which a curve hardly bulges between two of them.
const MANY_KNOTS: usize = 24;

/// Path data being written, in relative steps. Every step starts from the rounded end of the last, so
/// that rounding never adds up.
pub(crate) struct Path {
    text: Vec<u8>,
    /// Where the path stands, and where its present part began.
    at: (i64, i64),
    start: (i64, i64),
    /// The command written last; a command that repeats needs no letter.
    last: u8,
    /// Hundredths of a pixel that places are rounded to, and how many of them make a pixel.
    grain: i64,
    fineness: f64,
}

impl Path {
    /// A path of something `size` pixels large: the larger it is, the fewer digits it needs.
    pub(crate) fn sized(size: f64) -> Self {
        let (grain, fineness) = if size < LARGE { (1, 100.0) } else { (10, 10.0) };
        Self { text: Vec::with_capacity(ROOM), at: (0, 0), start: (0, 0), last: b' ', grain, fineness }
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    pub(crate) fn data(&self) -> &str {
        str::from_utf8(&self.text).unwrap_or_default()
    }

    pub(crate) fn move_to(&mut self, to: Point) {
        self.step(b'm', [to]);
        self.start = self.at;
        // A number after a move would read as a line: the next command always needs its letter.
        self.last = b' ';
    }

    pub(crate) fn line_to(&mut self, to: Point) {
        self.step(b'l', [to]);
    }

    pub(crate) fn bend_to(&mut self, over: Point, to: Point) {
        self.step(b'q', [over, to]);
    }

    pub(crate) fn curve_to(&mut self, first: Point, second: Point, to: Point) {
        self.step(b'c', [first, second, to]);
    }

    pub(crate) fn close(&mut self) {
        self.text.push(b'z');
        self.at = self.start;
        self.last = b' ';
    }

    /// Writes one command, whose last point is where it ends.
    fn step<const N: usize>(&mut self, command: u8, points: [Point; N]) {
        let from = self.at;
        let mut separated = self.last == command;
        if !separated {
            self.text.push(command);
        }
        for point in points {
            let to = (self.rounded(point.x), self.rounded(point.y));
            for distance in [to.0 - from.0, to.1 - from.1] {
                if separated && distance >= 0 {
                    self.text.push(b' ');
                }
                self.text.extend_from_slice(Number::of(distance).bytes());
                separated = true;
            }
            self.at = to;
        }
        self.last = command;
    }

    fn rounded(&self, value: f64) -> i64 {
        whole(value * self.fineness) * self.grain
    }

    /// A smooth curve through `points`, continuing from where the path stands.
    pub(crate) fn through(&mut self, points: &[Point]) {
        let Some((first, last)) = points.first().zip(points.last()) else { return };
        let at = |index: usize| points.get(index).copied().unwrap_or(*last);
        for index in 1..points.len() {
            let before = if index > 1 { at(index - 2) } else { *first };
            self.smooth(before, at(index - 1), at(index), at(index + 1));
        }
    }

    /// A smooth closed curve through `points`.
    pub(crate) fn round(&mut self, points: &[Point]) {
        let count = points.len();
        let Some(first) = points.first() else { return };
        let at = |index: usize| points.get(index % count).copied().unwrap_or(*first);
        self.move_to(*first);
        for index in 0..count {
            self.smooth(at(index + count - 1), at(index), at(index + 1), at(index + 2));
        }
        self.close();
    }

    fn smooth(&mut self, before: Point, from: Point, to: Point, after: Point) {
        let (first, second) = handles(before, from, to, after);
        self.curve_to(first, second, to);
    }
}

/// The handles of the Bézier curve that is one step, `from` to `to`, of a Catmull-Rom spline.
fn handles(before: Point, from: Point, to: Point, after: Point) -> (Point, Point) {
    let first = Point::new(from.x + (to.x - before.x) / 6.0, from.y + (to.y - before.y) / 6.0);
    let second = Point::new(to.x - (after.x - from.x) / 6.0, to.y - (after.y - from.y) / 6.0);
    (first, second)
}

/// The least and the greatest x and y that [`Path::round`] reaches through `points`: a curve bulges
/// beyond its knots, so each step is looked at in eight places, or in three where knots are many and near.
pub(crate) fn bounds(points: &[Point]) -> (Point, Point) {
    let parts = if points.len() < MANY_KNOTS { 8 } else { 3 };
    let ahead = |by: usize| points.iter().copied().cycle().skip(by);
    let steps = ahead(0).zip(ahead(1)).zip(ahead(2)).zip(ahead(3)).take(points.len());
    let mut least = Point::new(f64::INFINITY, f64::INFINITY);
    let mut most = Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY);
    for (((before, from), to), after) in steps {
        let (first, second) = handles(before, from, to, after);
        for share in (0..parts).map(|part| f64::from(part) / f64::from(parts)) {
            let (a, b, c) =
                (from.towards(first, share), first.towards(second, share), second.towards(to, share));
            let at = a.towards(b, share).towards(b.towards(c, share), share);
            least = Point::new(least.x.min(at.x), least.y.min(at.y));
            most = Point::new(most.x.max(at.x), most.y.max(at.y));
        }
    }
    (least, most)
}

/// The area within a closed run of points, in square pixels.
pub(crate) fn area(points: &[Point]) -> f64 {
    let next = points.iter().cycle().skip(1);
    let twice: f64 = points.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y).sum();
    twice.abs() / 2.0
}

/// Even angles round a circle, from 0.
pub(crate) fn turns(count: u32) -> impl Iterator<Item = f64> {
    (0..count).map(move |index| TAU * f64::from(index) / f64::from(count))
}
