//! From a picture to measures: the whole way, and every reason to refuse.
//!
//! Start at [`measure`].

use crate::camera::Camera;
use crate::card::Card;
use crate::colour::{Lab, linear_of_byte};
use crate::decode::Picture;
use crate::edge::refined;
use crate::markers;
use crate::outline::{Point, hull, moments};
use crate::part::{Parted, fruit};
use crate::plane::Plane;
use crate::pose::{Pose, sharpen};
use crate::region::Region;
use crate::sheet;
use crate::solid::{Solid, lying};
use crate::surface;
use record::mass::Grams;

/// Grams of a cubic centimetre of fruit until a house has weighed its own (common practice, no source).
pub const DENSITY: f64 = 0.97;
/// Longest side that is measured on, px: larger pictures are made smaller by whole steps.
const LONGEST_SIDE: usize = 2400;
/// Film's width in mm, which the lens is told against.
const FILM: f64 = 36.0;
/// Focal length of phones' main lens where the camera wrote none (common practice, no source).
const USUAL_FOCAL: f64 = 26.0;
/// How well the logarithm of the focal length is known: told by the camera (makers differ by 4%), or guessed.
const TOLD_SD: f64 = 0.03;
const GUESSED_SD: f64 = 0.2;
/// Refusals. Found on the made pictures: sharp edges take 2 to 3 px.
const WIDEST_EDGE: f64 = 4.0;
const STEEPEST: f64 = 40.0;
const FEWEST_PIXELS: f64 = 1.2;
const LEAST_APART: f64 = 0.6;
const WORST_RESIDUAL: f64 = 0.7;
/// Of its convex hull a fruit covers at least this share; a ribbed one 0.95, a pear 0.96 (the made pictures).
const LEAST_SOLID: f64 = 0.9;
/// Smaller parts are crumbs, mm across.
const SMALLEST: f64 = 11.0;

/// Why a photograph is not measured.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// Fewer than four markers.
    #[error("the scale card is not found whole")]
    NoCard,
    /// Edges too wide.
    #[error("the picture is blurred: edges take {width:.1} pixels")]
    Blurred {
        /// Pixels from dark to light.
        width: f64,
    },
    /// The card's lines do not fit.
    #[error("the scale card does not lie flat: its edges are {off:.1} pixels off")]
    Bent {
        /// Root mean square, px.
        off: f64,
    },
    /// Too far from straight above.
    #[error("the picture is taken {degrees:.0} degrees from straight above")]
    Steep {
        /// Degrees.
        degrees: f64,
    },
    /// Too far away.
    #[error("the picture has only {pixels:.1} pixels to a millimetre")]
    Coarse {
        /// Pixels to a millimetre of sheet.
        pixels: f64,
    },
    /// Nothing stands out.
    #[error("fruit and cloth have nearly the same colour")]
    OneColour,
    /// Nothing is left.
    #[error("no whole fruit is found on the sheet")]
    NoFruit,
}

impl Refusal {
    /// What to do about it.
    #[must_use]
    pub fn remedy(self) -> &'static str {
        match self {
            Self::NoCard => {
                "lay the card flat beside the fruit with all four corners in the picture and nothing on it"
            }
            Self::Blurred { .. } => "hold the phone still, wipe the lens, and give it more light",
            Self::Bent { .. } => "press the card flat, or print it on stiffer paper",
            Self::Steep { .. } => "hold the phone level above the middle of the sheet",
            Self::Coarse { .. } => "go nearer, or lay fewer fruit in one picture",
            Self::OneColour => "lay the fruit on a sheet of another colour",
            Self::NoFruit => "lay the fruit on the sheet with some of it showing all round",
        }
    }
}

/// A fruit of the picture.
#[derive(Clone, Debug)]
pub struct Fruit {
    /// Its number in [`Measured::parted`].
    pub label: u32,
    /// Its outline in pixels of the measured picture.
    pub outline: Vec<Point>,
    /// The solid, taken as lying on its side.
    pub solid: Solid,
    /// The skin's colour relative to the card's paper, where enough of it is seen and the card's greys are told apart.
    pub colour: Option<Lab>,
}

impl Fruit {
    /// The weight at the usual density.
    #[must_use]
    pub fn weight(&self) -> Option<Grams> {
        Grams::new(DENSITY * self.solid.volume)
    }
}

/// Why a part of the picture is no fruit that is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// It runs out of the picture.
    Cropped,
    /// Its outline encloses nothing.
    NotClosed,
    /// It bends inwards more than a fruit does: a shadow, or several fruit that were not parted.
    Bent,
}

/// What a picture says.
#[derive(Clone, Debug)]
pub struct Measured {
    /// Where the camera stood, and how sharp the card is.
    pub pose: Pose,
    /// By how many times the picture was made smaller before measuring.
    pub reduced: usize,
    /// The parts of the picture.
    pub parted: Parted,
    /// The fruit.
    pub fruit: Vec<Fruit>,
    /// Parts that were dropped: label and why.
    pub left_out: Vec<(u32, LeftOut)>,
}

