//! The gauge: how sure a call is, as a rule of ink, broken where the call is contested.
//!
//! For the variety page and the tables of the list. Start at [`gauge`]; [`rule`] is one line of it.

use crate::lettering::{Anchor, Hand};
use crate::paint::{INK, THIN_INK};
use crate::path::Point;
use crate::rule::{self, in_a_hundred};
use crate::scale::Pixels;
use crate::svg::{Canvas, Role, Svg};
use record::share::Share;

/// One verdict and its probability.
#[derive(Clone, Debug, PartialEq)]
pub struct VerdictShare {
    /// The verdict in words, such as `plum`.
    pub verdict: String,
    /// Its probability.
    pub share: Share,
}

/// Height of one line, in pixels.
const LINE: f64 = 20.0;
/// Thickness of a rule, in pixels.
const THICK: f64 = 3.0;
/// Height of a rule that stands alone, in pixels.
const ALONE: f64 = 8.0;
/// Narrowest gauge that can still be read, in pixels.
const NARROWEST: f64 = 120.0;
/// Room between a line's parts, in pixels.
const GAP: f64 = 10.0;
const WORDS: Hand =
    Hand { class: "verdict", size: 12.5, ink: INK, anchor: Anchor::Start, slanted: false };
const NUMBER: Hand =
    Hand { class: "probability", size: 12.0, ink: THIN_INK, anchor: Anchor::End, slanted: false };

/// Draws every verdict's probability, one line each, as given (house order: likeliest first).
///
/// `contested` breaks the first line's rule and says so in the drawing's words.
#[must_use]
pub fn gauge(verdicts: &[VerdictShare], contested: bool, width: Pixels) -> Svg {
    let width = width.get().max(NARROWEST);
    let mut canvas = Canvas::new("g", "");
    let named = verdicts.iter().map(|line| WORDS.width(&line.verdict)).fold(0.0, f64::max);
    let numbered = NUMBER.width("under 1 in 100");
    let numbered = if width < 2.5 * numbered { 0.0 } else { numbered };
    let start = (named + GAP).min(width * 0.45);
    let length = width - start - numbered - GAP;
    let mut foot = LINE * 0.7;
    for (index, line) in verdicts.iter().enumerate() {
        let words = WORDS.shortened(&line.verdict, start - GAP);
        WORDS.set(&mut canvas, &words, Point::new(0.0, foot));
        let call = (line.share, contested && index == 0);
        rule::draw(&mut canvas, (start, foot - 4.0), length, THICK, call);
        if numbered > 0.0 {
            NUMBER.set(&mut canvas, &in_a_hundred(line.share), Point::new(width, foot));
        }
        foot += LINE;
    }
    canvas.finish("gauge", Role::Picture, &told(verdicts, contested), width, foot - LINE * 0.4)
}

/// Draws one rule alone, for a row of a table: as long as the call is certain.
#[must_use]
pub fn rule(verdict: &VerdictShare, contested: bool, width: Pixels) -> Svg {
    let mut canvas = Canvas::new("g", "");
    rule::draw(&mut canvas, (0.0, ALONE / 2.0), width.get(), THICK, (verdict.share, contested));
    let told = told(std::slice::from_ref(verdict), contested);
    canvas.finish("rule", Role::Picture, &told, width.get(), ALONE)
}

fn told(verdicts: &[VerdictShare], contested: bool) -> String {
    let each = verdicts.iter().map(|line| format!("{} {}", line.verdict, in_a_hundred(line.share)));
    let all = each.collect::<Vec<_>>().join(", ");
    match (all.is_empty(), contested) {
        (true, _) => String::from("No verdict"),
        (false, true) => format!("Contested: {all}"),
        (false, false) => all,
    }
}
