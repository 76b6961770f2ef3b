//! SVG text: escaping, short numbers, elements. A finished drawing is an [`Svg`].
//!
//! For the drawings of this crate, which write with a `Canvas`. Numbers have at most two decimals,
//! so that the same values give the same text on every machine. Only presentation attributes are
//! written: a page's `style-src` has nothing to forbid. Paths are in `path`.

use crate::lettering::FACES;
use crate::path::Path;
use crate::scale::Pixels;
use std::collections::BTreeMap;
use std::fmt;

/// A finished drawing: a whole `<svg>` element that stands alone, in a page, in an `<img>` or in a PDF.
#[derive(Clone, Debug, PartialEq)]
pub struct Svg {
    width: Pixels,
    height: Pixels,
    markup: String,
}

impl Svg {
    /// Drawn width.
    #[must_use]
    pub fn width(&self) -> Pixels {
        self.width
    }

    /// Drawn height.
    #[must_use]
    pub fn height(&self) -> Pixels {
        self.height
    }

    /// The markup, from `<svg` to `</svg>`; safe to set in HTML as it is.
    #[must_use]
    pub fn markup(&self) -> &str {
        &self.markup
    }
}

impl fmt::Display for Svg {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&self.markup)
    }
}

/// What a screen reader is told that the whole drawing is.
#[derive(Clone, Copy)]
pub(crate) enum Role {
    /// One picture; its title is all there is to say.
    Picture,
    /// A group of things that can be walked through, such as links.
    Group,
}

/// The sheet that a drawing is written on.
pub(crate) struct Canvas {
    salt: &'static str,
    key: u64,
    definitions: BTreeMap<u64, String>,
    lettered: bool,
    text: String,
}

impl Canvas {
    /// Starts a sheet. `salt` and `name` set its gradients' ids apart from those of other drawings in
    /// one page, which may be hidden and would take their gradients with them.
    pub(crate) fn new(salt: &'static str, name: &str) -> Self {
        Self {
            salt,
            key: fingerprint(name),
            definitions: BTreeMap::new(),
            lettered: false,
            text: String::with_capacity(4096),
        }
    }

    /// Begins an element; nothing is complete until the returned [`Element`] is ended.
    pub(crate) fn element(&mut self, tag: &'static str) -> Element<'_> {
        self.lettered |= tag == "text";
        self.text.push('<');
        self.text.push_str(tag);
        Element { canvas: self, tag }
    }

    /// Keeps a gradient and returns the `fill` that paints with it; equal gradients are kept once.
    pub(crate) fn gradient(&mut self, gradient: &Gradient<'_>) -> String {
        let (open, close) = gradient.tags();
        let body = gradient.stops();
        let id = fingerprint(&format!("{open}{body}")) ^ self.key;
        let name = format!("{}{id:x}", self.salt);
        let fill = format!("url(#{name})");
        self.definitions
            .entry(id)
            .or_insert_with(|| format!("<{close} id=\"{name}\"{open}>{body}</{close}>"));
        fill
    }

    /// Ends the sheet: frames what was written as one `<svg>` element.
    pub(crate) fn finish(self, class: &str, role: Role, title: &str, width: f64, height: f64) -> Svg {
        let mut text = String::with_capacity(self.text.len() + 1024);
        text.push_str("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"");
        text.push_str(class);
        for (name, value) in [("\" width=\"", width), ("\" height=\"", height), ("\" viewBox=\"0 0 ", width)]
        {
            text.push_str(name);
            push_number(&mut text, value);
        }
        text.push(' ');
        push_number(&mut text, height);
        if self.lettered {
            text.push_str("\" font-family=\"");
            text.push_str(FACES);
        }
        text.push_str(match role {
            Role::Picture => "\" role=\"img\"><title>",
            Role::Group => "\" role=\"group\"><title>",
        });
        push_escaped(&mut text, title);
        text.push_str("</title>");
        if !self.definitions.is_empty() {
            text.push_str("<defs>");
            self.definitions.values().for_each(|definition| text.push_str(definition));
            text.push_str("</defs>");
        }
        text.push_str(&self.text);
        text.push_str("</svg>");
        let drawn = |pixels: f64| Pixels::new(pixels).unwrap_or(Pixels::from(0));
        Svg { width: drawn(width), height: drawn(height), markup: text }
    }
}

/// An element whose attributes are being written.
pub(crate) struct Element<'a> {
    canvas: &'a mut Canvas,
    tag: &'static str,
}

impl<'a> Element<'a> {
    /// Writes an attribute of words.
    pub(crate) fn set(self, name: &str, value: &str) -> Self {
        let text = &mut self.canvas.text;
        text.push(' ');
        text.push_str(name);
        text.push_str("=\"");
        push_escaped(text, value);
        text.push('"');
        self
    }