/// Measures the fruit of one picture beside a card.
///
/// # Errors
/// [`Refusal`] with what is wrong with the picture; its [`Refusal::remedy`] says what to do.
pub fn measure(picture: &Picture, card: &Card) -> Result<Measured, Refusal> {
    let longest = picture.pixels.width().max(picture.pixels.height());
    let reduced = longest.div_ceil(LONGEST_SIDE).max(1);
    let pixels = smaller(&picture.pixels, reduced);
    let pose = pose(&pixels, picture.focal_on_film, card)?;
    let sheet = sheet::read(&pixels, &pose.camera, card).ok_or(Refusal::OneColour)?;
    let unlike = sheet::unlike(&pixels, &sheet, &pose.camera, card);
    let middle = [pixels.width() as f64 / 2.0, pixels.height() as f64 / 2.0];
    let smallest = SMALLEST * pose.camera.pixels_a_millimetre(middle);
    let parted = fruit(&unlike, (0.7 * smallest * smallest) as usize);
    if parted.apart < LEAST_APART {
        return Err(Refusal::OneColour);
    }
    let tone = surface::tone(&pixels, &pose.camera, card, &sheet);
    let (mut fruit, mut left_out) = (Vec::new(), Vec::new());
    for part in &parted.parts {
        if cropped(part, &pixels) {
            left_out.push((part.label, LeftOut::Cropped));
            continue;
        }
        let outline = refined(&pixels, &sheet, &parted.labels, part);
        if !solid(&outline) {
            left_out.push((part.label, LeftOut::Bent));
            continue;
        }
        match lying(&pose.camera, &outline) {
            Some(solid) => {
                let skin = |tone| surface::colour(&pixels, &parted.labels, part, &sheet, tone);
                let colour = tone.as_ref().and_then(skin);
                fruit.push(Fruit { label: part.label, outline, solid, colour });
            }
            None => left_out.push((part.label, LeftOut::NotClosed)),
        }
    }
    if fruit.is_empty() {
        return Err(Refusal::NoFruit);
    }
    Ok(Measured { pose, reduced, parted, fruit, left_out })
}

fn solid(outline: &[Point]) -> bool {
    let area = |points: &[Point]| moments(points).map_or(0.0, |found| found.area);
    LEAST_SOLID * area(&hull(outline)) < area(outline)
}

fn cropped(part: &Region, pixels: &Plane<[u8; 3]>) -> bool {
    let [left, top, right, bottom] = part.bounds;
    left <= 1 || top <= 1 || pixels.width() <= right + 1 || pixels.height() <= bottom + 1
}

fn pose(pixels: &Plane<[u8; 3]>, told: Option<f64>, card: &Card) -> Result<Pose, Refusal> {
    let table: Vec<f64> = (0..=255).map(linear_of_byte).collect();
    let light = pixels.map(|[r, g, b]| {
        let part = |byte: u8| table.get(usize::from(byte)).copied().unwrap_or(0.0);
        (0.25 * part(r) + 0.6 * part(g) + 0.15 * part(b)) as f32
    });
    let found = markers::find(&light).ok_or(Refusal::NoCard)?;
    let size = [pixels.width() as f64, pixels.height() as f64];
    let (focal, focal_sd) = told.map_or((USUAL_FOCAL, GUESSED_SD), |told| (told, TOLD_SD));
    let focal = focal * size[0].max(size[1]) / FILM;
    let middle = [size[0] / 2.0, size[1] / 2.0];
    let first = Camera::of_four(card.markers, found, focal, middle).ok_or(Refusal::NoCard)?;
    let pose = sharpen(&light, card, first, focal_sd).ok_or(Refusal::NoCard)?;
    let degrees = pose.camera.tilt();
    let density = pose.camera.pixels_a_millimetre(middle);
    if WIDEST_EDGE < pose.edge_width {
        Err(Refusal::Blurred { width: pose.edge_width })
    } else if WORST_RESIDUAL < pose.residual {
        Err(Refusal::Bent { off: pose.residual })
    } else if STEEPEST < degrees {
        Err(Refusal::Steep { degrees })
    } else if density < FEWEST_PIXELS {
        Err(Refusal::Coarse { pixels: density })
    } else {
        Ok(pose)
    }
}

/// The picture with squares of `step` pixels made one, by their mean.
fn smaller(pixels: &Plane<[u8; 3]>, step: usize) -> Plane<[u8; 3]> {
    if step <= 1 {
        return pixels.clone();
    }
    let mut small = Plane::filled(pixels.width() / step, pixels.height() / step, [0_u8; 3]);
    let count = u32::try_from(step * step).unwrap_or(1);
    for y in 0..small.height() {
        for x in 0..small.width() {
            let mut sums = [0_u32; 3];
            for at in 0..step * step {
                let (dx, dy) = (at % step, at / step);
                let bytes = pixels.at((x * step + dx).cast_signed(), (y * step + dy).cast_signed());
                sums.iter_mut().zip(bytes).for_each(|(sum, byte)| *sum += u32::from(byte));
            }
            small.set(x, y, sums.map(|sum| u8::try_from((sum + count / 2) / count).unwrap_or(u8::MAX)));
        }
    }
    small
}
