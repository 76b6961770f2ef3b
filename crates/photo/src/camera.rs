//! The camera over the sheet: where a place on the card falls in the picture, and which way a pixel looks.
//!
//! The world's origin is the card's top left corner, u to the right, v down the card and z **into** the sheet, so what
//! stands on the sheet has z below 0. Millimetres. Phones straighten what their lenses bend, but not wholly: one term is left. Start
//! at [`Camera`].

use crate::fit::solve;
use crate::outline::Point;

/// A place or a direction in the world.
pub type Vector = [f64; 3];

/// Where the camera stood and how it looked.
#[derive(Clone, Copy, Debug)]
pub struct Camera {
    /// Rows: the picture's right, down and forward, in the world.
    pub turn: [Vector; 3],
    /// The world's origin as the camera sees it, mm.
    pub shift: Vector,
    /// Focal length in pixels.
    pub focal: f64,
    /// The pixel straight ahead.
    pub middle: Point,
    /// How much the lens bends: a place seen r focal lengths off the middle is drawn `1 + lens * r^2` times as far out.
    pub lens: f64,
}

/// Inner product.
#[must_use]
pub fn dot(one: Vector, other: Vector) -> f64 {
    one.iter().zip(other).map(|(p, q)| p * q).sum()
}

/// Outer product.
#[must_use]
pub fn cross(p: Vector, q: Vector) -> Vector {
    [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]]
}

/// The same direction with length 1.
#[must_use]
pub fn unit(vector: Vector) -> Vector {
    let length = dot(vector, vector).sqrt();
    if 0.0 < length { vector.map(|part| part / length) } else { [0.0, 0.0, 1.0] }
}

impl Camera {
    /// Where a place of the world falls in the picture.
    #[must_use]
    pub fn sees(&self, place: Vector) -> Point {
        let [right, down, forward] = self.turn.map(|row| dot(row, place));
        let depth = (forward + self.shift[2]).max(1e-6);
        let [across, along] = [(right + self.shift[0]) / depth, (down + self.shift[1]) / depth];
        let out = self.focal * (1.0 + self.lens * (across * across + along * along));
        [self.middle[0] + out * across, self.middle[1] + out * along]
    }

    /// The direction a pixel looks, length 1, in the world.
    #[must_use]
    pub fn ray(&self, pixel: Point) -> Vector {
        let [across, along] = self.straightened(pixel);
        unit(self.back([across, along, 1.0]))
    }

    /// Where a straight lens would draw a pixel, in focal lengths from the middle.
    #[must_use]
    pub fn straightened(&self, pixel: Point) -> Point {
        let drawn = [0, 1].map(|axis: usize| {
            let at = |place: Point| place.get(axis).copied().unwrap_or(0.0);
            (at(pixel) - at(self.middle)) / self.focal
        });
        // A bend of a few hundredths settles to a millionth in five rounds.
        (0..5).fold(drawn, |[across, along], _| {
            let out = 1.0 + self.lens * (across * across + along * along);
            drawn.map(|part| part / out)
        })
    }

    fn back(&self, inside: Vector) -> Vector {
        let [right, down, forward] = self.turn;
        [0, 1, 2].map(|axis: usize| {
            let part = |row: Vector| row.get(axis).copied().unwrap_or(0.0);
            part(right) * inside[0] + part(down) * inside[1] + part(forward) * inside[2]
        })
    }

    /// Where the camera stood.
    #[must_use]
    pub fn stood(&self) -> Vector {
        self.back(self.shift).map(|part| -part)
    }

    /// How high above the sheet it stood, mm.
    #[must_use]
    pub fn height(&self) -> f64 {
        -self.stood()[2]
    }

    /// Degrees between the way it looked and straight down.
    #[must_use]
    pub fn tilt(&self) -> f64 {
        self.turn[2][2].clamp(-1.0, 1.0).acos().to_degrees()
    }

    /// Pixels to a millimetre of sheet seen at a pixel, along the less stretched way.
    #[must_use]
    pub fn pixels_a_millimetre(&self, pixel: Point) -> f64 {
        let ray = self.ray(pixel);
        let distance = self.height() / ray[2].max(1e-6);
        self.focal / distance
    }

    /// Where a pixel's ray meets the level `height` mm above the sheet.
    #[must_use]
    pub fn on_level(&self, pixel: Point, height: f64) -> Point {
        let (stood, ray) = (self.stood(), self.ray(pixel));
        let far = (self.height() - height) / ray[2].max(1e-6);
        [stood[0] + far * ray[0], stood[1] + far * ray[1]]
    }

    /// The camera turned by a small rotation vector, moved, its focal length scaled by `exp(stretch)` and its lens bent by `bend` more.
    #[must_use]
    pub fn nudged(&self, [x, y, z, du, dv, dz, stretch, bend]: [f64; 8]) -> Self {
        let angle = dot([x, y, z], [x, y, z]).sqrt();
        let axis = unit([x, y, z]);
        let spin = |v: Vector| {
            let (cos, sin, along, side) = (angle.cos(), angle.sin(), dot(axis, v), cross(axis, v));
            [0, 1, 2].map(|i: usize| {
                let part = |v: Vector| v.get(i).copied().unwrap_or(0.0);
                part(v) * cos + part(side) * sin + part(axis) * along * (1.0 - cos)
            })
        };
        let shift = [self.shift[0] + du, self.shift[1] + dv, self.shift[2] + dz];
        Self {
            turn: self.turn.map(spin),
            shift,
            focal: self.focal * stretch.exp(),
            middle: self.middle,
            lens: self.lens + bend,
        }
    }

    /// A first camera from four places of the card and their pixels, for a focal length taken as known. `None` where the
    /// four lie in a line.
    ///
    /// # Source
    /// Zhang, IEEE PAMI 22(11), 2000 (from memory, unverified): the columns of the homography are two of the turn's.
    #[must_use]
    pub fn of_four(places: [Point; 4], pixels: [Point; 4], focal: f64, middle: Point) -> Option<Self> {
        let (mut matrix, mut right) = ([[0.0; 8]; 8], [0.0; 8]);
        let equations = places.iter().zip(pixels).flat_map(|([u, v], [x, y])| {
            let (x, y) = ((x - middle[0]) / focal, (y - middle[1]) / focal);
            [
                ([*u, *v, 1.0, 0.0, 0.0, 0.0, -x * u, -x * v], x),
                ([0.0, 0.0, 0.0, *u, *v, 1.0, -y * u, -y * v], y),
            ]
        });
        for ((row, target), (factors, value)) in matrix.iter_mut().zip(right.iter_mut()).zip(equations) {
            (*row, *target) = (factors, value);
        }
        let h = solve(matrix, right)?;
        let (first, second, shift) = ([h[0], h[3], h[6]], [h[1], h[4], h[7]], [h[2], h[5], 1.0]);
        let scale = 2.0 / (dot(first, first).sqrt() + dot(second, second).sqrt());
        let first = unit(first);
        let third = unit(cross(first, second));
        let second = cross(third, first);
        let turn = [0, 1, 2]
            .map(|axis: usize| [first, second, third].map(|column| column.get(axis).copied().unwrap_or(0.0)));
        Some(Self { turn, shift: shift.map(|part| part * scale), focal, middle, lens: 0.0 })
    }
}