    /// Writes an attribute that is a number.
    pub(crate) fn at(self, name: &str, value: f64) -> Self {
        let text = &mut self.canvas.text;
        text.push(' ');
        text.push_str(name);
        text.push_str("=\"");
        push_number(text, value);
        text.push('"');
        self
    }

    /// Writes path data, which holds nothing that needs escaping.
    pub(crate) fn along(self, path: &Path) -> Self {
        let text = &mut self.canvas.text;
        text.push_str(" d=\"");
        text.push_str(path.data());
        text.push('"');
        self
    }

    /// Writes a `transform` that moves what is inside.
    pub(crate) fn moved(self, x: f64, y: f64) -> Self {
        let text = &mut self.canvas.text;
        text.push_str(" transform=\"translate(");
        push_number(text, x);
        text.push(' ');
        push_number(text, y);
        text.push_str(")\"");
        self
    }

    /// Writes a `transform` that makes it larger or smaller about the origin, to a thousandth.
    pub(crate) fn scaled(self, factor: f64) -> Self {
        let text = &mut self.canvas.text;
        text.push_str(" transform=\"scale(");
        text.push_str(&format!("{factor:.3}"));
        text.push_str(")\"");
        self
    }

    /// Ends an element with nothing inside.
    pub(crate) fn end(self) {
        self.canvas.text.push_str("/>");
    }

    /// Ends an element with words inside.
    pub(crate) fn words(self, words: &str) {
        self.canvas.text.push('>');
        push_escaped(&mut self.canvas.text, words);
        self.close();
    }

    /// Ends an element with other elements inside.
    pub(crate) fn holding(self, draw: impl FnOnce(&mut Canvas)) {
        self.canvas.text.push('>');
        draw(self.canvas);
        self.close();
    }

    fn close(self) {
        self.canvas.text.push_str("</");
        self.canvas.text.push_str(self.tag);
        self.canvas.text.push('>');
    }
}

/// One colour along a gradient: place from 0 to 1, colour, opacity from 0 to 1.
pub(crate) type Stop<'a> = (f64, &'a str, f64);

/// A gradient over the box of what it paints, so that fruits of one colour share it at any size.
pub(crate) enum Gradient<'a> {
    /// From one point of the box to another, each in shares of the box.
    Linear { from: (f64, f64), to: (f64, f64), stops: &'a [Stop<'a>] },
    /// Round a centre, in shares of the box.
    Radial { centre: (f64, f64), radius: f64, stops: &'a [Stop<'a>] },
}

impl Gradient<'_> {
    fn tags(&self) -> (String, &'static str) {
        let mut text = String::new();
        let mut write = |name: &str, value: f64| {
            text.push_str(name);
            push_number(&mut text, value);
            text.push('"');
        };
        let tag = match self {
            Self::Linear { from, to, .. } => {
                let places = [(" x1=\"", from.0), (" y1=\"", from.1), (" x2=\"", to.0), (" y2=\"", to.1)];
                places.iter().for_each(|(name, value)| write(name, *value));
                "linearGradient"
            }
            Self::Radial { centre, radius, .. } => {
                let places = [(" cx=\"", centre.0), (" cy=\"", centre.1), (" r=\"", *radius)];
                places.iter().for_each(|(name, value)| write(name, *value));
                "radialGradient"
            }
        };
        (text, tag)
    }

    fn stops(&self) -> String {
        let (Self::Linear { stops, .. } | Self::Radial { stops, .. }) = self;
        let mut text = String::new();
        for (offset, colour, opacity) in *stops {
            text.push_str("<stop offset=\"");
            push_number(&mut text, *offset);
            text.push_str("\" stop-color=\"");
            push_escaped(&mut text, colour);
            if *opacity < 1.0 {
                text.push_str("\" stop-opacity=\"");
                push_number(&mut text, *opacity);
            }
            text.push_str("\"/>");
        }
        text
    }
}

/// Largest number written; in hundredths of a pixel; what is beyond it lies outside every drawing.
const FARTHEST: f64 = 1e9;

/// Rounds to hundredths, as a whole number of them; what is not finite counts as 0.
pub(crate) fn hundredths(value: f64) -> i64 {
    whole(value * 100.0)
}

