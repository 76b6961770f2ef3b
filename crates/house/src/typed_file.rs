//! Files that people type: plain TOML, each fault told by line and field.
//!
//! Start at [`Text::parsed`].

use intake::number::DecimalMark;
use intake::unit;
use jiff::civil::Date;
use record::length::Millimetres;
use record::mass::Grams;
use serde::de::DeserializeOwned;
use std::ops::Range;
use toml::Spanned;

/// A fault of the file, with its place and what to do about it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{file}, line {line}, {field}: {fault}")]
pub struct FileFault {
    /// The file's name.
    pub file: String,
    /// The line, counted from 1.
    pub line: usize,
    /// The field, as it stands on that line.
    pub field: String,
    /// What is wrong.
    pub fault: String,
    /// What to do about it.
    pub help: String,
}

/// A text and the name of its file, to find lines by.
pub(crate) struct Text<'a> {
    pub(crate) file: &'a str,
    pub(crate) text: &'a str,
}

impl Text<'_> {
    /// Reads it as TOML of a shape.
    pub(crate) fn parsed<File: DeserializeOwned>(&self, help: &str) -> Result<File, Box<FileFault>> {
        toml::from_str(self.text).map_err(|fault| {
            Box::new(self.fault(&fault.span().unwrap_or(0..0), fault.message().to_owned(), help))
        })
    }

    pub(crate) fn fault(&self, place: &Range<usize>, fault: String, help: &str) -> FileFault {
        let before = self.text.get(..place.start).unwrap_or_default();
        let start = before.rfind('\n').map_or(0, |end| end + 1);
        let line = self.text.get(start..).and_then(|rest| rest.lines().next()).unwrap_or_default();
        // Of several fields on one line, the nearest before the place.
        let within = self.text.get(start..place.start).unwrap_or_default();
        let nearest =
            within.rsplit_once('=').map_or(line.split('=').next().unwrap_or_default(), |(left, _)| left);
        let field = nearest.rsplit(['{', ',']).next().unwrap_or_default().trim();
        FileFault {
            file: self.file.to_owned(),
            line: self.line(place),
            field: if field.is_empty() { "the file".to_owned() } else { field.to_owned() },
            fault,
            help: help.to_owned(),
        }
    }

    /// The line of a place, counted from 1.
    pub(crate) fn line(&self, place: &Range<usize>) -> usize {
        self.text.get(..place.start).unwrap_or_default().matches('\n').count() + 1
    }

    pub(crate) fn length(&self, written: &Spanned<String>) -> Result<Millimetres, Box<FileFault>> {
        unit::length(written.get_ref(), None, Some(DecimalMark::Point)).map_err(|fault| {
            let remedy = "write a number and its unit, such as \"12 m\" or \"40 ft\"";
            Box::new(self.fault(&written.span(), fault.to_string(), remedy))
        })
    }

    pub(crate) fn mass(&self, written: &Spanned<String>) -> Result<Grams, Box<FileFault>> {
        unit::mass(written.get_ref(), None, Some(DecimalMark::Point)).map_err(|fault| {
            let remedy = "write a number and its unit, such as \"3 lb\" or \"1.5 kg\"";
            Box::new(self.fault(&written.span(), fault.to_string(), remedy))
        })
    }

    /// A month and day, written as `08-15`.
    pub(crate) fn month_and_day(&self, written: &Spanned<String>) -> Result<(i8, i8), Box<FileFault>> {
        let read = || {
            let (month, day) = written.get_ref().trim().split_once('-')?;
            let (month, day): (i8, i8) = (month.parse().ok()?, day.parse().ok()?);
            // A leap year, so that the 29th of February is a day.
            Date::new(2000, month, day).ok().map(|day| (day.month(), day.day()))
        };
        read().ok_or_else(|| {
            let fault = format!("{:?} is no month and day", written.get_ref());
            Box::new(self.fault(&written.span(), fault, "write month and day, such as \"08-15\""))
        })
    }
}
