//! Old catalogue text taken apart into single claims, each in its own words. Start at [`taken_apart`].

use crate::reading::{Part, read};
use crate::tokens::{Is, Token, tokens};
use crate::vocabulary::Vocabulary;
use crate::wish::{Kind, Sense, Want};
use record::variety::{Claim, ClaimSubject};
use std::ops::Range;

/// Takes a description apart into claims: `Large 12 oz red beefsteak, vine, 80 days, great for slicing` claims a
/// weight, a colour, a fruit class, a habit, days and a purpose, and something else: `Large`.
///
/// What is not read stays a claim of its own in its own words. A sentence that tells how to grow it is kept whole:
/// "Pot on when the first true leaves show" claims nothing about pots.
#[must_use]
pub fn taken_apart(text: &str, vocabulary: &Vocabulary) -> Vec<Claim> {
    sentences(text).into_iter().flat_map(|sentence| one_sentence(sentence, vocabulary)).collect()
}

fn one_sentence(sentence: &str, vocabulary: &Vocabulary) -> Vec<Claim> {
    if is_advice(sentence) {
        return vec![Claim { about: ClaimSubject::Other, words: tidy(sentence) }];
    }
    let mut claims = Vec::new();
    let mut open: Option<Range<usize>> = None;
    let mut start = 0;
    for part in read(sentence, vocabulary).parts {
        let about = about(&part);
        if about == ClaimSubject::Other {
            // What is asked away is told with its "not".
            let from = match part.sense {
                Sense::Barred => start + behind_marks(sentence.get(start..part.at.start).unwrap_or_default()),
                Sense::Wanted => part.at.start,
            };
            open = Some(joined(&mut claims, sentence, open, from..part.at.end));
        } else {
            close(&mut claims, sentence, open.take());
            claims.push(Claim { about, words: tidy(&part.said) });
        }
        start = part.at.end;
    }
    close(&mut claims, sentence, open);
    claims
}

/// The sentences of a text, without the marks between them.
fn sentences(text: &str) -> Vec<&str> {
    let mut sentences = Vec::new();
    let mut from = 0;
    for token in tokens(text).iter().filter(|token| matches!(token.is, Is::Sign('.' | ';' | '\n'))) {
        // "Det." and "approx." end no sentence.
        let sentence = text.get(from..token.at.start).unwrap_or_default().trim();
        if token.is_sign('.') && is_shortened(sentence) {
            continue;
        }
        sentences.push(sentence);
        from = token.at.end;
    }
    sentences.push(text.get(from..).unwrap_or_default().trim());
    sentences.retain(|sentence| !sentence.is_empty());
    sentences
}

/// Shortened words that a full stop follows within a sentence. Common practice, no source.
const SHORTENED: [&str; 9] = ["det", "indet", "semi-det", "approx", "ca", "oz", "lb", "lbs", "in"];

fn is_shortened(before: &str) -> bool {
    let last = before.rsplit(char::is_whitespace).next().unwrap_or_default().to_lowercase();
    SHORTENED.contains(&last.as_str())
}

/// Words that begin advice on growing. Common practice, no source.
const CHORES: [&str; 16] = [
    "sow",
    "harden",
    "plant",
    "transplant",
    "space",
    "stake",
    "cage",
    "mulch",
    "water",
    "feed",
    "thin",
    "prune",
    "pinch",
    "pot",
    "set",
    "start",
];

/// Whether a sentence begins as advice on growing does, and so claims nothing.
#[must_use]
pub fn is_advice(sentence: &str) -> bool {
    let tokens = tokens(sentence);
    let first = tokens.iter().find_map(Token::word);
    first.is_some_and(|first| CHORES.contains(&first))
}

/// The subject that a claim of this piece has. What is asked away is told as it stands: "not for canning".
fn about(part: &Part) -> ClaimSubject {
    let Some(want) = part.wants.first().filter(|_| part.sense == Sense::Wanted) else {
        return ClaimSubject::Other;
    };
    match (want, want.kind()) {
        (Want::Size(_), _) => ClaimSubject::Other,
        (Want::Days(days), _) if !days.ends().1.is_none_or(|most| LEAST_DAYS <= most) => ClaimSubject::Other,
        (_, Kind::Habit) => ClaimSubject::Habit,
        (_, Kind::Class) => ClaimSubject::FruitClass,
        (_, Kind::Colour) => ClaimSubject::Colour,
        (_, Kind::Weight) => ClaimSubject::FruitWeight,
        (_, Kind::Days) => ClaimSubject::DaysToMaturity,
        (_, Kind::Use | Kind::Growing) => ClaimSubject::Purpose,
        _ => ClaimSubject::Other,
    }
}

/// Fewer days than this are about something else, such as hardening off: no tomato ripens so soon after it is
/// transplanted. Common practice, no source.
const LEAST_DAYS: f64 = 35.0;

/// Grows an unread stretch by a piece, or closes it and begins another where a mark parts the two.
fn joined(
    claims: &mut Vec<Claim>,
    text: &str,
    open: Option<Range<usize>>,
    piece: Range<usize>,
) -> Range<usize> {
    match open {
        Some(open) if !is_parted(text.get(open.end..piece.start).unwrap_or_default()) => {
            open.start..piece.end
        }
        open => {
            close(claims, text, open);
            piece
        }
    }
}

/// Whether a mark stands in a stretch between two pieces.
fn is_parted(between: &str) -> bool {
    tokens(between).iter().any(|token| matches!(token.is, Is::Sign(',' | '(' | ')')))
}

/// Where the words behind the last mark of a stretch begin.
fn behind_marks(between: &str) -> usize {
    let tokens = tokens(between);
    let last = tokens.iter().rfind(|token| matches!(token.is, Is::Sign(',' | '(' | ')')));
    last.map_or(0, |mark| mark.at.end)
}

fn close(claims: &mut Vec<Claim>, text: &str, open: Option<Range<usize>>) {
    let words = tidy(open.and_then(|open| text.get(open)).unwrap_or_default());
    if !words.is_empty() {
        claims.push(Claim { about: ClaimSubject::Other, words });
    }
}

/// One line, without the marks at either end.
fn tidy(words: &str) -> String {
    let words: Vec<&str> = words.split_whitespace().collect();
    words.join(" ").trim_matches([',', ' ']).to_owned()
}
