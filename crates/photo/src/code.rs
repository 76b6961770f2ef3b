//! The card's code strip: which version of the card this is, and whose plot it belongs to, as black and white modules.
//!
//! 54 modules in two rows: a black one to begin, 4 of the version, 32 of the plot's tag, 16 of a check sum, a white one to end.
//! Black is 1, the highest digit first. Start at [`written`] and [`read`].

use crate::camera::Camera;
use crate::card::{Card, Strip};
use crate::plane::Plane;

/// The version of the card that this program prints.
pub const VERSION: u8 = 1;
/// Modules of a strip.
const MODULES: usize = 54;
const VERSION_MODULES: usize = 4;
const TAG_MODULES: usize = 32;
const SUM_MODULES: usize = 16;
/// Darkest paper over lightest ink that can still be told apart: less is a shadow's edge or no strip at all.
const LEAST_CONTRAST: f64 = 1.8;

/// What a strip says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Code {
    /// The card's version.
    pub version: u8,
    /// The tag of the plot that the card was printed for; 0 for a card of no plot.
    pub tag: u32,
}

/// The modules of a strip, in reading order; `true` is black.
#[must_use]
pub fn written(code: Code) -> Vec<bool> {
    let body = u64::from(code.version & 0xf) << TAG_MODULES | u64::from(code.tag);
    let whole = body << SUM_MODULES | u64::from(check_sum(body));
    let digits = VERSION_MODULES + TAG_MODULES + SUM_MODULES;
    let mut modules = vec![true];
    modules.extend((0..digits).rev().map(|digit| whole >> digit & 1 == 1));
    modules.push(false);
    modules
}

/// Reads modules; `None` where they are no whole strip.
#[must_use]
pub fn of_modules(modules: &[bool]) -> Option<Code> {
    let (true, [first, digits @ .., last]) = (modules.len() == MODULES, modules) else { return None };
    let whole = digits.iter().fold(0_u64, |sum, black| sum << 1 | u64::from(*black));
    let (body, sum) = (whole >> SUM_MODULES, whole & 0xffff);
    let code = Code {
        version: u8::try_from(body >> TAG_MODULES).ok()?,
        tag: u32::try_from(body & u64::from(u32::MAX)).ok()?,
    };
    (*first && !*last && u64::from(check_sum(body)) == sum).then_some(code)
}

/// Reads the strip of a card that was found in a picture; `None` where it has none or it cannot be read.
#[must_use]
pub fn read(light: &Plane<f32>, camera: &Camera, card: &Card) -> Option<Code> {
    let strip = card.strip?;
    let seen: Vec<f64> = strip.corners().map(|corner| module_light(light, camera, strip, corner)).collect();
    let (low, high) = seen.iter().fold((f64::MAX, 0.0_f64), |(low, high), at| (low.min(*at), high.max(*at)));
    if high < LEAST_CONTRAST * low {
        return None;
    }
    let border = (low.max(1e-4) * high).sqrt();
    of_modules(&seen.iter().map(|light| *light < border).collect::<Vec<_>>())
}

/// Mean light of the inner part of a module.
fn module_light(light: &Plane<f32>, camera: &Camera, strip: Strip, [u, v]: [f64; 2]) -> f64 {
    const INNER: [f64; 3] = [0.35, 0.5, 0.65];
    let places = INNER.iter().flat_map(|down| INNER.iter().map(move |across| (across, down)));
    let sum: f64 = places
        .map(|(across, down)| {
            let [x, y] = camera.sees([u + across * strip.module, v + down * strip.module, 0.0]);
            light.between(x, y)
        })
        .sum();
    sum / (INNER.len() * INNER.len()) as f64
}

/// CRC-16 with the generator x^16 + x^12 + x^5 + 1 begun at all ones, over the 36 digits of the body (the generator of
/// ITU-T V.41, from memory, unverified; only this program reads what it writes).
fn check_sum(body: u64) -> u16 {
    (0..VERSION_MODULES + TAG_MODULES).rev().fold(0xffff_u16, |sum, digit| {
        let turned = (sum >> 15) ^ u16::from(body >> digit & 1 == 1);
        sum << 1 ^ if turned == 1 { 0x1021 } else { 0 }
    })
}
