//! A text taken apart into words, numbers, signs and what stands in quotation marks.
//!
//! Blanks and hyphens between letters only part words; a hyphen beside a figure is kept, as it may mean "to".

use std::ops::Range;

/// A piece of the text that is not parted further.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Token {
    /// Where it stands, in bytes.
    pub(crate) at: Range<usize>,
    /// What it is.
    pub(crate) is: Is,
}

/// What a token is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Is {
    /// Letters, folded by [`key`].
    Word(String),
    /// A figure.
    Number(f64),
    /// A sign that may mean something.
    Sign(char),
    /// What stood in quotation marks: never read, always looked for.
    Quoted(String),
}

impl Token {
    /// The folded word, if it is one.
    pub(crate) fn word(&self) -> Option<&str> {
        match &self.is {
            Is::Word(word) => Some(word),
            _ => None,
        }
    }

    /// The number, if it is one.
    pub(crate) fn number(&self) -> Option<f64> {
        match self.is {
            Is::Number(number) => Some(number),
            _ => None,
        }
    }

    /// Whether it is this sign.
    pub(crate) fn is_sign(&self, sign: char) -> bool {
        self.is == Is::Sign(sign)
    }
}

/// The form in which words are compared: small letters and figures only, British spelling.
pub(crate) fn key(text: &str) -> String {
    let plain: String =
        text.chars().filter(|sign| sign.is_alphanumeric()).flat_map(char::to_lowercase).collect();
    plain.replace("color", "colour")
}

/// Signs that mean something; all others part words and are passed over.
const SIGNS: &str = ",;.()/+~<>≤≥:&\n";
/// Hyphens and dashes, told as one sign.
const DASHES: &str = "-\u{2010}\u{2011}\u{2012}\u{2013}\u{2014}\u{2212}";
/// Fractions that are one sign, and their values.
const FRACTIONS: [(char, f64); 5] =
    [('½', 0.5), ('¼', 0.25), ('¾', 0.75), ('⅓', 1.0 / 3.0), ('⅔', 2.0 / 3.0)];

/// What stands directly before a sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Before {
    /// A figure, so that the sign may be a unit or a range.
    Figure,
    /// Anything else.
    Other,
}

impl Before {
    fn of(text: &str) -> Self {
        if text.ends_with(|sign: char| sign.is_ascii_digit()) { Self::Figure } else { Self::Other }
    }
}

/// Takes a text apart.
pub(crate) fn tokens(text: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut from = 0;
    while let Some(sign) = text.get(from..).and_then(|rest| rest.chars().next()) {
        let rest = text.get(from..).unwrap_or_default();
        let before = Before::of(text.get(..from).unwrap_or_default());
        let (length, is) = token(rest, sign, before);
        tokens.extend(is.map(|is| Token { at: from..from + length, is }));
        from += length.max(sign.len_utf8());
    }
    tokens
}

fn token(rest: &str, sign: char, before: Before) -> (usize, Option<Is>) {
    if let Some((_, value)) = FRACTIONS.iter().find(|(fraction, _)| *fraction == sign) {
        (sign.len_utf8(), Some(Is::Number(*value)))
    } else if sign.is_ascii_digit() {
        number(rest)
    } else if sign.is_alphabetic() {
        let length = rest.find(|sign: char| !is_letter(sign)).unwrap_or(rest.len());
        (length, Some(Is::Word(key(rest.get(..length).unwrap_or_default()))))
    } else if matches!(sign, '"' | '\u{201c}' | '\u{201d}' | '\u{2033}') {
        quoted(rest, sign, before)
    } else if before == Before::Figure && matches!(sign, '\'' | '\u{2019}' | '\u{2032}') {
        (sign.len_utf8(), Some(Is::Sign('\'')))
    } else if DASHES.contains(sign) {
        let before_figure = rest
            .get(sign.len_utf8()..)
            .is_some_and(|rest| rest.trim_start().starts_with(|sign: char| sign.is_ascii_digit()));
        (sign.len_utf8(), (before == Before::Figure || before_figure).then_some(Is::Sign('-')))
    } else {
        (sign.len_utf8(), SIGNS.contains(sign).then_some(Is::Sign(sign)))
    }
}

/// Letters and the apostrophes between them make a word.
fn is_letter(sign: char) -> bool {
    sign.is_alphabetic() || matches!(sign, '\'' | '\u{2019}')
}

/// A figure: `12`, `2.5`, `2,5`, `1,200`.
fn number(rest: &str) -> (usize, Option<Is>) {
    let length = rest.find(|sign: char| !sign.is_ascii_digit()).unwrap_or(rest.len());
    let whole = rest.get(..length).unwrap_or_default();
    let tail = rest.get(length..).unwrap_or_default();
    let point = tail.starts_with('.') || tail.starts_with(',');
    let digits = tail.get(1..).unwrap_or_default();
    let places = digits.find(|sign: char| !sign.is_ascii_digit()).unwrap_or(digits.len());
    let fraction = digits.get(..places).unwrap_or_default();
    let text = match (point, places) {
        (false, _) | (true, 0) => return (length, whole.parse().ok().map(Is::Number)),
        (true, 3) if tail.starts_with(',') => format!("{whole}{fraction}"),
        (true, _) => format!("{whole}.{fraction}"),
    };
    (length + 1 + places, text.parse().ok().map(Is::Number))
}

/// An inch mark behind a figure, else what stands up to the closing mark.
fn quoted(rest: &str, sign: char, before: Before) -> (usize, Option<Is>) {
    let open = sign.len_utf8();
    if before == Before::Figure {
        return (open, Some(Is::Sign('"')));
    }
    let inside = rest.get(open..).unwrap_or_default();
    let Some(close) = inside.find(['"', '\u{201c}', '\u{201d}']) else { return (open, None) };
    let words: Vec<&str> = inside.get(..close).unwrap_or_default().split_whitespace().collect();
    let closing = inside.get(close..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
    let said = words.join(" ").to_lowercase();
    (open + close + closing, (!said.is_empty()).then_some(Is::Quoted(said)))
}
