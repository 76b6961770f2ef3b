//! Old catalogue text taken apart into single claims, each in its own words. Start at [`taken_apart`].

use crate::reading::{Part, read};
use crate::tokens::{Is, tokens};
use crate::vocabulary::Vocabulary;
use crate::wish::{Kind, Sense, Want};
use record::variety::{Claim, ClaimSubject};
use std::ops::Range;

/// Takes a description apart into claims: `Large 12 oz red beefsteak, vine, 80 days, great for slicing` claims a
/// weight, a colour, a fruit class, a habit, days and a purpose, and something else: `Large`.
///
/// What is not read stays a claim of its own in its own words, so that nothing of the text is lost but the words that
/// carry no meaning.
#[must_use]
pub fn taken_apart(text: &str, vocabulary: &Vocabulary) -> Vec<Claim> {
    let mut claims = Vec::new();
    let mut open: Option<Range<usize>> = None;
    for part in read(text, vocabulary).parts {
        let about = about(&part);
        if about == ClaimSubject::Other {
            open = Some(joined(&mut claims, text, open, &part.at));
            continue;
        }
        close(&mut claims, text, open.take());
        claims.push(Claim { about, words: part.said });
    }
    close(&mut claims, text, open);
    claims
}

/// The subject that a claim of this piece has. What is asked away is told as it stands: "not for canning".
fn about(part: &Part) -> ClaimSubject {
    let Some(want) = part.wants.first().filter(|_| part.sense == Sense::Wanted) else {
        return ClaimSubject::Other;
    };
    match (want, want.kind()) {
        (Want::Size(_), _) => ClaimSubject::Other,
        (_, Kind::Habit) => ClaimSubject::Habit,
        (_, Kind::Class) => ClaimSubject::FruitClass,
        (_, Kind::Colour) => ClaimSubject::Colour,
        (_, Kind::Weight) => ClaimSubject::FruitWeight,
        (_, Kind::Days) => ClaimSubject::DaysToMaturity,
        (_, Kind::Use | Kind::Growing) => ClaimSubject::Purpose,
        _ => ClaimSubject::Other,
    }
}

/// Grows an unread stretch by a piece, or closes it and begins another where a mark parts the two or one of them was
/// read by itself.
fn joined(
    claims: &mut Vec<Claim>,
    text: &str,
    open: Option<Range<usize>>,
    piece: &Range<usize>,
) -> Range<usize> {
    match open {
        Some(open) if !is_parted(text.get(open.end..piece.start).unwrap_or_default()) => {
            open.start..piece.end
        }
        open => {
            close(claims, text, open);
            piece.clone()
        }
    }
}

/// Whether a mark stands in a stretch between two pieces.
fn is_parted(between: &str) -> bool {
    tokens(between).iter().any(|token| matches!(token.is, Is::Sign(',' | ';' | '.' | '\n' | '(' | ')')))
}

fn close(claims: &mut Vec<Claim>, text: &str, open: Option<Range<usize>>) {
    let words = open.and_then(|open| text.get(open)).unwrap_or_default().trim();
    if !words.is_empty() {
        claims.push(Claim { about: ClaimSubject::Other, words: words.to_owned() });
    }
}
