//! Formula neutralisation: how text that a spreadsheet would run is written so that it stays text.
//!
//! # The rule
//! A cell is *risky* when, after any apostrophes at its start, the next character is `=`, `+`, `-`, `@`, a
//! tab or a carriage return. [`guarded`] puts one apostrophe before risky text; [`unguarded`] takes one
//! apostrophe away from text that starts with one and is risky. Everything else is left alone, so
//! `unguarded(guarded(text)) == text` for every text.

use std::borrow::Cow;

/// Characters at which a spreadsheet may start to read a formula.
/// Source: OWASP, "CSV Injection" (list of leading characters), from memory, unverified.
const FORMULA_STARTS: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// The mark that spreadsheets themselves use for "this is text".
const TEXT_MARK: char = '\'';

/// Writes text so that a spreadsheet keeps it as text.
#[must_use]
pub fn guarded(text: &str) -> Cow<'_, str> {
    if is_risky(text) { Cow::Owned(format!("{TEXT_MARK}{text}")) } else { Cow::Borrowed(text) }
}

/// Takes the guard off again: the exact opposite of [`guarded`].
#[must_use]
pub fn unguarded(text: &str) -> &str {
    text.strip_prefix(TEXT_MARK).filter(|rest| is_risky(rest)).unwrap_or(text)
}

/// Whether a spreadsheet might run it, now or after one apostrophe is taken away.
#[must_use]
pub fn is_risky(text: &str) -> bool {
    text.trim_start_matches(TEXT_MARK).starts_with(FORMULA_STARTS)
}
