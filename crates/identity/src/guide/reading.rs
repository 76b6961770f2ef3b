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
    pub file: Box<str>,
    /// The line, counted from 1.
    pub line: usize,
    /// The key at fault, such as `border.one-ounce.at`.
    pub key: Box<str>,
    /// The value at fault as it stands in the file; empty where it is the key that is wrong.
    pub value: Box<str>,
    /// What is wrong.
    pub fault: Box<str>,
    /// What to do about it.
    pub help: Box<str>,
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

    /// The key on the line of a place: what stands before its equals sign, or the whole line.
    #[must_use]
    pub fn key(&self, place: &Place) -> String {
        let before = self.text.get(..place.start).unwrap_or_default();
        let start = before.rfind('\n').map_or(0, |end| end + 1);
        let line = self.text.get(start..).and_then(|rest| rest.lines().next()).unwrap_or_default();
        let key = line.split('=').next().unwrap_or_default().trim();
        key.chars().take(LONGEST_TOLD).collect()
    }

    /// A fault at a place.
    #[must_use]
    pub fn fault(&self, key: &str, place: &Place, fault: &str, help: &str) -> GuideFault {
        GuideFault {
            file: self.file.into(),
            line: self.line(place),
            key: key.into(),
            value: self.value(place).into(),
            fault: fault.into(),
            help: help.into(),
        }
    }
}

/// Most characters of a value that a fault repeats, so that a message stays one line.
const LONGEST_TOLD: usize = 60;

/// Longest guide read, in bytes; a guide is a few pages. Common practice, no source.
const LONGEST_GUIDE: usize = 1 << 20;

/// Parses TOML text into a guide's raw struct.
///
/// # Errors
/// [`GuideFault`] for text that is not TOML, an unknown or missing key, or a value of the wrong kind.
pub fn parse<Raw: DeserializeOwned>(text: &Text<'_>) -> Result<Raw, GuideFault> {
    if LONGEST_GUIDE < text.text.len() {
        let fault = format!("{} bytes are too long for a guide", text.text.len());
        return Err(text.fault("the guide", &(0..0), &fault, "keep it under 1 MB"));
    }
    toml::from_str(text.text).map_err(|error| {
        let place = error.span().unwrap_or(0..0);
        let fault = error.message().replace('`', "\"");
        text.fault(&text.key(&place), &place, &fault, remedy(&fault))
    })
}

/// What to do about a fault that the TOML reader found.
fn remedy(fault: &str) -> &'static str {
    if fault.starts_with("unknown field") {
        "mend the spelling, or take the line out"
    } else if fault.starts_with("missing field") {
        "add the missing line, as the shipped guide has it"
    } else if fault.starts_with("duplicate key") {
        "keep one of the two"
    } else if fault.starts_with("invalid type") {
        "put words in quotation marks and leave numbers bare"
    } else {
        "write key = value, words in quotation marks, lists in [ ]"
    }
}
