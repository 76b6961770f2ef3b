//! A made photograph of fruit beside the printed scale card, with the truth beside it.
//!
//! It is drawn ray by ray with a camera and solids of its own, and shares nothing with the measuring but the card's layout, so
//! that the measures can be held against what was drawn. Fruit are ellipsoids of revolution that lie on their sides. Light comes
//! from a wide window: soft shades, soft shadows, a shine. Start at [`photograph`].

#![allow(dead_code, reason = "each user asks for what it needs of it")]
#![allow(clippy::indexing_slicing, reason = "three axes, counted from 0 to 2")]

pub(crate) mod face;

use face::TrueFace;
use photo::card::{Card, HOUSE_CARD};
use photo::code::{Code, written};
use photo::encode::jpeg;
use photo::plane::Plane;

/// A fruit as it is drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TrueFruit {
    /// Its middle on the sheet, mm from the card's top left corner.
    pub(crate) middle: [f64; 2],
    /// Along the stem, mm.
    pub(crate) length: f64,
    /// Across it, mm.
    pub(crate) width: f64,
    /// The way its stem lies, degrees from the right.
    pub(crate) turned: f64,
    /// Linear light that its skin throws back.
    pub(crate) skin: [f64; 3],
}

/// What is drawn.
#[derive(Clone, Debug)]
pub(crate) struct Scene {
    pub(crate) card: Card,
    pub(crate) code: Code,
    /// Where the camera stands over the sheet, mm, and how high.
    pub(crate) stands: [f64; 3],
    /// The place of the sheet that it looks at, mm.
    pub(crate) looks_at: [f64; 2],
    /// Pixels across and down.
    pub(crate) size: [usize; 2],
    /// The lens as if on 36 mm wide film, mm.
    pub(crate) film: u16,
    /// Linear light that the sheet throws back.
    pub(crate) sheet: [f64; 3],
    pub(crate) fruit: Vec<TrueFruit>,
    pub(crate) faces: Vec<TrueFace>,
    /// What all light is multiplied by before it is written.
    pub(crate) exposure: f64,
    /// Greatest noise in linear light.
    pub(crate) noise: f64,
    /// Pixels on either side over which light is smeared.
    pub(crate) smear: usize,
    /// The day that the camera writes, as EXIF has it.
    pub(crate) taken: &'static str,
}

impl Scene {
    /// An empty sheet under a camera that looks nearly straight down.
    pub(crate) fn plain(code: Code) -> Self {
        Self {
            card: HOUSE_CARD,
            code,
            stands: [175.0, 130.0, 400.0],
            looks_at: [165.0, 128.0],
            size: [1400, 1050],
            film: 26,
            sheet: [0.62, 0.64, 0.66],
            fruit: Vec::new(),
            faces: Vec::new(),
            exposure: 1.0,
            noise: 0.004,
            smear: 0,
            taken: "2026:08:21 10:32:05",
        }
    }
}

type Vector = [f64; 3];

fn dot(p: Vector, q: Vector) -> f64 {
    p[0] * q[0] + p[1] * q[1] + p[2] * q[2]
}

fn minus(p: Vector, q: Vector) -> Vector {
    [p[0] - q[0], p[1] - q[1], p[2] - q[2]]
}

fn unit(p: Vector) -> Vector {
    let length = dot(p, p).sqrt();
    p.map(|part| part / length)
}

fn cross(p: Vector, q: Vector) -> Vector {
    [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]]
}

/// Towards the window, up from the sheet (z grows upwards here).
const WINDOW: Vector = [-0.45, -0.35, 0.82];

/// Draws the scene as the bytes of a JPEG, with what a phone's camera writes beside it.
pub(crate) fn photograph(scene: &Scene) -> Vec<u8> {
    with_exif(&jpeg(&drawn(scene)).unwrap_or_default(), scene)
}

