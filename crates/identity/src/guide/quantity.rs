//! A quantity as a guide writes it: `1 oz`, `12.7 mm`, `5.5 %`, or a bare number where none is needed.
//!
//! Start at [`read`]. The everyday untidiness of growers' notes is not for this file: a guide is typed by
//! its owner once and is asked to be plain.

use record::length::Inches;
use record::mass::{OUNCES_PER_POUND, Ounces};

/// What a quantity is of, and so which units it may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// Mass: g, kg, oz or lb; told in grams.
    Mass,
    /// Length: mm, cm or in; told in millimetres.
    Length,
    /// A ratio or a count: no unit.
    Plain,
    /// Per cent: %.
    Percent,
}

/// Why a text is no quantity.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum QuantityFault {
    /// It does not begin with a number.
    #[error("{0:?} does not begin with a number")]
    NoNumber(String),
    /// It has no unit, or one of another dimension.
    #[error("{0:?} needs {1}")]
    WrongUnit(String, &'static str),
    /// Zero, negative or beyond all measure.
    #[error("{0:?} is not above zero and finite")]
    OutOfReach(String),
}

/// Reads a quantity into the dimension's own unit: grams, millimetres, a plain number or per cent.
///
/// # Errors
/// [`QuantityFault`] where number or unit do not fit.
pub fn read(words: &str, dimension: Dimension) -> Result<f64, QuantityFault> {
    let (number, unit) = split(words);
    let number: f64 = number.parse().map_err(|_| QuantityFault::NoNumber(words.to_owned()))?;
    let value = in_own_unit(number, unit, dimension)
        .ok_or_else(|| QuantityFault::WrongUnit(words.to_owned(), dimension.units()))?;
    (value.is_finite() && 0.0 < value).then_some(value).ok_or(QuantityFault::OutOfReach(words.to_owned()))
}

impl Dimension {
    /// The units it may have, in words.
    #[must_use]
    pub fn units(self) -> &'static str {
        match self {
            Self::Mass => "a unit of weight: g, kg, oz or lb",
            Self::Length => "a unit of length: mm, cm or in",
            Self::Plain => "a bare number without a unit",
            Self::Percent => "a % sign",
        }
    }
}

fn split(words: &str) -> (&str, &str) {
    let words = words.trim();
    let end = words.find(|letter: char| !(letter.is_ascii_digit() || letter == '.')).unwrap_or(words.len());
    let (number, unit) = words.split_at(end);
    (number, unit.trim())
}

fn in_own_unit(number: f64, unit: &str, dimension: Dimension) -> Option<f64> {
    match (dimension, unit) {
        (Dimension::Mass, "g") | (Dimension::Length, "mm") | (Dimension::Percent, "%") => Some(number),
        (Dimension::Plain, "") => Some(number),
        (Dimension::Mass, "kg") => Some(number * 1000.0),
        (Dimension::Mass, "oz") => grams(number),
        (Dimension::Mass, "lb") => grams(number * OUNCES_PER_POUND),
        (Dimension::Length, "cm") => Some(number * 10.0),
        (Dimension::Length, "in") => Some(Inches::new(number)?.to_millimetres()?.get()),
        _ => None,
    }
}

fn grams(ounces: f64) -> Option<f64> {
    Some(Ounces::new(ounces)?.to_grams()?.get())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn agrees(words: &str, dimension: Dimension, value: f64) {
        let read = read(words, dimension).unwrap();
        assert!((read - value).abs() < 1e-9 * value, "{words}: {read} is not {value}");
    }

    /// NIST SP 811 (2008), Appendix B.8: ounce, pound and inch.
    #[test]
    fn units_agree_with_sp_811() {
        agrees("1 oz", Dimension::Mass, 28.349_523_125);
        agrees("2 lb", Dimension::Mass, 907.184_74);
        agrees("0.5 in", Dimension::Length, 12.7);
        agrees("1.2kg", Dimension::Mass, 1200.0);
        agrees("2.5 cm", Dimension::Length, 25.0);
        agrees("5.5 %", Dimension::Percent, 5.5);
        agrees("6", Dimension::Plain, 6.0);
    }

    #[test]
    fn what_is_no_quantity_is_told() {
        let fault = |words, dimension| read(words, dimension).unwrap_err().to_string();
        assert_eq!(fault("an ounce", Dimension::Mass), "\"an ounce\" does not begin with a number");
        assert_eq!(fault("1", Dimension::Mass), "\"1\" needs a unit of weight: g, kg, oz or lb");
        assert_eq!(fault("1 oz", Dimension::Length), "\"1 oz\" needs a unit of length: mm, cm or in");
        assert_eq!(fault("0 g", Dimension::Mass), "\"0 g\" is not above zero and finite");
        assert_eq!(fault("-1 g", Dimension::Mass), "\"-1 g\" does not begin with a number");
    }
}
