//! Shades of ink for values, and the legend that says what they mean.

use super::{LINE, MARGIN, Shading};
use crate::lettering::{Anchor, Hand};
use crate::paint::{HAIR, Hue, THIN_INK};
use crate::path::Point;
use crate::svg::Canvas;

/// Paper and the deepest shade. A choice of the drawing: words in paper still read on the deepest.
const LIGHTEST: Hue = Hue(97.0, 0.0, 4.0);
const DARKEST: Hue = Hue(28.0, 0.0, 4.0);
/// Lightness at which black and white words stand out alike, 4.58 to 1. The house's ink and paper would reach 3.97 only,
/// and 4.5 is asked for. Source: Web Content Accessibility Guidelines 2.2, success criterion 1.4.3.
const DARK_BELOW: f64 = 49.4;
const BLACK: &str = "#000000";
const WHITE: &str = "#ffffff";
/// Steps of the legend.
const STEPS: u8 = 5;
/// Width of a step of the legend, in pixels.
const STEP: f64 = 44.0;
const WORDS: Hand =
    Hand { class: "legend", size: 11.5, ink: THIN_INK, anchor: Anchor::Start, slanted: false };

/// A plot's fill and what its words are set in.
pub(super) struct Shade {
    pub(super) fill: String,
    pub(super) ink: &'static str,
}

/// The shade of a value; beyond the ends it stays that of the end.
pub(super) fn of(shading: &Shading, value: f64) -> Shade {
    let span = shading.most - shading.least;
    let share = if 0.0 < span { ((value - shading.least) / span).clamp(0.0, 1.0) } else { 0.5 };
    let hue = LIGHTEST.towards(DARKEST, if share.is_finite() { share } else { 0.5 });
    Shade { fill: hue.hex(), ink: if hue.0 < DARK_BELOW { WHITE } else { BLACK } }
}

/// Draws the legend and returns its right and lower end.
pub(super) fn legend(canvas: &mut Canvas, shading: &Shading, top: f64) -> (f64, f64) {
    WORDS.set(canvas, &shading.words, Point::new(MARGIN, top + LINE * 0.6));
    let (bar, foot) = (top + LINE * 0.9, top + LINE * 1.6);
    for step in 0..STEPS {
        let share = f64::from(step) / f64::from(STEPS - 1);
        let value = shading.least + (shading.most - shading.least) * share;
        let left = MARGIN + f64::from(step) * STEP;
        let shape =
            canvas.element("rect").at("x", left).at("y", bar).at("width", STEP).at("height", foot - bar);
        shape.set("fill", &of(shading, value).fill).set("stroke", HAIR).end();
        let number = Hand { anchor: Anchor::Middle, ..WORDS };
        number.set(canvas, &said(value, shading), Point::new(left + STEP / 2.0, foot + LINE * 0.75));
    }
    (MARGIN + f64::from(STEPS) * STEP, foot + LINE)
}

/// A value with as many decimals as tell the legend's steps apart, and with its sign where there are two.
pub(super) fn said(value: f64, shading: &Shading) -> String {
    let step = (shading.most - shading.least).abs() / f64::from(STEPS - 1);
    let decimals = if step <= 0.0 || 10.0 <= step {
        0
    } else if 1.0 <= step {
        1
    } else {
        2
    };
    let words = format!("{:.decimals$}", value.abs());
    let is_nought = words.chars().all(|sign| matches!(sign, '0' | '.'));
    if is_nought || 0.0 <= shading.least {
        words
    } else if value < 0.0 {
        format!("−{words}")
    } else {
        format!("+{words}")
    }
}
