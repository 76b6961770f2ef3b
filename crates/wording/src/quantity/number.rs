//! Numbers as people write them: `2.5`, `1/2`, `1 1/2`, `1½`, `two`, `half a`, `a quarter`.

use crate::quantity::{Found, phrases};
use crate::tokens::Token;

/// Words for whole numbers.
const WORDS: [&str; 13] = [
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
];

/// Reads a number that begins at a token. A word or an article is a number only where a unit or a range follows.
pub(super) fn number(tokens: &[Token], at: usize) -> Found<f64> {
    figures(tokens, at).or_else(|| words(tokens, at))
}

/// Reads a number written in figures.
pub(super) fn figures(tokens: &[Token], at: usize) -> Found<f64> {
    let (whole, behind) = fraction(tokens, at)?;
    let touches = |at: usize| tokens.get(at).is_some_and(|token| token.number().is_some());
    match touches(behind).then(|| fraction(tokens, behind)).flatten() {
        Some((part, end)) if part < 1.0 && whole.fract() == 0.0 => Some((whole + part, end)),
        _ => Some((whole, behind)),
    }
}

/// `3`, or `3/4`.
fn fraction(tokens: &[Token], at: usize) -> Found<f64> {
    let over = tokens.get(at)?.number()?;
    let parted = tokens.get(at + 1).is_some_and(|token| token.is_sign('/'));
    match tokens.get(at + 2).and_then(Token::number) {
        Some(under) if parted && 0.0 < under && over < under => Some((over / under, at + 3)),
        _ => Some((over, at + 1)),
    }
}

fn words(tokens: &[Token], at: usize) -> Found<f64> {
    let word = tokens.get(at)?.word()?;
    let article =
        |at: usize| tokens.get(at).and_then(Token::word).is_some_and(|word| matches!(word, "a" | "an"));
    let (number, behind) = match word {
        "half" => (0.5, at + 1),
        "quarter" => (0.25, at + 1),
        "a" | "an" => match tokens.get(at + 1)?.word()? {
            "half" => (0.5, at + 2),
            "quarter" => (0.25, at + 2),
            _ => (1.0, at + 1),
        },
        word => {
            let index = WORDS.iter().position(|known| *known == word)?;
            (f64::from(u8::try_from(index).ok()?), at + 1)
        }
    };
    let of = usize::from(number < 1.0 && tokens.get(behind).and_then(Token::word) == Some("of"));
    let behind = behind + of;
    let behind = behind + usize::from(0.0 < number && number < 1.0 && article(behind));
    let counts = phrases::unit(tokens, behind).is_some()
        || phrases::unit_behind_bound(tokens, behind)
        || tokens.get(behind).is_some_and(|token| token.is_sign('-') || token.word() == Some("to"));
    counts.then_some((number, behind))
}
