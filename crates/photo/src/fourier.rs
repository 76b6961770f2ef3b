//! An outline as a few numbers: its elliptic Fourier harmonics, which the portrait can draw again.
//!
//! Source: Kuhl and Giardina, Computer Graphics and Image Processing 18, 236-258, 1982 (from memory, unverified; checked
//! against worked values in the tests). Start at [`harmonics`].

use crate::outline::Point;
use std::f64::consts::PI;

/// One harmonic: cosine and sine of x, cosine and sine of y, in the unit of the points.
pub type Harmonic = [f64; 4];

/// The first `count` harmonics of a closed outline traced by its length.
///
/// # Shape
/// `points`: the corners in order, the first not repeated. Empty where they have no length.
#[must_use]
pub fn harmonics(points: &[Point], count: usize) -> Vec<Harmonic> {
    let (mut at, mut steps) = (0.0, Vec::with_capacity(points.len()));
    for (p, q) in points.iter().zip(points.iter().cycle().skip(1)) {
        let step = [q[0] - p[0], q[1] - p[1]];
        let length = step[0].hypot(step[1]);
        if 0.0 < length {
            steps.push((at, at + length, [step[0] / length, step[1] / length]));
            at += length;
        }
    }
    if at <= 0.0 {
        return Vec::new();
    }
    (1..=count).map(|order| harmonic(&steps, at, order as f64)).collect()
}

fn harmonic(steps: &[(f64, f64, Point)], round: f64, order: f64) -> Harmonic {
    let pace = 2.0 * order * PI / round;
    let mut sums = [0.0; 4];
    for (from, to, [x, y]) in steps {
        let cos = (pace * to).cos() - (pace * from).cos();
        let sin = (pace * to).sin() - (pace * from).sin();
        for (sum, part) in sums.iter_mut().zip([x * cos, x * sin, y * cos, y * sin]) {
            *sum += part;
        }
    }
    sums.map(|sum| sum * round / (2.0 * order * order * PI * PI))
}

/// The harmonics freed of where the tracing began, of the turn and of the size: the first becomes the circle's share
/// (1, 0, 0, d). `None` where the first harmonic has no length.
#[must_use]
pub fn normalised(harmonics: &[Harmonic]) -> Option<Vec<Harmonic>> {
    let [a, b, c, d] = *harmonics.first()?;
    let start = 0.5 * (2.0 * (a * b + c * d)).atan2(a * a + c * c - b * b - d * d);
    let [a, _, c, _] = begun([a, b, c, d], start);
    let (size, turn) = (a.hypot(c), c.atan2(a));
    if size <= 0.0 {
        return None;
    }
    let mut freed = Vec::with_capacity(harmonics.len());
    for (order, harmonic) in harmonics.iter().enumerate() {
        let [a, b, c, d] = begun(*harmonic, (order + 1) as f64 * start);
        let (cos, sin) = (turn.cos() / size, turn.sin() / size);
        freed.push([a * cos + c * sin, b * cos + d * sin, c * cos - a * sin, d * cos - b * sin]);
    }
    Some(freed)
}

fn begun([a, b, c, d]: Harmonic, start: f64) -> Harmonic {
    let (cos, sin) = (start.cos(), start.sin());
    [a * cos + b * sin, b * cos - a * sin, c * cos + d * sin, d * cos - c * sin]
}
