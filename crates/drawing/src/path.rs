//! Path data: curves written as short relative steps, rounded to hundredths without drift.

use crate::svg::{hundredths, push_hundredths};
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
        Self::new(self.x + distance * angle.cos(), self.y + distance * angle.sin())
    }
}

/// Drawn size in pixels from which tenths of a pixel are fine enough. A choice of the drawing.
const LARGE: f64 = 24.0;

/// Path data being written. Every step starts from the rounded end of the last, so that rounding
/// never adds up.
pub(crate) struct Path {
    text: String,
    at: (i64, i64),
    /// Hundredths of a pixel that places are rounded to.
    grain: i64,
}

impl Path {
    /// A path of something `size` pixels large: the larger it is, the fewer digits it needs.
    pub(crate) fn sized(size: f64) -> Self {
        Self { text: String::new(), at: (0, 0), grain: if size < LARGE { 1 } else { 10 } }
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.text.is_empty()
    }

    pub(crate) fn data(&self) -> &str {
        &self.text
    }

    pub(crate) fn move_to(&mut self, to: Point) {
        self.text.push('M');
        self.at = self.rounded(to);
        push_hundredths(&mut self.text, self.at.0);
        self.push_separated(self.at.1);
    }

    pub(crate) fn line_to(&mut self, to: Point) {
        let start = self.at;
        self.text.push('l');
        let (x, y) = self.rounded(to);
        push_hundredths(&mut self.text, x - start.0);
        self.push_separated(y - start.1);
        self.at = (x, y);
    }

    pub(crate) fn curve_to(&mut self, first: Point, second: Point, to: Point) {
        let start = self.at;
        let steps = [first, second, to].map(|point| self.rounded(point));
        self.text.push('c');
        for (index, (x, y)) in steps.iter().enumerate() {
            if index == 0 {
                push_hundredths(&mut self.text, x - start.0);
            } else {
                self.push_separated(x - start.0);
            }
            self.push_separated(y - start.1);
        }
        self.at = steps[2];
    }

    pub(crate) fn close(&mut self) {
        self.text.push('z');
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

    /// One step of a Catmull-Rom spline, as a cubic Bézier curve.
    fn smooth(&mut self, before: Point, from: Point, to: Point, after: Point) {
        let first = Point::new(from.x + (to.x - before.x) / 6.0, from.y + (to.y - before.y) / 6.0);
        let second = Point::new(to.x - (after.x - from.x) / 6.0, to.y - (after.y - from.y) / 6.0);
        self.curve_to(first, second, to);
    }

    fn rounded(&self, point: Point) -> (i64, i64) {
        let grained = |value: f64| {
            let fine = hundredths(value);
            (fine + (self.grain / 2) * fine.signum()) / self.grain * self.grain
        };
        (grained(point.x), grained(point.y))
    }

    fn push_separated(&mut self, value: i64) {
        if value >= 0 {
            self.text.push(' ');
        }
        push_hundredths(&mut self.text, value);
    }
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