/// Rounds to a whole number; what is not a number counts as 0.
pub(crate) fn whole(value: f64) -> i64 {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "cut to whole after adding a half; the clamp holds it"
    )]
    let whole = (value.clamp(-FARTHEST, FARTHEST) + 0.5_f64.copysign(value)) as i64;
    whole
}

/// Writes a number with at most two decimals and no needless zeros: `12`, `-.5`, `3.25`.
fn push_number(text: &mut String, value: f64) {
    let number = Number::of(hundredths(value));
    text.push_str(str::from_utf8(number.bytes()).unwrap_or("0"));
}

/// A number as it is written. Portraits are mostly numbers, so this is where their time goes: the digits
/// are put down from the last to the first in a small array, and taken over in one piece.
pub(crate) struct Number {
    digits: [u8; ROOM_FOR_DIGITS],
    start: usize,
}

/// A sign, 18 digits and a point.
const ROOM_FOR_DIGITS: usize = 20;

impl Number {
    /// A whole number of hundredths as a decimal number.
    pub(crate) fn of(hundredths: i64) -> Self {
        let mut number = Self { digits: [b'0'; ROOM_FOR_DIGITS], start: ROOM_FOR_DIGITS };
        let (mut whole, part) = (hundredths.unsigned_abs() / 100, hundredths.unsigned_abs() % 100);
        if part > 0 {
            if part % 10 > 0 {
                number.put_digit(part % 10);
            }
            number.put_digit(part / 10);
            number.put(b'.');
        }
        if whole == 0 && part == 0 {
            number.put(b'0');
        }
        while whole > 0 {
            number.put_digit(whole % 10);
            whole /= 10;
        }
        if hundredths < 0 {
            number.put(b'-');
        }
        number
    }

    /// What was written.
    pub(crate) fn bytes(&self) -> &[u8] {
        self.digits.get(self.start..).unwrap_or_default()
    }

    fn put_digit(&mut self, digit: u64) {
        #[expect(clippy::cast_possible_truncation, reason = "a digit is 0 to 9")]
        let digit = digit as u8;
        self.put(b'0' + digit);
    }

    fn put(&mut self, byte: u8) {
        self.start = self.start.saturating_sub(1);
        if let Some(place) = self.digits.get_mut(self.start) {
            *place = byte;
        }
    }
}

/// Writes words so that they stay words in markup, in attributes and between tags. Characters that
/// no XML document may hold become the replacement character.
fn push_escaped(text: &mut String, words: &str) {
    if words
        .bytes()
        .all(|byte| matches!(byte, b' '..=b'~') && !matches!(byte, b'&' | b'<' | b'>' | b'"' | b'\''))
    {
        text.push_str(words);
        return;
    }
    for letter in words.chars() {
        match letter {
            '&' => text.push_str("&amp;"),
            '<' => text.push_str("&lt;"),
            '>' => text.push_str("&gt;"),
            '"' => text.push_str("&quot;"),
            '\'' => text.push_str("&#39;"),
            '\t' | '\n' | '\r' => text.push(' '),
            '\u{0}'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{fffe}' | '\u{ffff}' => text.push('\u{fffd}'),
            plain => text.push(plain),
        }
    }
}

/// The 64-bit FNV-1a hash (Fowler, Noll, Vo; offset basis and prime as published by its authors), for
/// ids and for scatter that stays the same on every machine.
pub(crate) fn fingerprint(words: &str) -> u64 {
    const OFFSET: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0100_0000_01b3;
    words.bytes().fold(OFFSET, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(PRIME))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn agrees(value: f64, written: &str) {
        let mut text = String::new();
        push_number(&mut text, value);
        assert_eq!(text, written);
    }

    #[test]
    fn numbers_are_short() {
        let cases = [(0.0, "0"), (-0.001, "0"), (0.5, ".5"), (-0.5, "-.5"), (12.0, "12"), (3.254, "3.25")];
        for (value, written) in cases {
            agrees(value, written);
        }
        agrees(100.05, "100.05");
        agrees(f64::NAN, "0");
        agrees(f64::INFINITY, "10000000");
    }

    /// FNV-1a 64 of "a" and "foobar", from the test vectors that its authors publish.
    #[test]
    fn fingerprints_agree_with_their_authors() {
        assert_eq!(fingerprint("a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fingerprint("foobar"), 0x8594_4171_f739_67e8);
    }
}
