//! Lettering: words on a drawing, and an honest guess of the room they take.
//!
//! No font is at hand where a drawing is made, so widths are guessed on the wide side: letters never
//! run into their neighbours, though a gap may be larger than it need be.

use crate::path::Point;
use crate::svg::Canvas;

/// The typefaces asked for, best first. A page or a print may set its own over them.
pub(crate) const FACES: &str = "Source Serif 4, Libertinus Serif, DejaVu Serif, Georgia, serif";

/// How far a label runs from its place.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Anchor {
    Start,
    Middle,
    End,
}

/// How words are set.
#[derive(Clone, Copy)]
pub(crate) struct Hand {
    pub(crate) class: &'static str,
    /// Height of the letters, in pixels.
    pub(crate) size: f64,
    pub(crate) ink: &'static str,
    pub(crate) anchor: Anchor,
    pub(crate) slanted: bool,
}

impl Hand {
    pub(crate) fn anchored(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }

    /// Sets `words` with their foot at `at`.
    pub(crate) fn set(self, canvas: &mut Canvas, words: &str, at: Point) {
        let text = canvas.element("text").set("class", self.class).at("x", at.x).at("y", at.y);
        let text = text.at("font-size", self.size).set("fill", self.ink);
        let text = match self.anchor {
            Anchor::Start => text,
            Anchor::Middle => text.set("text-anchor", "middle"),
            Anchor::End => text.set("text-anchor", "end"),
        };
        let text = if self.slanted { text.set("font-style", "italic") } else { text };
        text.words(words);
    }

    /// Pixels that `words` take, on the wide side.
    pub(crate) fn width(self, words: &str) -> f64 {
        self.size * words.chars().map(em_share).sum::<f64>()
    }

    /// Words shortened to `room` pixels, with an ellipsis where something is left out.
    pub(crate) fn shortened(self, words: &str, room: f64) -> String {
        if self.width(words) <= room {
            return words.to_string();
        }
        let mut taken = self.width("…");
        let kept = words.chars().take_while(|letter| {
            taken += self.size * em_share(*letter);
            taken <= room
        });
        let mut short: String = kept.collect();
        short.truncate(short.trim_end().len());
        short.push('…');
        short
    }

    /// Words broken into at most two lines of `room` pixels, the second shortened if it must be.
    pub(crate) fn broken(self, words: &str, room: f64) -> Vec<String> {
        if self.width(words) <= room {
            return vec![words.to_string()];
        }
        let gaps = words.char_indices().filter(|(_, letter)| letter.is_whitespace());
        let parts = gaps.filter_map(|(at, _)| words.split_at_checked(at));
        match parts.take_while(|(first, _)| self.width(first) <= room).last() {
            Some((first, rest)) if !first.is_empty() => {
                vec![first.to_string(), self.shortened(rest.trim_start(), room)]
            }
            _ => vec![self.shortened(words, room)],
        }
    }
}

/// A letter's width over the letter height, as in a wide serif face.
///
/// # Source
/// By eye on the widest of the faces asked for; common practice, no source.
fn em_share(letter: char) -> f64 {
    match letter {
        ' ' | '\'' | '.' | ',' | ':' | ';' | '|' | 'i' | 'j' | 'l' => 0.36,
        'f' | 't' | 'r' | 's' | '-' | '(' | ')' | 'I' | '"' | '/' => 0.5,
        'm' | 'w' => 0.95,
        'M' | 'W' | '…' | '%' => 1.08,
        'A'..='Z' => 0.76,
        '\u{2e80}'.. => 1.05,
        _ => 0.6,
    }
}
