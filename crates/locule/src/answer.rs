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

/// Writes an answer to standard output and tells how the command ended.
///
/// # Errors
/// What the terminal or pipe refuses.
pub(crate) fn give<A: Answer>(answer: &A, form: Form) -> io::Result<Ending> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    match form {
        Form::Words => answer.tell(&mut out)?,
        Form::Json => {
            serde_json::to_writer_pretty(&mut out, &Enveloped { shape: A::SHAPE, answer })?;
            writeln!(out)?;
        }
    }
    out.flush()?;
    Ok(answer.ending())
}
