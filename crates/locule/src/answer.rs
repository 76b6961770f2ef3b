//! Answers: what a command found, told in words or as JSON from one and the same value.

use schemars::JsonSchema;
use serde::Serialize;
use std::io::{self, Write};

/// How a command ended, for the exit code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ending {
    /// All of it was done.
    Done,
    /// Some of what was given could not be used.
    BadInput,
}

/// What a command found.
pub(crate) trait Answer: Serialize + JsonSchema {
    /// The name and version of its JSON shape, such as `list/1`; the version rises when a reader would break.
    const SHAPE: &'static str;

    /// Tells it in words.
    ///
    /// # Errors
    /// What the terminal or pipe refuses.
    fn tell(&self, to: &mut dyn Write) -> io::Result<()>;

    /// How the command ended.
    fn ending(&self) -> Ending {
        Ending::Done
    }
}

/// The form in which answers are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Form {
    /// Words for people.
    Words,
    /// JSON for programs.
    Json,
}

/// The JSON of an answer: its shape beside it, so that a reader knows what it has.
#[derive(Serialize)]
struct Enveloped<'a, A> {
    shape: &'static str,
    answer: &'a A,
}

/// Text for a terminal: signs that would move its cursor, change its colours or turn the reading direction of
/// what follows are replaced, for names and cells come from files that anybody may have made.
pub(crate) fn harmless(text: &str) -> String {
    text.chars().map(|sign| if is_harmful(sign) { char::REPLACEMENT_CHARACTER } else { sign }).collect()
}

fn is_harmful(sign: char) -> bool {
    // Source: Unicode Standard Annex 9, explicit directional formatting characters.
    let turns = matches!(sign, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    turns || (sign.is_control() && !matches!(sign, '\n' | '\t'))
}

/// Writes an answer to standard output and tells how the command ended.
///
/// # Errors
/// What the terminal or pipe refuses.
pub(crate) fn give<A: Answer>(answer: &A, form: Form) -> io::Result<Ending> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    match form {
        Form::Words => {
            let mut told = Vec::new();
            answer.tell(&mut told)?;
            out.write_all(harmless(&String::from_utf8_lossy(&told)).as_bytes())?;
        }
        Form::Json => {
            serde_json::to_writer_pretty(&mut out, &Enveloped { shape: A::SHAPE, answer })?;
            writeln!(out)?;
        }
    }
    out.flush()?;
    Ok(answer.ending())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_drives_the_terminal() {
        assert_eq!(harmless("\u{1b}[31mRed\u{7}\t2\n"), "\u{fffd}[31mRed\u{fffd}\t2\n");
        assert_eq!(harmless("\u{202e}gnp.exe"), "\u{fffd}gnp.exe");
        assert_eq!(harmless("Rösli שלום"), "Rösli שלום", "letters of any script stay");
    }
}
