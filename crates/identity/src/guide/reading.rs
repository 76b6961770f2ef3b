//! Reading a guide's text: TOML into plain raw structs, with faults that name line, key and remedy.
//!
//! Every guide has a private raw struct that derives `Deserialize` with `deny_unknown_fields` and wraps
//! what may be wrong in `toml::Spanned`; [`parse`] fills it, and [`Text::fault`] words what the checks
//! find. Nothing a guide's text holds can panic.

use serde::de::DeserializeOwned;

/// A fault in a guide, with its place and what to do about it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{file}, line {line}, {key}: {fault}")]
pub struct GuideFault {
    /// The guide's file name.
    pub file: String,
    /// The line, counted from 1.
    pub line: usize,
    /// The key at fault, such as `border.one-ounce.at`.
    pub key: String,
    /// The value at fault as it stands in the file; empty where it is the key that is wrong.
    pub value: String,
    /// What is wrong.
    pub fault: String,
    /// What to do about it.
    pub help: String,
}

/// A guide's text and its file name, to find lines by.
#[derive(Clone, Copy, Debug)]
pub struct Text<'a> {
    /// The file name, as faults tell it.
    pub file: &'a str,
    /// The whole text.
    pub text: &'a str,
}

/// The place of a value in a guide's text, in bytes.
pub type Place = std::ops::Range<usize>;

impl Text<'_> {
    /// The line of a place, counted from 1.
    #[must_use]
    pub fn line(&self, place: &Place) -> usize {
        let before = self.text.as_bytes().get(..place.start).unwrap_or(self.text.as_bytes());
        before.iter().filter(|byte| **byte == b'\n').count() + 1
    }

    /// The value at a place as it stands in the file, its first line only.
    #[must_use]
    pub fn value(&self, place: &Place) -> String {
        let whole = self.text.get(place.clone()).unwrap_or_default();
        whole.lines().next().unwrap_or_default().chars().take(LONGEST_TOLD).collect()
    }

    /// A fault at a place.
    #[must_use]
    pub fn fault(&self, key: &str, place: &Place, fault: &str, help: &str) -> GuideFault {
        GuideFault {
            file: self.file.to_owned(),
            line: self.line(place),
            key: key.to_owned(),
            value: self.value(place),
            fault: fault.to_owned(),
            help: help.to_owned(),
        }
    }
}

/// Most characters of a value that a fault repeats, so that a message stays one line.
const LONGEST_TOLD: usize = 60;

/// Parses TOML text into a guide's raw struct.
///
/// # Errors
/// [`GuideFault`] for text that is not TOML, an unknown or missing key, or a value of the wrong kind.
pub fn parse<Raw: DeserializeOwned>(text: &Text<'_>) -> Result<Raw, GuideFault> {
    toml::from_str(text.text).map_err(|error| {
        let place = error.span().unwrap_or(0..0);
        text.fault("the guide", &place, error.message(), "write it as the shipped guide does")
    })
}
