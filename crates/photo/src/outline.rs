//! A closed outline as a polygon: area, middle, axes, hull and callipers.
//!
//! Lengths are in whatever unit the points are in. It does not know where the points came from. Start at [`moments`].

/// A place in the plane, x to the right and y down.
pub type Point = [f64; 2];

/// What Green's theorem says of a closed polygon.
#[derive(Clone, Copy, Debug)]
pub struct Moments {
    /// Area, always positive.
    pub area: f64,
    /// The middle of the area.
    pub centroid: Point,
    /// Second moments about the middle, over the area: xx, xy, yy.
    pub spread: [f64; 3],
}

/// Area, middle and second moments of a closed polygon, by the exact sums over its sides.
///
/// # Shape
/// `points`: the corners in order, the first not repeated. `None` where they enclose nothing.
#[must_use]
pub fn moments(points: &[Point]) -> Option<Moments> {
    let origin = *points.first()?;
    let next = points.iter().cycle().skip(1);
    let [mut area, mut sx, mut sy, mut sxx, mut sxy, mut syy] = [0.0; 6];
    for (p, q) in points.iter().zip(next) {
        let [x0, y0] = [p[0] - origin[0], p[1] - origin[1]];
        let [x1, y1] = [q[0] - origin[0], q[1] - origin[1]];
        let cross = x0 * y1 - x1 * y0;
        area += cross / 2.0;
        sx += (x0 + x1) * cross / 6.0;
        sy += (y0 + y1) * cross / 6.0;
        sxx += (x0 * x0 + x0 * x1 + x1 * x1) * cross / 12.0;
        syy += (y0 * y0 + y0 * y1 + y1 * y1) * cross / 12.0;
        sxy += (x0 * y1 + 2.0 * x0 * y0 + 2.0 * x1 * y1 + x1 * y0) * cross / 24.0;
    }
    if area.abs() < 1e-12 || !area.is_finite() {
        return None;
    }
    let (x, y) = (sx / area, sy / area);
    Some(Moments {
        area: area.abs(),
        centroid: [x + origin[0], y + origin[1]],
        spread: [sxx / area - x * x, sxy / area - x * y, syy / area - y * y],
    })
}

/// Full lengths of the axes of the ellipse with these second moments, longer first, and the longer one's direction.
#[must_use]
pub fn axes(spread: [f64; 3]) -> (f64, f64, Point) {
    let [xx, xy, yy] = spread;
    let (middle, off) = (f64::midpoint(xx, yy), (((xx - yy) / 2.0).powi(2) + xy * xy).sqrt());
    let turn = 0.5 * (2.0 * xy).atan2(xx - yy);
    (4.0 * (middle + off).max(0.0).sqrt(), 4.0 * (middle - off).max(0.0).sqrt(), [turn.cos(), turn.sin()])
}

/// The convex hull, in order; by sorted sweep.
#[must_use]
pub fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|p, q| p[0].total_cmp(&q[0]).then(p[1].total_cmp(&q[1])));
    sorted.dedup();
    let mut lower = half_hull(sorted.iter());
    let mut upper = half_hull(sorted.iter().rev());
    lower.pop();
    upper.pop();
    lower.append(&mut upper);
    lower
}

fn half_hull<'a>(sorted: impl Iterator<Item = &'a Point>) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    for point in sorted {
        while let [.., before, last] = kept.as_slice()
            && turn(*before, *last, *point) <= 0.0
        {
            kept.pop();
        }
        kept.push(*point);
    }
    kept
}

fn turn(a: Point, b: Point, c: Point) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

/// Extent of the points along a direction of length 1.
#[must_use]
pub fn extent(points: &[Point], direction: Point) -> f64 {
    let along = points.iter().map(|p| p[0] * direction[0] + p[1] * direction[1]);
    let (low, high) =
        along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
    (high - low).max(0.0)
}

/// Greatest and least calliper across a convex hull. The least lies square to a side (Shamos 1978, from memory,
/// unverified).
#[must_use]
pub fn callipers(hull: &[Point]) -> (f64, f64) {
    let greatest = hull
        .iter()
        .flat_map(|p| hull.iter().map(move |q| (p[0] - q[0]).hypot(p[1] - q[1])))
        .fold(0.0, f64::max);
    let least = hull.iter().zip(hull.iter().cycle().skip(1)).fold(f64::INFINITY, |least, (p, q)| {
        let side = (q[0] - p[0]).hypot(q[1] - p[1]);
        if side == 0.0 {
            least
        } else {
            least.min(extent(hull, [(p[1] - q[1]) / side, (q[0] - p[0]) / side]))
        }
    });
    (greatest, least)
}

/// Where the level `y` enters and leaves a convex outline.
#[must_use]
pub fn across(corners: &[Point], y: f64) -> Option<(f64, f64)> {
    let sides = corners.iter().zip(corners.iter().cycle().skip(1));
    let crossings = sides.filter(|(p, q)| (p[1] < y) != (q[1] < y)).map(|(p, q)| {
        let share = (y - p[1]) / (q[1] - p[1]);
        p[0] + share * (q[0] - p[0])
    });
    let (left, right) = crossings.fold((f64::MAX, f64::MIN), |(low, high), x| (low.min(x), high.max(x)));
    (left < right).then_some((left, right))
}