/// Draws the scene.
pub(crate) fn drawn(scene: &Scene) -> Plane<[u8; 3]> {
    let printed = Printed::of(&scene.card, scene.code);
    let [width, height] = scene.size;
    let ray = rays(scene);
    let mut cells: Vec<[f64; 3]> = Vec::with_capacity(width * height);
    for y in 0..height {
        for x in 0..width {
            let at = |(dx, dy): &(f64, f64)| ray(x as f64 + dx, y as f64 + dy);
            // Where there is only the sheet one ray says what four do.
            let samples: &[(f64, f64)] = if is_bare(scene, at(&(0.5, 0.5))) {
                &[(0.5, 0.5)]
            } else {
                &[(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75)]
            };
            let mut light = [0.0; 3];
            for seen in samples.iter().map(|sample| seen(scene, &printed, at(sample))) {
                light.iter_mut().zip(seen).for_each(|(sum, part)| *sum += part / samples.len() as f64);
            }
            cells.push(light);
        }
    }
    let written = smeared(cells, scene).into_iter().enumerate().map(|(at, light)| {
        light.map(|part| written_byte(scene.exposure * part + scene.noise * speckle(at % width, at / width)))
    });
    Plane::of_cells(width, height, written.collect()).unwrap_or(Plane::filled(1, 1, [0; 3]))
}

/// The ray of a place of the picture.
fn rays(scene: &Scene) -> impl Fn(f64, f64) -> Vector {
    let [width, height] = scene.size.map(|side| side as f64);
    let focal = f64::from(scene.film) * width.max(height) / 36.0;
    let ahead = unit(minus([scene.looks_at[0], scene.looks_at[1], 0.0], scene.stands));
    // v grows down the picture as it grows down the card.
    let right = unit(cross(ahead, [0.0, 1.0, 0.0])).map(|part| -part);
    let right = if right[0] < 0.0 { right.map(|part| -part) } else { right };
    let down = cross(ahead, right).map(|part| if cross(ahead, right)[1] < 0.0 { -part } else { part });
    move |x, y| {
        let (across, along) = ((x - width / 2.0) / focal, (y - height / 2.0) / focal);
        unit([0, 1, 2].map(|axis: usize| ahead[axis] + across * right[axis] + along * down[axis]))
    }
}

/// Whether a ray meets the sheet far from the card and from whatever stands on it.
fn is_bare(scene: &Scene, ray: Vector) -> bool {
    const FAR: f64 = 4.0;
    let far = -scene.stands[2] / ray[2];
    let [u, v] = [scene.stands[0] + far * ray[0], scene.stands[1] + far * ray[1]];
    let slant = ray[0].hypot(ray[1]) / ray[2].abs();
    let clear = |middle: [f64; 2], reach: f64, height: f64| {
        reach + height * slant + FAR < (u - middle[0]).hypot(v - middle[1])
    };
    let [width, height] = scene.card.size;
    let on_card = (-FAR..width + FAR).contains(&u) && (-FAR..height + FAR).contains(&v);
    !on_card
        && scene.fruit.iter().all(|own| clear(own.middle, own.length.max(own.width) / 2.0, own.width))
        && scene.faces.iter().all(|own| clear(own.middle, 1.15 * own.radius, own.height))
}

fn smeared(cells: Vec<[f64; 3]>, scene: &Scene) -> Vec<[f64; 3]> {
    let [width, height] = scene.size;
    if scene.smear == 0 {
        return cells;
    }
    let axis = |axis: usize| {
        let own = cells.iter().map(|cell| cell[axis] as f32).collect();
        Plane::of_cells(width, height, own).map(|plane| plane.box_mean(scene.smear))
    };
    let planes: Vec<Plane<f32>> = (0..3).filter_map(axis).collect();
    (0..cells.len()).map(|at| [0, 1, 2].map(|axis: usize| f64::from(planes[axis].cells()[at]))).collect()
}

