//! Which card lies in a picture and where the camera stood over it, or why that cannot be told.
//!
//! Start at [`placed`].

use crate::camera::Camera;
use crate::card::Card;
use crate::code::{self, Code};
use crate::colour::linear_of_byte;
use crate::markers::{self, NotWhole};
use crate::plane::Plane;
use crate::pose::{Pose, USUAL_BEND, sharpen};
use crate::refusal::Refusal;
use crate::sharpness::edge_width;

/// Film's width in mm, which the lens is told against.
const FILM: f64 = 36.0;
/// Focal length of phones' main lens where the camera wrote none (common practice, no source).
const USUAL_FOCAL: f64 = 26.0;
/// How well the logarithm of the focal length is known: told by the camera, or guessed. Makers
/// differ by 4%; but a lens that is not quite straight pulls at a freer one (found on the made pictures).
const TOLD_SD: f64 = 0.012;
const GUESSED_SD: f64 = 0.2;
/// Refusals. Found on the made pictures: sharp edges take 2 to 3 px.
const WIDEST_EDGE: f64 = 4.0;
const STEEPEST: f64 = 40.0;
const FEWEST_PIXELS: f64 = 1.2;
const WORST_RESIDUAL: f64 = 0.7;

/// The card in the picture, and the camera over it.
pub(crate) struct Placed {
    pub(crate) card: Card,
    pub(crate) code: Option<Code>,
    pub(crate) pose: Pose,
}

/// A picture without a card that is found, or with a part of one, or one that is only blurred.
fn without_card(light: &Plane<f32>, NotWhole { seen }: NotWhole) -> Refusal {
    match edge_width(light) {
        Some(width) if WIDEST_EDGE < width => Refusal::Blurred { width },
        _ if (FEWEST_MARKERS..ALL_MARKERS).contains(&seen) => Refusal::CardHidden { seen },
        _ => Refusal::NoCard,
    }
}

/// Fewer markers may be anything that is square.
const FEWEST_MARKERS: usize = 2;
/// Markers of a card: where as many are seen and none is hidden, they lie in no order that a card has.
const ALL_MARKERS: usize = 4;

/// Lays each card on the markers and keeps the one whose edges fit best.
pub(crate) fn placed(pixels: &Plane<[u8; 3]>, told: Option<f64>, cards: &[Card]) -> Result<Placed, Refusal> {
    let table: Vec<f64> = (0..=255).map(linear_of_byte).collect();
    let light = pixels.map(|[r, g, b]| {
        let part = |byte: u8| table.get(usize::from(byte)).copied().unwrap_or(0.0);
        (0.25 * part(r) + 0.6 * part(g) + 0.15 * part(b)) as f32
    });
    let found = markers::find(&light).map_err(|not_whole| without_card(&light, not_whole))?;
    let size = [pixels.width() as f64, pixels.height() as f64];
    let (focal, focal_sd) = told.map_or((USUAL_FOCAL, GUESSED_SD), |told| (told, TOLD_SD));
    let focal = focal * size[0].max(size[1]) / FILM;
    let middle = [size[0] / 2.0, size[1] / 2.0];
    let laid = cards.iter().filter_map(|card| {
        let first = Camera::of_four(card.markers, found, focal, middle)?;
        sharpen(&light, card, first, focal_sd, USUAL_BEND).map(|pose| (*card, pose))
    });
    let best = laid.min_by(|p, q| p.1.residual.total_cmp(&q.1.residual));
    let (card, pose) = best.ok_or(Refusal::NoCard)?;
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
        Ok(Placed { card, code: code::read(&light, &pose.camera, &card), pose })
    }
}
