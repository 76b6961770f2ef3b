//! Sobol's sequence: points that fill a cube evenly, each new one in the largest gap.
//!
//! Any run of 2^k points from the start puts exactly one into each of 2^k equal slices of every axis.

/// How many axes have direction numbers below.
pub(super) const AXES: usize = 10;

/// Bits of a coordinate.
const BITS: usize = 32;

/// Degree, inner coefficients and first direction numbers of a primitive polynomial for each axis after the
/// first.
///
/// # Source
/// The table "new-joe-kuo-6" of Joe and Kuo 2008, SIAM J. Sci. Comput. 30:2635-2654, first ten rows (from
/// memory; the evenness that they are for is tested here).
const POLYNOMIALS: [(usize, u32, &[u32]); AXES - 1] = [
    (1, 0, &[1]),
    (2, 1, &[1, 3]),
    (3, 1, &[1, 3, 1]),
    (3, 2, &[1, 1, 1]),
    (4, 1, &[1, 1, 3, 3]),
    (4, 4, &[1, 3, 5, 13]),
    (5, 2, &[1, 1, 5, 5, 17]),
    (5, 4, &[1, 1, 5, 5, 5]),
    (5, 7, &[1, 1, 7, 11, 19]),
];

/// The first `count` points on up to [`AXES`] axes, coordinates strictly between 0 and 1.
pub(super) fn points(axes: usize, count: u32) -> impl Iterator<Item = Vec<f64>> {
    let directions: Vec<[u32; BITS]> = (0..axes.min(AXES)).map(directions).collect();
    let middle = 0.5 / f64::from(count.max(1)).log2().ceil().exp2();
    (0..count).map(move |index| {
        let gray = index ^ (index >> 1);
        directions.iter().map(|directions| coordinate(directions, gray) + middle).collect()
    })
}

/// The coordinate that the set bits of `gray` choose, as a multiple of the slices' width.
fn coordinate(directions: &[u32; BITS], gray: u32) -> f64 {
    let chosen = directions.iter().enumerate().filter(|(bit, _)| (gray >> bit) & 1 == 1);
    let bits = chosen.fold(0, |bits, (_, direction)| bits ^ direction);
    f64::from(bits) / 2.0_f64.powi(32)
}

/// Direction numbers of an axis, each with its top bits set.
fn directions(axis: usize) -> [u32; BITS] {
    let Some((degree, coefficients, first)) = axis.checked_sub(1).and_then(|row| POLYNOMIALS.get(row)) else {
        // The first axis is the bits of the index, mirrored.
        return std::array::from_fn(|bit| 1 << (BITS - 1 - bit));
    };
    let mut directions = [0_u32; BITS];
    for bit in 0..BITS {
        let earlier =
            |back: usize| bit.checked_sub(back).and_then(|at| directions.get(at)).copied().unwrap_or(0);
        let direction = match first.get(bit) {
            Some(number) => number << (BITS - 1 - bit),
            None => (1..*degree).fold(earlier(*degree) ^ (earlier(*degree) >> degree), |sum, back| {
                let counts = (coefficients >> (degree - 1 - back)) & 1;
                sum ^ (counts * earlier(back))
            }),
        };
        if let Some(place) = directions.get_mut(bit) {
            *place = direction;
        }
    }
    directions
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every axis puts one of the first 2^k points into each of 2^k slices.
    #[test]
    fn one_point_a_slice() {
        for power in [1, 4, 8, 11] {
            let count = 1_u32 << power;
            let points: Vec<Vec<f64>> = points(AXES, count).collect();
            for axis in 0..AXES {
                let slice = |point: &Vec<f64>| (point[axis] * f64::from(count)).floor() as u32;
                let mut slices: Vec<u32> = points.iter().map(slice).collect();
                slices.sort_unstable();
                assert!(slices.iter().copied().eq(0..count), "axis {axis}, {count} points");
            }
        }
    }

    /// The first two axes together put one of 64 points into each box of 2^a by 2^(6 - a).
    #[test]
    fn one_point_a_box() {
        let points: Vec<Vec<f64>> = points(2, 64).collect();
        for power in 0..=6 {
            let (wide, high) = (f64::from(1 << power), f64::from(64 >> power));
            let place =
                |point: &Vec<f64>| ((point[0] * wide).floor() * high + (point[1] * high).floor()) as u32;
            let mut boxes: Vec<u32> = points.iter().map(place).collect();
            boxes.sort_unstable();
            assert!(boxes.iter().copied().eq(0..64), "{wide} by {high}");
        }
    }
}