fn written_byte(light: f64) -> u8 {
    let light = light.clamp(0.0, 1.0);
    let part = if light <= 0.003_130_8 { 12.92 * light } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 };
    (255.0 * part).round() as u8
}

/// Noise from -1 to 1 that is the same each time.
fn speckle(x: usize, y: usize) -> f64 {
    let mixed =
        (x as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ (y as u64).wrapping_mul(0xc2b2_ae3d_27d4_eb4f);
    let mixed = (mixed ^ (mixed >> 29)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    ((mixed ^ (mixed >> 32)) & 0xffff) as f64 / 32_767.5 - 1.0
}

/// What a ray from the camera meets.
fn seen(scene: &Scene, printed: &Printed, ray: Vector) -> [f64; 3] {
    let faces = scene.faces.iter().filter_map(|face| face.struck(scene.stands, ray));
    if let Some((_, light)) = faces.min_by(|p, q| p.0.total_cmp(&q.0)) {
        return light;
    }
    let hits = scene.fruit.iter().filter_map(|fruit| Some((struck(fruit, scene.stands, ray)?, fruit)));
    match hits.min_by(|p, q| p.0.0.total_cmp(&q.0.0)) {
        Some(((_, out), fruit)) => {
            let facing = dot(out, unit(WINDOW)).max(0.0);
            let half = unit(minus(unit(WINDOW), ray));
            let shine = 0.25 * dot(out, half).max(0.0).powi(60);
            fruit.skin.map(|skin| skin * (0.5 + 0.5 * facing) + shine)
        }
        None => {
            let far = -scene.stands[2] / ray[2];
            let place = [scene.stands[0] + far * ray[0], scene.stands[1] + far * ray[1]];
            let ground = printed.at(place).unwrap_or(scene.sheet);
            let halves = scene.faces.iter().map(below);
            let all = scene.fruit.iter().copied().chain(halves);
            let shade = all.map(|fruit| shade(&fruit, place)).product::<f64>();
            let fall_off = 1.0 - 0.0004 * (place[0] - 100.0) - 0.0003 * (place[1] - 80.0);
            ground.map(|part| part * shade * fall_off)
        }
    }
}

/// How far a ray goes before it meets a fruit, and which way the skin faces there.
fn struck(fruit: &TrueFruit, from: Vector, ray: Vector) -> Option<(f64, Vector)> {
    let (half, side) = (fruit.length / 2.0, fruit.width / 2.0);
    let turn = fruit.turned.to_radians();
    let own =
        |p: Vector| [p[0] * turn.cos() + p[1] * turn.sin(), -p[0] * turn.sin() + p[1] * turn.cos(), p[2]];
    let sizes = [half, side, side];
    let scaled = |p: Vector| [0, 1, 2].map(|axis: usize| own(p)[axis] / sizes[axis]);
    let (start, way) = (scaled(minus(from, [fruit.middle[0], fruit.middle[1], side])), scaled(ray));
    let (a, b, c) = (dot(way, way), dot(start, way), dot(start, start) - 1.0);
    let root = b * b - a * c;
    if root < 0.0 {
        return None;
    }
    let far = (-b - root.sqrt()) / a;
    let at = [0, 1, 2].map(|axis: usize| (start[axis] + far * way[axis]) / sizes[axis]);
    let back = [at[0] * turn.cos() - at[1] * turn.sin(), at[0] * turn.sin() + at[1] * turn.cos(), at[2]];
    Some((far, unit(back)))
}

/// A round fruit whose shadow is that of a cut one.
fn below(face: &TrueFace) -> TrueFruit {
    let width = 2.0 * face.radius;
    TrueFruit { middle: face.middle, length: width, width, turned: 0.0, skin: face.colours.skin }
}

/// The share of light that a fruit leaves to a place of the sheet: a soft shadow away from the window.
fn shade(fruit: &TrueFruit, place: [f64; 2]) -> f64 {
    let side = fruit.width / 2.0;
    let middle = [fruit.middle[0] + 0.4 * side, fruit.middle[1] + 0.3 * side];
    let turn = fruit.turned.to_radians();
    let off = [place[0] - middle[0], place[1] - middle[1]];
    let along = (off[0] * turn.cos() + off[1] * turn.sin()) / (fruit.length / 2.0);
    let across = (-off[0] * turn.sin() + off[1] * turn.cos()) / side;
    let far = along * along + across * across;
    // Farther out the shadow is less than a thousandth.
    if 3.6 < far { 1.0 } else { 1.0 - 0.45 * (-far * far / 2.0).exp() }
}

/// Everything that is printed on the card.
struct Printed {
    size: [f64; 2],
    areas: Vec<([f64; 4], [f64; 3])>,
}

/// Reflectances of white paper and black ink: as the made pictures of the trade's card have them.
const PAPER: f64 = 0.86;
const INK: f64 = 0.035;

impl Printed {
    fn of(card: &Card, code: Code) -> Self {
        let squares = card.squares().map(|(place, dark)| (place, [if dark { INK } else { PAPER }; 3]));
        let patches =
            card.patches.iter().map(|(place, lab)| (*place, lab.to_linear().map(|part| part.max(0.0))));
        let modules = card.strip.into_iter().flat_map(|strip| {
            let dark = strip.corners().zip(written(code)).filter(|(_, dark)| *dark);
            dark.map(move |([u, v], _)| ([u, v, strip.module, strip.module], [INK; 3]))
        });
        Self { size: card.size, areas: squares.chain(patches).chain(modules).collect() }
    }

    /// What the card throws back at a place; `None` beside it.
    fn at(&self, [u, v]: [f64; 2]) -> Option<[f64; 3]> {
        let within = |[left, top, width, height]: [f64; 4]| {
            (left..left + width).contains(&u) && (top..top + height).contains(&v)
        };
        if !within([0.0, 0.0, self.size[0], self.size[1]]) {
            return None;
        }
        let printed = self.areas.iter().rev().find(|(place, _)| within(*place));
        Some(printed.map_or([PAPER; 3], |(_, light)| *light))
    }
}

/// The JPEG with the lens and the day beside it, as EXIF: a first directory that leads to a second one with both.
fn with_exif(jpeg: &[u8], scene: &Scene) -> Vec<u8> {
    let mut tiff: Vec<u8> = b"MM\0*".to_vec();
    let long = |tiff: &mut Vec<u8>, value: u32| tiff.extend(value.to_be_bytes());
    let short = |tiff: &mut Vec<u8>, value: u16| tiff.extend(value.to_be_bytes());
    long(&mut tiff, 8);
    short(&mut tiff, 1);
    entry(&mut tiff, (0x8769, 4, 1), 26);
    long(&mut tiff, 0);
    short(&mut tiff, 2);
    entry(&mut tiff, (0x9003, 2, 20), 56);
    entry(&mut tiff, (0xa405, 3, 1), u32::from(scene.film) << 16);
    long(&mut tiff, 0);
    tiff.extend(scene.taken.as_bytes());
    tiff.push(0);
    let mut whole = vec![0xff, 0xd8, 0xff, 0xe1];
    whole.extend(u16::try_from(tiff.len() + 8).unwrap_or(0).to_be_bytes());
    whole.extend(b"Exif\0\0");
    whole.extend(tiff);
    whole.extend(jpeg.get(2..).unwrap_or_default());
    whole
}

/// One entry of a directory: its tag, its kind of value, how many, and the value or where it is.
fn entry(tiff: &mut Vec<u8>, (tag, kind, count): (u16, u16, u32), value: u32) {
    tiff.extend(tag.to_be_bytes());
    tiff.extend(kind.to_be_bytes());
    tiff.extend(count.to_be_bytes());
    tiff.extend(value.to_be_bytes());
}
