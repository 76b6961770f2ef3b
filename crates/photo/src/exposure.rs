//! Whether a picture has light enough to be measured, and not too much: the card's paper and greys tell.
//!
//! Start at [`judged`].

use crate::camera::Camera;
use crate::card::Card;
use crate::colour::{Lab, difference};
use crate::plane::Plane;
use crate::refusal::Refusal;
use crate::surface::Tone;

/// White paper below these, of 255: too dark for sizes (ink and paper are a few steps apart), and for colours (facts, section 7).
const DARKEST: f64 = 40.0;
const DARKEST_FOR_COLOUR: f64 = 60.0;
/// White paper above this is burnt out (facts, section 7).
const BURNT_OUT: f64 = 250.0;
/// The grey that must not be as white as the paper: the lightest that is plainly grey.
const LIGHT_GREY: std::ops::Range<f64> = 70.0..90.0;
/// Steps of colour, CIEDE2000, that the card's greys may lie off, median (facts, section 7).
const GREYS_OFF: f64 = 6.0;

/// Why a picture that is measured says nothing of colours.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum NoColour {
    /// Too little light.
    #[error("the picture is too dark for colours")]
    Dark,
    /// White is not written as such.
    #[error("the card's white paper is burnt out")]
    BurntOut,
    /// The card's greys do not lie on one line.
    #[error("the card's greys are {off:.0} steps off")]
    Greys {
        /// CIEDE2000, median.
        off: f64,
    },
}

impl NoColour {
    /// What to do about it.
    #[must_use]
    pub fn remedy(self) -> &'static str {
        match self {
            Self::Dark => "take it by a window, or with more lamps all round",
            Self::BurntOut => "tap the card on the phone's screen so that it sets the light by it",
            Self::Greys { .. } => {
                "keep shadows and shine off the card; print it again if its greys are not grey"
            }
        }
    }
}

/// Whether a picture has light to be measured by; and if so, why not for colours.
///
/// # Errors
/// [`Refusal::Dark`] and [`Refusal::Bright`].
pub fn judged(pixels: &Plane<[u8; 3]>, camera: &Camera, card: &Card) -> Result<Option<NoColour>, Refusal> {
    let white = paper(pixels, camera, card);
    let brightest = white.iter().copied().fold(0.0, f64::max);
    if brightest < DARKEST {
        return Err(Refusal::Dark { white: brightest });
    }
    let grey = card.patches.iter().find(|(_, lab)| lab.chroma() < 1.0 && LIGHT_GREY.contains(&lab.l));
    if let Some(([left, top, width, height], _)) = grey
        && BURNT_OUT < least(mean(pixels, camera, &[[left + width / 2.0, top + height / 2.0]]))
    {
        return Err(Refusal::Bright);
    }
    Ok(if brightest < DARKEST_FOR_COLOUR {
        Some(NoColour::Dark)
    } else if BURNT_OUT < least(white) {
        Some(NoColour::BurntOut)
    } else {
        None
    })
}

fn least(of: [f64; 3]) -> f64 {
    of.into_iter().fold(f64::MAX, f64::min)
}

/// Why the greys do not tell colours, where they do not.
#[must_use]
pub fn of_greys(tone: &Tone, written: &[(crate::colour::Linear, Lab)]) -> Option<NoColour> {
    let mut offs: Vec<f64> =
        written.iter().map(|(light, told)| difference(tone.on_card(*light), *told)).collect();
    offs.sort_by(f64::total_cmp);
    let off = *offs.get(offs.len() / 2)?;
    (GREYS_OFF < off).then_some(NoColour::Greys { off })
}

/// The card's paper as the picture writes it: the white rings of the markers.
fn paper(pixels: &Plane<[u8; 3]>, camera: &Camera, card: &Card) -> [f64; 3] {
    let ring = 2.0 * card.module;
    let places: Vec<[f64; 2]> = card
        .markers
        .iter()
        .flat_map(|[u, v]| [[u - ring, *v], [u + ring, *v], [*u, v - ring], [*u, v + ring]])
        .collect();
    mean(pixels, camera, &places)
}

/// Mean of the bytes at places of the card.
fn mean(pixels: &Plane<[u8; 3]>, camera: &Camera, places: &[[f64; 2]]) -> [f64; 3] {
    let mut sums = [0.0; 3];
    for [u, v] in places {
        let [x, y] = camera.sees([*u, *v, 0.0]).map(|part| part.floor() as isize);
        let bytes = pixels.at(x, y);
        sums.iter_mut().zip(bytes).for_each(|(sum, byte)| *sum += f64::from(byte) / places.len() as f64);
    }
    sums
}
