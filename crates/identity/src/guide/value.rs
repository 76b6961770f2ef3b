//! One number of a guide with its source, as the habit and colour guides write them:
//! `mean = { value = 4.0, source = "own working prior" }`.
//!
//! Start at [`Value`]; the raw form checks limits and words the fault.

use crate::guide::reading::{GuideFault, Text};
use crate::guide::source::Sourced;
use serde::Deserialize;
use std::ops::RangeInclusive;
use toml::Spanned;

/// A number and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// The number, in the unit that its key names.
    pub number: f64,
    /// Where it comes from.
    pub sourced: Sourced,
}

/// A number as the guide's text holds it, not yet checked.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(crate) struct RawValue {
    value: Spanned<f64>,
    source: Spanned<String>,
    #[serde(default)]
    contradicted_by: Vec<String>,
}

/// A share of a whole that is neither nothing nor all of it.
pub(crate) const SHARE: RangeInclusive<f64> = 0.000_001..=0.999_999;
/// A number that must be above nothing, such as a standard deviation.
pub(crate) const ABOVE_ZERO: RangeInclusive<f64> = 0.000_001..=1e6;

impl RawValue {
    /// The number, if it lies within limits and names a source.
    ///
    /// # Errors
    /// [`GuideFault`] at the value or at its empty source.
    pub(crate) fn within(
        &self,
        limits: RangeInclusive<f64>,
        key: &str,
        text: Text<'_>,
    ) -> Result<Value, GuideFault> {
        if !limits.contains(self.value.get_ref()) {
            let help = format!("write a number from {} to {}", limits.start(), limits.end());
            return Err(text.fault(key, &self.value.span(), "the number is out of range", &help));
        }
        if self.source.get_ref().trim().is_empty() {
            let help = "name the source, or write \"common practice, no source\"";
            return Err(text.fault(key, &self.source.span(), "the value has no source", help));
        }
        Ok(Value { number: *self.value.get_ref(), sourced: self.sourced() })
    }

    /// A share between nothing and all, as [`RawValue::within`].
    ///
    /// # Errors
    /// As [`RawValue::within`].
    pub(crate) fn share(&self, key: &str, text: Text<'_>) -> Result<Value, GuideFault> {
        self.within(SHARE, key, text)
    }

    /// A number above nothing, as [`RawValue::within`].
    ///
    /// # Errors
    /// As [`RawValue::within`].
    pub(crate) fn above_zero(&self, key: &str, text: Text<'_>) -> Result<Value, GuideFault> {
        self.within(ABOVE_ZERO, key, text)
    }

    /// The place of the number, for faults that several values share.
    pub(crate) fn place(&self) -> std::ops::Range<usize> {
        self.value.span()
    }

    fn sourced(&self) -> Sourced {
        Sourced { source: self.source.get_ref().clone(), contradicted_by: self.contradicted_by.clone() }
    }
}

/// Checks that shares make a whole, to within rounding of the last written digit.
///
/// # Errors
/// [`GuideFault`] at the first share.
pub(crate) fn make_a_whole(shares: &[&RawValue], key: &str, text: Text<'_>) -> Result<(), GuideFault> {
    let sum: f64 = shares.iter().map(|share| share.value.get_ref()).sum();
    match shares.first() {
        Some(first) if (sum - 1.0).abs() > WHOLE_TOLERANCE => {
            let fault = format!("the shares add up to {sum:.3}, not to 1");
            Err(text.fault(key, &first.place(), &fault, "change them so that they add up to 1"))
        }
        _ => Ok(()),
    }
}

/// Shares written to three digits may miss the whole by a few units of the last.
const WHOLE_TOLERANCE: f64 = 0.002;
