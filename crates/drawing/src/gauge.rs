//! The gauge: how sure a call is, as a rule of ink, broken where the call is contested.
//!
//! For the variety page and the tables of the list. Start at [`gauge`]; [`rule`] is one line of it.

use crate::lettering::{Anchor, Hand};
use crate::paint::{INK, THIN_INK};
use crate::path::Point;
use crate::rule;
use crate::scale::Pixels;
use crate::svg::{Canvas, Role, Svg};
use record::language;
use record::share::Share;

/// One verdict and its probability.
#[derive(Clone, Debug, PartialEq)]
pub struct VerdictShare {
    /// The verdict in words, such as `plum`.
    pub verdict: String,
    /// Its probability.
    pub share: Share,
}

/// What a gauge shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauge {
    /// The verdicts in house order: the likeliest first.
    pub verdicts: Vec<VerdictShare>,
    /// Whether the call is contested: the first rule is broken, and the drawing's words say so.
    pub contested: bool,
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
const WORDS: Hand = Hand { class: "verdict", size: 12.5, ink: INK, anchor: Anchor::Start, slanted: false };
const NUMBER: Hand =
    Hand { class: "probability", size: 12.0, ink: THIN_INK, anchor: Anchor::End, slanted: false };

/// Draws every verdict's probability, one line each.
#[must_use]
pub fn gauge(gauge: &Gauge, width: Pixels) -> Svg {
    let width = width.get().max(NARROWEST);
    let mut canvas = Canvas::new("g", "");
    let named = gauge.verdicts.iter().map(|line| WORDS.width(&line.verdict)).fold(0.0, f64::max);
    let numbered = NUMBER.width("under 1 in 100");
    let numbered = if width < 2.5 * numbered { 0.0 } else { numbered };
    let start = (named + GAP).min(width * 0.45);
    let length = width - start - numbered - GAP;
    let mut foot = LINE * 0.7;
    for (index, line) in gauge.verdicts.iter().enumerate() {
        let words = WORDS.shortened(&line.verdict, start - GAP);
        WORDS.set(&mut canvas, &words, Point::new(0.0, foot));
        let call = (line.share, gauge.contested && index == 0);
        rule::draw(&mut canvas, (start, foot - 4.0), length, THICK, call);
        if numbered > 0.0 {
            NUMBER.set(&mut canvas, &language::chance(line.share), Point::new(width, foot));
        }
        foot += LINE;
    }
    canvas.finish("gauge", Role::Picture, &told(&gauge.verdicts, gauge), width, foot - LINE * 0.4)
}

/// Draws the first verdict's rule alone, for a row of a table: as long as the call is certain.
#[must_use]
pub fn rule(gauge: &Gauge, width: Pixels) -> Svg {
    let mut canvas = Canvas::new("g", "");
    let first = gauge.verdicts.get(..1).unwrap_or(&[]);
    for line in first {
        let call = (line.share, gauge.contested);
        rule::draw(&mut canvas, (0.0, ALONE / 2.0), width.get(), THICK, call);
    }
    canvas.finish("rule", Role::Picture, &told(first, gauge), width.get(), ALONE)
}

fn told(lines: &[VerdictShare], gauge: &Gauge) -> String {
    let each = lines.iter().map(|line| format!("{} {}", line.verdict, language::chance(line.share)));
    let all = each.collect::<Vec<_>>().join(", ");
    match (all.is_empty(), gauge.contested) {
        (true, _) => String::from("No verdict"),
        (false, true) => format!("Contested: {all}"),
        (false, false) => all,
    }
}
